"""The pin line: arcs round the wheels, outer tangents between them, hanging where nothing carries it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate
from typing import Final

from tracksworn.documents.drawing.elevation.wheels import Wheel, wraps
from tracksworn.documents.drawing.plain import Point
from tracksworn.inspection.vocabulary import Component

_STEP: Final = math.radians(1.5)
_PIECES_OF_A_HANGING_RUN: Final = 24


@dataclass(frozen=True, slots=True)
class PinLine:
    """A closed line through its points, counter-clockwise; the last point is the first again.

    `lengths` are those along the line up to each point. The upper run, from the sprocket over the top rollers to the
    front idler, goes from point `leaves` to point `arrives`.
    """

    points: tuple[Point, ...]
    lengths: tuple[float, ...]
    leaves: int
    arrives: int

    @property
    def length(self) -> float:
        """All round."""
        return self.lengths[-1]


def pin_line(row: Sequence[Wheel], step: float = _STEP) -> PinLine:
    """The line from the middle of the first wheel's arc all round; `step` is the angle from point to point on it."""
    turns = wraps(list(row))
    first, (met, turn) = row[0], turns[0]
    points = list(_arc(first, met + turn / 2, turn / 2, step))
    leaves, arrives = len(points) - 1, 0
    for wheel, following, (start, angle) in zip(row, [*row[1:], first], [*turns[1:], turns[0]], strict=True):
        points += _run(points[-1], following.at(start), wheel.sag)
        if following.part is Component.FRONT_IDLER:
            arrives = len(points) - 1
        if following is not first:
            points += _arc(following, start, angle, _STEP)[1:]
    points += _arc(first, met + turn / 2, -turn / 2, step)[-2::-1]
    lengths = accumulate(map(math.dist, points, points[1:]), initial=0.0)
    return PinLine(tuple(points), tuple(lengths), leaves, arrives)


@lru_cache(maxsize=64)
def _arc(wheel: Wheel, start: float, turn: float, step: float) -> tuple[Point, ...]:
    """Points on a wheel `step` apart from `start` on, and the end of the turn; most stay while the idler is moved."""
    whole = int(abs(turn) / step - 1e-9)
    angles = [start + math.copysign(step, turn) * k for k in range(whole + 1)]
    return tuple([wheel.at(angle) for angle in [*angles, start + turn]])


def _run(start: Point, end: Point, sag: float) -> list[Point]:
    """A run between two wheels without its start: straight, or hanging by 4 f t (1 − t), f its share of the length."""
    if not sag:
        return [end]
    depth = sag * math.dist(start, end)
    steps = [k / _PIECES_OF_A_HANGING_RUN for k in range(1, _PIECES_OF_A_HANGING_RUN + 1)]
    return [
        (start[0] + (end[0] - start[0]) * t, start[1] + (end[1] - start[1]) * t - 4 * depth * t * (1 - t))
        for t in steps
    ]
