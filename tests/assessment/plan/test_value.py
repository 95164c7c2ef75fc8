"""What is left in an undercarriage and what it costs to make it new."""

import math

import pytest
from builders import about, at_least, at_most, by_eye, chart, inspection, machine, reading, unseen, wears
from hypothesis import given
from planning import prices, replaced_at
from strategies import cases

from tracksworn.assessment.assess import figures
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.plan.value import Worth, worth
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import Fitting, Inspection, Reading
from tracksworn.inspection.prices import Price, Prices, Work
from tracksworn.inspection.vocabulary import WEARING, Component

LINKS_AND_ROLLERS = prices({Component.LINK: replaced_at(900.0, 1.0), Component.BOTTOM_ROLLER: replaced_at(400.0)})


def found(*readings: Reading, turns: int | None = None, fitted: Fitting | None = None) -> SoFar:
    entries = [
        wears(each.component, 100.0, 0.0, share=0.0, turns=turns if each.component is Component.BUSHING else None)
        for each in readings
    ]
    seen = inspection(
        *readings, machine=machine(bottom_rollers=2), fitted={Component.BUSHING: fitted} if fitted else None
    )
    return figures(seen, chart(*entries), Assumptions())


def sums(so_far: SoFar, by: Prices = LINKS_AND_ROLLERS) -> tuple[float, float]:
    value = worth(so_far, by)
    return value.left, value.to_restore


def test_a_replacement_is_split_by_the_life_used() -> None:
    """1 000 a side: 30 % and 80 % used; also where the chart gives no share."""
    assert sums(found(reading(Component.LINK, 70.0, 20.0))) == pytest.approx((900.0, 1100.0))


def test_each_roller_has_its_price_and_what_was_not_seen_counts_in_neither() -> None:
    so_far = found(reading(Component.BOTTOM_ROLLER, {1: 50.0, 2: unseen()}, {1: 25.0, 2: 75.0}))
    assert sums(so_far) == pytest.approx((400.0 * 1.5, 400.0 * 1.5))


def test_a_bushing_counts_by_the_sides_it_has_worn() -> None:
    """On its second side, 40 % worn: 70 % of its life is used."""
    so_far = found(reading(Component.BUSHING, 60.0), turns=1, fitted=Fitting(0.0, turned_at=10.0))
    assert sums(so_far, prices({Component.BUSHING: replaced_at(1000.0)})) == pytest.approx((300.0, 700.0))


def test_life_is_cut_at_none_and_at_all() -> None:
    """Better than new and past the limit."""
    assert sums(found(reading(Component.LINK, 103.0, -8.0))) == pytest.approx((1000.0, 1000.0))


def test_estimates_count_as_in_the_overall_figure() -> None:
    """20 to 40 % is 30 %, at least 50 % beside others is 75 %, at most 30 % is 15 %, about 95 % runs from 85 to 100."""
    assert sums(found(reading(Component.LINK, by_eye(20, 40), at_least(50)))) == pytest.approx((950.0, 1050.0))
    assert sums(found(reading(Component.LINK, at_most(30), about(95)))) == pytest.approx((925.0, 1075.0))


def test_nothing_priced_is_worth_nothing() -> None:
    so_far = found(reading(Component.LINK, 70.0, 20.0))
    assert worth(so_far, prices({Component.LINK: {Work.REBUILD: Price(300.0)}})) == Worth(0.0, 0.0)


@pytest.mark.slow
@given(cases())
def test_both_add_up_to_replacing_all_that_was_seen(case: tuple[Inspection, WearChart]) -> None:
    """And neither is negative, whatever was read."""
    so_far = figures(*case, Assumptions())
    by = prices({component: replaced_at(100.0 + 7.0 * index, 1.0) for index, component in enumerate(WEARING)})
    value = worth(so_far, by)
    seen = [row for row in so_far.components if (row.percent_worn, row.low, row.high) != (None, None, None)]
    replaced = math.fsum(200.0 + 7.0 * WEARING.index(row.component) for row in seen)
    assert value.left + value.to_restore == pytest.approx(replaced)
    assert min(value.left, value.to_restore) >= 0.0
