"""Rules 10 to 19: what makes a figure doubtful, each source once, and the interval that follows."""

import math
import unicodedata
from datetime import date
from itertools import pairwise
from typing import Any

import pytest
from builders import about, at_least, at_most, by_eye, chart, gauge, inspection, machine, reading, wears
from scipy import stats

from tracksworn.assessment.assess import assess
from tracksworn.assessment.model import AssumedValue, Basis, Row
from tracksworn.assessment.uncertainty import Budget, Contribution, Kind, Source
from tracksworn.inspection.chart import ChartComponent, Dimensions
from tracksworn.inspection.letterhead import Assumed
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.values import ByEye
from tracksworn.inspection.vocabulary import Component, Impact, PartPlace, Side

LINK = wears(Component.LINK, 110.0, 10.0)  # one mm is one point
ROLLER = wears(Component.BOTTOM_ROLLER, 300.0, 200.0)
FINE = gauge("caliper", accuracy=0.0)
FORWARD, REVERSE = PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE


def row(seen: Inspection, entry: ChartComponent, side: Side = Side.LEFT, position: int | None = None) -> Row:
    found = assess(seen, chart(entry)).row(entry.component, side, position)
    assert found is not None
    return found


def parts(of: Row) -> dict[Kind, Contribution]:
    """The contributions to a row by their kind."""
    assert of.budget is not None
    return {source.kind: part for source, part in of.budget.contributions.items()}


def source(of: Row, kind: Kind) -> Source:
    assert of.budget is not None
    return next(each for each in of.budget.contributions if each.kind is kind)


def links(left: Any, right: Any = None, **more: Any) -> Inspection:
    return inspection(reading(Component.LINK, left, right, gauge="caliper"), instruments=[FINE], **more)


def test_rule_10_pools_both_sides_with_what_the_chart_knows() -> None:
    entry = wears(Component.LINK, 143.0, 128.0, spread=0.4)
    worn = row(links((131.2, 131.0, 130.8), (133.1, 133.5), machine=machine(links=45)), entry)
    slope = 100 / 15
    squares = 3 * (0.4 * slope) ** 2 + slope**2 * (0.04 + 0.0 + 0.04 + 0.04 + 0.04)
    pooled = math.sqrt(squares / 6)
    assert parts(worn)[Kind.SPREAD].points == pytest.approx(pooled / math.sqrt(3) * math.sqrt(1 - 3 / 45))
    assert parts(worn)[Kind.SPREAD].dof == 6
    assert AssumedValue.SPREAD not in worn.assumed


def test_rule_10_spread_in_points_by_the_mean_slope_of_both_sides() -> None:
    table = ((84.0, 0.0), (82.0, 20.0), (79.0, 100.0))
    entry = wears(Component.BUSHING, 84.0, 79.0, table=table, spread=0.3)
    worn = row(inspection(reading(Component.BUSHING, 83.0, 80.0)), entry)
    known = 0.3 * (10.0 + 80 / 3) / 2
    assert parts(worn)[Kind.SPREAD].points == pytest.approx(known)


def test_rule_10_only_ways_with_a_spread_tell_it() -> None:
    ways = {"caliper": Dimensions(110.0, 10.0, spread=2.0), "tape": Dimensions(60.0, 10.0)}
    seen = inspection(reading(Component.SHOE, 70.0, 40.0, gauge=("caliper", "tape")))
    worn = row(seen, wears(Component.SHOE, ways=ways), Side.RIGHT)
    assert parts(worn)[Kind.SPREAD].points == pytest.approx(2.0)
    assert AssumedValue.SPREAD not in worn.assumed


def test_rule_10_three_points_where_nothing_is_known() -> None:
    worn = row(links(70.0), LINK)
    assert parts(worn)[Kind.SPREAD] == Contribution(3.0, 3.0, Source(Kind.SPREAD, (Component.LINK, None)))
    assert AssumedValue.SPREAD in worn.assumed


def test_rule_10_places_have_each_their_own_scatter() -> None:
    entry = wears(Component.BUSHING, 110.0, 10.0)
    seen = inspection(reading(Component.BUSHING, {FORWARD: (70.0, 60.0), REVERSE: (60.0, 60.0)}, gauge="caliper"))
    budgets = {figure.place: figure.budget for figure in row(seen, entry).places}

    def budget_at(place: PartPlace) -> Budget:
        budget = budgets[place]
        assert budget is not None
        return budget

    points = [
        part.points
        for place in (FORWARD, REVERSE)
        for each, part in budget_at(place).contributions.items()
        if each.kind is Kind.SPREAD
    ]
    assert points == pytest.approx([math.sqrt((27 + 50) / 4 / 2), math.sqrt(27 / 4 / 2)])


