"""A section on the sheet: what has gone, what is left above the limit, what lies below it, and its lines."""

from dataclasses import dataclass
from typing import Final

from shapely import LineString, MultiLineString, affinity, line_merge
from shapely.geometry.base import BaseGeometry

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.inks import LABEL, METAL, STAGE_INKS
from tracksworn.documents.drawing.outline import hatch, lines
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Line, Point, Stroke
from tracksworn.documents.drawing.profiles.amounts import Amounts, losses_by_eye
from tracksworn.documents.drawing.profiles.key import AS_NEW, BY_EYE, DESTROYED, LIMIT, NOT_SEEN, NOW
from tracksworn.documents.drawing.profiles.section import Losses, Section

_NEAR: Final = 0.07  # mm: lines nearer than that are one line
_SPACING: Final = 0.6
_HATCH: Final = 0.14
_AXIS: Final = Stroke(0.12, LABEL, dash=(2.6, 0.6, 0.5, 0.6))
_THIN: Final = Stroke(0.16)
_CORD: Final = Stroke(0.16, dash=(1.8, 0.8))


@dataclass(frozen=True, slots=True)
class Frame:
    """Where a section lies: `scale` mm of sheet to one of the part, the part's origin at `origin`."""

    origin: Point
    scale: float

    def at(self, point: Point) -> Point:
        """A point of the part on the sheet."""
        return self.origin[0] + self.scale * point[0], self.origin[1] - self.scale * point[1]

    def area(self, geometry: BaseGeometry) -> BaseGeometry:
        """An area of the part on the sheet."""
        moved = affinity.affine_transform(geometry, [self.scale, 0, 0, -self.scale, *self.origin])
        return moved.simplify(0.008).buffer(0)

    def line(self, points: tuple[Point, ...]) -> Line:
        """A line of the part on the sheet."""
        return Line(tuple(self.at(point) for point in points))


@dataclass(frozen=True, slots=True)
class Wear:
    """What is known of a section's faces: the loss now where there is an edge, the ends of an estimate where not."""

    basis: Basis
    stage: Stage | None
    now: Losses | None
    limit: Losses
    ends: tuple[Losses, ...]
    destroyed: Losses | None


def paint(pile: Pile, frame: Frame, section: Section, wear: Wear) -> None:
    """The whole section but its labels."""
    cuts = MultiLineString([[frame.at(point) for point in cut] for cut in section.cuts]).buffer(_NEAR)
    new = frame.area(section.solid(tuple(0.0 for _ in section.faces)))
    limit = frame.area(section.solid(wear.limit))
    if wear.now is not None:
        _paint_measured(pile, new, frame.area(section.worn(wear.now)), limit, wear, cuts)
    elif wear.basis is Basis.BY_EYE:
        _paint_by_eye(pile, new, limit, [frame.area(section.worn(end)) for end in wear.ends], cuts)
    elif wear.basis is Basis.NOT_SEEN:
        _trace(pile, new.boundary.difference(cuts), NOT_SEEN)
    else:
        pile.fill(METAL, *lines(new))
        _trace(pile, new.boundary.difference(cuts), NOW)
    if wear.destroyed is not None:
        line = frame.area(section.solid(wear.destroyed)).boundary
        _trace(pile, line.difference(new.boundary.buffer(_NEAR)).difference(cuts), DESTROYED)
    _paint_about(pile, frame, section)


def _paint_measured(
    pile: Pile, new: BaseGeometry, now: BaseGeometry, limit: BaseGeometry, wear: Wear, cuts: BaseGeometry
) -> None:
    stage = wear.stage or Stage.FIRST_HALF
    ink, past = STAGE_INKS[stage], stage is Stage.PAST_LIMIT
    pile.fill(METAL, *lines(now.intersection(limit)))
    pile.fill(ink, *lines(_solid_parts(now.difference(limit))))
    gone = _solid_parts(new.difference(now))
    pile.extend(hatch(gone, _SPACING, crossed=past), Stroke(_HATCH, ink))
    outline = now.boundary
    _trace(pile, new.boundary.difference(outline.buffer(_NEAR)).difference(cuts), AS_NEW)
    others = outline.union(new.boundary).buffer(_NEAR)
    _trace(pile, limit.boundary.difference(others).difference(cuts), LIMIT)
    _trace(pile, outline.difference(cuts), NOW)


def _paint_by_eye(
    pile: Pile, new: BaseGeometry, limit: BaseGeometry, ends: list[BaseGeometry], cuts: BaseGeometry
) -> None:
    """No edge of wear: what wears is dashed as new, the ends of the range are dashed, the rest is drawn as it is."""
    pile.fill(METAL, *lines(limit))
    least = limit
    for end in ends:
        least = least.intersection(end)
    unworn = new.boundary.intersection(least.boundary.buffer(_NEAR)).difference(cuts)
    _trace(pile, unworn, NOW)
    _trace(pile, new.boundary.difference(least.boundary.buffer(_NEAR)).difference(cuts), AS_NEW)
    beside = new.boundary.buffer(_NEAR)
    for end in ends:
        _trace(pile, end.boundary.difference(beside).difference(cuts), BY_EYE)
    taken = beside
    for end in ends:
        taken = taken.union(end.boundary.buffer(_NEAR))
    _trace(pile, limit.boundary.difference(taken).difference(cuts), LIMIT)


def _paint_about(pile: Pile, frame: Frame, section: Section) -> None:
    """Axes, breaks, and what does not wear."""
    pile.stroke(_AXIS, *(frame.line(axis) for axis in section.axes))
    pile.stroke(_THIN, *(frame.line(line) for line in section.thin))
    pile.stroke(_CORD, *(frame.line(cord) for cord in section.cords))
    pile.stroke(_THIN, *(_break(frame.at(start), frame.at(end)) for start, end in section.breaks))


def _break(start: Point, end: Point) -> Line:
    """A level line with a zigzag in its middle: the part goes on."""
    x, y = (start[0] + end[0]) / 2, start[1]
    zigzag = [(x - 1.5, y), (x - 0.7, y - 1.0), (x + 0.7, y + 1.0), (x + 1.5, y)]
    return Line(((min(start[0], end[0]) - 1.4, y), *zigzag, (max(start[0], end[0]) + 1.4, y)))


def _solid_parts(area: BaseGeometry) -> BaseGeometry:
    """Without the slivers that cutting leaves."""
    return area.buffer(-0.02).buffer(0.02)


def _trace(pile: Pile, geometry: BaseGeometry, pen: Stroke) -> None:
    merged = line_merge(geometry) if geometry.geom_type == "MultiLineString" else geometry
    for part in getattr(merged, "geoms", [merged]):
        if isinstance(part, LineString) and part.length > 3 * _NEAR:
            points = tuple((x, y) for x, y, *_ in part.coords)
            closed = points[0] == points[-1]
            pile.stroke(pen, Line(points[:-1] if closed else points, closed=closed))


def wear_of(section: Section, given: Amounts, now: Losses | None, governing: int) -> Wear:
    """What to paint for a section whose governing face is known."""
    gauge = section.faces[governing].gauge
    ends = [losses_by_eye(given, worn.gauge) for worn in section.faces]
    shared = min((len(one) for one in ends), default=0)
    every = tuple(given.limit for _ in section.faces)
    destroyed = None
    if given.destroyed is not None and gauge.seen:
        destroyed = tuple(given.held(given.destroyed) for _ in section.faces)
    return Wear(
        basis=gauge.basis,
        stage=gauge.stage,
        now=now,
        limit=every,
        ends=tuple(tuple(one[index] for one in ends) for index in range(shared)),
        destroyed=destroyed,
    )
