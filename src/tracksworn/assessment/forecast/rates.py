"""How fast a part wears: since it was fitted, and between two inspections (API 510 7.1.1, API 570 7.1.1)."""

from dataclasses import dataclass

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.forecast.history import History
from tracksworn.assessment.forecast.line import Line
from tracksworn.assessment.uncertainty import Budget, weighted_sum

FEWEST_FOR_A_LINE = 4
"""Readings, the present one among them, from which on a line through all of them governs."""


@dataclass(frozen=True, slots=True)
class Rate:
    """Points of even wear an hour, above 0, with all that makes them doubtful, and the hours that they rest on."""

    per_hour: float
    budget: Budget
    over: float


def since_fitted(history: History) -> Rate | None:
    """The long-term rate, g(w)/h for h evidenced hours since the part was fitted or turned."""
    now, hours = history.now, history.hours_on
    if hours is None or not exceeds(hours, 0.0) or not exceeds(now.worn, 0.0):
        return None
    return Rate(now.worn / hours, now.budget.times(1.0 / hours), hours)


def between_inspections(history: History) -> Rate | None:
    """The short-term rate, Δg/Δh since the latest earlier reading that pairs with the present one."""
    if not history.earlier:
        return None
    now, then = history.now, history.earlier[-1]
    grown, hours = now.worn - then.worn, now.hours - then.hours
    if not exceeds(grown, 0.0):
        return None
    return Rate(grown / hours, weighted_sum([(1.0 / hours, now.budget), (-1.0 / hours, then.budget)]), hours)


def line_of(history: History) -> Line | None:
    """The line of even wear on machine hours, where there are readings enough and it rises."""
    seen = (*history.earlier, history.now)
    if len(seen) < FEWEST_FOR_A_LINE:
        return None
    line = Line.through([(each.hours, each.worn) for each in seen])
    return line if exceeds(line.slope * hours_covered(history), 0.0) else None


def hours_covered(history: History) -> float:
    """Hours between the first reading that counts and the present one."""
    return history.now.hours - min(seen.hours for seen in history.earlier)
