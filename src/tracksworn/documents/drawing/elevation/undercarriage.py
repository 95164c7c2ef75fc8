"""The undercarriage that is drawn, in the machine's mm: what the chart says, completed by typical proportions.

x runs from the front idler's centre towards the rear, y upwards.
"""

import itertools
import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from tracksworn.documents.drawing.elevation.typical import (
    FLANGE,
    GROUSERS,
    INSET_OF_ROLLERS,
    LUG,
    MOST_OF_THE_ROOM,
    RUBBER,
    STEEL,
    TYPICAL,
    USUAL_STEP_OF_ROLLERS,
    Section,
)
from tracksworn.inspection.chart import Geometry
from tracksworn.inspection.vocabulary import Layout, ShoeKind

_MAKE_A_SCALE: Final = frozenset({"pitch", "idler_centres", "sprocket_back", "front_idler", "sprocket"})
_RAISED_MAKE_A_SCALE: Final = _MAKE_A_SCALE | {"sprocket_height", "rear_idler"}


@dataclass(frozen=True, slots=True)
class Fitted:
    """What is fitted to one side: the facts that its geometry depends on, hashable."""

    layout: Layout
    suspended: bool
    geometry: Geometry | None
    bottom_rollers: int
    top_rollers: int
    links: int | None
    shoe: ShoeKind | None


@dataclass(frozen=True, slots=True)
class Undercarriage:
    """Wheels by centre and tread radius, in mm. `pitch` serves for proportions even where it is not known."""

    layout: Layout
    suspended: bool
    pitch: float
    pitch_known: bool
    links: int | None
    shoe: ShoeKind | None  # None on rubber
    front_radius: float
    rear_radius: float | None  # None without a rear idler
    rear_x: float  # of the rear idler, else of the sprocket
    sprocket_at: tuple[float, float]
    sprocket_radius: float  # to the pin line
    teeth: int
    hunting: bool  # an odd count of teeth, of which each turn uses every second one
    lift: float
    bottom_radius: float
    bottom_at: tuple[float, ...]
    top_radius: float
    top_at: tuple[float, ...]
    typical: frozenset[str]

    @property
    def section(self) -> Section:
        """From the pin line to the faces."""
        return RUBBER if self.layout is Layout.RUBBER else STEEL

    @property
    def rail(self) -> float:
        """From the pin line inwards to where the wheels run."""
        return self.section.rail * self.pitch

    @property
    def height_of_grip(self) -> float:
        """Of new grousers, or of new lugs; without a pitch no grouser is drawn."""
        if self.shoe is None:
            return LUG * self.pitch
        return GROUSERS[self.shoe] * self.pitch if self.pitch_known else 0.0

    @property
    def reach(self) -> float:
        """From the pin line outwards to the tips of new grousers or lugs."""
        return (self.section.face + self.section.plate) * self.pitch + self.height_of_grip

    @property
    def rail_line(self) -> float:
        """The height at which the bottom rollers stand on the rail."""
        return -self.front_radius - self.lift

    @property
    def ground(self) -> float:
        """The height of the ground under new grousers."""
        return self.rail_line - self.rail - self.reach

    @property
    def bottom_height(self) -> float:
        """The height of the bottom rollers' centres."""
        return self.rail_line + self.bottom_radius

    @property
    def raised(self) -> bool:
        """Whether the sprocket stands above two idlers."""
        return self.rear_radius is not None

    @property
    def rear_idler_at(self) -> tuple[float, float]:
        """The rear idler's centre: it stands on the same line as the front one."""
        return (self.rear_x, (self.rear_radius or 0.0) - self.front_radius)

    @property
    def to_scale(self) -> bool:
        """Whether the chart fixes enough of it to state a scale."""
        needed = _RAISED_MAKE_A_SCALE if self.raised else _MAKE_A_SCALE
        return self.pitch_known and not self.typical & needed


@lru_cache(maxsize=64)
def undercarriage(fitted: Fitted) -> Undercarriage:
    """All dimensions to draw by. A geometry whose wheels would run into one another gives way to the typical one."""
    chosen = _completed(fitted, fitted.geometry or Geometry())
    if _stands(chosen):
        return chosen
    chart = fitted.geometry or Geometry()
    plain = _completed(fitted, Geometry(pitch=chart.pitch, links=chart.links))
    if _stands(plain):
        return plain
    return _completed(replace(fitted, bottom_rollers=min(fitted.bottom_rollers, 20)), Geometry())


