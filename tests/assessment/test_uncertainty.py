"""What budgets add up to."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import numbers

from tracksworn.assessment.uncertainty import CERTAIN, Budget, Contribution, Kind, Source, covariance, weighted_sum

BUDGETS = st.dictionaries(st.sampled_from("abcd"), numbers(-5.0, 5.0)).map(
    lambda parts: Budget({Source(Kind.INSTRUMENT, (name,)): Contribution(points) for name, points in parts.items()})
)


@given(BUDGETS, BUDGETS, numbers(-3.0, 3.0))
def test_the_variance_of_a_sum_holds_their_covariance_twice(one: Budget, other: Budget, weight: float) -> None:
    total = weighted_sum([(1.0, one), (weight, other)]).standard ** 2
    apart = one.standard**2 + (weight * other.standard) ** 2
    assert total == pytest.approx(apart + 2.0 * weight * covariance(one, other), abs=1e-9)


@given(BUDGETS)
def test_a_figure_covaries_with_itself_by_its_variance(one: Budget) -> None:
    assert covariance(one, one) == pytest.approx(one.standard**2)
    assert covariance(one, CERTAIN) == 0.0
