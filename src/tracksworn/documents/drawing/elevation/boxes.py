"""Boxes round type, and the room on the sheet that is still free for it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.outline import Areas
from tracksworn.documents.drawing.plain import Point, Text
from tracksworn.documents.drawing.type import CAP_HEIGHT, DESCENT, MM_PER_POINT, text_width

_AIR: Final = 0.75
_COARSE: Final = 0.05
Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Box:
    """Upright, in the sheet's mm."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "Box") -> bool:
        """Whether the two overlap."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )

    def grown(self, by: float) -> "Box":
        """The same with air all round."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def moved(self, right: float, down: float) -> "Box":
        """The same elsewhere."""
        return Box(self.left + right, self.top + down, self.right + right, self.bottom + down)

    def nearest(self, at: Point) -> Point:
        """The point of the box that is nearest to another."""
        return min(max(at[0], self.left), self.right), min(max(at[1], self.top), self.bottom)

    @property
    def sides(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        return self.left, self.top, self.right, self.bottom


def around(boxes: Iterable[Box]) -> Box:
    """The least box that holds them all."""
    every = tuple(boxes)
    return Box(
        min(box.left for box in every), min(box.top for box in every),
        max(box.right for box in every), max(box.bottom for box in every),
    )  # fmt: skip


def text_box(text: Text) -> Box:
    """What a line of type takes, from the top of its capitals to the foot of its descenders."""
    width, em = text_width(text), text.size * MM_PER_POINT
    x, y = text.at
    left = x - width * {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
    return Box(left, y - CAP_HEIGHT * em, left + width, y + DESCENT * em)


def crossed(boxes: Numbers, starts: Numbers, ends: Numbers) -> NDArray[np.bool_]:
    """Whether straight lines pass through boxes (Liang and Barsky's clipping).

    Shapes (…, 4) of left, top, right, bottom and (…, 2), broadcast against one another.
    """
    enters, leaves = np.zeros(()), np.ones(())
    for axis in (0, 1):
        start, along = starts[..., axis], ends[..., axis] - starts[..., axis]
        along = np.where(along == 0.0, 1e-12, along)
        a, b = (boxes[..., axis] - start) / along, (boxes[..., axis + 2] - start) / along
        enters, leaves = np.maximum(enters, np.minimum(a, b)), np.minimum(leaves, np.maximum(a, b))
    within: NDArray[np.bool_] = np.less(enters, leaves)
    return within


def squared_distances(points: Numbers, starts: Numbers, ends: Numbers) -> Numbers:
    """How far points are from straight lines, squared, each (…, 2), broadcast against one another."""
    along, there = ends - starts, points - starts
    length = np.maximum(along[..., 0] ** 2 + along[..., 1] ** 2, 1e-12)
    share = np.clip((there[..., 0] * along[..., 0] + there[..., 1] * along[..., 1]) / length, 0.0, 1.0)
    x, y = there[..., 0] - share * along[..., 0], there[..., 1] - share * along[..., 1]
    squares: Numbers = x * x + y * y
    return squares


def cross(starts: Numbers, ends: Numbers, others: Numbers, other_ends: Numbers) -> NDArray[np.bool_]:
    """Whether straight lines cross others, each (…, 2), broadcast against one another. Ends that touch do not count."""

    def apart(line: Numbers, line_end: Numbers, a: Numbers, b: Numbers) -> NDArray[np.bool_]:
        along = line_end - line
        sides = [along[..., 0] * (at - line)[..., 1] - along[..., 1] * (at - line)[..., 0] for at in (a, b)]
        opposite: NDArray[np.bool_] = sides[0] * sides[1] < -1e-9
        return opposite

    return apart(starts, ends, others, other_ends) & apart(others, other_ends, starts, ends)


def _raster(areas: BaseGeometry | Areas, rows: int, columns: int) -> NDArray[np.bool_]:
    """Which middles of square millimetres lie in an area: along each row an outline is met where in and out change.

    What lies in an even number of areas lies in none.
    """
    rings = shapely.get_rings(shapely.get_parts(areas))
    corners, of_ring = shapely.get_coordinates(rings, return_index=True)
    same = of_ring[1:] == of_ring[:-1]
    start, end = corners[:-1][same], corners[1:][same]
    low, high = np.minimum(start[:, 1], end[:, 1]) - 0.5, np.maximum(start[:, 1], end[:, 1]) - 0.5
    first = np.clip(np.ceil(low), 0, rows).astype(int)  # an edge meets the rows k with low <= k < high
    many = np.maximum(np.clip(np.ceil(high), 0, rows).astype(int) - first, 0)
    edge = np.repeat(np.arange(len(start)), many)
    row = first[edge] + np.arange(len(edge)) - np.repeat(np.cumsum(many) - many, many)
    share = (row + 0.5 - start[edge, 1]) / (end - start)[edge, 1]
    across = start[edge, 0] + share * (end - start)[edge, 0]
    column = np.clip(np.ceil(across - 0.5), 0, columns).astype(int)
    changes = np.bincount(row * (columns + 1) + column, minlength=rows * (columns + 1)).reshape(rows, columns + 1)
    within: NDArray[np.bool_] = changes.cumsum(axis=1)[:, :columns] % 2 == 1
    return within


def _grown(areas: Sequence[BaseGeometry], by: Sequence[float]) -> Areas:
    """Areas, coarsely, with so much air round each; less than nothing where they shrink."""
    grown: Areas = shapely.buffer(shapely.simplify(areas, _COARSE, preserve_topology=False), by, quad_segs=2)
    return grown


class Room:
    """Which square millimetres of a sheet are taken."""

    def __init__(self, width: float, height: float) -> None:
        self.columns, self.rows = int(width), int(height)
        self._taken: NDArray[np.bool_] = np.zeros((self.rows, self.columns), dtype=bool)
        self._sums: NDArray[np.int32] | None = None

    @classmethod
    def only(cls, width: float, height: float, free: BaseGeometry) -> "Room":
        """A sheet of which nothing is free but an area, less air within it."""
        room = cls(width, height)
        room._taken = ~_raster(_grown([free], [-_AIR]), room.rows, room.columns)
        return room

    def copy(self) -> "Room":
        """The same to try something in."""
        other = object.__new__(Room)
        other.columns, other.rows, other._taken, other._sums = self.columns, self.rows, self._taken.copy(), self._sums
        return other

    def take(self, box: Box) -> None:
        """Mark a box as taken."""
        self._taken[max(int(box.top), 0) : int(box.bottom) + 1, max(int(box.left), 0) : int(box.right) + 1] = True
        self._sums = None

    def take_area(self, area: BaseGeometry) -> None:
        """Mark an area as taken, with air round it."""
        self._take(_raster(_grown([area], [_AIR]), self.rows, self.columns))

    def take_band(self, outside: BaseGeometry, inside: BaseGeometry) -> None:
        """Mark what lies in one area and not in another within it as taken, with air on both sides."""
        self._take(_raster(_grown([outside, inside], [_AIR, -_AIR]), self.rows, self.columns))

    def take_discs(self, discs: Numbers) -> None:
        """Mark discs as taken, with air round each: centre and radius, (n, 3)."""
        x = np.arange(self.columns) + 0.5 - discs[:, 0, None]
        y = np.arange(self.rows) + 0.5 - discs[:, 1, None]
        within: NDArray[np.bool_] = (x * x)[:, None] + (y * y)[:, :, None] < ((discs[:, 2] + _AIR) ** 2)[:, None, None]
        self._take(np.logical_or.reduce(within))

    def _take(self, fields: NDArray[np.bool_]) -> None:
        self._taken |= fields
        self._sums = None

    def taken_at(self, points: Numbers) -> NDArray[np.bool_]:
        """Whether places (…, 2) are taken; what lies off the sheet is."""
        column, row = np.floor(points[..., 0]).astype(int), np.floor(points[..., 1]).astype(int)
        off = (column < 0) | (row < 0) | (column >= self.columns) | (row >= self.rows)
        taken: NDArray[np.bool_] = off | self._taken[row % self.rows, column % self.columns]
        return taken

    def is_free(self, box: Box) -> bool:
        """Whether a box lies on the sheet and meets nothing."""
        if box.left < 0 or box.top < 0 or box.right > self.columns or box.bottom > self.rows:
            return False
        return not self._taken[int(box.top) : int(box.bottom) + 1, int(box.left) : int(box.right) + 1].any()

    def free(self, width: int, height: int) -> NDArray[np.bool_]:
        """Whether a field of so many mm, with its upper left corner at (row, column), is free."""
        if self._sums is None:
            self._sums = np.zeros((self.rows + 1, self.columns + 1), dtype=np.int32)
            self._taken.cumsum(axis=0, dtype=np.int32).cumsum(axis=1, out=self._sums[1:, 1:])
        sums = self._sums
        free = np.zeros((self.rows, self.columns), dtype=bool)
        if width > self.columns or height > self.rows:
            return free
        field = sums[height:, width:] - sums[:-height, width:] - sums[height:, :-width] + sums[:-height, :-width]
        free[: self.rows - height + 1, : self.columns - width + 1] = field == 0
        return free