@pytest.mark.parametrize("component", [Component.LINK, Component.BUSHING, Component.SHOE])
def test_rule_10_every_joint_read_leaves_no_spread(component: Component) -> None:
    seen = inspection(reading(component, (70.0, 72.0, 74.0)), machine=machine(links=3))
    assert parts(row(seen, wears(component, 110.0, 10.0)))[Kind.SPREAD].points == 0.0


def test_rule_10_without_links_no_factor() -> None:
    assert parts(row(links((70.0, 70.0)), LINK))[Kind.SPREAD].points == pytest.approx(math.sqrt(27 / 4) / math.sqrt(2))


def test_rule_10_single_readings_of_parts_judged_singly_rest_on_the_seat() -> None:
    seen = inspection(reading(Component.SPROCKET, 70.0, gauge="caliper"), instruments=[FINE])
    worn = row(seen, wears(Component.SPROCKET, 110.0, 10.0))
    assert parts(worn)[Kind.SPREAD] == Contribution(1.0, 3.0, Source(Kind.SPREAD, (Component.SPROCKET, None)))
    assert worn.assumed == (AssumedValue.INSPECTOR, AssumedValue.SEAT)


def test_rule_10_the_charts_spread_is_for_chains_alone() -> None:
    seen = inspection(reading(Component.SPROCKET, 70.0))
    assert parts(row(seen, wears(Component.SPROCKET, 110.0, 10.0, spread=9.0)))[Kind.SPREAD].points == 1.0


def test_rule_10_a_second_reading_that_scatters_no_more_than_the_seat_is_never_less_sure() -> None:
    entry = wears(Component.SPROCKET, 110.0, 10.0)
    one = row(inspection(reading(Component.SPROCKET, 70.0)), entry)
    apart = math.sqrt(2.0)  # their standard deviation is the seat
    two = row(inspection(reading(Component.SPROCKET, (70.0 - apart / 2, 70.0 + apart / 2))), entry)
    assert one.uncertainty is not None
    assert two.uncertainty is not None
    assert two.uncertainty < one.uncertainty


def test_rule_11_seat_for_pitch_and_for_chains_read_once_a_side() -> None:
    pitch = row(inspection(reading(Component.PITCH, (70.0, 71.0))), wears(Component.PITCH, 110.0, 10.0))
    assert parts(pitch)[Kind.SEAT] == Contribution(1.0)
    assert Kind.SEAT in parts(row(links(70.0, 71.0), LINK))
    assert Kind.SEAT not in parts(row(links(70.0, (71.0, 71.0)), LINK))  # the right side's scatter holds it
    assert AssumedValue.SEAT in row(links(70.0, 71.0), LINK).assumed
    assert AssumedValue.SEAT not in row(links(70.0, (71.0, 71.0)), LINK).assumed


def test_rule_11_inspector_once_for_all_readings_of_a_component() -> None:
    left, right = row(links(70.0, 60.0), LINK), row(links(70.0, 60.0), LINK, Side.RIGHT)
    assert source(left, Kind.INSPECTOR) == source(right, Kind.INSPECTOR)
    assert parts(left)[Kind.INSPECTOR] == Contribution(2.0)


def test_rule_12_resolution_enters_where_it_is_larger_than_the_spread_of_the_mean() -> None:
    seen = inspection(
        reading(Component.SPROCKET, 70.0, 60.0, gauge=("coarse", "fine")),
        instruments=[gauge("coarse", resolution=4.0, accuracy=0.0), gauge("fine", resolution=3.0, accuracy=0.0)],
    )
    entry = wears(Component.SPROCKET, 110.0, 10.0)
    coarse, fine = row(seen, entry), row(seen, entry, Side.RIGHT)
    assert parts(coarse)[Kind.RESOLUTION].points == pytest.approx(4 / math.sqrt(12))
    assert Kind.SPREAD not in parts(coarse)
    assert Kind.RESOLUTION not in parts(fine)  # 3/√12 is under 1
    assert AssumedValue.SEAT in coarse.assumed


def test_rule_12_is_not_divided_by_the_number_of_readings() -> None:
    seen = inspection(
        reading(Component.LINK, (70.0,) * 9, gauge="coarse"),
        instruments=[gauge("coarse", resolution=5.0, accuracy=0.0)],
    )
    worn = row(seen, LINK)
    assert parts(worn)[Kind.RESOLUTION].points == pytest.approx(5 / math.sqrt(12))
    assert AssumedValue.SPREAD in worn.assumed


def test_rule_12_enters_alone_where_there_is_no_spread() -> None:
    seen = inspection(
        reading(Component.PITCH, 70.0, gauge="fine"), instruments=[gauge("fine", resolution=0.01, accuracy=0.0)]
    )
    points = parts(row(seen, wears(Component.PITCH, 110.0, 10.0)))
    assert points[Kind.RESOLUTION].points == pytest.approx(0.01 / math.sqrt(12))


