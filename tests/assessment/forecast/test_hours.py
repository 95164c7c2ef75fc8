"""Hours left and how surely, against the same questions answered by searching."""

import math
from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest
from builders import chart, wears
from histories import DEPTH_GAUGE, LINKS, fitted_at, forecast_of, only_row, walk, worn
from scipy.optimize import brentq

from tracksworn.assessment.assess import assess
from tracksworn.assessment.model import Row
from tracksworn.assessment.occasions import on_occasion
from tracksworn.assessment.uncertainty import Budget, coverage_factor, weighted_sum
from tracksworn.inspection.chart import Case, WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component

CASED = chart(wears(Component.LINK, 200.0, 100.0, spread=1.0, tolerance=2.0, case=Case(60.0, 3.0)))
FITTED = {Component.LINK: fitted_at(1000.0)}


def even(percent: float) -> float:
    return min(percent, 60.0) + max(percent - 60.0, 0.0) / 3.0


def row_of(seen: Inspection, by: WearChart) -> tuple[Row, float]:
    row = assess(seen, by).components[0]
    assert row.uncertainty is not None
    return row, row.uncertainty


@pytest.mark.parametrize("percent", [20.0, 58.0, 60.0, 75.0, 98.0])
def test_since_fitted_one_error_moves_wear_and_rate_together(percent: float) -> None:
    seen = walk(6000.0, worn(percent), fitted=FITTED)
    row, (_, within) = only_row(forecast_of(seen, by=CASED)), row_of(seen, CASED)

    def hours(worn: float) -> float:
        return (even(100.0) - even(worn)) / (even(worn) / 5000.0)

    assert row.hours_left == pytest.approx(hours(percent))
    assert row.hours_low == pytest.approx(max(hours(percent + within), 0.0))
    assert row.hours_high == pytest.approx(hours(percent - within))


def test_since_fitted_a_part_that_may_be_as_new_has_no_upper_end() -> None:
    row = only_row(forecast_of(walk(6000.0, worn(3.0), fitted=FITTED)))
    assert row.hours_low < row.hours_left == pytest.approx(97.0 / 3.0 * 5000.0)
    assert (row.hours_high, row.date_high) == (None, None)


@pytest.mark.parametrize("percent", [100.0, 100.0 - 1e-10, 103.0])
def test_at_the_limit_nothing_is_left(percent: float) -> None:
    row = only_row(forecast_of(walk(6000.0, worn(percent), fitted=FITTED, hours_per_week=35.0)))
    assert (row.hours_left, row.hours_low) == (0.0, 0.0)
    assert row.date_low == date(2022, 1, 20)
    assert row.hours_high is not None
    assert row.hours_high > 0.0


def test_far_past_the_limit_nothing_is_left_for_certain() -> None:
    row = only_row(forecast_of(walk(6000.0, worn(120.0), fitted=FITTED)))
    assert (row.hours_left, row.hours_low, row.hours_high) == (0.0, 0.0, 0.0)
    row = only_row(forecast_of(walk(6000.0, worn(120.0)), walk(5000.0, worn(60.0))))
    assert (row.hours_left, row.hours_low, row.hours_high) == (0.0, 0.0, 0.0)


def searched(excess: Callable[[float], float], expected: float) -> tuple[float, float]:
    """Both ends of where an excess is not above 0, from a point within."""
    return float(brentq(excess, 0.0, expected)), float(brentq(excess, expected, 20.0 * expected))


BY_ANOTHER = {"inspector": "Tom Wren", "tool": replace(DEPTH_GAUGE, calibrated=date(2029, 1, 1))}


@pytest.mark.parametrize("others", [{}, BY_ANOTHER], ids=["same hand and gauge", "other hand and gauge"])
@pytest.mark.parametrize(("before", "now"), [(20.0, 45.0), (40.0, 70.0), (63.0, 90.0)])
def test_between_inspections_what_both_share_counts_once(before: float, now: float, others: dict[str, str]) -> None:
    seen, older = walk(6000.0, worn(now)), walk(4000.0, worn(before), **others)  # type: ignore[arg-type]
    row = only_row(forecast_of(seen, older, by=CASED))
    slopes = [1.0 if percent < 60.0 else 1.0 / 3.0 for percent in (now, before)]
    budgets = [on_occasion(row_of(one, CASED)[0].budget or Budget(), when) for when, one in enumerate((seen, older))]
    worn_now, worn_then = (weighted_sum([(slope, budget)]) for slope, budget in zip(slopes, budgets, strict=True))
    rate = weighted_sum([(1 / 2000, worn_now), (-1 / 2000, worn_then)])
    t, r, gap = coverage_factor(rate.dof), (even(now) - even(before)) / 2000, even(100.0) - even(now)

    def excess(hours: float) -> float:
        return abs(gap - r * hours) - t * weighted_sum([(1.0, worn_now), (hours, rate)]).standard

    low, high = searched(excess, gap / r)
    assert (row.hours_left, row.hours_low, row.hours_high) == pytest.approx((gap / r, low, high))


def test_between_inspections_a_rate_that_may_be_nought_has_no_upper_end() -> None:
    row = only_row(forecast_of(walk(6000.0, worn(50.0)), walk(5000.0, worn(49.5)), by=LINKS))
    assert row.hours_high is None
    assert 0.0 < row.hours_low < row.hours_left == pytest.approx(100_000.0)


def test_the_longer_ago_the_earlier_reading_the_surer() -> None:
    now = walk(9000.0, worn(60.0))
    spans = []
    for hours, percent in ((8000.0, 50.0), (6000.0, 30.0), (3000.0, 0.0)):
        row = only_row(forecast_of(now, walk(hours, worn(percent))))
        assert row.hours_high is not None
        spans.append(row.hours_high - row.hours_low)
    assert spans == sorted(spans, reverse=True)
    assert math.isclose(only_row(forecast_of(now, walk(3000.0, worn(0.0)))).hours_left, 4000.0)
