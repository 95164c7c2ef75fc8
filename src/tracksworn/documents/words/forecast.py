"""What is said of hours left and planned work in a sentence: when, which part, what is done to it."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from tracksworn.assessment.decisions import ForecastRow, Plan, PlannedWork, Visit
from tracksworn.assessment.forecast.dates import day_after
from tracksworn.assessment.model import Assessment
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.language import N_, NP_
from tracksworn.documents.words.rounding import upper_end
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.prices import Work
from tracksworn.inspection.vocabulary import CHAINS, Component, Side

NONE_LEFT: Final = 0.5
"""Hours under which an interval prints as none."""
NOW: Final = 0.5
"""Hours from the inspection within which a visit is due now."""

FIRST: Final = (N_("The {part} reaches its limit first, {when}."), N_("The {part} reach their limit first, {when}."))
NEXT: Final = (
    N_("Next to reach its limit is the {part}, {when}."),
    N_("Next to reach their limit are the {part}, {when}."),
)
IT: Final = (N_("It reaches its limit first, {when}."), N_("They reach their limit first, {when}."))
"""Of one part, and of a chain."""
NONE_BEFORE: Final = {
    False: N_("No limit before {hours} ({part})."),
    True: N_("No other limit before {hours} ({part})."),
}
"""Where another part may well be first; the latter where others are past theirs."""

TO_DO: Final[Mapping[Work, str]] = {
    Work.REPLACE: N_("Replace {parts}."),
    Work.TURN: N_("Turn {parts}."),
    Work.REBUILD: N_("Rebuild {parts}."),
    Work.RE_SHELL: N_("Re-shell {parts}."),
    Work.RE_GROUSER: N_("Re-grouser {parts}."),
}
"""What is planned, in the order in which it is told."""

NO_PERMISSION: Final = N_("Hours left are no permission to run a part past its limit.")
"""Wherever hours stand."""
COSTS_OF_ONE: Final = N_("Shop visit: {costs}; an estimate without tax.")
COSTS_OF_MANY: Final = N_("Shop visits: {costs}; estimates without tax.")
LATER_VISITS: Final = NP_("{n} visit more later", "{n} visits more later")
VISITS: Final = 4
"""How many visits a sentence names before it only counts them."""

CHAIN: Final = frozenset({Component.LINK, Component.BUSHING})
CHAIN_WITH_BUSHINGS: Final = {
    Side.LEFT: N_("left chain with bushings"),
    Side.RIGHT: N_("right chain with bushings"),
}


def is_past(row: ForecastRow) -> bool:
    """Whether no hours are left, nor possibly left."""
    return row.hours_left <= 0 and row.hours_high is not None and row.hours_high < NONE_LEFT


def first_limit(forecast: Sequence[ForecastRow]) -> ForecastRow | None:
    """What may reach its limit first: the one whose hours begin soonest; None without a forecast."""
    return min(forecast, key=lambda row: (row.hours_low, row.hours_left), default=None)


def may_be_beaten(first: ForecastRow, forecast: Sequence[ForecastRow]) -> bool:
    """Whether the part whose hours begin soonest is not the soonest by its best value too."""
    return any(0 < row.hours_left < first.hours_left for row in forecast)


def next_limit(assessment: Assessment) -> ForecastRow | None:
    """What reaches its limit next, of all that is not past it; None where nothing is forecast to."""
    return first_limit([one for one in assessment.forecast or () if one.hours_left > 0])


def told_end(row: ForecastRow, forecast: Sequence[ForecastRow], per_week: float | None) -> float | None:
    """The hours by which the first limit is reached, as far as they may be told; None where another may be sooner."""
    return None if may_be_beaten(row, forecast) else upper_end(row.hours_low, row.hours_high, per_week)


def reaches_limit(
    row: ForecastRow,
    figures: Figures,
    *,
    named: bool,
    more: bool,
    beaten: bool = False,
    by_word: bool = False,
    per_week: float | None = None,
) -> str:
    """When that part reaches its limit; `named` where the sentence before spoke of it, `more` where others are past.

    Where it may be `beaten` by another only the hours before which none reaches its limit. `by_word`: its hours rest on
    what the owner told.
    """
    part = figures.part(Subject(row.component, row.side, row.position))
    if beaten:
        low = figures.language.say(N_("{hours} hours"), hours=figures.hours_from(row.hours_low))
        if row.date_low is not None:
            low = figures.language.say(N_("{hours}, {months}"), hours=low, months=figures.month(row.date_low))
        return figures.language.say(NONE_BEFORE[more], hours=_worded(low, figures, by_word), part=part)
    patterns = IT if named else NEXT if more else FIRST
    when = _worded(_when(row, figures, per_week), figures, by_word)
    return figures.language.say(patterns[row.component in CHAINS], part=part, when=when)


def _worded(when: str, figures: Figures, by_word: bool) -> str:
    return figures.language.say(N_("{hours}, by the owner's word"), hours=when) if by_word else when


def visits_sentence(plan: Plan | None, figures: Figures, inspection: Inspection | None = None) -> Iterator[str]:
    """What each visit costs, and when, in months where the inspection knows weekly hours; nothing without a visit."""
    if plan is not None and plan.visits:
        costs = [visit_cost(visit, plan.currency, figures, inspection) for visit in plan.visits[:VISITS]]
        more = len(plan.visits) - len(costs)
        if more:
            costs.append(figures.language.count(*LATER_VISITS, more))
        one_many = COSTS_OF_ONE if len(plan.visits) == 1 else COSTS_OF_MANY
        yield figures.language.say(one_many, costs=labels.clauses(costs, figures.language))


def visit_cost(visit: Visit, currency: str, figures: Figures, inspection: Inspection | None) -> str:
    """`EUR 2 680 now`, `about EUR 19 960 in Oct 2031`; without an inspection in hours."""
    when = visit_due(visit, figures) if inspection is None else visit_month(visit, figures, inspection)
    if visit.after < NOW:
        return figures.language.say(N_("{money} {when}"), money=figures.money(visit.cost, currency), when=when)
    money = figures.money(visit.cost, currency)
    return figures.language.say(N_("about {money} {when}"), money=money, when=when)


def _when(row: ForecastRow, figures: Figures, per_week: float | None) -> str:
    """`in 270 to 400 hours, June to July 2031`."""
    high = upper_end(row.hours_low, row.hours_high, per_week)
    said = figures.language.say(N_("in {hours} hours"), hours=figures.hours_left(row.hours_low, high))
    if row.date_low is None:
        return said
    months = figures.months(row.date_low, None if high is None else row.date_high)
    return figures.language.say(N_("{hours}, {months}"), hours=said, months=months)


def visit_month(visit: Visit, figures: Figures, inspection: Inspection) -> str:
    """`now`, `in Oct 2031`; without weekly hours `in 840 h`."""
    day = day_after(inspection.inspected, visit.after, inspection.machine.hours_per_week)
    if visit.after < NOW or day is None:
        return visit_due(visit, figures)
    return figures.language.say(N_("in {month}"), month=figures.month(day, short=True))


def visit_due(visit: Visit, figures: Figures) -> str:
    """`now`, `in 840 h`."""
    if visit.after < NOW:
        return figures.language.say(N_("now"))
    return figures.language.say(N_("in {hours}"), hours=figures.about_hours(visit.after))


JOINTS: Final[Mapping[bool, Mapping[tuple[Side, ...], str]]] = {
    True: {
        (Side.LEFT, Side.RIGHT): N_("pins and seals of both chains"),
        (Side.LEFT,): N_("pins and seals of the left chain"),
        (Side.RIGHT,): N_("pins and seals of the right chain"),
    },
    False: {
        (Side.LEFT, Side.RIGHT): N_("pins, bushings and seals of both chains (pitch)"),
        (Side.LEFT,): N_("pins, bushings and seals of the left chain (pitch)"),
        (Side.RIGHT,): N_("pins, bushings and seals of the right chain (pitch)"),
    },
}
"""What restores the pitch: the joints' inner parts; whether the bushings are work of their own in the same visit."""


