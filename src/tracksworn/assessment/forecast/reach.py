"""When a figure that grows at a doubtful rate is at a level."""

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Growth:
    """A figure that lies `gap` below a level and grows at `rate` > 0 an hour.

    H hours from now its variance is `variance` + 2·`covariance`·H + `rate_variance`·H².
    """

    gap: float
    rate: float
    variance: float
    covariance: float
    rate_variance: float

    def reached(self, factor: float) -> tuple[float, float | None]:
        """First and last H ≥ 0 at which the level is within `factor` standard uncertainties of the figure.

        |gap − rate·H| ≤ factor·u(H) is a quadratic a·H² − 2b·H + c ≤ 0. There is no last H where the rate is not
        larger than its own uncertainty (a ≤ 0).
        """
        squared = factor**2
        a = self.rate**2 - squared * self.rate_variance
        b = self.gap * self.rate + squared * self.covariance
        c = self.gap**2 - squared * self.variance
        root = self._root(squared)
        first = 0.0
        if self.gap > 0.0 and c > 0.0:
            first = c / (b + root) if b > 0.0 else (b - root) / a
        if a <= 0.0:
            return first, None
        last = (b + root) / a if b >= 0.0 else c / (b - root)
        return first, max(last, 0.0)

    def _root(self, squared: float) -> float:
        """√(b² − a·c), multiplied out so that nothing large cancels; its radicand is never negative but by rounding."""
        of_both = (
            self.rate**2 * self.variance
            + 2.0 * self.gap * self.rate * self.covariance
            + self.gap**2 * self.rate_variance
        )
        unshared = self.variance * self.rate_variance - self.covariance**2
        return math.sqrt(max(squared * (of_both - squared * unshared), 0.0))
