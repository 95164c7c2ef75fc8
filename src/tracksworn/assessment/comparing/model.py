"""What two machines, or two inspections of one, differ by. Points of percent worn."""

from dataclasses import dataclass

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.model import Assessment
from tracksworn.assessment.occasions import Occasion
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component, PartPlace, Side


@dataclass(frozen=True, slots=True)
class Assessed:
    """An inspection with its chart and what follows from it."""

    inspection: Inspection
    chart: WearChart | None
    assessment: Assessment

    @property
    def occasion(self) -> Occasion:
        """The look and what it found, without the chart."""
        return Occasion(self.inspection, self.assessment)


@dataclass(frozen=True, slots=True)
class Gap:
    """First less second, with its 95 % uncertainty; told apart where it is larger than that."""

    points: float
    uncertainty: float

    @property
    def told_apart(self) -> bool:
        """Whether the difference is larger than its uncertainty."""
        return exceeds(abs(self.points), self.uncertainty)


@dataclass(frozen=True, slots=True)
class SideGap:
    """The governing figures of one side of a component, first less second; `gap` None where there is no pair."""

    component: Component
    side: Side
    gap: Gap | None


@dataclass(frozen=True, slots=True)
class Agreement:
    """Two inspections of one machine at one place: E_n = |w₁ − w₂| / √(U₁² + U₂²), in agreement up to 1."""

    component: Component
    side: Side
    position: int | None
    place: PartPlace | None
    first: float  # percent worn
    second: float
    e_n: float

    @property
    def agrees(self) -> bool:
        """Whether the two are no further apart than their doubt, E_n up to 1."""
        return not exceeds(self.e_n, 1.0)


@dataclass(frozen=True, slots=True)
class Difference:
    """Two assessed inspections, the first less the second."""

    overall: Gap | None  # None where either has no middle figure
    sides: tuple[SideGap, ...]
    same_machine: bool
    agreement: tuple[Agreement, ...] = ()  # of one machine only