def work_words(work: Sequence[PlannedWork], figures: Figures) -> str:
    """All work of a visit, sides and components joined: `Replace both chains with bushings; left sprocket.`"""
    said = []
    for way, pattern in TO_DO.items():
        pieces = [one for one in work if one.way is way]
        if pieces:
            chains = list(_chains(pieces, figures)) if way is Work.REPLACE else []
            told = {*(CHAIN if chains else ()), Component.PITCH}
            others = _by_sides([one for one in pieces if one.component not in told], figures)
            parts = labels.clauses([*chains, *_joints(pieces, work, figures), *others], figures.language)
            said.append(figures.language.say(pattern, parts=parts))
    return " ".join(said)


def _joints(pieces: Sequence[PlannedWork], work: Sequence[PlannedWork], figures: Figures) -> Iterator[str]:
    """A pitch is no part: what is done to the joints, with their bushings unless these are worked on anyway."""
    pitches, bushings = _sides(pieces, Component.PITCH), _sides(work, Component.BUSHING)
    for own in (True, False):
        sides = tuple(side for side in pitches if (side in bushings) is own)
        if sides:
            yield figures.language.say(JOINTS[own][sides])


def _chains(pieces: Sequence[PlannedWork], figures: Figures) -> Iterator[str]:
    """Links that are replaced with the bushings of the same sides are a chain: nothing where they differ in sides."""
    say = figures.language.say
    links, bushings = (_sides(pieces, component) for component in (Component.LINK, Component.BUSHING))
    if links and links == bushings:
        both = len(links) == len(Side)
        yield say(N_("both chains with bushings")) if both else say(CHAIN_WITH_BUSHINGS[links[0]])


def _by_sides(pieces: Sequence[PlannedWork], figures: Figures) -> Iterator[str]:
    """What is whole on the same sides together, both sides first; then each roller, or rollers of one side."""
    whole = [one for one in pieces if one.position is None]
    components = dict.fromkeys(one.component for one in whole)
    for sides in ([Side.LEFT, Side.RIGHT], [Side.LEFT], [Side.RIGHT]):
        alike = [one for one in components if _sides(whole, one) == sides]
        if alike:
            yield figures.parts(Subject(component, side) for component in alike for side in sides)
    rollers = [one for one in pieces if one.position is not None]
    if rollers:
        yield figures.parts(Subject(one.component, one.side, one.position) for one in rollers)


def _sides(pieces: Sequence[PlannedWork], component: Component) -> list[Side]:
    there = {one.side for one in pieces if one.component is component}
    return [side for side in Side if side in there]
