"""Which rate of wear governs, and the hours that it leaves."""

from dataclasses import dataclass

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.decisions import RateFrom
from tracksworn.assessment.forecast.history import History
from tracksworn.assessment.forecast.hours import HoursLeft, left_along, left_between, left_since_fitted
from tracksworn.assessment.forecast.line import Line
from tracksworn.assessment.forecast.rates import (
    Rate,
    between_inspections,
    hours_covered,
    line_of,
    since_fitted,
)
from tracksworn.assessment.uncertainty import weighted_sum


@dataclass(frozen=True, slots=True)
class Outlook:
    """Points of even wear an hour, what they rest on and over how many hours, and the hours left."""

    per_hour: float
    rate_from: RateFrom
    over: float
    left: HoursLeft


@dataclass(frozen=True, slots=True)
class Rates:
    """Every rate above 0 that a history gives."""

    since_fitted: Rate | None
    between: Rate | None
    line: Line | None

    @classmethod
    def of(cls, history: History) -> "Rates":
        """The rates of one history."""
        return cls(since_fitted(history), between_inspections(history), line_of(history))

    @property
    def per_100_h(self) -> dict[RateFrom, float | None]:
        """The long-term and the short-term rate, per 100 h."""
        both = {RateFrom.SINCE_FITTED: self.since_fitted, RateFrom.BETWEEN: self.between}
        return {rate_from: None if rate is None else 100.0 * rate.per_hour for rate_from, rate in both.items()}


def outlook(history: History, rates: Rates) -> Outlook | None:
    """By the line, where there is one; else by the rate that governs; None without any."""
    if rates.line is not None:
        left = left_along(history, rates.line)
        return Outlook(rates.line.slope, RateFrom.LINE, hours_covered(history), left)
    short, long = rates.between, rates.since_fitted
    if short is not None and (long is None or _exceeds(short, long)):
        return Outlook(short.per_hour, RateFrom.BETWEEN, short.over, left_between(history, short))
    if long is not None:
        return Outlook(long.per_hour, RateFrom.SINCE_FITTED, long.over, left_since_fitted(history, long))
    return None


def _exceeds(short: Rate, long: Rate) -> bool:
    """Whether the one rate is above the other by more than U of their difference, with the errors they share."""
    difference = weighted_sum([(1.0, short.budget), (-1.0, long.budget)])
    return exceeds(short.per_hour - long.per_hour, difference.expanded)
