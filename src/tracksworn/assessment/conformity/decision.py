"""How surely a figure lies under what is allowed, and the guards of a decision (JCGM 106:2012, ILAC-G8:09/2019)."""

import math
from dataclasses import dataclass

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.decisions import Result
from tracksworn.assessment.student import normal, student
from tracksworn.assessment.uncertainty import Budget, coverage_factor


@dataclass(frozen=True, slots=True)
class Margin:
    """What is allowed less what was measured, in points, and how well that is known."""

    points: float
    standard: float
    dof: float

    def guard(self, confidence: float, tested: int = 1) -> float:
        """g = t(ν)·u at risk (1 − confidence)/2 each way, the risk divided among so many rows tested."""
        return coverage_factor(self.dof, 1.0 - (1.0 - confidence) / tested) * self.standard

    @property
    def probability(self) -> float:
        """That the true figure is at most what is allowed: T_ν(margin / u), the normal distribution at infinite ν."""
        if self.standard == 0.0:
            return 0.0 if exceeds(0.0, self.points) else 1.0
        reduced = self.points / self.standard
        return student(self.dof, reduced) if math.isfinite(self.dof) else normal(reduced)


def margin(worn: float, budget: Budget, allowed: float, doubt_of_allowed: float) -> Margin:
    """The margin of a measured figure, points; `doubt_of_allowed` is a standard uncertainty with infinite ν.

    ν by Welch-Satterthwaite over both, ν = u⁴ / (u(w)⁴/ν(w)).
    """
    of_figure, dof = budget.standard, budget.dof
    standard = math.hypot(of_figure, doubt_of_allowed)
    if math.isfinite(dof) and of_figure > 0.0:
        dof *= (standard / of_figure) ** 4
    return Margin(allowed - worn, standard, dof)


def decide(points: float, guard_of_passing: float, guard_of_failing: float) -> Result:
    """Passes with at least the one guard to spare, fails past what is allowed by more than the other."""
    if not exceeds(guard_of_passing, points):
        return Result.PASSES
    return Result.FAILS if exceeds(-points, guard_of_failing) else Result.UNDECIDED
