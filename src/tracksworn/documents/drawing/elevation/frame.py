"""The track frame with what hangs on it: yoke, bogies, carrier brackets, pivot, and the adjuster's line of travel."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from shapely.geometry import Polygon

from tracksworn.documents.drawing.elevation.canvas import Canvas, Layer
from tracksworn.documents.drawing.elevation.gauges import NOT_SEEN
from tracksworn.documents.drawing.elevation.sides import AdjusterTravel
from tracksworn.documents.drawing.elevation.typical import FLANGE
from tracksworn.documents.drawing.elevation.undercarriage import Undercarriage
from tracksworn.documents.drawing.elevation.view import View
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.documents.drawing.elevation.wheels import top_roller_centres
from tracksworn.documents.drawing.inks import INK, LABEL, METAL, METAL_DARK, PAPER
from tracksworn.documents.drawing.outline import disc
from tracksworn.documents.drawing.plain import Circle, Line, Point, Stroke
from tracksworn.inspection.vocabulary import Layout

_METAL: Final = "#ebeff0"
_OUTLINE: Final = Stroke(0.12, LABEL)
_TRAVEL: Final = Stroke(0.16, INK)
_TICK: Final = Stroke(0.6, INK)
_WITH_PIVOT: Final = frozenset({Layout.ELEVATED_SPROCKET, Layout.OVAL})


@dataclass(frozen=True, slots=True)
class Frame:
    """Where the frame and its parts stand, in the machine's mm."""

    outline: Polygon
    top: float
    bottom: float
    front: float
    rear: float
    travel: tuple[Point, Point]  # the adjuster's line, from its start
    pivot: Point | None
    bogies: tuple[Point, ...]  # their pivots

    @property
    def middle(self) -> float:
        """Half way up."""
        return (self.top + self.bottom) / 2

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom


@lru_cache(maxsize=64)
def frame(chain: Chain) -> Frame:
    """The frame that the layout usually has, between the wheels."""
    it = chain.undercarriage
    bottom = it.bottom_height + it.bottom_radius * (1.06 if it.suspended else 0.4)
    top = max(_top(it), bottom + 0.3 * it.front_radius)
    outline = _outline(chain, bottom, top)
    front, _, rear, _ = outline.bounds
    middle = (top + bottom) / 2
    start = front + 0.12 * it.front_radius + 0.05 * it.rear_x
    pivot = (front + (rear - front) * (0.66 if it.raised else 0.82), middle) if it.layout in _WITH_PIVOT else None
    level = bottom + (0.6 if it.suspended else 0.5) * (top - bottom)
    travel = ((start, level), (start + 0.21 * it.rear_x, level))
    return Frame(outline, top, bottom, front, rear, travel, pivot, _bogie_pivots(it, bottom))


def _top(it: Undercarriage) -> float:
    """As high as is usual, but under the top rollers."""
    usual = it.front_radius * (0.28 if it.raised else 0.42)
    under = [y - it.top_radius * 1.5 for _, y in top_roller_centres(it)]
    return min([usual, *under])


def _outline(chain: Chain, bottom: float, top: float) -> Polygon:
    """A beam with its upper corners cut, between the wheels that stand as low as it does."""
    it = chain.undercarriage
    air = 1 + FLANGE + 0.05
    front = -chain.forward + it.front_radius * air
    rear = it.rear_x - (it.rear_radius * air if it.rear_radius else it.sprocket_radius + 0.2 * it.pitch)
    rear = max(rear, front + 0.2 * it.front_radius)
    cut = 0.12 * (top - bottom)
    slope = min(8 * cut, (rear - front) / 3)
    beam = Polygon([
        (front, bottom), (rear, bottom), (rear, top - 2 * cut), (rear - slope, top),
        (front + slope / 2, top), (front, top - cut),
    ])  # fmt: skip
    rest = beam.difference(disc(it.sprocket_at, it.sprocket_radius + 0.2 * it.pitch))
    pieces = [piece for piece in getattr(rest, "geoms", [rest]) if isinstance(piece, Polygon) and not piece.is_empty]
    return max(pieces, key=lambda piece: piece.area, default=beam)


def _bogie_pivots(it: Undercarriage, height: float) -> tuple[Point, ...]:
    if not it.suspended:
        return ()
    pairs = [it.bottom_at[i : i + 2] for i in range(0, len(it.bottom_at), 2)]
    return tuple((sum(pair) / len(pair), height) for pair in pairs)


