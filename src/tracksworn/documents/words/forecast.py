"""What is said of hours left and planned work in a sentence: when, which part, what is done to it."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from tracksworn.assessment.decisions import ForecastRow, PlannedWork
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.language import N_
from tracksworn.inspection.prices import Work
from tracksworn.inspection.vocabulary import Component, Side

NONE_LEFT: Final = 0.5
"""Hours under which an interval prints as none."""

DONE: Final[Mapping[Work, str]] = {
    Work.REPLACE: N_("{parts} replaced"),
    Work.TURN: N_("{parts} turned"),
    Work.REBUILD: N_("{parts} rebuilt"),
    Work.RE_SHELL: N_("{parts} re-shelled"),
    Work.RE_GROUSER: N_("{parts} re-grousered"),
}
"""What planned work comes to; the ways are in the order in which they are told."""

ONE_CHAIN: Final = {Side.LEFT: N_("left chain"), Side.RIGHT: N_("right chain")}
CHAIN_WITH_BUSHINGS: Final = {
    Side.LEFT: N_("left chain with bushings"),
    Side.RIGHT: N_("right chain with bushings"),
}


def is_past(row: ForecastRow) -> bool:
    """Whether no hours are left, nor possibly left."""
    return row.hours_left <= 0 and row.hours_high is not None and row.hours_high < NONE_LEFT


def work_words(work: Sequence[PlannedWork], figures: Figures) -> str:
    """All work of a visit, sides and components joined: `both chains with bushings and left sprocket replaced`."""
    said = []
    for way, pattern in DONE.items():
        pieces = [one for one in work if one.way is way]
        if pieces:
            names = [*_chains(pieces, figures), *_others(pieces, figures)] if way is Work.REPLACE else []
            parts = labels.listed(names, figures.language) if names else figures.parts(map(_subject, pieces))
            said.append(figures.language.say(pattern, parts=parts))
    return "; ".join(said)


def _chains(pieces: Sequence[PlannedWork], figures: Figures) -> Iterator[str]:
    """Links that are replaced are a chain; it comes with its bushings where these are replaced too."""
    say = figures.language.say
    links, bushings = (_sides(pieces, component) for component in (Component.LINK, Component.BUSHING))
    together = bool(links) and links == bushings
    if len(links) == len(Side):
        yield say(N_("both chains with bushings")) if together else say(N_("both chains"))
    else:
        yield from (say((CHAIN_WITH_BUSHINGS if together else ONE_CHAIN)[side]) for side in links)
    if bushings and not together:
        of = [one for one in pieces if one.component is Component.BUSHING]
        yield figures.parts(map(_subject, of))


def _others(pieces: Sequence[PlannedWork], figures: Figures) -> Iterator[str]:
    others = [one for one in pieces if one.component not in (Component.LINK, Component.BUSHING)]
    for component in dict.fromkeys(one.component for one in others):
        yield figures.parts(_subject(one) for one in others if one.component is component)


def _sides(pieces: Sequence[PlannedWork], component: Component) -> list[Side]:
    there = {one.side for one in pieces if one.component is component}
    return [side for side in Side if side in there]


def _subject(work: PlannedWork) -> Subject:
    return Subject(work.component, work.side, work.position)
