"""When a figure that grows at a doubtful rate is at a level."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from strategies import numbers

from tracksworn.assessment.forecast.reach import Growth

ERRORS = st.lists(st.tuples(numbers(-5.0, 5.0), numbers(-0.02, 0.02)), min_size=1, max_size=4)
"""Of each source what it adds to the figure now, and to the rate."""


def growth(gap: float, rate: float, errors: list[tuple[float, float]]) -> Growth:
    return Growth(
        gap,
        rate,
        math.fsum(now**2 for now, _ in errors),
        math.fsum(now * of_rate for now, of_rate in errors),
        math.fsum(of_rate**2 for _, of_rate in errors),
    )


def excess(found: Growth, factor: float, hours: float) -> float:
    """How far the level is outside of the interval of the figure after so many hours; 0 or less is within."""
    variance = found.variance + 2.0 * found.covariance * hours + found.rate_variance * hours**2
    return abs(found.gap - found.rate * hours) - factor * math.sqrt(max(variance, 0.0))


@given(numbers(0.5, 100.0), numbers(1e-4, 0.1), ERRORS, numbers(1.5, 4.0))
def test_the_level_is_within_the_interval_from_first_to_last(
    gap: float, rate: float, errors: list[tuple[float, float]], factor: float
) -> None:
    found = growth(gap, rate, errors)
    first, last = found.reached(factor)
    expected = gap / rate
    room = 1e-6 * gap
    assert 0.0 <= first <= expected * (1.0 + 1e-9)
    assert excess(found, factor, first) <= room
    if first > 0.0:
        assert excess(found, factor, 0.0) > 0.0
        assert excess(found, factor, first * (1.0 - 1e-3)) > -room
    if last is None:
        assert excess(found, factor, 1000.0 * expected) <= 1e-6 * rate * 1000.0 * expected
        return
    assert last >= expected * (1.0 - 1e-9)
    assert abs(excess(found, factor, last)) <= 1e-5 * (gap + rate * last)


@given(numbers(0.5, 100.0), numbers(1e-4, 0.1), ERRORS, numbers(1.5, 4.0))
def test_there_is_a_last_hour_exactly_where_the_rate_is_larger_than_its_uncertainty(
    gap: float, rate: float, errors: list[tuple[float, float]], factor: float
) -> None:
    found = growth(gap, rate, errors)
    doubt = factor * math.sqrt(found.rate_variance)
    assume(not math.isclose(rate, doubt, rel_tol=1e-9))
    assert (found.reached(factor)[1] is None) is (rate < doubt)


def test_without_doubt_it_is_one_hour() -> None:
    assert growth(20.0, 0.02, [(0.0, 0.0)]).reached(2.0) == pytest.approx((1000.0, 1000.0))


def test_past_the_level_for_certain_nothing_is_left() -> None:
    assert growth(-20.0, 0.02, [(1.0, 0.0)]).reached(2.0) == (0.0, 0.0)


def test_past_the_level_perhaps() -> None:
    """Two standard uncertainties of 1 about a figure that is 1 past its level: it may still have 1 to go."""
    assert growth(-1.0, 0.02, [(1.0, 0.0)]).reached(2.0) == pytest.approx((0.0, 50.0))


def test_a_rate_that_may_be_nought_has_a_first_hour_alone() -> None:
    first, last = growth(20.0, 0.02, [(0.0, 0.02)]).reached(2.0)
    assert first == pytest.approx(20.0 / 0.06)
    assert last is None