def draw_frame(canvas: Canvas, view: View, chain: Chain, adjuster: AdjusterTravel | None) -> None:
    """The frame and what hangs on it, behind the wheels."""
    it, body = chain.undercarriage, frame(chain)
    _draw_brackets(canvas, view, it, body)
    _draw_yokes(canvas, view, chain, body)
    canvas.area(Layer.FRAME, view.area(body.outline), fill=_METAL, stroke=_OUTLINE)
    _draw_bogies(canvas, view, it, body)
    if body.pivot:
        centre, radius = view.point(body.pivot), view.length(pivot_radius(it, body))
        canvas.add(Layer.FITTINGS, [Circle(centre, radius)], fill=PAPER, stroke=_OUTLINE)
        canvas.add(Layer.BOSSES, [Circle(centre, radius * 0.6)], fill=METAL_DARK, stroke=_OUTLINE)
    if adjuster is not None:
        _draw_travel(canvas, view, body, adjuster)


def pivot_radius(it: Undercarriage, body: Frame) -> float:
    """Of the pivot shaft's cover, in the machine's mm."""
    return min(0.42 * body.height, 0.24 * it.front_radius)


def _draw_yokes(canvas: Canvas, view: View, chain: Chain, body: Frame) -> None:
    """What carries the idlers: from the frame's ends to their hubs, seen where no wheel hides it."""
    it = chain.undercarriage
    half = 0.22 * it.front_radius
    ends = [(-chain.forward, body.front + 0.1 * it.front_radius)]
    if it.rear_radius:
        ends.append((body.rear - 0.1 * it.front_radius, it.rear_x))
    corners = [((a, -half), (b, -half), (b, half), (a, half)) for a, b in ends]
    canvas.add(Layer.BRACKETS, [Line(view.points(four), closed=True) for four in corners], fill=PAPER, stroke=_OUTLINE)


def _draw_brackets(canvas: Canvas, view: View, it: Undercarriage, body: Frame) -> None:
    """What carries the top rollers."""
    corners = brackets(it, body)
    canvas.add(Layer.BRACKETS, [Line(view.points(four), closed=True) for four in corners], fill=METAL, stroke=_OUTLINE)


def brackets(it: Undercarriage, body: Frame) -> tuple[tuple[Point, ...], ...]:
    """The outlines of what carries the top rollers, each from within the frame to the roller's centre."""
    half, foot = 0.75 * it.top_radius, body.top - 0.1 * body.height
    return tuple(
        ((x - half, foot), (x + half, foot), (x + 0.45 * half, y), (x - 0.45 * half, y))
        for x, y in top_roller_centres(it)
    )


def _draw_bogies(canvas: Canvas, view: View, it: Undercarriage, body: Frame) -> None:
    """Each carries two rollers; an odd last one has its own."""
    radius = it.bottom_radius
    for corners in bogies(it, body):
        canvas.add(Layer.FITTINGS, [Line(view.points(corners), closed=True)], fill=PAPER, stroke=_OUTLINE)
    heads = [Circle(view.point((x, y + 0.14 * radius)), view.length(0.2 * radius)) for x, y in body.bogies]
    canvas.add(Layer.BOSSES, heads, fill=METAL_DARK, stroke=_OUTLINE)


def bogies(it: Undercarriage, body: Frame) -> Iterator[tuple[Point, ...]]:
    """The outline of each, in the machine's mm."""
    radius = it.bottom_radius
    for index, (x, y) in enumerate(body.bogies):
        pair = it.bottom_at[2 * index : 2 * index + 2]
        low, shoulder, high = it.bottom_height, y + 0.05 * radius, y + 0.42 * radius
        yield (
            (pair[0] - 0.3 * radius, low), (pair[-1] + 0.3 * radius, low), (pair[-1] + 0.1 * radius, shoulder),
            (x + 0.34 * radius, high), (x - 0.34 * radius, high), (pair[0] - 0.1 * radius, shoulder),
        )  # fmt: skip


def travel_box(view: View, body: Frame) -> tuple[float, float, float, float]:
    """The pale field round the adjuster's line on the sheet: left, top, right, bottom."""
    (x0, y), (x1, _) = view.points(body.travel)
    half = min(0.29 * view.length(body.height), 2.2)
    return min(x0, x1) - 1.4, y - half, max(x0, x1) + 1.4, y + half


def _draw_travel(canvas: Canvas, view: View, body: Frame, adjuster: AdjusterTravel) -> None:
    left, top, right, bottom = travel_box(view, body)
    field = Line(((left, top), (right, top), (right, bottom), (left, bottom)), closed=True)
    canvas.add(Layer.FITTINGS, [field], fill=PAPER, stroke=_OUTLINE if adjuster.percent_used is not None else NOT_SEEN)
    (x0, y), (x1, _) = view.points(body.travel)
    if adjuster.percent_used is None:
        return
    end = 0.45 * (bottom - top) / 2
    stops = [Line(((x, y - end), (x, y + end))) for x in (x0, x1)]
    canvas.add(Layer.BOSSES, [Line(((x0, y), (x1, y))), *stops], stroke=_TRAVEL)
    at = x0 + (x1 - x0) * min(max(adjuster.percent_used / 100, -0.05), 1.05)
    canvas.add(Layer.BOSSES, [Line(((at, y - 1.6 * end), (at, y + 1.6 * end)))], stroke=_TICK)