@pytest.mark.parametrize(
    ("described", "standard", "assumed"),
    [
        ({"accuracy": 0.3}, 0.3 / math.sqrt(3), False),
        ({"accuracy": 0.3, "uncertainty": 0.2}, 0.1, False),
        ({"uncertainty": 0.3, "k": 3.0}, 0.1, False),
        ({"resolution": 0.1}, 0.5 / math.sqrt(3), True),
    ],
)
def test_rule_13_certificate_before_accuracy_before_the_assumed(
    described: dict[str, float], standard: float, assumed: bool
) -> None:
    seen = inspection(reading(Component.LINK, 70.0, gauge="caliper"), instruments=[gauge("caliper", **described)])
    worn = row(seen, LINK)
    assert parts(worn)[Kind.INSTRUMENT].points == pytest.approx(-standard)
    assert (AssumedValue.INSTRUMENT in worn.assumed) is assumed


def test_rule_13_one_error_for_all_that_was_read_with_a_gauge_or_with_none() -> None:
    day = date(2031, 1, 12)
    seen = inspection(
        reading(Component.LINK, 70.0, gauge="caliper"),
        reading(Component.SHOE, 70.0, gauge="caliper"),
        reading(Component.SPROCKET, 70.0),
        reading(Component.FRONT_IDLER, 70.0),
        instruments=[gauge("caliper", accuracy=0.1, calibrated=day)],
    )
    named = [row(seen, wears(each, 110.0, 10.0)) for each in (Component.LINK, Component.SHOE)]
    unnamed = [row(seen, wears(each, 110.0, 10.0)) for each in (Component.SPROCKET, Component.FRONT_IDLER)]
    assert {source(each, Kind.INSTRUMENT) for each in named} == {Source(Kind.INSTRUMENT, ("caliper", day))}
    assert {source(each, Kind.INSTRUMENT) for each in unnamed} == {Source(Kind.INSTRUMENT)}


def test_rule_13_moves_a_growing_part_the_other_way() -> None:
    seen = inspection(reading(Component.LINK, 70.0), reading(Component.SPROCKET, 70.0))
    grows = row(seen, wears(Component.SPROCKET, 10.0, 110.0))
    shrinks = row(seen, LINK)
    assert parts(grows)[Kind.INSTRUMENT].points == pytest.approx(-parts(shrinks)[Kind.INSTRUMENT].points)


def test_rule_14_tolerance_doubt_and_limit() -> None:
    entry = wears(Component.LINK, 110.0, 10.0, tolerance=1.0, new_doubt=0.5, limit_tolerance=2.0)
    left, right = row(links((70.0, 70.0), 60.0), entry), row(links((70.0, 70.0), 60.0), entry, Side.RIGHT)
    root = math.sqrt(3)
    assert parts(left)[Kind.TOLERANCE].points == pytest.approx(0.6 / root)  # (100 − w)/(N − L), not over √n
    assert parts(left)[Kind.NEW_DOUBT].points == pytest.approx(0.6 * 0.5 / root)
    assert parts(left)[Kind.LIMIT].points == pytest.approx(0.4 * 2.0 / root)
    assert source(left, Kind.TOLERANCE) != source(right, Kind.TOLERANCE)
    assert source(left, Kind.NEW_DOUBT) == source(right, Kind.NEW_DOUBT)
    assert source(left, Kind.LIMIT) == source(right, Kind.LIMIT)


def test_rule_14_a_part_has_one_new_size_at_all_its_places() -> None:
    entry = wears(Component.BOTTOM_ROLLER, 300.0, 200.0, tolerance=1.0)
    inner, outer = PartPlace.INNER_TREAD, PartPlace.OUTER_TREAD
    seen = inspection(
        reading(Component.BOTTOM_ROLLER, {inner: (250.0, 260.0), outer: (240.0, 255.0)}),
        machine=machine(bottom_rollers=2),
    )
    rows = [row(seen, entry, position=position) for position in (1, 2)]
    tolerances = [
        {
            each
            for figure in one.places
            if figure.budget
            for each in figure.budget.contributions
            if each.kind is Kind.TOLERANCE
        }
        for one in rows
    ]
    assert [len(each) for each in tolerances] == [1, 1]
    assert tolerances[0] != tolerances[1]


def test_rule_15_what_rests_on_one_deviation_is_one_term() -> None:
    seen = links((70.0, 71.0), (60.0, 62.0, 64.0))
    entry = assess(seen, chart(LINK)).sides[0]
    assert entry.budget is not None
    pooled = (27 + 0.5 + 8.0) / 6
    variance = pooled / 2 + pooled / 3
    assert entry.budget.standard == pytest.approx(math.sqrt(variance))
    assert entry.budget.dof == pytest.approx(6.0)  # not the two apart, which would give more
    assert entry.budget.expanded == pytest.approx(stats.t.ppf(0.975, 6) * math.sqrt(variance))


