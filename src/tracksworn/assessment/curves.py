"""Percent worn over size: chords between the rows of a table, or any other curve with a slope."""

from bisect import bisect_right
from dataclasses import dataclass
from typing import Protocol

from tracksworn.assessment.boundaries import TIE


class Curve(Protocol):
    """Percent worn over size."""

    def at(self, size: float) -> tuple[float, float]:
        """Percent and local slope (points per mm, negative where the size shrinks with wear)."""


@dataclass(frozen=True, slots=True)
class Straight:
    """Chords between rows of (size in mm, percent) in the order of percent; the outermost chords go on."""

    rows: tuple[tuple[float, float], ...]

    def at(self, size: float) -> tuple[float, float]:
        """Percent and slope; on a row between two chords the steeper slope holds."""
        for before, row, after in zip(self.rows, self.rows[1:], self.rows[2:], strict=False):
            if abs(size - row[0]) <= TIE:
                return row[1], max(_slope(before, row), _slope(row, after), key=abs)
        return chord_at(self.rows, size)


def chord_at(rows: tuple[tuple[float, float], ...], size: float) -> tuple[float, float]:
    """Percent and slope on the chord through the two rows beside a size, or on the outermost beyond them."""
    growth = 1.0 if rows[-1][0] > rows[0][0] else -1.0
    index = bisect_right(rows, growth * size, key=lambda row: growth * row[0]) - 1
    index = min(max(index, 0), len(rows) - 2)
    (size_0, percent_0), (size_1, percent_1) = rows[index], rows[index + 1]
    part = (size - size_0) / (size_1 - size_0)
    return percent_0 + (percent_1 - percent_0) * part, _slope(rows[index], rows[index + 1])


def _slope(row: tuple[float, float], following: tuple[float, float]) -> float:
    return (following[1] - row[1]) / (following[0] - row[0])
