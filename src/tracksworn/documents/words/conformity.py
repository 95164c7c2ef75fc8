"""Verdicts against terms, in words: what decided, at whose risk, and why a part has no verdict."""

from collections.abc import Iterator, Mapping
from enum import Enum, auto
from typing import Final

from tracksworn.assessment.decisions import Conformity, Result, Why
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.words.figures import NO_BREAK, Figures
from tracksworn.documents.words.language import N_, NP_
from tracksworn.inspection.terms import Rule, Terms, Undecided

RESULTS: Final[Mapping[Result, str]] = {
    Result.PASSES: N_("passes"),
    Result.FAILS: N_("fails"),
    Result.UNDECIDED: N_("undecided"),
    Result.OUTSIDE: N_("outside the terms"),
}

COLUMN: Final[Mapping[Result, str]] = {**RESULTS, Result.OUTSIDE: N_("outside")}
"""The same in a column."""

SHORT: Final[Mapping[Why, str]] = {
    Why.DOUBT: N_("within its uncertainty"),
    Why.BY_EYE: N_("by eye"),
    Why.NOT_SEEN: N_("not seen"),
    Why.NO_PERCENT: N_("no percent"),
    Why.CHART: N_("no chart of its own"),
    Why.HOURS: N_("hours not proven"),
    Why.FITTING: N_("fitting not proven"),
    Why.BEYOND: N_("beyond their hours"),
    Why.GAUGE_DUE: N_("gauge overdue"),
}
"""Why a part has no verdict, in a column."""

REASONS: Final[Mapping[Why, str]] = {
    Why.DOUBT: N_("{parts}: what is allowed lies within the uncertainty."),
    Why.BY_EYE: N_("{parts}: judged by eye; would fail only with its whole range past what is allowed."),
    Why.NOT_SEEN: N_("{parts}: not seen."),
    Why.NO_PERCENT: N_("{parts}: measured, but the chart has no sizes that make a percent of it."),
    Why.CHART: N_("{parts}: there is no wear chart made for this machine, so that no percent may pass or fail."),
    Why.HOURS: N_("{parts}: the machine's hours are not evidenced, so that nothing says what is allowed."),
    Why.FITTING: N_("{parts}: hours at fitting not evidenced, so that nothing says what is allowed."),
    Why.BEYOND: N_("{parts}: the hours lie outside those that the terms speak of."),
    Why.GAUGE_DUE: N_("{parts}: the gauge was past the day on which it had to be calibrated again."),
}
"""The same in a sentence."""

LEADS_TO: Final[Mapping[Undecided | None, str]] = {
    Undecided.MEASURE_AGAIN: N_("By these terms undecided leads to measuring again."),
    Undecided.COVER_STANDS: N_("By these terms the cover stands where it is undecided."),
    Undecided.ADMINISTRATOR_DECIDES: N_("By these terms the administrator of the cover decides what is undecided."),
    None: N_("What undecided leads to, these terms do not say."),
}

GUARDED: Final = N_(
    "Guarded. A part passes when its percent worn plus its uncertainty is at most what is allowed: at most {risk} risk "
    "that it is truly above, which protects who gives the cover. It fails when it is above by more than its "
    "uncertainty: at most {risk} risk over the {n} parts tested, {each} each, which protects who holds the cover. "
    "Between, it is undecided."
)
NOTHING_TESTED: Final = N_(
    "Guarded. A part passes when its percent worn plus its uncertainty is at most what is allowed, which protects who "
    "gives the cover, and fails when it is above by more than its uncertainty, which protects who holds the cover; the "
    "risk is {risk} each way. Between, it is undecided. Here no part could be tested."
)
SIMPLE: Final = N_(
    "Simple. A part passes when its percent worn is at most what is allowed, and fails above; its uncertainty is not "
    "counted. Close to what is allowed the risk of a wrong verdict comes up to {risk}, either way: the rule protects "
    "neither side. The probability beside each part says how near that is."
)
WHOLE: Final = N_(
    "The whole fails if any part fails, passes only if all pass, is outside the terms if all are, and is else "
    "undecided. Not seen is undecided; judged by eye never passes."
)
HOURS: Final = N_("Hours count from fitting or turn, taken to be within {hours}.")
EXACT_HOURS: Final = N_("Hours count from fitting or turn, taken as exact.")
SOURCES: Final = "JCGM 106:2012; ILAC-G8:09/2019."

