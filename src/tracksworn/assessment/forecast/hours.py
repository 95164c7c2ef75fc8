"""Hours until a part reaches its limit, and how surely. Hours past the limit are never foretold."""

from dataclasses import dataclass

from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.forecast.history import History
from tracksworn.assessment.forecast.line import Line
from tracksworn.assessment.forecast.rates import Rate
from tracksworn.assessment.forecast.reach import Growth
from tracksworn.assessment.uncertainty import covariance, coverage_factor


@dataclass(frozen=True, slots=True)
class HoursLeft:
    """Hours from the inspection, none of them negative; `high` None: no upper end (95 %)."""

    expected: float
    low: float
    high: float | None


def left_since_fitted(history: History, rate: Rate) -> HoursLeft:
    """(g(100) − g(w))/(g(w)/h), with its ends at w + U and w − U, for one error moves wear and rate together."""
    even, percent, within = history.even, history.percent, history.uncertainty

    def hours(worn: float) -> float:
        return (even.limit - even.at(worn)) / (even.at(worn) / rate.over)

    high = hours(percent - within) if exceeds(even.at(percent - within), 0.0) else None
    return _cut(history, hours(percent), hours(percent + within), high)


def left_between(history: History, rate: Rate) -> HoursLeft:
    """All H at which |g(100) − g(w) − r·H| ≤ t·u(g(w) + r·H), r and g(w) with the errors they share; t at r's ν."""
    now = history.now
    gap = history.even.limit - now.worn
    growth = Growth(
        gap, rate.per_hour, now.budget.standard**2, covariance(now.budget, rate.budget), rate.budget.standard**2
    )
    low, high = growth.reached(coverage_factor(rate.budget.dof))
    return _cut(history, gap / rate.per_hour, low, high)


def left_along(history: History, line: Line) -> HoursLeft:
    """Where the line meets g(100), and its 95 % prediction bounds for one new observation do."""
    now = history.now.hours
    gap = history.even.limit - line.at(now)
    growth = Growth(gap, line.slope, line.variance_at(now), line.covariance_at(now), line.slope_variance)
    low, high = growth.reached(coverage_factor(line.dof))
    return _cut(history, gap / line.slope, low, high)


def _cut(history: History, expected: float, low: float, high: float | None) -> HoursLeft:
    """The three in order and not under 0; at the limit, and past it, no hours are left."""
    middle = 0.0 if reaches(history.percent, 100.0) else max(expected, 0.0)
    return HoursLeft(middle, min(max(low, 0.0), middle), None if high is None else max(high, middle))
