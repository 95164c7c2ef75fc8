"""Rule 44: E_n between two inspections of one machine."""

import math
import operator
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from builders import by_eye, chart, gauge, inspection, machine, reading, wears

from tracksworn.assessment.assess import occasion_of
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.comparing.agreement import agreements
from tracksworn.assessment.comparing.model import Agreement
from tracksworn.assessment.occasions import Occasion
from tracksworn.inspection.model import FittedPart, Fitting, Hours, Inspection, Reading
from tracksworn.inspection.vocabulary import Component, PartPlace, Side

LINK = wears(Component.LINK, 110.0, 10.0)
BUSHING = wears(Component.BUSHING, 110.0, 10.0)
ROLLER = wears(Component.BOTTOM_ROLLER, 300.0, 200.0)
CHART = chart(LINK, BUSHING, ROLLER)
FORWARD, REVERSE = PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE


def look(*readings: Reading, hours: float | None = 6000.0, year: int = 2031, **more: Any) -> Occasion:
    told: dict[str, Any] = {"machine": machine(hours=None if hours is None else Hours(hours), bottom_rollers=2)}
    seen = replace(inspection(*readings, **(told | more)), inspected=date(year, 4, 18))
    return occasion(seen)


def occasion(seen: Inspection, by: Any = CHART) -> Occasion:
    return occasion_of(seen, by, Assumptions())


def parts(found: tuple[Agreement, ...]) -> list[tuple[Component, Side, int | None, PartPlace | None]]:
    return [(each.component, each.side, each.position, each.place) for each in found]


def test_e_n_by_each_ones_uncertainty() -> None:
    one, other = look(reading(Component.LINK, 60.0)), look(reading(Component.LINK, (70.0, 72.0, 74.0)))
    (found,) = agreements(one, other)
    uncertainties = [each.parts.components[0].uncertainty or math.nan for each in (one, other)]
    assert (found.first, found.second) == pytest.approx((50.0, 38.0))
    assert found.e_n == pytest.approx(12.0 / math.hypot(*uncertainties))
    (turned,) = agreements(other, one)
    assert (turned.first, turned.second, turned.e_n) == pytest.approx((38.0, 50.0, found.e_n))


def test_only_where_the_two_figures_stand_as_asked() -> None:
    one, other = look(reading(Component.LINK, 60.0, 60.0)), look(reading(Component.LINK, 70.0, 50.0))
    both = agreements(one, other)
    assert [each.side for each in both] == [Side.LEFT, Side.RIGHT]
    assert agreements(one, other, where=operator.gt) == both[:1], "less worn at the second"


def test_without_the_charts_own_errors() -> None:
    doubted = chart(wears(Component.LINK, 110.0, 10.0, tolerance=3.0, new_doubt=6.0, limit_tolerance=9.0))
    seen = [inspection(reading(Component.LINK, size)) for size in (60.0, 72.0)]
    (plain,) = agreements(*(occasion(each, chart(LINK)) for each in seen))
    (found,) = agreements(*(occasion(each, doubted) for each in seen))
    assert found.e_n == pytest.approx(plain.e_n)


def test_every_part_and_place_measured_in_both() -> None:
    one = look(
        reading(Component.LINK, 60.0, by_eye(30, 50)),
        reading(Component.BUSHING, {FORWARD: 60.0, REVERSE: 70.0}, 60.0),
        reading(Component.BOTTOM_ROLLER, (250.0, None), (250.0, 260.0)),
    )
    other = look(
        reading(Component.LINK, 60.0, 60.0),
        reading(Component.BUSHING, {REVERSE: 70.0}, {FORWARD: 60.0}),
        reading(Component.BOTTOM_ROLLER, (250.0, 260.0), (None, 260.0)),
    )
    assert parts(agreements(one, other)) == [
        (Component.LINK, Side.LEFT, None, None),
        (Component.BUSHING, Side.LEFT, None, REVERSE),
        (Component.BOTTOM_ROLLER, Side.LEFT, 1, None),
        (Component.BOTTOM_ROLLER, Side.RIGHT, 2, None),
    ]


@pytest.mark.parametrize(
    ("fitting", "remains"),
    [
        (Fitting(4000.0), True),
        (Fitting(5000.0), True),  # read on the hour at which it went on
        (Fitting(5500.0), False),
        (Fitting(4000.0, turned_at=5500.0), False),
    ],
)
def test_a_part_renewed_in_between_is_no_longer_the_same(fitting: Fitting, remains: bool) -> None:
    before = look(reading(Component.BUSHING, 20.0), hours=5000.0, year=2030)
    after = look(reading(Component.BUSHING, 100.0), fitted={Component.BUSHING: fitting})
    assert bool(agreements(before, after)) is remains
    assert bool(agreements(after, before)) is remains


def test_only_the_position_that_was_renewed_drops_out() -> None:
    rollers = reading(Component.BOTTOM_ROLLER, (250.0, 260.0))
    fitted = {FittedPart(Component.BOTTOM_ROLLER, Side.LEFT, 2): Fitting(5500.0)}
    found = agreements(look(rollers, hours=5000.0, year=2030), look(rollers, fitted=fitted))
    assert [each.position for each in found] == [1]


def test_without_hours_nobody_knows_that_it_was_renewed() -> None:
    before = look(reading(Component.LINK, 20.0), hours=None, year=2030)
    after = look(reading(Component.LINK, 100.0), fitted={Component.LINK: Fitting(5500.0)})
    assert len(agreements(before, after)) == 1


def test_two_looks_on_one_day_are_in_the_order_of_their_hours() -> None:
    before = look(reading(Component.LINK, 20.0), hours=5990.0)
    after = look(reading(Component.LINK, 100.0), fitted={Component.LINK: Fitting(5995.0)})
    assert agreements(before, after) == agreements(after, before) == ()


def test_sizes_without_percent_agree_about_nothing() -> None:
    seen = inspection(reading(Component.LINK, 60.0), instruments=[gauge("caliper")])
    assert agreements(occasion(seen, None), occasion(seen, None)) == ()
