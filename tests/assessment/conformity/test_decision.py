"""Rules 40 to 42: margin, guards, probability and what they decide."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from tracksworn.assessment.conformity.decision import Margin, decide, margin
from tracksworn.assessment.decisions import Result
from tracksworn.assessment.uncertainty import Budget, Contribution, Kind, Source

CONFIDENCE = 0.95


def budget(points: float, dof: float) -> Budget:
    return Budget({Source(Kind.SPREAD): Contribution(points, dof)})


def test_both_doubts_are_in_the_margin() -> None:
    found = margin(60.0, budget(3.0, 9.0), 66.0, 4.0)
    assert (found.points, found.standard) == pytest.approx((6.0, 5.0))
    assert found.dof == pytest.approx(5.0**4 / (3.0**4 / 9.0))
    assert found.guard(CONFIDENCE) == pytest.approx(stats.t.ppf(0.975, found.dof) * 5.0)
    assert found.probability == pytest.approx(stats.t.cdf(6.0 / 5.0, found.dof))


def test_without_doubt_of_the_allowance() -> None:
    found = margin(60.0, budget(3.0, 9.0), 66.0, 0.0)
    assert (found.standard, found.dof) == (3.0, 9.0)


def test_at_infinite_degrees_of_freedom_it_is_normal() -> None:
    found = margin(60.0, budget(3.0, math.inf), 66.0, 0.0)
    assert found.dof == math.inf
    assert found.guard(CONFIDENCE) == pytest.approx(1.959964 * 3.0)
    assert found.probability == pytest.approx(stats.norm.cdf(2.0))


@pytest.mark.parametrize(("points", "probability"), [(0.0, 1.0), (1.0, 1.0), (-1.0, 0.0)])
def test_what_is_certain_is_certain(points: float, probability: float) -> None:
    assert Margin(points, 0.0, math.inf).probability == probability


def test_the_risk_of_failing_is_divided() -> None:
    known = Margin(-5.0, 2.0, 12.0)
    assert known.guard(CONFIDENCE, 4) == pytest.approx(stats.t.ppf(1.0 - 0.025 / 4, 12.0) * 2.0)
    assert known.guard(0.9) == pytest.approx(stats.t.ppf(0.95, 12.0) * 2.0)


@pytest.mark.parametrize(
    ("points", "result"),
    [
        (4.0, Result.PASSES),
        (4.0 - 1e-10, Result.PASSES),  # on the boundary
        (4.0 - 1e-8, Result.UNDECIDED),
        (0.0, Result.UNDECIDED),
        (-5.0 - 1e-10, Result.UNDECIDED),
        (-5.0 - 1e-8, Result.FAILS),
    ],
)
def test_the_boundaries_belong_to_the_milder_side(points: float, result: Result) -> None:
    assert decide(points, 4.0, 5.0) is result


@pytest.mark.parametrize(("points", "result"), [(0.0, Result.PASSES), (-1e-10, Result.PASSES), (-1e-8, Result.FAILS)])
def test_without_guards_nothing_is_undecided(points: float, result: Result) -> None:
    assert decide(points, 0.0, 0.0) is result


@given(
    st.floats(-50, 50),
    st.floats(0.1, 20),
    st.floats(1, 1e4),
    st.floats(0.5, 0.999),
    st.integers(1, 40),
    st.integers(1, 40),
)
def test_more_rows_tested_never_fail_sooner(
    points: float, standard: float, dof: float, confidence: float, few: int, more: int
) -> None:
    known = Margin(points, standard, dof)
    few, more = sorted((few, more))
    assert known.guard(confidence, few) <= known.guard(confidence, more)


@given(st.floats(-50, 50), st.floats(0.1, 20), st.floats(1, 1e4), st.floats(0.5, 0.999))
def test_passing_means_a_small_risk(points: float, standard: float, dof: float, confidence: float) -> None:
    """What passes conforms with at least 1 − (1 − confidence)/2; what fails, with at most the other."""
    known = Margin(points, standard, dof)
    risk = (1.0 - confidence) / 2.0
    guard = known.guard(confidence)
    result = decide(points, guard, guard)
    if result is Result.PASSES:
        assert known.probability >= 1.0 - risk - 1e-9
    if result is Result.FAILS:
        assert known.probability <= risk + 1e-9
