"""Sources of error, what they add up to, and the interval that follows (JCGM 100:2008, the GUM)."""

from collections.abc import Hashable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Source:
    """One error that was made once. Everything that shares it names an equal source."""

    kind: str
    of: tuple[Hashable, ...] = ()


@dataclass(frozen=True, slots=True)
class Contribution:
    """Signed standard contribution in points (sensitivity times standard uncertainty), resting on `dof`."""

    points: float
    dof: float = float("inf")


@dataclass(frozen=True, slots=True)
class Budget:
    """What every source contributes to one figure."""

    contributions: Mapping[Source, Contribution]
