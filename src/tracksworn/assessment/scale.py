"""From a size to percent worn, and how far an error of the size, or of the chart, moves it."""

from dataclasses import dataclass

from tracksworn.assessment.curves import Curve, Straight
from tracksworn.inspection.chart import ChartComponent, Dimensions, ImpactLimits
from tracksworn.inspection.vocabulary import Between, Impact


@dataclass(frozen=True, slots=True)
class Local:
    """Percent worn at one size, and its signed sensitivities in points per mm."""

    percent: float
    to_size: float
    to_new: float
    to_limit: float


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


def _curve(dimensions: Dimensions, new: float, limit: float) -> Curve:
    if dimensions.table is None:
        return Straight(((new, 0.0), (limit, 100.0)))
    if dimensions.between is Between.STRAIGHT:
        return Straight(dimensions.table)
    from tracksworn.assessment.monotone import Monotone  # noqa: PLC0415 - few charts need scipy.interpolate

    return Monotone(dimensions.table)
