"""Wear through a hardened case, made even."""

from typing import Any

import pytest
from builders import wears
from hypothesis import given
from hypothesis import strategies as st
from strategies import numbers

from tracksworn.assessment.forecast.even import EvenWear, ignores_hardening
from tracksworn.assessment.scale import Scale, scale_for
from tracksworn.inspection.chart import Case
from tracksworn.inspection.vocabulary import Component

CASED = EvenWear(Case(60.0, 3.0))


def scale(**more: Any) -> Scale:
    found = scale_for(wears(Component.LINK, 143.0, 128.0, **more), None, False, None)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("percent", "even", "slope"),
    [(-5.0, -5.0, 1.0), (30.0, 30.0, 1.0), (60.0, 60.0, 1 / 3), (60.0 - 1e-10, 60.0, 1 / 3), (90.0, 70.0, 1 / 3)],
)
def test_below_the_case_a_point_is_worn_in_a_third_of_the_hours(percent: float, even: float, slope: float) -> None:
    assert CASED.at(percent) == pytest.approx(even)
    assert CASED.slope(percent) == pytest.approx(slope)


def test_limit() -> None:
    assert CASED.limit == pytest.approx(60.0 + 40.0 / 3.0)
    assert EvenWear().limit == 100.0


@given(numbers(-20.0, 150.0), numbers(-20.0, 150.0), numbers(1.0, 99.0), numbers(0.1, 10.0))
def test_it_grows_with_wear(one: float, other: float, ends_at: float, times: float) -> None:
    even = EvenWear(Case(ends_at, times))
    less, more = sorted((one, other))
    assert even.at(less) <= even.at(more)


@given(numbers(0.0, 140.0), numbers(1.0, 99.0), st.sampled_from((0.5, 2.0, 5.0)))
def test_its_slope_is_its_derivative(percent: float, ends_at: float, times: float) -> None:
    even, step = EvenWear(Case(ends_at, times)), 1e-4
    if abs(percent - ends_at) > step:
        slope = (even.at(percent + step) - even.at(percent - step)) / (2.0 * step)
        assert even.slope(percent) == pytest.approx(slope, rel=1e-6)


def test_a_table_takes_no_case() -> None:
    tabled = scale(table=((143.0, 0.0), (136.0, 30.0), (128.0, 100.0)), case=Case(60.0, 3.0))
    assert EvenWear.on(tabled) == EvenWear(None)
    assert not ignores_hardening(Component.LINK, tabled)


def test_a_straight_chart_without_case_ignores_hardening() -> None:
    assert ignores_hardening(Component.LINK, scale())
    assert not ignores_hardening(Component.LINK, scale(case=Case(60.0, 3.0)))


@pytest.mark.parametrize("component", [Component.PITCH, Component.LUG, Component.DRIVE_LUG])
def test_internal_wear_and_rubber_have_no_case_to_ignore(component: Component) -> None:
    """Common practice, no source."""
    assert not ignores_hardening(component, scale())
    assert EvenWear.on(scale(case=Case(60.0, 3.0))) == CASED
