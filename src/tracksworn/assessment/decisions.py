"""What a reader decides by: hours left, shop visits and their cost, verdicts. Frozen values in full precision.

Hours are machine hours, percents points of percent worn, money is in the currency of the prices.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from tracksworn.inspection.prices import Work
from tracksworn.inspection.terms import Rule
from tracksworn.inspection.vocabulary import Component, PartPlace, Side


class RateFrom(StrEnum):
    """What a rate of wear rests on."""

    SINCE_FITTED = "since fitted"
    BETWEEN = "between inspections"
    LINE = "line"


@dataclass(frozen=True, slots=True)
class CoursePoint:
    """How worn a part was at one inspection, with its 95 % interval, or the range of an estimate by eye."""

    number: str
    inspected: date
    hours: float
    percent_worn: float
    low: float
    high: float
    counts: bool  # whether a rate may rest on it: like joints, gauge and place, and read since the part went on
    by_eye: bool = False  # an estimate: low to high are its range, and it has no middle figure to print


@dataclass(frozen=True, slots=True)
class Course:
    """One side's governing part over its inspections, the present one last."""

    component: Component
    side: Side
    position: int | None
    place: PartPlace | None
    began: float | None  # hours at which it was as new: fitted or turned; None where that is not evidenced
    points: tuple[CoursePoint, ...]


@dataclass(frozen=True, slots=True)
class ForecastRow:
    """When the governing part of one side reaches its limit. Hours count from the inspection and are never negative."""

    component: Component
    side: Side
    position: int | None
    rate_per_100_h: float
    rate_from: RateFrom
    rates: Mapping[RateFrom, float | None]  # since fitted and between inspections, per 100 h; None where there is none
    hours_left: float
    hours_low: float
    hours_high: float | None  # None: no upper end
    date_low: date | None
    date_high: date | None
    whole_life: float  # hours from new to the limit at this rate
    over: float  # hours that the rate rests on
    hardening_ignored: bool = False  # a straight chart without a case: the rest may wear faster


@dataclass(frozen=True, slots=True)
class PlannedWork:
    """One piece of work in a visit. Its cost is parts and labour."""

    component: Component
    side: Side
    position: int | None
    way: Work
    parts: float
    labour: float  # money
    hours_left: float
    life_lost: float  # money: the part of its cost that pays for life thrown away by working early

    @property
    def cost(self) -> float:
        """Parts and labour."""
        return self.parts + self.labour


@dataclass(frozen=True, slots=True)
class Visit:
    """One visit to the shop, `after` so many hours from the inspection."""

    after: float
    at_hours: float  # machine hours
    work: tuple[PlannedWork, ...]
    set_up: float
    track_off: float  # money: labour of taking tracks off and putting them on

    @property
    def cost(self) -> float:
        """Set-up, track off and all work."""
        return self.set_up + self.track_off + sum(work.cost for work in self.work)


@dataclass(frozen=True, slots=True)
class Swap:
    """Advice, never planned work: parts that would last longer in each other's place."""

    component: Component
    way: Work  # swap sides or swap positions
    side: Side | None  # of positions; None where the sides change
    positions: tuple[int, int] | None  # most worn, least worn
    worn: tuple[float, float]  # percent of the more and of the less worn
    cost: float


@dataclass(frozen=True, slots=True)
class Plan:
    """The cheapest grouping of work into visits, what is left in the undercarriage, and what restoring it costs."""

    as_of: date
    currency: str
    labour_per_hour: float
    visits: tuple[Visit, ...]
    value_left: float
    cost_to_restore: float
    swaps: tuple[Swap, ...] = ()
    unpriced: tuple[Component, ...] = ()  # with a forecast, but no way that is priced and open

    @property
    def cost(self) -> float:
        """All visits."""
        return sum(visit.cost for visit in self.visits)


class Result(StrEnum):
    """What a comparison with terms comes to."""

    PASSES = "passes"
    FAILS = "fails"
    UNDECIDED = "undecided"
    OUTSIDE = "outside the terms"


class Why(StrEnum):
    """Why a row neither passes nor fails."""

    DOUBT = "doubt"  # the allowance lies within the guard
    BY_EYE = "by eye"
    NOT_SEEN = "not seen"
    NO_PERCENT = "no percent"
    CHART = "chart"  # none, or one that stands in
    HOURS = "hours"  # of the machine, not evidenced
    FITTING = "fitting"  # hours at fitting, not evidenced
    BEYOND = "beyond"  # outside the first and the last row of the terms
    GAUGE_DUE = "gauge due"  # its calibration had run out


@dataclass(frozen=True, slots=True)
class Verdict:
    """One side of one component against what is allowed."""

    component: Component
    side: Side
    position: int | None
    allowed: float | None
    guard: float | None
    probability: float | None  # of percent worn being at most what is allowed
    result: Result
    why: Why | None = None
    hours: float | None = None  # since fitted or turned
    guard_of_failure: float | None = None


@dataclass(frozen=True, slots=True)
class Conformity:
    """The machine against its terms."""

    title: str
    rule: Rule
    result: Result
    components: tuple[Verdict, ...]
    confidence: float
    tested: int  # rows measured and inside the terms, which share the risk of a wrong failure
