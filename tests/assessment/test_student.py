"""Student's t and the normal distribution against printed tables, against an independent library, and by identities."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import special

from tracksworn.assessment.student import normal, normal_quantile, student, student_quantile

DOFS = st.floats(0.5, 1e7)
SHARES = st.floats(1e-6, 1.0 - 1e-6)


@pytest.mark.parametrize(
    ("dof", "t"),
    [(1, 12.71), (2, 4.30), (5, 2.57), (10, 2.23), (20, 2.09), (50, 2.01), (100, 1.984)],
)
def test_quantiles_of_the_gum(dof: int, t: float) -> None:
    """JCGM 100:2008, Table G.2, 95 %."""
    assert student_quantile(dof, 0.975) == pytest.approx(t, abs=0.5 * 10 ** -(3 if dof == 100 else 2))


@pytest.mark.parametrize(
    ("dof", "t"),
    [(1, 63.657), (2, 9.925), (3, 5.841), (10, 3.169), (30, 2.750), (120, 2.617)],
)
def test_quantiles_of_the_handbook(dof: int, t: float) -> None:
    """Abramowitz and Stegun, Table 26.10, 99 % between both (from memory)."""
    assert student_quantile(dof, 0.995) == pytest.approx(t, abs=0.0005)


def test_one_and_two_degrees_of_freedom_are_known_in_closed_form() -> None:
    for share in (0.6, 0.9, 0.975, 0.9999):
        assert student_quantile(1, share) == pytest.approx(math.tan(math.pi * (share - 0.5)), rel=1e-12)
        closed = (2 * share - 1) / math.sqrt(2 * share * (1 - share))
        assert student_quantile(2, share) == pytest.approx(closed, rel=1e-12)


@given(DOFS, st.floats(-8.0, 8.0))
def test_the_distribution_is_another_librarys(dof: float, t: float) -> None:
    assert student(dof, t) == pytest.approx(float(special.stdtr(dof, t)), rel=1e-9, abs=1e-15)


@given(DOFS, SHARES)
def test_a_quantile_leads_back_to_its_share(dof: float, share: float) -> None:
    assert student(dof, student_quantile(dof, share)) == pytest.approx(share, rel=1e-10)


@given(DOFS, st.floats(0.0, 8.0))
def test_both_sides_are_alike(dof: float, t: float) -> None:
    assert student(dof, t) + student(dof, -t) == pytest.approx(1.0, abs=1e-15)


@pytest.mark.parametrize("edge", [100.0, 200.0, 1e5])
def test_nothing_jumps_where_another_formula_takes_over(edge: float) -> None:
    below, above = (student_quantile(edge * (1 + by), 0.975) for by in (-1e-13, 1e-13))
    assert below == pytest.approx(above, rel=2e-12)


def test_many_degrees_of_freedom_come_to_the_normal_distribution() -> None:
    assert student_quantile(1e15, 0.975) == pytest.approx(normal_quantile(0.975), rel=1e-13)
    assert student(1e15, 1.2) == pytest.approx(normal(1.2), rel=1e-13)


def test_the_normal_distribution() -> None:
    """Abramowitz and Stegun, Tables 26.1 and 26.5 (from memory)."""
    assert normal(1.0) == pytest.approx(0.841344746068543, rel=1e-14)
    assert normal(-3.0) == pytest.approx(0.001349898031630, rel=2e-12)
    assert normal_quantile(0.975) == pytest.approx(1.959963984540054, rel=1e-14)