def test_rule_15_interval_at_fractional_degrees_of_freedom() -> None:
    worn = row(links(70.0), LINK)
    u = math.sqrt(9 + 1 + 4)
    assert worn.dof == pytest.approx(u**4 / (81 / 3))
    assert worn.uncertainty == pytest.approx(stats.t.ppf(0.975, u**4 / 27) * u)


def test_rule_15_dof_is_none_where_infinite() -> None:
    worn = row(inspection(reading(Component.PITCH, 70.0)), wears(Component.PITCH, 110.0, 10.0))
    assert worn.dof is None
    u = math.sqrt(1 + 4 + 0.25 / 3)
    assert worn.uncertainty == pytest.approx(1.959963984540054 * u)


def test_rule_16_sorted_and_kept_where_the_letterhead_set_them() -> None:
    seen = inspection(reading(Component.LINK, 70.0))
    entry = wears(Component.LINK, 110.0, (10.0, 20.0))
    firm = Assumed(inspector=1.4, seat=0.8, spread=2.5, instrument=0.2)
    assessed = assess(seen, chart(entry), firm)
    assert assessed.components[0].assumed == tuple(AssumedValue)
    assert [str(value) for value in AssumedValue] == sorted(AssumedValue)
    assert assessed.assumed_values == tuple(AssumedValue)
    table = assessed.assumptions
    assert (table.inspector, table.seat, table.spread, table.instrument) == (1.4, 0.8, 2.5, 0.2)
    points = {kind: part.points for kind, part in parts(assessed.components[0]).items()}
    assert points == pytest.approx(
        {Kind.INSPECTOR: 1.4, Kind.SEAT: 0.8, Kind.SPREAD: 2.5, Kind.INSTRUMENT: -100 / 90 * 0.2 / math.sqrt(3)}
    )


def test_rule_16_nothing_is_assumed_by_eye_or_without_percent() -> None:
    seen = inspection(reading(Component.LINK, about(40), by_eye(30, 50)), machine=machine(impact=Impact.LOW))
    assert {each.assumed for each in assess(seen, chart(LINK)).components} == {()}
    assert row(inspection(reading(Component.SHOE, 70.0)), wears(Component.SHOE)).assumed == ()


def test_rule_17_one_inspector_however_the_name_is_composed() -> None:
    composed, apart = "Zoë Marlow", unicodedata.normalize("NFD", "Zoë Marlow")
    assert composed != apart
    sources = {source(row(links(70.0, inspector=name), LINK), Kind.INSPECTOR) for name in (composed, apart)}
    assert len(sources) == 1


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        (about(40), (40, 30, 50)),
        (about(5), (5, 0, 15)),
        (about(95), (95, 85, 105)),
        (by_eye(30, 50), (40, 30, 50)),
        (at_least(50), (None, 50, None)),
        (at_most(30), (None, None, 30)),
    ],
)
def test_rule_18_by_eye(said: ByEye, expected: tuple[float | None, ...]) -> None:
    worn = row(inspection(reading(Component.LINK, said)), LINK)
    assert (worn.percent_worn, worn.low, worn.high) == expected
    assert (worn.stage is None) is (expected[0] is None)
    assert (worn.basis, worn.uncertainty, worn.dof, worn.size_mm, worn.worst_joint) == (Basis.BY_EYE, *[None] * 4)
    assert worn.readings == 0


def test_rule_18_measured_intervals_are_not_cut_at_nought() -> None:
    worn = row(links(110.5), LINK)
    assert worn.percent_worn == pytest.approx(-0.5)
    assert worn.low is not None
    assert worn.low < -5


def test_rule_19_worst_joint_and_what_one_further_may_read() -> None:
    worn = row(links((70.0, 66.0, 68.0)), LINK).worst_joint
    assert worn is not None
    assert (worn.joint, worn.percent_worn) == (None, 44.0)
    pooled = math.sqrt((27 + 8) / 5)
    assert worn.further_high == pytest.approx(42 + stats.t.ppf(0.975, 5) * pooled * math.sqrt(4 / 3))
    assert row(links(70.0), LINK).worst_joint is None


def test_rule_19_a_gap_keeps_its_joint_number() -> None:
    seen = inspection(reading(Component.LINK, (70.0, None, 60.0), joints=(3, 13, 23)))
    worst = row(seen, LINK).worst_joint
    assert worst is not None
    assert worst.joint == 23


def test_fewer_readings_are_never_surer() -> None:
    intervals = [row(links((70.0,) * count), LINK).uncertainty or 0.0 for count in range(1, 9)]
    assert all(more <= fewer for fewer, more in pairwise(intervals))
