"""A wear chart: for one track group, each component's new size, its limit and what that limit means. Lengths in mm."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from tracksworn.inspection.vocabulary import Between, Component, Impact, Layout, LimitMeans, PartPlace


@dataclass(frozen=True, slots=True)
class Case:
    """A hardened case that ends at `ends_at` percent worn; below it the part wears `then_times` as fast."""

    ends_at: float
    then_times: float


@dataclass(frozen=True, slots=True)
class ImpactLimits:
    """A limit that depends on how hard the machine works."""

    low: float
    high: float

    def at(self, impact: Impact) -> float:
        """The limit for that impact, mm."""
        return self.low if impact is Impact.LOW else self.high


@dataclass(frozen=True, slots=True)
class Dimensions:
    """How one way of measuring a component turns size into percent worn. Half-widths are rectangular."""

    new: float
    limit: float | ImpactLimits
    tolerance: float | None = None  # half-width, part to part; from `tolerance` or a range of `new`
    new_doubt: float | None = None  # half-width, of the chart's own new size
    limit_tolerance: float | None = None  # half-width, of the chart's own limit
    destroyed: float | None = None
    table: tuple[tuple[float, float], ...] | None = None  # (size, percent) in the order of percent
    between: Between = Between.STRAIGHT
    case: Case | None = None
    spread: float | None = None  # usual standard deviation from joint to joint, mm


@dataclass(frozen=True, slots=True)
class Ends:
    """New size and limit of the first and the last position, where these differ from the rest."""

    new: float
    limit: float | ImpactLimits


@dataclass(frozen=True, slots=True)
class ChartComponent:
    """What a chart says of one component. Which fields are set depends on what it has: wear, travel or range."""

    component: Component
    measure: str | None = None
    limit_means: LimitMeans | None = None
    dimensions: Dimensions | None = None
    ways: Mapping[str, Dimensions] = field(default_factory=dict)  # by the name of the gauge
    ends: Ends | None = None
    places: tuple[PartPlace, ...] = ()
    turns: int | None = None
    share: float | None = None  # None: absent, which counts as 0 where any other is given
    end_play: float | None = None
    over_links: int | None = None  # pitch: how many links one span covers
    start: float | None = None  # travel
    end: float | None = None
    range: tuple[float, float] | None = None  # sag


@dataclass(frozen=True, slots=True)
class Geometry:
    """For the side elevation, from the front idler's centre, x towards the rear. Absent is typical of the layout."""

    idler_centres: float | None = None
    sprocket_back: float | None = None
    sprocket_height: float | None = None
    front_idler: float | None = None  # tread diameters, new
    rear_idler: float | None = None
    sprocket: float | None = None
    teeth: int | None = None
    bottom_roller: float | None = None
    top_roller: float | None = None
    pitch: float | None = None
    links: int | None = None
    bottom_rollers_at: tuple[float, ...] | None = None
    top_rollers_at: tuple[float, ...] | None = None


@dataclass(frozen=True, slots=True)
class WearChart:
    """A chart with its source; `stands_in_for` names the machine it was not made for."""

    title: str
    source: str
    layout: Layout
    components: Mapping[Component, ChartComponent]  # in the order written
    geometry: Geometry | None = None
    narrowest_shoe: float | None = None
    stands_in_for: str | None = None
