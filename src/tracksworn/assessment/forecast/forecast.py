"""When each side's governing part reaches its limit."""

from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.forecast.dates import day_after
from tracksworn.assessment.forecast.even import ignores_hardening
from tracksworn.assessment.forecast.history import governing_rows, history_of, hours_on
from tracksworn.assessment.forecast.outlook import Rates, outlook
from tracksworn.assessment.model import Row
from tracksworn.assessment.so_far import SoFar


def forecast(so_far: SoFar) -> tuple[ForecastRow, ...] | None:
    """One row for each side with a measured governing figure and a rate; None where nothing was told to forecast from.

    `so_far.earlier` holds the older inspections, assessed with the present chart and assumed values.
    """
    if not so_far.earlier and all(hours_on(so_far, row) is None for row in so_far.components):
        return None
    rows = (_forecast_of(so_far, row) for row in governing_rows(so_far))
    return tuple(row for row in rows if row is not None)


def _forecast_of(so_far: SoFar, row: Row) -> ForecastRow | None:
    history = history_of(so_far, row)
    if history is None or row.scale is None:
        return None
    rates = Rates.of(history)
    found = outlook(history, rates)
    if found is None:
        return None
    inspected, a_week = so_far.inspection.inspected, so_far.inspection.machine.hours_per_week
    return ForecastRow(
        component=row.component,
        side=row.side,
        position=row.position,
        rate_per_100_h=100.0 * found.per_hour,
        rate_from=found.rate_from,
        rates=rates.per_100_h,
        hours_left=found.left.expected,
        hours_low=found.left.low,
        hours_high=found.left.high,
        date_low=day_after(inspected, found.left.low, a_week),
        date_high=day_after(inspected, found.left.high, a_week),
        whole_life=history.even.limit / found.per_hour,
        over=found.over,
        hardening_ignored=ignores_hardening(row.component, row.scale),
    )
