"""Forecasts written by hand, as short as a note."""

from typing import Any

from tracksworn.assessment.decisions import ForecastRow, RateFrom
from tracksworn.inspection.vocabulary import ROLLERS, Component, Side


def ahead(
    component: Component,
    side: Side,
    hours: float,
    within: float | None = 100.0,
    *,
    position: int | None = None,
    rate_from: RateFrom = RateFrom.SINCE_FITTED,
    **more: Any,
) -> ForecastRow:
    """So many hours left, give or take as many; None is no upper end."""
    rates = more.pop("rates", {rate_from: 2.0})
    settings = {"whole_life": 5000.0, "over": 4000.0} | more
    return ForecastRow(
        component,
        side,
        position if position is not None or component not in ROLLERS else 1,
        rate_per_100_h=rates[rate_from],
        rate_from=rate_from,
        rates=rates,
        hours_left=hours,
        hours_low=hours - (100.0 if within is None else within),
        hours_high=None if within is None else hours + within,
        date_low=None,
        date_high=None,
        **settings,
    )


def both(
    component: Component, left: float, right: float, within: float | None = 100.0, **more: Any
) -> tuple[ForecastRow, ...]:
    """One component on both sides."""
    return ahead(component, Side.LEFT, left, within, **more), ahead(component, Side.RIGHT, right, within, **more)
