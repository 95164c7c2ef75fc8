"""A straight line through several readings, and how surely it foretells the next one."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tracksworn.assessment.spread import mean


@dataclass(frozen=True, slots=True)
class Line:
    """An unweighted least-squares line y on x through `count` points, three or more (NBS Handbook 91, 5-4.1)."""

    count: int
    slope: float
    middle: tuple[float, float]  # mean x, mean y: the line goes through it
    square: float  # Σ (x − mean x)²
    deviation: float  # s of the points about the line, on n − 2 degrees of freedom

    @classmethod
    def through(cls, points: Sequence[tuple[float, float]]) -> "Line":
        """The line through (x, y) of which two at least have different x."""
        x, y = (mean(values) for values in zip(*points, strict=True))
        square = math.fsum((each - x) ** 2 for each, _ in points)
        slope = math.fsum((each - x) * (value - y) for each, value in points) / square
        left_over = math.fsum((value - y - slope * (each - x)) ** 2 for each, value in points)
        return cls(len(points), slope, (x, y), square, math.sqrt(left_over / (len(points) - 2)))

    @property
    def dof(self) -> int:
        """Degrees of freedom of `deviation`."""
        return self.count - 2

    @property
    def slope_variance(self) -> float:
        """Variance of the slope, s²/Σ(x − mean x)²."""
        return self.deviation**2 / self.square

    def at(self, x: float) -> float:
        """The line's y."""
        return self.middle[1] + self.slope * (x - self.middle[0])

    def variance_at(self, x: float) -> float:
        """Variance of one new observation at x about the line, s²(1 + 1/n + (x − mean x)²/Σ(x − mean x)²)."""
        return self.deviation**2 * (1.0 + 1.0 / self.count + (x - self.middle[0]) ** 2 / self.square)

    def covariance_at(self, x: float) -> float:
        """Covariance of the line's y at x with its slope."""
        return self.slope_variance * (x - self.middle[0])
