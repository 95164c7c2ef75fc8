"""Hand-made rows of a forecast and pieces of planned work, for tests of what is said of them."""

from typing import Any

from tracksworn.assessment.decisions import ForecastRow, PlannedWork, RateFrom
from tracksworn.documents.words.figures import NO_BREAK, THIN
from tracksworn.inspection.prices import Work
from tracksworn.inspection.vocabulary import Component, Side


def plain(text: str) -> str:
    """With ordinary blanks."""
    return text.replace(THIN, " ").replace(NO_BREAK, " ")


def forecast_row(
    component: Component, side: Side, low: float, best: float, high: float | None, **more: Any
) -> ForecastRow:
    values: dict[str, Any] = {
        "position": None,
        "rate_per_100_h": 2.0,
        "rate_from": RateFrom.SINCE_FITTED,
        "rates": {RateFrom.SINCE_FITTED: 2.0, RateFrom.BETWEEN: None},
        "date_low": None,
        "date_high": None,
        "whole_life": 4000.0,
        "over": 3202.0,
    }
    return ForecastRow(
        component=component, side=side, hours_left=best, hours_low=low, hours_high=high, **(values | more)
    )


def piece(component: Component, side: Side, way: Work = Work.REPLACE, position: int | None = None) -> PlannedWork:
    return PlannedWork(component, side, position, way, 1000.0, 100.0, 500.0, 0.0)
