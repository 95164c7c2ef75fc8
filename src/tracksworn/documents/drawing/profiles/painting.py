"""A section on the sheet: what has gone, what is left above the limit, what lies below it, and its lines."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from shapely import LineString, MultiLineString, MultiPolygon, affinity, line_merge
from shapely.geometry.base import BaseGeometry

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.inks import LABEL, METAL, STAGE_INKS
from tracksworn.documents.drawing.outline import hatch, lines
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Line, Point, Stroke
from tracksworn.documents.drawing.profiles.key import AS_NEW, BY_EYE, DESTROYED, LIMIT, NOT_SEEN, NOW
from tracksworn.documents.drawing.profiles.section import Section
from tracksworn.documents.drawing.profiles.subject import Subject

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
        fine = moved.simplify(0.008)
        return _areas(fine if fine.is_valid else fine.buffer(0))

    def line(self, points: tuple[Point, ...]) -> Line:
        """A line of the part on the sheet."""
        return Line(tuple(self.at(point) for point in points))


def paint(pile: Pile, frame: Frame, subject: Subject) -> None:
    """The whole section but its labels."""
    section = subject.section
    cuts = MultiLineString([[frame.at(point) for point in cut] for cut in section.cuts]).buffer(_NEAR, quad_segs=2)
    new = frame.area(section.solid(subject.as_new))
    if subject.now is not None:
        _paint_measured(pile, frame, subject, new, cuts)
    elif subject.basis is Basis.BY_EYE:
        _paint_by_eye(pile, frame, subject, new, cuts)
    elif subject.basis is Basis.NOT_SEEN:
        _trace(pile, new.boundary.difference(cuts), NOT_SEEN)
    else:
        pile.fill(METAL, *lines(new))
        _trace(pile, new.boundary.difference(cuts), NOW)
    if subject.destroyed is not None:
        line = frame.area(section.solid(subject.destroyed)).boundary
        _trace(pile, line.difference(new.boundary.buffer(_NEAR, quad_segs=2)).difference(cuts), DESTROYED)
    _paint_about(pile, frame, section)


def _paint_measured(pile: Pile, frame: Frame, subject: Subject, new: BaseGeometry, cuts: BaseGeometry) -> None:
    section, losses = subject.section, subject.shown
    now, limit = frame.area(section.worn(losses)), frame.area(section.solid(subject.limit))
    metal = _common(now, limit)
    left = _less(now, limit)
    if min(losses) >= 0:
        metal = metal.union(_less(now, new))  # what has rolled over an edge is no metal left to wear
        left = _common(left, new)
    pile.fill(METAL, *lines(_without_slivers(metal)))
    for stage, gone, here in _by_face(frame, subject, new, left):
        pile.fill(STAGE_INKS[stage], *lines(_without_slivers(here)))
        crossed = stage is Stage.PAST_LIMIT
        pile.extend(hatch(_without_slivers(gone), _SPACING, crossed=crossed), Stroke(_HATCH, STAGE_INKS[stage]))
    outline = now.boundary
    beside_now, beside_new = (line.buffer(_NEAR, quad_segs=2) for line in (outline, new.boundary))
    _trace(pile, new.boundary.difference(beside_now).difference(cuts), AS_NEW)
    _trace(pile, limit.boundary.difference(beside_now).difference(beside_new).difference(cuts), LIMIT)
    _trace_now(pile, frame, section, outline.difference(cuts))


def _by_face(
    frame: Frame, subject: Subject, new: BaseGeometry, left: BaseGeometry
) -> Iterator[tuple[Stage, BaseGeometry, BaseGeometry]]:
    """Stage, what has gone and what is left above the limit, face by face where these wear apart."""
    section, losses = subject.section, subject.shown
    whole = _less(new, frame.area(section.worn(losses)))
    if not section.apart or len(subject.faces()) == 1:
        yield subject.worn.gauge.stage or Stage.FIRST_HALF, whole, left
        return
    for index, worn in subject.faces():
        alone = tuple(loss if index == face else 0.0 for face, loss in enumerate(losses))
        at_limit = tuple(subject.given.limit if index == face else 0.0 for face in range(len(losses)))
        gone = _common(whole, _less(new, frame.area(section.worn(alone))))
        here = _less(left, frame.area(section.solid(at_limit)))
        whole, left = _less(whole, gone), _less(left, here)
        yield worn.gauge.stage or Stage.FIRST_HALF, gone, here


def _paint_by_eye(pile: Pile, frame: Frame, subject: Subject, new: BaseGeometry, cuts: BaseGeometry) -> None:
    """No edge of wear: what wears is dashed as new, the ends of the range are dashed, the rest is drawn as it is."""
    section = subject.section
    limit = frame.area(section.solid(subject.limit))
    ends = [frame.area(section.solid(losses)) for losses in subject.ends]
    least = limit
    for end in ends:
        least = _common(least, end)
    kept, beside = least.boundary.buffer(_NEAR, quad_segs=2), new.boundary.buffer(_NEAR, quad_segs=2)
    pile.fill(METAL, *lines(least))
    _trace_now(pile, frame, section, new.boundary.intersection(kept).difference(cuts))
    _trace(pile, new.boundary.difference(kept).difference(cuts), AS_NEW)
    taken = beside
    for end in ends:
        _trace(pile, end.boundary.difference(beside).difference(cuts), BY_EYE)
        taken = taken.union(end.boundary.buffer(_NEAR, quad_segs=2))
    _trace(pile, limit.boundary.difference(taken).difference(cuts), LIMIT)


def _trace_now(pile: Pile, frame: Frame, section: Section, outline: BaseGeometry) -> None:
    """The edge as it is now, dashed where wear was seen but not measured."""
    if section.unsure is not None:
        unsure = frame.area(section.unsure)
        _trace(pile, outline.intersection(unsure), BY_EYE)
        outline = outline.difference(unsure)
    _trace(pile, outline, NOW)


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


def _common(one: BaseGeometry, other: BaseGeometry) -> BaseGeometry:
    return _areas(one.intersection(other))


def _less(one: BaseGeometry, other: BaseGeometry) -> BaseGeometry:
    return _areas(one.difference(other))


def _areas(geometry: BaseGeometry) -> BaseGeometry:
    """Without the points and lines that cutting can leave."""
    if geometry.geom_type in ("Polygon", "MultiPolygon"):
        return geometry
    return MultiPolygon([part for part in getattr(geometry, "geoms", []) if part.geom_type == "Polygon"])


def _without_slivers(area: BaseGeometry) -> BaseGeometry:
    """The area without what cutting leaves along its edges."""
    return area.buffer(-0.02, join_style="mitre").buffer(0.02, join_style="mitre")


def _trace(pile: Pile, geometry: BaseGeometry, pen: Stroke) -> None:
    merged = line_merge(geometry) if geometry.geom_type == "MultiLineString" else geometry
    for part in getattr(merged, "geoms", [merged]):
        if isinstance(part, LineString) and part.length > 3 * _NEAR:
            points = tuple((x, y) for x, y, *_ in part.coords)
            closed = points[0] == points[-1]
            pile.stroke(pen, Line(points[:-1] if closed else points, closed=closed))
