"""A bar of metal as a gauge: hatched is gone, solid is left, a heavy stroke is the limit. Lying or upright."""

import math
from dataclasses import dataclass
from typing import Final

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import STAGE_INKS
from tracksworn.documents.drawing.outline import hatch_corners
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Line, Point, Stroke

OUTLINE: Final = Stroke(0.16)
EDGE: Final = Stroke(0.22)
LIMIT: Final = Stroke(0.5)
AS_NEW: Final = Stroke(0.16, dash=(1.1, 0.6))
HATCH_WIDTH: Final = 0.14
HATCH_SPACING: Final = 0.6
FURTHEST: Final = 112.8  # percent to which a whisker is drawn
MOST: Final = 110.0  # percent to which a bar is drawn past its limit; what goes on is torn off there


@dataclass(frozen=True, slots=True)
class Bar:
    """Where a bar lies: from as new at `origin` by `along` mm a percent, `across` from face to face."""

    origin: Point
    along: Point
    across: Point
    least: float = 0.0  # percent below 0 for which there is room
    over: tuple[float, float] = (0.08, 0.16)  # how far the limit reaches over either face, of the depth

    def at(self, percent: float, across: float = 0.0) -> Point:
        """The point at a percent worn; `across` is 0 on the first face and 1 on the other."""
        return (
            self.origin[0] + percent * self.along[0] + across * self.across[0],
            self.origin[1] + percent * self.along[1] + across * self.across[1],
        )

    def held(self, percent: float, most: float = MOST) -> float:
        """The percent, or the nearest for which there is room."""
        return min(max(percent, self.least), most)

    def box(self, start: float, end: float) -> tuple[Point, ...]:
        """The corners of a stretch of it."""
        return self.at(start), self.at(end), self.at(end, 1), self.at(start, 1)

    def beam(self, percent: float, start: float = 0.0, end: float = 1.0) -> Line:
        """A line straight across."""
        return Line((self.at(percent, start), self.at(percent, end)))


def draw_bar(pile: Pile, bar: Bar, gauge: Gauge) -> None:
    """The bar in whatever state its gauge is; words, whisker and ticks are the caller's."""
    if gauge.basis is Basis.NOT_SEEN or (gauge.basis is Basis.MEASURED and gauge.percent is None):
        pile.stroke(OUTLINE, Line(bar.box(0, 100), closed=True))
    elif gauge.basis is Basis.BY_EYE or gauge.percent is None:
        pile.stroke(OUTLINE, Line(bar.box(0, 100), closed=True))
        pile.stroke(LIMIT, bar.beam(100, -bar.over[0], 1 + bar.over[1]))
    elif gauge.stage is Stage.PAST_LIMIT:
        _draw_past_limit(pile, bar, gauge.percent)
    else:
        _draw_measured(pile, bar, gauge.percent, gauge.stage or Stage.FIRST_HALF)


def draw_whisker(pile: Pile, bar: Bar, gauge: Gauge, across: float, cap: float) -> None:
    """The 95 % interval beside a measured bar, `across` it in its own measure; an end without room has an arrow."""
    if gauge.low is None or gauge.high is None or gauge.basis is not Basis.MEASURED:
        return
    low, high = bar.held(gauge.low, FURTHEST), bar.held(gauge.high, FURTHEST)
    if low == high:
        return
    pile.stroke(EDGE, Line((bar.at(low, across), bar.at(high, across))))
    for end, said, inwards in ((low, gauge.low, 1.0), (high, gauge.high, -1.0)):
        mark = bar.beam(end, across - cap, across + cap) if end == said else _arrow(bar, end, inwards, across, cap)
        pile.stroke(EDGE, mark)


def percent_of_mm(bar: Bar, length: float) -> float:
    """How many percent that length along the bar is."""
    return length / math.hypot(*bar.along)


