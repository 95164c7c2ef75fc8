"""An assessment, as plain frozen values in full precision. Percents are points of percent worn, lengths mm."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from functools import cached_property

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.decisions import Conformity, Course, ForecastRow, Plan
from tracksworn.assessment.sayings import Finding
from tracksworn.assessment.scale import Scale
from tracksworn.assessment.uncertainty import Budget
from tracksworn.inspection.values import ByEye
from tracksworn.inspection.vocabulary import Component, PartPlace, Side


class Basis(StrEnum):
    """What a figure rests on."""

    MEASURED = "measured"
    BY_EYE = "by eye"
    NOT_SEEN = "not seen"


class Stage(StrEnum):
    """Stages of wear: under 50, to under 80, to under 100, and on."""

    FIRST_HALF = "first half"
    SECOND_HALF = "second half"
    NEAR_LIMIT = "near limit"
    PAST_LIMIT = "past limit"


class AssumedValue(StrEnum):
    """What the program, or the firm, assumed rather than was told. In the order of the JSON, which is sorted."""

    IMPACT = "impact"
    INSPECTOR = "inspector"
    INSTRUMENT = "instrument"
    SEAT = "seat"
    SPREAD = "spread"


class SharesFrom(StrEnum):
    """Where the shares of the overall figure come from."""

    CHART = "chart"
    TYPICAL = "typical"


class Bound(StrEnum):
    """The overall figure is only a bound."""

    AT_LEAST = "at least"


@dataclass(frozen=True, slots=True)
class Single:
    """One value of a reading: a joint of a chain, a span, or a repeat of one spot."""

    joint: int | None
    size: float
    percent_worn: float | None


@dataclass(frozen=True, slots=True)
class WorstJoint:
    """The most worn joint of a chain and how far one further joint may read (two-sided 95 %)."""

    joint: int | None
    percent_worn: float
    further_high: float


@dataclass(frozen=True, slots=True)
class PlaceFigure:
    """What was measured at one place of one part. `place` is None where the reading names none."""

    place: PartPlace | None
    singles: tuple[Single, ...]
    size_mm: float
    percent_worn: float | None
    budget: Budget | None
    uncertainty: float | None
    dof: float | None  # None: infinite
    worst_joint: WorstJoint | None = None
    assumed: tuple[AssumedValue, ...] = ()


@dataclass(frozen=True, slots=True)
class PlaceEstimate:
    """What was judged by eye at one place of one part: its range as it counts, and its middle where it has one."""

    place: PartPlace | None
    said: ByEye
    percent_worn: float | None
    low: float | None
    high: float | None

    @property
    def counted(self) -> float | None:
        """Percent worn where the most worn place is chosen: `at least A` is A, `at most A` is nothing."""
        return self.low if self.percent_worn is None and self.high is None else self.percent_worn


@dataclass(frozen=True, slots=True)
class Turning:
    """How often a bushing may be turned, and has been. Where that is `known` to nobody, no turn is left."""

    allowed: int
    made: int
    known: bool


@dataclass(frozen=True, slots=True)
class Row:
    """One component on one side, for rollers one position: a row of `components`, and what documents need."""

    component: Component
    side: Side
    position: int | None
    basis: Basis
    place: PartPlace | None = None
    readings: int = 0
    size_mm: float | None = None
    percent_worn: float | None = None
    low: float | None = None
    high: float | None = None
    uncertainty: float | None = None
    dof: float | None = None
    stage: Stage | None = None
    life_used: float | None = None  # a fraction of 1
    worst_joint: WorstJoint | None = None
    assumed: tuple[AssumedValue, ...] = ()
    budget: Budget | None = None  # where every part of `uncertainty` comes from
    places: tuple[PlaceFigure, ...] = ()  # all places measured, in the order of chart, the governing one among them
    estimates: tuple[PlaceEstimate, ...] = ()  # all places judged by eye, likewise
    place_order: tuple[PartPlace | None, ...] = ()  # of both
    estimate: ByEye | None = None  # as said, where the governing figure is by eye
    reason: str | None = None  # why it was not seen; None where the file has no entry
    gauge: str | None = None
    scale: Scale | None = None  # new size and limit that apply to it; None where the chart has none
    share: float = 0.0  # of the whole, as a part of the sum of all shares
    turning: Turning | None = None  # of a bushing that can be turned

    @property
    def counted(self) -> float | None:
        """Percent worn wherever a worst, a place or a count is chosen: `at least A` is A, `at most A` is nothing."""
        if self.percent_worn is None and self.high is None:
            return self.low
        return self.percent_worn


@dataclass(frozen=True, slots=True)
class SideFigure:
    """The governing figure of one side; `position` for rollers."""

    percent_worn: float | None
    low: float | None
    high: float | None
    position: int | None


@dataclass(frozen=True, slots=True)
class Comparison:
    """Left against right: an entry of `sides`. The delta's interval is without the factor of the decision."""

    component: Component
    left: SideFigure | None
    right: SideFigure | None
    delta: float | None
    delta_low: float | None
    delta_high: float | None
    differs: bool | None
    pairs: int = 0  # positions and places compared
    budget: Budget | None = None  # of the delta, for what was measured
    foreign: bool = False  # whether it rests on a part that was not made for its place

    def __getitem__(self, side: Side) -> SideFigure | None:
        return self.left if side is Side.LEFT else self.right


