"""Sources of error, what they add up to, and the interval that follows (JCGM 100:2008, the GUM)."""

import math
from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import lru_cache

from tracksworn.assessment.student import normal_quantile, student_quantile

CONFIDENCE = 0.95
"""Of every interval, two-sided."""


class Kind(StrEnum):
    """Where an error comes from."""

    SPREAD = "spread"  # from joint to joint, or between repeats of one spot
    SEAT = "seat"
    RESOLUTION = "resolution"
    INSPECTOR = "inspector"
    INSTRUMENT = "instrument"
    TOLERANCE = "tolerance"
    NEW_DOUBT = "new doubt"
    LIMIT = "limit"


@dataclass(frozen=True, slots=True)
class Source:
    """One error that was made once. Everything that shares it names an equal source."""

    kind: Kind
    of: tuple[Hashable, ...] = ()


@dataclass(frozen=True, slots=True)
class Contribution:
    """Signed standard contribution in points (sensitivity times standard uncertainty), resting on `dof`.

    Errors of different sources whose size was estimated from one standard deviation name it in `rests_on`: they are
    independent of each other, but one doubt about that deviation is a doubt about all of them.
    """

    points: float
    dof: float = math.inf
    rests_on: Source | None = None


@dataclass(frozen=True, slots=True)
class Budget:
    """What every source contributes to one figure."""

    contributions: Mapping[Source, Contribution] = field(default_factory=dict)

    @property
    def standard(self) -> float:
        """Combined standard uncertainty u in points: root of the sum of squares (GUM 5.1.2)."""
        return math.sqrt(sum(part.points**2 for part in self.contributions.values()))

    @property
    def dof(self) -> float:
        """Effective degrees of freedom by Welch-Satterthwaite, ν = u⁴ / Σ (uₛ⁴/νₛ), not rounded (GUM G.4.1).

        Contributions that rest on one standard deviation are one term, (Σ of their variances)²/ν.
        """
        return self._dof(self.standard)

    def _dof(self, standard: float) -> float:
        terms: dict[Source, tuple[float, float]] = {}
        for source, part in self.contributions.items():
            if math.isfinite(part.dof):
                key = part.rests_on or source
                terms[key] = (terms.get(key, (0.0, part.dof))[0] + part.points**2, part.dof)
        doubt = sum(variance**2 / dof for variance, dof in terms.values())
        return standard**4 / doubt if doubt > 0.0 else math.inf

    @property
    def expanded(self) -> float:
        """Expanded uncertainty U = t(ν)·u in points, 95 % two-sided (GUM G.3)."""
        return self.interval()[0]

    def interval(self) -> tuple[float, float | None]:
        """U, and the ν that it rests on, None where that is infinite."""
        standard = self.standard
        dof = self._dof(standard)
        return coverage_factor(dof) * standard, dof if math.isfinite(dof) else None

    def times(self, factor: float) -> "Budget":
        """The budget of the figure multiplied by a constant."""
        return self if factor == 1.0 else weighted_sum([(factor, self)])


CERTAIN = Budget()
"""The budget of a figure that nothing makes doubtful, or whose doubt is told otherwise."""


@lru_cache(maxsize=4096)
def coverage_factor(dof: float, confidence: float = CONFIDENCE) -> float:
    """Student's t for a two-sided interval at `dof` degrees of freedom, whole or not (GUM Table G.2)."""
    upper = 0.5 + confidence / 2.0
    return student_quantile(dof, upper) if math.isfinite(dof) else normal_quantile(upper)


def weighted_sum(terms: Iterable[tuple[float, Budget]]) -> Budget:
    """The budget of Σ weight · figure: contributions of one source add up with their sign (GUM 5.2.2)."""
    total: dict[Source, Contribution] = {}
    for weight, budget in terms:
        for source, part in budget.contributions.items():
            before = total.get(source)
            points = weight * part.points if before is None else before.points + weight * part.points
            total[source] = Contribution(points, part.dof, part.rests_on)
    return Budget(total)


def covariance(one: Budget, other: Budget) -> float:
    """Covariance of two figures in points²: the products of what they share, source by source (GUM F.1.2.3)."""
    shared = other.contributions
    return math.fsum(
        part.points * shared[source].points for source, part in one.contributions.items() if source in shared
    )
