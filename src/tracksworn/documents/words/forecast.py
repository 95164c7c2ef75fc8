"""What is said of hours left and planned work in a sentence: when, which part, what is done to it."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from tracksworn.assessment.decisions import ForecastRow, Plan, PlannedWork, Visit
from tracksworn.assessment.model import Assessment
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.language import N_
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

TO_DO: Final[Mapping[Work, str]] = {
    Work.REPLACE: N_("Replace {parts}."),
    Work.TURN: N_("Turn {parts}."),
    Work.REBUILD: N_("Rebuild {parts}."),
    Work.RE_SHELL: N_("Re-shell {parts}."),
    Work.RE_GROUSER: N_("Re-grouser {parts}."),
}
"""What is planned, in the order in which it is told."""

CHAIN: Final = frozenset({Component.LINK, Component.BUSHING})
CHAIN_WITH_BUSHINGS: Final = {
    Side.LEFT: N_("left chain with bushings"),
    Side.RIGHT: N_("right chain with bushings"),
}


def is_past(row: ForecastRow) -> bool:
    """Whether no hours are left, nor possibly left."""
    return row.hours_left <= 0 and row.hours_high is not None and row.hours_high < NONE_LEFT


def first_limit(forecast: Sequence[ForecastRow]) -> ForecastRow | None:
    """What reaches its limit first, by the best values; None without a forecast."""
    return min(forecast, key=lambda row: (row.hours_left, row.hours_low), default=None)


def next_limit(assessment: Assessment) -> ForecastRow | None:
    """What reaches its limit next, of all that is not past it; None where nothing is forecast to."""
    return first_limit([one for one in assessment.forecast or () if one.hours_left > 0])


def reaches_limit(row: ForecastRow, figures: Figures, *, named: bool, more: bool) -> str:
    """When that part reaches its limit; `named` where the sentence before spoke of it, `more` where others are past."""
    patterns = IT if named else NEXT if more else FIRST
    part = figures.part(Subject(row.component, row.side, row.position))
    return figures.language.say(patterns[row.component in CHAINS], part=part, when=_when(row, figures))


def visits_sentence(plan: Plan | None, figures: Figures) -> Iterator[str]:
    """What the first visit and all of them cost; nothing without a visit."""
    if plan is not None and plan.visits:
        yield _cost(plan, figures)


def _when(row: ForecastRow, figures: Figures) -> str:
    """`in 270 to 400 hours, June to July 2031`."""
    hours = figures.hours_left(row.hours_low, row.hours_high)
    said = figures.language.say(N_("in {hours} hours"), hours=hours)
    if row.date_low is None:
        return said
    return figures.language.say(N_("{hours}, {months}"), hours=said, months=figures.months(row.date_low, row.date_high))


def visit_due(visit: Visit, figures: Figures) -> str:
    """`now`, `in 840 h`."""
    if visit.after < NOW:
        return figures.language.say(N_("now"))
    return figures.language.say(N_("in {hours}"), hours=figures.about_hours(visit.after))


def _cost(plan: Plan, figures: Figures) -> str:
    """Never without saying that tax is not in it."""
    say, first = figures.language.say, plan.visits[0]
    when = visit_due(first, figures)
    money = figures.money(first.cost, plan.currency)
    if len(plan.visits) == 1:
        return say(N_("Shop visit {when}: about {money} without tax."), when=when, money=money)
    return say(
        N_("First of {n} shop visits {when}: about {money}; all of them {all}, without tax."),
        n=str(len(plan.visits)),
        when=when,
        money=money,
        all=figures.money(plan.cost, plan.currency),
    )


def work_words(work: Sequence[PlannedWork], figures: Figures) -> str:
    """All work of a visit, sides and components joined: `Replace both chains with bushings; left sprocket.`"""
    said = []
    for way, pattern in TO_DO.items():
        pieces = [one for one in work if one.way is way]
        if pieces:
            chains = list(_chains(pieces, figures)) if way is Work.REPLACE else []
            told = CHAIN if chains else frozenset()
            parts = "; ".join([*chains, *_by_sides([one for one in pieces if one.component not in told], figures)])
            said.append(figures.language.say(pattern, parts=parts))
    return " ".join(said)


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
