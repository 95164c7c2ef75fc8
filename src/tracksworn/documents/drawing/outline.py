"""Outlines in the drawing's millimetres: hatching, and shapes to polygons and back. Shapely does the cutting."""

import math
from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.plain import Line, Point, Runs

Edges = tuple[NDArray[np.float64], NDArray[np.float64]]
"""The starts and the ends of the edges round areas, each (n, 2)."""

Areas = NDArray[np.object_]
"""Geometries, (n)."""

Corners = NDArray[np.float64]
"""Of outlines, (n, 2)."""


def disc(centre: Point, radius: float) -> Polygon:
    """A circle as a polygon fine enough for print."""
    return ShapelyPoint(centre).buffer(radius, quad_segs=24)


def coarse_discs(centres: Sequence[Point], radius: float) -> Areas:
    """Small circles as polygons of a third of the corners."""
    fine = shapely.buffer(shapely.points(np.array(centres)), radius, quad_segs=24)
    corners = shapely.get_coordinates(fine).reshape(len(centres), -1, 2)
    coarse: Areas = shapely.polygons(corners[:, ::3])
    return coarse


def ring(centre: Point, inner: float, outer: float) -> BaseGeometry:
    """What lies between two circles."""
    return disc(centre, outer).difference(disc(centre, inner))


def rings(areas: Areas) -> tuple[Corners, tuple[int, ...]]:
    """The corners of all outlines of areas, holes included, (n, 2), and how many each outline has."""
    corners, of_ring = shapely.get_coordinates(shapely.get_rings(areas), return_index=True)
    closes = np.append(of_ring[1:] != of_ring[:-1], np.ones(min(len(of_ring), 1), dtype=bool))
    return corners[~closes], tuple((np.bincount(of_ring) - 1).tolist())


def lines(area: BaseGeometry) -> tuple[Runs, ...]:
    """The outlines of an area, holes included, for an even-odd fill; none of nothing."""
    corners, counts = rings(shapely.get_parts(area))
    return (Runs(tuple(corners.ravel().tolist()), counts, closed=True),) if counts else ()


def hatch(area: BaseGeometry, spacing: float, *, crossed: bool = False, angle: float = 45.0) -> tuple[Line, ...]:
    """Parallel lines `spacing` mm apart clipped to an area, whose parts must not overlap; `crossed` adds those across.

    The lines stand on a grid of the sheet, not of the area, so hatching runs on from part to part.
    """
    ways = hatch_within(edges_of(area), spacing, crossed=crossed, angle=angle)
    return tuple(line for way in ways for line in way.lines)


def hatch_corners(corners: Sequence[Point], spacing: float, *, crossed: bool = False) -> tuple[Runs, ...]:
    """The same within one area by its corners."""
    return hatch_within(edges_of_rings(np.array([corners])), spacing, crossed=crossed)


def hatch_within(edges: Edges, spacing: float, *, crossed: bool = False, angle: float = 45.0) -> tuple[Runs, ...]:
    """The same within the edges of areas."""
    first = _hatch_one_way(edges, spacing, angle)
    return first + _hatch_one_way(edges, spacing, angle - 90.0) if crossed else first


def _hatch_one_way(edges: Edges, spacing: float, angle: float) -> tuple[Runs, ...]:
    """A line of the grid meets the outlines at an even number of places; between first and second it is within."""
    start, end = edges
    if not len(start):
        return ()
    along = np.array((math.cos(math.radians(angle)), -math.sin(math.radians(angle))))
    across = np.array((-along[1], along[0]))
    low, high = start @ across / spacing, end @ across / spacing
    first = np.ceil(np.minimum(low, high)).astype(int)  # an edge meets the lines k with low <= k < high
    many = np.maximum(np.ceil(np.maximum(low, high)).astype(int) - first, 0)
    edge = np.repeat(np.arange(len(start)), many)
    k = first[edge] + np.arange(len(edge)) - np.repeat(np.cumsum(many) - many, many)
    share = (k - low[edge]) / (high - low)[edge]
    run = (start[edge] + share[:, None] * (end - start)[edge]) @ along
    order = np.lexsort((run, k))
    ends = (run[order, None] * along + k[order, None] * spacing * across).reshape(-1, 2, 2)
    return runs(_joined(ends, k[order][::2]))


def edges_of_rings(rings: NDArray[np.float64]) -> Edges:
    """The edges of closed outlines of k corners each, (n, k, 2)."""
    return rings.reshape(-1, 2), np.roll(rings, -1, axis=1).reshape(-1, 2)


def edges_of(area: BaseGeometry) -> Edges:
    """The edges of an area."""
    rings = shapely.get_rings(shapely.get_parts(area))
    corners, of_ring = shapely.get_coordinates(rings, return_index=True)
    same = of_ring[1:] == of_ring[:-1]
    return corners[:-1][same], corners[1:][same]


def runs(points: NDArray[np.float64], *, closed: bool = False) -> tuple[Runs, ...]:
    """As many lines as there are rows, (n, k, 2), as one shape; none of nothing."""
    many, each, _ = points.shape
    return (Runs(tuple(points.ravel().tolist()), (each,) * many, closed),) if many else ()


def _joined(ends: NDArray[np.float64], k: NDArray[np.int_]) -> NDArray[np.float64]:
    """Pieces of one line of the grid that touch, where two parts of the area do, as one."""
    rounded = np.round(ends, 4)
    goes_on = (k[1:] == k[:-1]) & (rounded[1:, 0] == rounded[:-1, 1]).all(axis=1)
    first, last = np.append(True, ~goes_on), np.append(~goes_on, True)
    return np.stack((rounded[first, 0], rounded[last, 1]), axis=1)