COUNTS: Final[Mapping[Result, tuple[str, str]]] = {
    Result.PASSES: NP_("{n} passes", "{n} pass"),
    Result.FAILS: NP_("{n} fails", "{n} fail"),
    Result.UNDECIDED: NP_("{n} is undecided", "{n} are undecided"),
    Result.OUTSIDE: NP_("{n} is outside the terms", "{n} are outside the terms"),
}
OF_THE_PARTS: Final = NP_(
    "Of the {n} part that the terms speak of, {counts}.", "Of the {n} parts that the terms speak of, {counts}."
)
ALL_PASS: Final = N_("Every part was measured and is within what the terms allow at its age, by their decision rule.")
CLOSEST: Final = N_(
    "The closest: {part}, found {found}, allowed {allowed}; the probability that it is truly within is {probability}, "
    "and no lower for any other."
)
FAIL: Final = N_("{parts} are above what the terms allow by more than their uncertainty.")
FAIL_SIMPLY: Final = N_("{parts} are above what the terms allow.")
NONE_FAILS: Final = N_("None fails, but not every one could be passed. {leads}")
NONE_PASSES: Final = N_("None fails and none could be passed. {leads}")
NONE_TESTED: Final = N_("None fails and none could be passed: no part could be tested. {leads}")
ALL_OUTSIDE: Final = N_("The terms give no verdict on any part.")

HATCHED: Final = N_("Hatched: worn.")
STROKE: Final = N_("Heavy stroke and its figure: allowed at the hours since fitting.")
WHISKER_GUARDED: Final = N_(
    "Whisker: the uncertainty each way; a stroke beyond its right end passes, before its left end fails, within it is "
    "undecided."
)
WHISKER_SIMPLE: Final = N_("Whisker: the 95\u00a0% interval, which this rule does not count.")
BY_EYE: Final = N_("By eye: the dashed range alone.")
PROBABLE: Final = N_("Percentage under a verdict: the probability of being truly within.")
"""How bars and verdicts are read, each where it occurs."""


class Footing(Enum):
    """What a part stands on when it is counted among those that the terms speak of."""

    TESTED = auto()
    BY_EYE = auto()
    NOT_SEEN = auto()
    OTHER = auto()
    OUTSIDE = auto()


TESTED: Final[Mapping[Footing, tuple[str, str]]] = {
    Footing.TESTED: NP_("{n} was measured and tested", "{n} were measured and tested"),
    Footing.BY_EYE: NP_("{n} judged by eye", "{n} judged by eye"),
    Footing.NOT_SEEN: NP_("{n} not seen", "{n} not seen"),
    Footing.OTHER: NP_("{n} without a figure to test", "{n} without a figure to test"),
    Footing.OUTSIDE: NP_("{n} outside", "{n} outside"),
}
"""How the parts that the terms speak of come to their number."""
NEXT_WOULD_FAIL: Final = NP_(
    "Of rollers only the worst of each side is tested; with that replaced {parts} would fail too.",
    "Of rollers only the worst of each side is tested; with those replaced {parts} would fail too.",
)
UNTESTED: Final = N_("Not seen and so untested: {parts}.")

FIRST_WORDS: Final[Mapping[Result, str]] = {
    Result.PASSES: N_("By the terms “{title}” it would pass."),
    Result.FAILS: N_("By the terms “{title}” it would fail: {parts}."),
    Result.UNDECIDED: N_("By the terms “{title}” it would be undecided."),
    Result.OUTSIDE: N_("By the terms “{title}” there is no verdict: it lies outside these terms."),
}
"""The verdict in the words that stand first: whose terms they are, as nobody is bound by them yet."""
FAILS_IN_MANY: Final = NP_(
    "By the terms “{title}” it would fail in {n} part.", "By the terms “{title}” it would fail in {n} parts."
)
NAMED: Final = 3
"""How many parts that fail the first words name before they only count them."""

IS_NOT: Final = (
    N_(
        "Conformity with these terms alone, on the day and at the hours stated: no certificate of safety, no promise "
        "of hours."
    ),
    N_(
        "It says nothing of what was not seen, of seals, of cracks within the metal, or of parts renewed since. A part "
        "that passes may still have to be stopped for: see the findings and the cautions."
    ),
)


def first_words(conformity: Conformity | None, figures: Figures) -> Iterator[str]:
    """The verdict in one sentence; nothing without terms."""
    if conformity is None:
        return
    failing = [one for one in conformity.components if one.result is Result.FAILS]
    if len(failing) > NAMED:
        yield figures.language.count(*FAILS_IN_MANY, len(failing), title=conformity.title)
    else:
        parts = figures.parts(Subject(one.component, one.side, one.position) for one in failing) if failing else ""
        yield figures.language.say(FIRST_WORDS[conformity.result], parts=parts, title=conformity.title)


def rule_words(conformity: Conformity, terms: Terms, figures: Figures) -> Iterator[str]:
    """The decision rule with its risk and whom it protects, what undecided leads to, how hours count, the sources."""
    say = figures.language.say
    risk = (1.0 - conformity.confidence) / 2
    if conformity.rule is Rule.SIMPLE:
        yield say(SIMPLE, risk=f"50{NO_BREAK}%")
    elif conformity.tested == 0:
        yield say(NOTHING_TESTED, risk=figures.risk(risk))
    else:
        each = figures.risk(risk / conformity.tested)
        yield say(GUARDED, risk=figures.risk(risk), n=str(conformity.tested), each=each)
    yield say(LEADS_TO[terms.undecided])
    yield say(WHOLE)
    yield say(HOURS, hours=figures.hours(terms.hours_within)) if terms.hours_within else say(EXACT_HOURS)
    yield SOURCES