def lengthened(it: Undercarriage, by: float) -> Undercarriage:
    """The same with its rear wheels further back, and everything between in proportion."""
    share = (it.rear_x + by) / it.rear_x
    x, y = it.sprocket_at
    bottom, top = (tuple(place * share for place in places) for places in (it.bottom_at, it.top_at))
    return replace(
        it,
        rear_x=it.rear_x * share,
        sprocket_at=(x * share, y),
        bottom_at=bottom,
        top_at=top,
        bottom_radius=min(it.bottom_radius, _room(bottom) * MOST_OF_THE_ROOM / 2),
        top_radius=min(it.top_radius, _room(top) * MOST_OF_THE_ROOM / 2),
    )


def _completed(fitted: Fitted, chart: Geometry) -> Undercarriage:
    take = _Choice(fitted.layout, chart)
    raised = fitted.layout is Layout.ELEVATED_SPROCKET or bool(chart.rear_idler)
    pitch = take.length("pitch")
    front = take.length("front_idler") / 2
    rear = take.length("rear_idler") / 2 if raised else None
    rear_x, sprocket_at = take.rear(raised)
    rail = (RUBBER if fitted.layout is Layout.RUBBER else STEEL).rail * pitch
    teeth, hunting, radius = take.sprocket(pitch, front + rail)
    bottom_radius, lift = take.length("bottom_roller") / 2, take.usual.lift * take.size
    behind = (rear_x, rear) if rear else (sprocket_at[0], radius - rail)
    clear = (_clear(front, bottom_radius, lift), behind[0] - _clear(behind[1], bottom_radius, lift))
    ends = _row(clear, rear_x, 2 * bottom_radius, fitted.bottom_rollers)
    bottom_at = take.places("bottom_rollers_at", fitted.bottom_rollers, ends)
    top_radius = take.length("top_roller") / 2 if fitted.top_rollers else 0.0
    over = (1.2 * front + top_radius, sprocket_at[0] - 1.1 * radius - top_radius)
    top_at = take.places("top_rollers_at", fitted.top_rollers, _between(fitted.top_rollers, sprocket_at[0], over))
    return Undercarriage(
        fitted.layout, fitted.suspended, pitch, bool(chart.pitch), fitted.links or chart.links, take.shoe(fitted.shoe),
        front, rear, rear_x, sprocket_at, radius, teeth, hunting, lift,
        min(bottom_radius, _room(bottom_at) * MOST_OF_THE_ROOM / 2), bottom_at,
        min(top_radius, _room(top_at) * MOST_OF_THE_ROOM / 2), top_at, frozenset(take.typical),
    )  # fmt: skip


class _Choice:
    """Takes each length from the chart, else in proportion from the typical ones, and keeps which were typical."""

    def __init__(self, layout: Layout, chart: Geometry) -> None:
        self.layout, self.chart, self.usual = layout, chart, TYPICAL[layout]
        self.typical: set[str] = set()
        self.size = self._size()

    def _size(self) -> float:
        """How much larger the machine is than the one whose proportions serve."""
        for name in ("pitch", "idler_centres", "sprocket_back", "front_idler"):
            length = getattr(self.chart, name)
            if length:
                return float(length / getattr(self.usual, name))
        return 1.0

    def length(self, name: str) -> float:
        """A length of the chart, or the typical one."""
        given = getattr(self.chart, name)
        if given:
            return float(given)
        self.typical.add(name)
        return float(getattr(self.usual, name) * self.size)

    def rear(self, raised: bool) -> tuple[float, tuple[float, float]]:
        """Where the rearmost wheel stands, and the sprocket's centre."""
        height = self.length("sprocket_height") if self.chart.sprocket_height is None else self.chart.sprocket_height
        if raised:
            return self.length("idler_centres"), (self.length("sprocket_back"), height)
        back = self.chart.sprocket_back or self.chart.idler_centres or self.length("idler_centres")
        return back, (back, height)

    def sprocket(self, pitch: float, idler: float) -> tuple[int, bool, float]:
        """Teeth, whether they hunt, and the radius to the pin line.

        Pins stand on a polygon: r = P / (2 sin(π / n)), n the pitches round it. Of n = teeth and n = teeth / 2 the one
        holds that is nearer to the chart's diameter, without one to the idler's.
        """
        if not self.chart.sprocket and not self.chart.teeth:
            self.typical.add("sprocket")
        given = self.chart.sprocket / 2 if self.chart.sprocket else None
        teeth = self.chart.teeth or self._teeth(pitch, given)
        radius, hunting = min(
            ((_polygon(pitch, n), n < teeth) for n in (teeth, teeth / 2) if n > 4),
            key=lambda option: abs(option[0] - (given or idler)),
            default=(given or idler, False),
        )
        return teeth, hunting, radius if self.chart.pitch or not given else given

    def _teeth(self, pitch: float, radius: float | None) -> int:
        self.typical.add("teeth")
        if radius is None or radius <= pitch:
            return self.usual.teeth
        return round(math.pi / math.asin(pitch / (2 * radius)) * (1 if self.layout is Layout.RUBBER else 2))

    def places(self, name: str, count: int, ends: tuple[float, float]) -> tuple[float, ...]:
        """The chart's places of rollers where it has as many as were counted, else evenly between the ends."""
        given = getattr(self.chart, name)
        if given is not None and len(given) == count:
            return tuple(sorted(given))
        if count:
            self.typical.add(name)
        first, last = ends
        if count == 1:
            return ((first + last) / 2,)
        return tuple(first + (last - first) * index / (count - 1) for index in range(count))

    def shoe(self, shoe: ShoeKind | None) -> ShoeKind | None:
        """The kind fitted, or the usual one of the layout; none on rubber."""
        return None if self.layout is Layout.RUBBER else shoe or self.usual.shoe


