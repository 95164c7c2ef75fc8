"""Outlines in the drawing's millimetres: hatching, and shapes to polygons and back. Shapely does the cutting."""

import math
from collections.abc import Iterable

from shapely import MultiLineString, intersection
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.plain import Line, Point


def polygon(points: Iterable[Point]) -> Polygon:
    """A polygon of its corners."""
    return Polygon(list(points))


def disc(centre: Point, radius: float) -> Polygon:
    """A circle as a polygon fine enough for print."""
    return ShapelyPoint(centre).buffer(radius, quad_segs=24)


def ring(centre: Point, inner: float, outer: float) -> BaseGeometry:
    """What lies between two circles."""
    return disc(centre, outer).difference(disc(centre, inner))


def lines(area: BaseGeometry) -> tuple[Line, ...]:
    """The outlines of an area, holes included, for an even-odd fill."""
    polygons = [part for part in getattr(area, "geoms", [area]) if isinstance(part, Polygon) and not part.is_empty]
    rings = [ring for part in polygons for ring in (part.exterior, *part.interiors)]
    return tuple(Line(tuple((x, y) for x, y, *_ in ring.coords[:-1]), closed=True) for ring in rings)


def hatch(area: BaseGeometry, spacing: float, *, crossed: bool = False, angle: float = 45.0) -> tuple[Line, ...]:
    """Parallel lines `spacing` mm apart clipped to an area; `crossed` adds those at right angles.

    The lines stand on a grid of the sheet, not of the area, so hatching runs on from part to part.
    """
    first = _hatch_one_way(area, spacing, angle)
    return first + _hatch_one_way(area, spacing, angle - 90.0) if crossed else first


def _hatch_one_way(area: BaseGeometry, spacing: float, angle: float) -> tuple[Line, ...]:
    if area.is_empty:
        return ()
    along = (math.cos(math.radians(angle)), -math.sin(math.radians(angle)))
    across = (-along[1], along[0])
    left, top, right, bottom = area.bounds
    corners = [(x, y) for x in (left, right) for y in (top, bottom)]
    offsets = [x * across[0] + y * across[1] for x, y in corners]
    runs = [x * along[0] + y * along[1] for x, y in corners]
    start, end = min(runs) - 1, max(runs) + 1
    grid = range(math.ceil(min(offsets) / spacing), math.floor(max(offsets) / spacing) + 1)
    rays = MultiLineString([_ray(along, across, k * spacing, start, end) for k in grid])
    return tuple(Line(tuple(piece.coords)) for piece in _pieces(intersection(area, rays)))


def _ray(along: Point, across: Point, offset: float, start: float, end: float) -> list[Point]:
    return [(along[0] * run + across[0] * offset, along[1] * run + across[1] * offset) for run in (start, end)]


def _pieces(cut: BaseGeometry) -> list[BaseGeometry]:
    return [piece for piece in getattr(cut, "geoms", [cut]) if piece.geom_type == "LineString" and not piece.is_empty]
