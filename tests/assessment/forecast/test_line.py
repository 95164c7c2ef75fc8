"""A straight line through readings, and when its prediction bounds meet a level."""

import math

import pytest
from histories import forecast_of, only_row, walk, worn
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq
from strategies import numbers

from tracksworn.assessment.decisions import ForecastRow, RateFrom
from tracksworn.assessment.forecast.line import Line
from tracksworn.assessment.uncertainty import coverage_factor

WALKS = ((4000.0, 11.0), (5000.0, 29.0), (6000.0, 52.0), (7000.0, 69.0))


def forecast_row(*walks: tuple[float, float]) -> ForecastRow:
    *earlier, now = (walk(hours, worn(percent)) for hours, percent in walks)
    return only_row(forecast_of(now, *earlier))


def test_from_three_earlier_inspections_a_line_governs() -> None:
    row = forecast_row(*WALKS)
    line = Line.through(WALKS)
    assert row.rate_from is RateFrom.LINE
    assert row.rate_per_100_h == pytest.approx(1.97)
    assert row.hours_left == pytest.approx((100.0 - line.at(7000.0)) / 0.0197)
    assert row.over == 3000.0
    assert row.rates == pytest.approx({RateFrom.SINCE_FITTED: None, RateFrom.BETWEEN: 1.7})


def test_two_earlier_inspections_make_no_line() -> None:
    assert forecast_row(*WALKS[1:]).rate_from is RateFrom.BETWEEN


def test_its_ends_are_where_the_prediction_bounds_meet_the_limit() -> None:
    row, line = forecast_row(*WALKS), Line.through(WALKS)
    t = coverage_factor(2)

    def upper(x: float) -> float:
        return line.at(x) + t * math.sqrt(line.variance_at(x)) - 100.0

    def lower(x: float) -> float:
        return line.at(x) - t * math.sqrt(line.variance_at(x)) - 100.0

    assert row.hours_low == pytest.approx(brentq(upper, 7000.0, 20_000.0) - 7000.0)
    assert row.hours_high == pytest.approx(brentq(lower, 7000.0, 20_000.0) - 7000.0)


def test_a_line_whose_slope_may_be_nought_has_no_upper_end() -> None:
    row = forecast_row((4000.0, 30.0), (5000.0, 20.0), (6000.0, 45.0), (7000.0, 40.0))
    assert row.rate_from is RateFrom.LINE
    assert row.hours_low < row.hours_left
    assert row.hours_high is None


def test_points_on_a_line_leave_no_doubt() -> None:
    row = forecast_row((4000.0, 20.0), (5000.0, 40.0), (6000.0, 60.0), (7000.0, 80.0))
    assert (row.hours_left, row.hours_low, row.hours_high) == pytest.approx((1000.0, 1000.0, 1000.0))


def test_a_line_that_falls_leaves_the_other_rates() -> None:
    row = forecast_row((4000.0, 60.0), (5000.0, 50.0), (6000.0, 30.0), (7000.0, 40.0))
    assert row.rate_from is RateFrom.BETWEEN
    assert row.rate_per_100_h == pytest.approx(1.0)


def test_past_the_limit_nothing_is_left_whatever_the_line_says() -> None:
    row = forecast_row((4000.0, 30.0), (5000.0, 50.0), (6000.0, 70.0), (7000.0, 101.0))
    assert row.rate_from is RateFrom.LINE
    assert (row.hours_left, row.hours_low) == (0.0, 0.0)


@given(st.lists(st.tuples(numbers(0.0, 9000.0), numbers(-20.0, 120.0)), min_size=3, max_size=8))
def test_it_goes_through_the_mean_and_its_residuals_balance(points: list[tuple[float, float]]) -> None:
    assume(max(x for x, _ in points) - min(x for x, _ in points) > 1.0)
    line = Line.through(points)
    residuals = [y - line.at(x) for x, y in points]
    assert math.fsum(residuals) == pytest.approx(0.0, abs=1e-6)
    assert math.fsum(each * x for each, (x, _) in zip(residuals, points, strict=True)) == pytest.approx(0.0, abs=1e-2)
