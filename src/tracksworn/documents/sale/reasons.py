"""Why lots need another look, in words: in few beside a lot, in full with its threshold where all are counted."""

from collections.abc import Mapping
from typing import Final

from tracksworn.assessment.assumed import AnotherLook
from tracksworn.assessment.fleet import WHEN, Look
from tracksworn.assessment.model import Stage
from tracksworn.assessment.stages import BEGINS
from tracksworn.documents.words.figures import NO_BREAK, Figures
from tracksworn.documents.words.language import N_

SHORT: Final[Mapping[Look, str]] = {
    Look.FAULTS: N_("not read"),
    Look.UNMADE: N_("not made"),
    Look.NO_FIGURE: N_("no figure"),
    Look.ACT: N_("to act on"),
    Look.PART_PAST_LIMIT: N_("part past its limit"),
    Look.NEAR_LIMIT: N_("whole near its limit"),
    Look.WORST_FAR_ABOVE: N_("worst part far above the whole"),
    Look.PART_NEAR_LIMIT: N_("worst part near its limit"),
    Look.WIDE: N_("wide interval"),
    Look.UNSEEN: N_("much not seen"),
    Look.NO_CHART: N_("no chart"),
    Look.STANDS_IN: N_("chart of another machine"),
    Look.CONTRADICTION: N_("earlier readings contradict"),
}
"""Beside a lot."""

LONG: Final[Mapping[Look, str]] = {
    Look.FAULTS: N_("its files have faults and could not be read"),
    Look.UNMADE: N_("its documents could not be made this time"),
    Look.NO_FIGURE: N_("no part could be given a figure of wear"),
    Look.ACT: N_("a finding asks for action"),
    Look.PART_PAST_LIMIT: N_("a part is past its limit"),
    Look.NEAR_LIMIT: N_("the whole is {near} worn or more"),
    Look.WORST_FAR_ABOVE: N_(
        "its worst part is {near} worn or more, and {above} points or more above the whole, which hides it"
    ),
    Look.PART_NEAR_LIMIT: N_("its worst part is {near} worn or more, and not past its limit"),
    Look.WIDE: N_("the interval of the whole is {wide} points long or longer, or there is only a bound"),
    Look.UNSEEN: N_("{unseen} of the cost or more was not seen"),
    Look.NO_CHART: N_("there is no wear chart: all was judged by eye, or has no percent"),
    Look.STANDS_IN: N_("the wear chart was made for another machine"),
    Look.CONTRADICTION: N_("a reading contradicts an earlier inspection"),
}
"""Where all are counted, with the threshold."""


def code(look: Look) -> str:
    """A reason as one word, for a filter: `much-not-seen`."""
    return look.replace(" ", "-")


def short(look: Look, figures: Figures) -> str:
    """A reason in few words: `much not seen`."""
    return figures.language.say(SHORT[look])


def long(look: Look, figures: Figures, when: AnotherLook = WHEN) -> str:
    """A reason with its threshold: `25 % of the cost or more was not seen`."""
    return figures.language.say(
        LONG[look],
        near=f"{figures.number(BEGINS[Stage.NEAR_LIMIT])}{NO_BREAK}%",
        above=figures.number(when.above),
        wide=figures.number(when.wide),
        unseen=figures.share(when.unseen),
    )