def _polygon(pitch: float, n: float) -> float:
    return pitch / (2 * math.sin(math.pi / n))


def _between(count: int, back: float, clear: tuple[float, float]) -> tuple[float, float]:
    """The first and last place of that many top rollers, spread between front idler and sprocket, clear of both."""
    step = back / (count + 1)
    first, last = max(step, clear[0]), min(back - step, clear[1])
    return (first, last) if first < last else (0.4 * back, 0.6 * back)


def _row(clear: tuple[float, float], whole: float, tread: float, count: int) -> tuple[float, float]:
    """The first and last place of the bottom rollers: as far in as is usual, further out where many need the room."""
    usual = whole * (1 - 2 * INSET_OF_ROLLERS)
    length = min(max(usual, (count - 1) * tread * USUAL_STEP_OF_ROLLERS), clear[1] - clear[0])
    middle = min(max((clear[0] + clear[1]) / 2, clear[0] + length / 2), clear[1] - length / 2)
    return middle - length / 2, middle + length / 2


def _clear(wheel: float, roller: float, lift: float) -> float:
    """How far from a wheel on, or `lift` above, the same line a roller clears it, flanges and some air included."""
    apart = (wheel + roller) * (1 + FLANGE) + 0.35 * roller
    return math.sqrt(max(apart**2 - (wheel + lift - roller) ** 2, 0.0))


def _room(places: tuple[float, ...]) -> float:
    """The least distance from one roller to the next."""
    return min((b - a for a, b in itertools.pairwise(places)), default=math.inf)


def _stands(it: Undercarriage) -> bool:
    """Whether the big wheels stand clear of each other, in their order, and the rollers in a row between them."""
    big = [(0.0, 0.0, it.front_radius), (*it.sprocket_at, it.sprocket_radius - it.rail)]
    if it.rear_radius:
        big.append((*it.rear_idler_at, it.rear_radius))
    apart = all(
        math.hypot(a[0] - b[0], a[1] - b[1]) > (a[2] + b[2]) * 1.1 for i, a in enumerate(big) for b in big[i + 1 :]
    )
    above = it.sprocket_at[1] - it.sprocket_radius >= it.rail_line - it.rail
    if it.rear_radius:
        idlers = max(it.front_radius, it.rear_idler_at[1] + it.rear_radius) + it.rail
        above = it.sprocket_at[1] + it.sprocket_radius > idlers + it.pitch
    ordered = it.front_radius + it.rail < it.sprocket_at[0] <= it.rear_x and it.sprocket_at[1] < it.rear_x
    low = [(x, it.bottom_height, it.bottom_radius) for x in it.bottom_at]
    apart = apart and all(math.hypot(a[0] - b[0], a[1] - b[1]) > a[2] + b[2] for a in low for b in big)
    in_row = all(0 < place < it.rear_x for place in it.bottom_at + it.top_at)
    in_row = in_row and _room(it.bottom_at) > 0 and it.bottom_radius < it.front_radius + it.lift
    in_size = it.sprocket_radius > it.pitch and it.front_radius > 0.5 * it.pitch and it.rear_x < 80 * it.pitch
    return apart and above and ordered and in_row and in_size
