"""How far the readings of one place scatter, pooled over both sides with what is known beforehand."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.scale import Local


@dataclass(frozen=True, slots=True)
class Read:
    """One sample on its scale. `spread` in mm is the chart's for the way it was read, if any."""

    local: tuple[Local, ...]
    spread: float | None = None


@dataclass(frozen=True, slots=True)
class Pooled:
    """A standard deviation in points with its degrees of freedom."""

    deviation: float
    dof: float
    assumed: bool  # whether it rests on an assumed value
    repeated: bool  # whether any side or position has two readings or more


def pooled_chain(reads: Sequence[Read], table: Assumptions) -> Pooled:
    """The scatter from joint to joint at one place of a chain, both sides.

    Known beforehand is the chart's spread times the mean local slope of the readings whose way has one.
    """
    slopes = [(abs(local.to_size), read.spread) for read in reads if read.spread is not None for local in read.local]
    if not slopes:
        return _pool(reads, table.spread, table.prior_dof, assumed=True)
    return _pool(reads, math.fsum(s * spread for s, spread in slopes) / len(slopes), table.prior_dof, assumed=False)


def pooled_repeats(reads: Sequence[Read], table: Assumptions) -> Pooled:
    """The scatter between repeats of one spot, over both sides and all positions at the same place."""
    return _pool(reads, table.seat, table.prior_dof, assumed=True)


def mean(values: Sequence[float]) -> float:
    """Arithmetic mean."""
    return math.fsum(values) / len(values)


def _pool(reads: Sequence[Read], known: float, known_dof: float, *, assumed: bool) -> Pooled:
    """s² = (ν₀s₀² + Σ(n−1)s²)/(ν₀ + Σ(n−1)), with ν₀ + Σ(n−1) degrees of freedom (GUM 4.2.4, H.3.6)."""
    squares, dof = known_dof * known**2, known_dof
    for read in reads:
        middle = mean([local.percent for local in read.local])
        squares += math.fsum((local.percent - middle) ** 2 for local in read.local)
        dof += len(read.local) - 1
    return Pooled(math.sqrt(squares / dof), dof, assumed, repeated=dof > known_dof)
