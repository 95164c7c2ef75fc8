"""One look at a machine among others, and what two looks share of their errors.

Spread, seat and resolution are made anew each time, and so is the error of a gauge without a name. A named gauge with
its day of calibration, an inspector, tolerance and doubts about the chart are the same at every inspection of a part.
"""

from collections.abc import Callable, Hashable
from dataclasses import dataclass

from tracksworn.assessment.fitting import machine_hours
from tracksworn.assessment.model import Parts
from tracksworn.assessment.uncertainty import Budget, Contribution, Kind, Source
from tracksworn.inspection.model import Inspection

NEW_EACH_TIME = frozenset({Kind.SPREAD, Kind.SEAT, Kind.RESOLUTION})
OF_THE_CHART = frozenset({Kind.TOLERANCE, Kind.NEW_DOUBT, Kind.LIMIT})
HOURS_A_DAY = 24.0


@dataclass(frozen=True, slots=True)
class Occasion:
    """One look at a machine, and what it found."""

    inspection: Inspection
    parts: Parts

    @property
    def hours(self) -> float | None:
        """Machine hours then, on whatever evidence."""
        return machine_hours(self.inspection, word_counts=True)


def most_hours_between(earlier: Occasion, later: Occasion) -> float:
    """Machine hours between two looks; where either is unknown, as many as their days can hold (ISO 15143-3)."""
    if earlier.hours is not None and later.hours is not None:
        return later.hours - earlier.hours
    return HOURS_A_DAY * (later.inspection.inspected - earlier.inspection.inspected).days


def on_occasion(budget: Budget, occasion: Hashable) -> Budget:
    """The budget with all that was made anew on this occasion told apart from every other occasion's."""
    return told_apart(budget, occasion, _is_new)


def of_its_own(budget: Budget, kinds: frozenset[Kind], owner: Hashable) -> Budget:
    """The budget with errors of these kinds told apart from everybody else's: another machine's, another part's."""
    return told_apart(budget, owner, lambda source: source.kind in kinds)


def without_chart(budget: Budget) -> Budget:
    """What remains where both figures stand on one chart: no tolerance, no doubt of new size or limit."""
    kept = {source: part for source, part in budget.contributions.items() if source.kind not in OF_THE_CHART}
    return Budget(kept)


def told_apart(budget: Budget, mark: Hashable, applies: Callable[[Source], bool]) -> Budget:
    """The budget with those errors that it applies to shared only with what bears the same mark."""

    def renamed(source: Source) -> Source:
        return Source(source.kind, (*source.of, mark)) if applies(source) else source

    return Budget(
        {
            renamed(source): Contribution(part.points, part.dof, part.rests_on and renamed(part.rests_on))
            for source, part in budget.contributions.items()
        }
    )


def _is_new(source: Source) -> bool:
    return source.kind in NEW_EACH_TIME or source == Source(Kind.INSTRUMENT)
