"""The figures that the file format prints for its long example, to the digit printed there."""

from datetime import date
from math import isclose

import pytest
from long_example import CHART, EARLIER, FIRM, INSPECTION, PRICES

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import RateFrom
from tracksworn.assessment.model import Assessment, AssumedValue, Basis, SharesFrom, Stage
from tracksworn.inspection.prices import Work
from tracksworn.inspection.vocabulary import Component, PartPlace, Side


@pytest.fixture(scope="module")
def assessment() -> Assessment:
    return assess(INSPECTION, CHART, FIRM, earlier=[EARLIER], prices=PRICES)


def test_left_link(assessment: Assessment) -> None:
    row = assessment.row(Component.LINK, Side.LEFT)
    assert row is not None
    assert (row.basis, row.readings, row.stage, row.life_used) == (Basis.MEASURED, 4, Stage.SECOND_HALF, None)
    assert row.size_mm == pytest.approx(131.1)
    assert (row.percent_worn, row.low, row.high) == pytest.approx((79.3, 75.8, 82.9), abs=0.05)
    assert (row.uncertainty, row.dof) == pytest.approx((3.5, 90.4), abs=0.05)
    assert row.assumed == (AssumedValue.INSPECTOR,)
    assert row.worst_joint is not None
    assert row.worst_joint.joint == 23
    assert (row.worst_joint.percent_worn, row.worst_joint.further_high) == pytest.approx((81.3, 84.6), abs=0.05)


def test_sides_of_link(assessment: Assessment) -> None:
    entry = assessment.comparison(Component.LINK)
    assert entry is not None
    assert entry.right is not None
    assert (entry.right.percent_worn, entry.right.low, entry.right.high) == pytest.approx((66.8, 63.3, 70.4), abs=0.05)
    assert (entry.delta, entry.delta_low, entry.delta_high) == pytest.approx((12.5, 9.2, 15.8), abs=0.05)
    assert entry.differs is True


def test_overall(assessment: Assessment) -> None:
    figure = assessment.overall
    assert (figure.percent_worn, figure.low, figure.high) == pytest.approx((61.9, 58.1, 65.7), abs=0.05)
    assert figure.seen_share == pytest.approx(0.852, abs=0.0005)
    assert (figure.floor, figure.ceiling) == pytest.approx((52.7, 67.5), abs=0.05)
    assert (figure.past_limit, figure.near_limit, figure.unseen) == (0, 0, 8)
    assert (figure.bound, figure.shares_from) == (None, SharesFrom.CHART)
    assert figure.worst is not None
    assert (figure.worst.component, figure.worst.side, figure.worst.position) == (Component.LINK, Side.LEFT, None)


def test_travel(assessment: Assessment) -> None:
    adjuster = assessment.travel[0]
    assert (adjuster.component, adjuster.side, adjuster.size_mm) == (Component.ADJUSTER, Side.LEFT, 92.0)
    assert adjuster.percent_used is not None
    assert isclose(adjuster.percent_used, 52.0)


def test_turned_bushing_on_its_last_side(assessment: Assessment) -> None:
    row = assessment.row(Component.BUSHING, Side.LEFT)
    assert row is not None
    assert row.place is PartPlace.FORWARD_SIDE
    assert row.life_used == pytest.approx((1 + 0.466) / 2)


def test_left_link_forecast(assessment: Assessment) -> None:
    assert assessment.forecast is not None
    row = assessment.forecast[0]
    assert (row.component, row.side, row.position, row.rate_from) == (
        Component.LINK,
        Side.LEFT,
        None,
        RateFrom.SINCE_FITTED,
    )
    assert row.rate_per_100_h == pytest.approx(2.08, abs=0.005)
    assert row.rates == pytest.approx({RateFrom.SINCE_FITTED: 2.08, RateFrom.BETWEEN: 1.56}, abs=0.005)
    assert (row.hours_left, row.hours_low, row.hours_high) == pytest.approx((332, 270, 396), abs=0.5)
    assert (row.date_low, row.date_high) == (date(2031, 6, 11), date(2031, 7, 6))
    assert not row.hardening_ignored


def test_what_else_is_forecast(assessment: Assessment) -> None:
    """Sides that were measured, once their beginning is known or twice; the right bushing was judged by eye."""
    assert [(row.component, row.side) for row in assessment.forecast or ()] == [
        (Component.LINK, Side.LEFT),
        (Component.LINK, Side.RIGHT),
        (Component.BUSHING, Side.LEFT),
        (Component.BOTTOM_ROLLER, Side.LEFT),
        (Component.BOTTOM_ROLLER, Side.RIGHT),
    ]


def test_visits(assessment: Assessment) -> None:
    """Both sides of the links at the left one's limit; the measured bushings come with the worst rollers, later."""
    assert assessment.plan is not None
    first, second = assessment.plan.visits
    assert assessment.plan.as_of == date(2031, 3, 1)
    assert first.at_hours == pytest.approx(8744, abs=0.5)
    assert [(work.component, work.side, work.position, work.way, work.cost) for work in first.work] == [
        (Component.LINK, Side.LEFT, None, Work.REBUILD, 6910.0),
        (Component.LINK, Side.RIGHT, None, Work.REBUILD, 6910.0),
    ]
    assert first.cost == 16760.0
    assert [(work.component, work.side, work.way) for work in second.work] == [
        (Component.BUSHING, Side.LEFT, Work.REPLACE),
        (Component.BOTTOM_ROLLER, Side.LEFT, Work.REPLACE),
        (Component.BOTTOM_ROLLER, Side.RIGHT, Work.REPLACE),
    ]
    assert second.cost == 1800.0 + 6 * 95.0 + 5620.0 + 2 * 562.5


def test_value(assessment: Assessment) -> None:
    """13 847.5 and 28 715.0 as printed: they add up to replacing links, bushings and the nine rollers seen."""
    assert assessment.plan is not None
    assert (assessment.plan.value_left, assessment.plan.cost_to_restore) == pytest.approx((13847.5, 28715.0), abs=0.05)
    assert assessment.plan.currency == "EUR"