@dataclass(frozen=True, slots=True)
class Worst:
    """The row with the highest percent worn."""

    component: Component
    side: Side
    position: int | None
    percent_worn: float


@dataclass(frozen=True, slots=True)
class Overall:
    """The whole undercarriage by shares of cost, never without what qualifies it."""

    percent_worn: float | None
    low: float | None
    high: float | None
    bound: Bound | None
    seen_share: float  # a fraction of 1
    floor: float
    ceiling: float
    shares_from: SharesFrom
    past_limit: int
    near_limit: int
    unseen: int
    worst: Worst | None
    dof: float | None = None  # of what was measured; None: infinite, or nothing measured
    budget: Budget | None = None  # for what was measured
    half_width: float = 0.0  # of what was judged by eye, in the whole


@dataclass(frozen=True, slots=True)
class Travel:
    """Adjuster and cushion by travel used; sag against its range, with no percent."""

    component: Component
    side: Side
    size_mm: float
    percent_used: float | None
    in_range: bool | None = None  # sag with a range in the chart, and valid


@dataclass(frozen=True)  # without slots, to keep by component what every check and every line of a document asks for
class Parts:
    """All parts of a machine as one inspection found them, and how one of them is found."""

    components: tuple[Row, ...]

    @cached_property
    def _by_component(self) -> Mapping[Component, tuple[Row, ...]]:
        found: dict[Component, list[Row]] = {}
        for row in self.components:
            found.setdefault(row.component, []).append(row)
        return {component: tuple(rows) for component, rows in found.items()}

    def row(self, component: Component, side: Side, position: int | None = None) -> Row | None:
        """The row of that part, or None where there is none."""
        return next((row for row in self.rows(component, side) if row.position == position), None)

    def rows(self, component: Component, side: Side | None = None) -> tuple[Row, ...]:
        """All rows of a component, on one side or both."""
        rows = self._by_component.get(component, ())
        return rows if side is None else tuple([row for row in rows if row.side is side])


@dataclass(frozen=True, slots=True)
class Reckoning(Parts):
    """All figures of one inspection, and how one of them is found."""

    sides: tuple[Comparison, ...]
    overall: Overall
    travel: tuple[Travel, ...]

    def comparison(self, component: Component) -> Comparison | None:
        """Left against right for a component, or None where neither side was seen."""
        return next((entry for entry in self.sides if entry.component is component), None)

    def governing(self, component: Component, side: Side) -> Row | None:
        """The row whose figure stands in `sides`: of rollers that of the governing position; None without a figure."""
        entry = self.comparison(component)
        figure = entry[side] if entry is not None else None
        return None if figure is None else self.row(component, side, figure.position)

    def travelled(self, component: Component, side: Side) -> Travel | None:
        """Adjuster, cushion or sag of one side, or None where no size was taken."""
        return next((entry for entry in self.travel if (entry.component, entry.side) == (component, side)), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessment(Reckoning):
    """What follows from one inspection. Parts that were not asked for are None."""

    method: int
    number: str
    revision: int
    inspected: date
    findings: tuple[Finding, ...] = ()
    forecast: tuple[ForecastRow, ...] | None = None
    plan: Plan | None = None
    conformity: Conformity | None = None
    courses: tuple[Course, ...] = ()  # of parts that an earlier inspection saw too, or of which the beginning is known
    assumptions: Assumptions = field(default_factory=Assumptions)  # the whole table that was used

    @property
    def assumed_values(self) -> tuple[AssumedValue, ...]:
        """The assumed values that any figure rests on, each once."""
        used = {value for row in self.components for value in row.assumed}
        return tuple(value for value in AssumedValue if value in used)
