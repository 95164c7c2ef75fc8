"""From a size to percent worn, and how far an error of the size, or of the chart, moves it."""

from bisect import bisect_right
from dataclasses import dataclass
from typing import Protocol

from tracksworn.assessment.stages import TIE
from tracksworn.inspection.chart import ChartComponent, Dimensions, ImpactLimits
from tracksworn.inspection.vocabulary import Between, Impact


@dataclass(frozen=True, slots=True)
class Local:
    """Percent worn at one size, and its signed sensitivities in points per mm."""

    percent: float
    to_size: float
    to_new: float
    to_limit: float


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


@dataclass(frozen=True, slots=True)
class Scale:
    """How one way of measuring turns size into percent worn. Sizes in mm."""

    new: float
    limit: float
    curve: Curve
    dimensions: Dimensions  # for its doubts and its spread
    by_impact: bool = False  # whether the limit depends on how hard the machine works

    def read(self, size: float) -> Local:
        """Percent worn and sensitivities at a size x, new size N and limit L.

        Without a table w = 100 (N − x)/(N − L), whose derivatives are −100/(N−L) to x, (100−w)/(N−L) to N and
        w/(N−L) to L. With one, its ends stretch the table: −slope·(x−L)/(N−L) to N, −slope·(N−x)/(N−L) to L.
        """
        percent, slope = self.curve.at(size)
        span = self.new - self.limit
        return Local(percent, slope, -slope * (size - self.limit) / span, -slope * (self.new - size) / span)


def limit_at(limit: float | ImpactLimits, new: float, impact: Impact | None) -> float:
    """The limit that applies, mm; where nobody told the impact, the one nearer to the new size."""
    if not isinstance(limit, ImpactLimits):
        return limit
    return limit.at(impact or assumed_impact(limit, new))


def assumed_impact(limit: ImpactLimits, new: float) -> Impact:
    """The impact whose limit is nearer to the new size."""
    return Impact.HIGH if abs(new - limit.high) <= abs(new - limit.low) else Impact.LOW


def dimensions_for(entry: ChartComponent | None, gauge: str | None) -> Dimensions | None:
    """What the chart says of a component measured with that gauge; None where it has no sizes for it."""
    if entry is None:
        return None
    return entry.ways.get(gauge or "", entry.dimensions)


def scale_for(entry: ChartComponent | None, gauge: str | None, at_end: bool, impact: Impact | None) -> Scale | None:
    """The scale for a component, its gauge, and whether it is the first or last of its row; None without sizes."""
    dimensions = dimensions_for(entry, gauge)
    if entry is None or dimensions is None:
        return None
    sizes = entry.ends if at_end and entry.ends is not None else dimensions
    limit = limit_at(sizes.limit, sizes.new, impact)
    by_impact = isinstance(sizes.limit, ImpactLimits)
    return Scale(sizes.new, limit, _curve(dimensions, sizes.new, limit), dimensions, by_impact)


def chord_at(rows: tuple[tuple[float, float], ...], size: float) -> tuple[float, float]:
    """Percent and slope on the chord through the two rows beside a size, or on the outermost beyond them."""
    growth = 1.0 if rows[-1][0] > rows[0][0] else -1.0
    index = bisect_right(rows, growth * size, key=lambda row: growth * row[0]) - 1
    index = min(max(index, 0), len(rows) - 2)
    (size_0, percent_0), (size_1, percent_1) = rows[index], rows[index + 1]
    part = (size - size_0) / (size_1 - size_0)
    return percent_0 + (percent_1 - percent_0) * part, _slope(rows[index], rows[index + 1])


def _curve(dimensions: Dimensions, new: float, limit: float) -> Curve:
    if dimensions.table is None:
        return Straight(((new, 0.0), (limit, 100.0)))
    if dimensions.between is Between.STRAIGHT:
        return Straight(dimensions.table)
    from tracksworn.assessment.monotone import Monotone  # noqa: PLC0415 - few charts need scipy.interpolate

    return Monotone(dimensions.table)


def _slope(row: tuple[float, float], following: tuple[float, float]) -> float:
    return (following[1] - row[1]) / (following[0] - row[0])
