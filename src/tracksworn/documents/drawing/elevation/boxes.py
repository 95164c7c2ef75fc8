"""Boxes round type, and the room on the sheet that is still free for it."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.plain import Text
from tracksworn.documents.drawing.type import CAP_HEIGHT, DESCENT, MM_PER_POINT, text_width

_AIR: Final = 0.75
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
    along = np.where(ends == starts, 1e-12, ends - starts)
    a, b = (boxes[..., :2] - starts) / along, (boxes[..., 2:] - starts) / along
    enters = np.maximum(np.minimum(a, b).max(axis=-1), 0.0)
    leaves = np.minimum(np.maximum(a, b).min(axis=-1), 1.0)
    within: NDArray[np.bool_] = enters < leaves
    return within


def cross(starts: Numbers, ends: Numbers, others: Numbers, other_ends: Numbers) -> NDArray[np.bool_]:
    """Whether straight lines cross others, each (…, 2), broadcast against one another. Ends that touch do not count."""

    def apart(line: Numbers, line_end: Numbers, a: Numbers, b: Numbers) -> NDArray[np.bool_]:
        along = line_end - line
        sides = [along[..., 0] * (at - line)[..., 1] - along[..., 1] * (at - line)[..., 0] for at in (a, b)]
        opposite: NDArray[np.bool_] = sides[0] * sides[1] < -1e-9
        return opposite

    return apart(starts, ends, others, other_ends) & apart(others, other_ends, starts, ends)


class Room:
    """Which square millimetres of a sheet are taken."""

    def __init__(self, width: float, height: float, taken: BaseGeometry) -> None:
        self.columns, self.rows = int(width), int(height)
        x, y = np.meshgrid(np.arange(self.columns) + 0.5, np.arange(self.rows) + 0.5)
        grown = taken.buffer(_AIR)
        shapely.prepare(grown)
        self._taken: NDArray[np.bool_] = shapely.contains_xy(grown, x, y)

    def copy(self) -> "Room":
        """The same to try something in."""
        other = object.__new__(Room)
        other.columns, other.rows, other._taken = self.columns, self.rows, self._taken.copy()
        return other

    def take(self, box: Box) -> None:
        """Mark a box as taken."""
        self._taken[max(int(box.top), 0) : int(box.bottom) + 1, max(int(box.left), 0) : int(box.right) + 1] = True

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
        sums = np.zeros((self.rows + 1, self.columns + 1), dtype=np.int32)
        sums[1:, 1:] = self._taken.cumsum(axis=0).cumsum(axis=1)
        free = np.zeros((self.rows, self.columns), dtype=bool)
        if width > self.columns or height > self.rows:
            return free
        field = sums[height:, width:] - sums[:-height, width:] - sums[height:, :-width] + sums[:-height, :-width]
        free[: self.rows - height + 1, : self.columns - width + 1] = field == 0
        return free