def _arrow(bar: Bar, end: float, inwards: float, across: float, cap: float) -> Line:
    back = end + inwards * percent_of_mm(bar, 0.7)
    return Line((bar.at(back, across - cap), bar.at(end, across), bar.at(back, across + cap)))


def _draw_measured(pile: Pile, bar: Bar, percent: float, stage: Stage) -> None:
    ink, edge = STAGE_INKS[stage], bar.held(percent)
    pile.fill(ink, Line(bar.box(edge, 100), closed=True))
    if edge > 0:
        pile.extend(hatch_corners(bar.box(0, edge), HATCH_SPACING), Stroke(HATCH_WIDTH, ink))
        pile.stroke(OUTLINE, Line(bar.box(0, 100), closed=True))
        pile.stroke(EDGE, bar.beam(edge))
    else:
        pile.stroke(OUTLINE, Line((bar.at(100), bar.at(edge), bar.at(edge, 1), bar.at(100, 1))))
        pile.stroke(AS_NEW, bar.beam(0))
    pile.stroke(LIMIT, bar.beam(100, -bar.over[0], 1 + bar.over[1]))


def _draw_past_limit(pile: Pile, bar: Bar, percent: float) -> None:
    ink, end = STAGE_INKS[Stage.PAST_LIMIT], bar.held(percent)
    outline = _torn(bar, end) if percent > end else bar.box(0, end)
    pile.extend(hatch_corners(outline, HATCH_SPACING, crossed=True), Stroke(HATCH_WIDTH + 0.02, ink))
    pile.stroke(OUTLINE, Line(outline, closed=True))
    pile.stroke(LIMIT, bar.beam(100, -2 * bar.over[0], 0), bar.beam(100, 1, 1 + 1.5 * bar.over[1]))


def _torn(bar: Bar, end: float) -> tuple[Point, ...]:
    tooth = percent_of_mm(bar, 0.5)
    tear = [bar.at(end - tooth * (index % 2), index / 4) for index in range(5)]
    return (bar.at(0), *tear, bar.at(0, 1))


def draw_range_by_eye(pile: Pile, bar: Bar, gauge: Gauge, without: tuple[float, float] | None = None) -> None:
    """The range as said along the middle of an outline, dashed, no edge. `without` leaves percents free for a word."""
    low, high = range_by_eye(gauge)
    for start, end in _less(low, high, without):
        pile.stroke(EDGE, *dashed(bar.at(start, 0.5), bar.at(end, 0.5)))
    for end, said in ((low, gauge.low), (high, gauge.high)):
        if said is not None:
            pile.stroke(EDGE, *dashed(bar.at(end, 0.18), bar.at(end, 0.82)))
    if gauge.high is None:
        pile.stroke(EDGE, _arrow(bar, 100 - percent_of_mm(bar, 0.4), -1.0, 0.5, 0.16))


def dashed(start: Point, end: Point, dash: float = 0.9, gap: float = 0.6) -> tuple[Line, ...]:
    """A straight line in dashes of about that length, with a whole dash at either end."""
    length = math.dist(start, end)
    count = max(round((length + gap) / (dash + gap)), 2)
    part = dash / (count * dash + (count - 1) * gap)
    step = (1 - part) / (count - 1)

    def at(share: float) -> Point:
        return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])

    return tuple(Line((at(index * step), at(index * step + part))) for index in range(count)) if length else ()


def range_by_eye(gauge: Gauge) -> tuple[float, float]:
    """The range as said, in a bar: `at least` runs on to the limit, `at most` starts as new."""
    low = 0.0 if gauge.low is None else max(gauge.low, 0.0)
    return low, 100.0 if gauge.high is None else min(gauge.high, MOST)


def _less(low: float, high: float, without: tuple[float, float] | None) -> list[tuple[float, float]]:
    if without is None:
        return [(low, high)]
    stretches = [(low, min(high, without[0])), (max(low, without[1]), high)]
    return [(start, end) for start, end in stretches if end > start]
