"""Which errors two looks at one machine share, and which each makes anew."""

from dataclasses import replace
from datetime import date

import pytest
from builders import chart, inspection, machine, wears

from tracksworn.assessment.assess import occasion_of
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.occasions import (
    Occasion,
    most_hours_between,
    of_its_own,
    on_occasion,
    without_chart,
)
from tracksworn.assessment.uncertainty import Budget, Contribution, Kind, Source, covariance
from tracksworn.inspection.model import Hours
from tracksworn.inspection.vocabulary import Component

PART = (Component.LINK, "left", None)
SHARED = (
    Source(Kind.INSPECTOR, (Component.LINK, "Ines Marlow")),
    Source(Kind.INSTRUMENT, ("depth gauge", date(2031, 1, 12))),
    Source(Kind.TOLERANCE, PART),
    Source(Kind.NEW_DOUBT, (Component.LINK,)),
    Source(Kind.LIMIT, (Component.LINK,)),
)
NEW_EACH_TIME = (
    Source(Kind.SPREAD, PART),
    Source(Kind.SEAT, PART),
    Source(Kind.RESOLUTION, PART),
    Source(Kind.INSTRUMENT),  # a gauge without a name
)


def of(*sources: Source) -> Budget:
    """Two points of each."""
    return Budget({source: Contribution(2.0) for source in sources})


@pytest.mark.parametrize("source", SHARED, ids=lambda source: str(source.kind))
def test_two_looks_share_what_stays_the_same(source: Source) -> None:
    """Contributions of one shared error cancel in a difference: their covariance is their product (GUM F.1.2.3)."""
    assert covariance(on_occasion(of(source), 1), on_occasion(of(source), 2)) == 4.0


@pytest.mark.parametrize("source", NEW_EACH_TIME, ids=lambda source: str(source.kind))
def test_two_looks_do_not_share_what_is_made_anew(source: Source) -> None:
    first, second = (on_occasion(of(source), mark) for mark in (1, 2))
    assert covariance(first, second) == 0.0
    assert first.standard == second.standard == 2.0


def test_a_gauge_calibrated_in_between_is_another_one() -> None:
    then, now = (of(Source(Kind.INSTRUMENT, ("depth gauge", date(year, 1, 12)))) for year in (2030, 2031))
    assert covariance(on_occasion(then, 1), on_occasion(now, 2)) == 0.0


def test_one_doubt_about_a_spread_stays_one_on_one_occasion_alone() -> None:
    pool = Source(Kind.SPREAD, (Component.LINK,))
    spread = Budget({Source(Kind.SPREAD, (n,)): Contribution(2.0, 6.0, pool) for n in (1, 2)})
    for_one = on_occasion(spread, 1)
    assert for_one.dof == spread.dof == pytest.approx(6.0)
    for_other = on_occasion(spread, 2)
    assert not {part.rests_on for part in for_one.contributions.values()} & {
        part.rests_on for part in for_other.contributions.values()
    }


def test_a_part_of_its_own_shares_no_tolerance() -> None:
    both = of(Source(Kind.TOLERANCE, PART), Source(Kind.LIMIT, (Component.LINK,)))
    own = of_its_own(both, frozenset({Kind.TOLERANCE}), "another machine")
    assert covariance(own, both) == 4.0
    assert own.standard == both.standard


def test_without_the_charts_errors_the_looks_own_remain() -> None:
    assert set(without_chart(of(*SHARED, *NEW_EACH_TIME)).contributions) == {*SHARED[:2], *NEW_EACH_TIME}


def look(hours: float | None, day: int) -> Occasion:
    seen = inspection(machine=machine(hours=None if hours is None else Hours(hours)))
    by = chart(wears(Component.LINK, 110.0, 10.0))
    return occasion_of(replace(seen, inspected=date(2031, 4, day)), by, Assumptions())


@pytest.mark.parametrize(
    ("first", "second", "hours"), [(5000.0, 5040.0, 40.0), (None, 5040.0, 240.0), (5000.0, None, 240.0)]
)
def test_hours_between_are_those_told_or_all_that_the_days_hold(
    first: float | None, second: float | None, hours: float
) -> None:
    """ISO 15143-3: cumulative hours rise by at most 24 a day."""
    assert most_hours_between(look(first, 8), look(second, 18)) == hours
