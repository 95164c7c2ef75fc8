"""Rules 1 to 9: from sizes to percent worn, its sensitivities, and what governs."""

import math
import subprocess
import sys

import pytest
from builders import (
    about,
    at_least,
    at_most,
    by_eye,
    chart,
    gauge,
    inspection,
    machine,
    reading,
    sizes,
    unseen,
    wears,
)

from tracksworn.assessment.assess import assess
from tracksworn.assessment.boundaries import first_highest
from tracksworn.assessment.curves import Straight
from tracksworn.assessment.model import AssumedValue, Row, Stage
from tracksworn.assessment.monotone import Monotone
from tracksworn.assessment.scale import Local, Scale, scale_for
from tracksworn.assessment.stages import stage
from tracksworn.inspection.chart import ChartComponent, Dimensions
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Between, Component, Impact, PartPlace, Side

TABLE = ((84.0, 0.0), (82.0, 20.0), (79.5, 55.0), (76.5, 100.0))
FORWARD, REVERSE = PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE


def row(seen: Inspection, entry: ChartComponent, side: Side = Side.LEFT, position: int | None = None) -> Row:
    found = assess(seen, chart(entry)).row(entry.component, side, position)
    assert found is not None
    return found


def test_rule_1_chain_is_the_mean_of_its_joints_percents() -> None:
    entry = wears(Component.BUSHING, 84.0, 76.5, table=TABLE)
    worn = row(inspection(reading(Component.BUSHING, (83.0, 80.0, 78.0))), entry)
    percents = (10.0, 48.0, 77.5)
    assert worn.percent_worn == pytest.approx(sum(percents) / 3)  # not the percent of the mean size
    assert worn.size_mm == pytest.approx(241.0 / 3)
    assert [single.percent_worn for single in worn.places[0].singles] == pytest.approx(percents)


@pytest.mark.parametrize(
    ("new", "limit", "size", "percent"),
    [(143.0, 128.0, 131.0, 80.0), (40.0, 45.0, 42.5, 50.0), (143.0, 128.0, 143.3, -2.0), (143.0, 128.0, 126.5, 110.0)],
)
def test_rule_1_shrinking_and_growing(new: float, limit: float, size: float, percent: float) -> None:
    assert row(inspection(reading(Component.SHOE, size)), wears(Component.SHOE, new, limit)).percent_worn == (
        pytest.approx(percent)
    )


@pytest.mark.parametrize("between", Between)
def test_rule_2_chord_of_the_outermost_segment_goes_on(between: Between) -> None:
    scale = scale_for(wears(Component.BUSHING, 84.0, 76.5, table=TABLE, between=between), None, False, None)
    assert scale is not None
    assert (scale.read(85.0).percent, scale.read(85.0).to_size) == pytest.approx((-10.0, -10.0))
    assert (scale.read(75.5).percent, scale.read(75.5).to_size) == pytest.approx((115.0, -15.0))


def test_rule_2_ways_may_have_their_own_table() -> None:
    ways = {
        "caliper": Dimensions(84.0, 76.5, table=TABLE),
        "ultrasonic gauge": Dimensions(20.0, 16.0, table=((20.0, 0.0), (18.0, 70.0), (16.0, 100.0))),
    }
    entry = wears(Component.BUSHING, ways=ways)
    seen = inspection(reading(Component.BUSHING, 79.5, 18.0, gauge=("caliper", "ultrasonic gauge")))
    assert row(seen, entry).percent_worn == pytest.approx(55.0)
    assert row(seen, entry, Side.RIGHT).percent_worn == pytest.approx(70.0)


def test_rule_2_steeper_slope_at_a_row_and_mean_of_slopes() -> None:
    curve = Straight(TABLE)
    assert curve.at(82.0) == pytest.approx((20.0, -14.0))  # 10 above it, 14 below it
    assert curve.at(82.0 + 1e-6)[1] == pytest.approx(-10.0)
    entry = wears(Component.BUSHING, 84.0, 76.5, table=TABLE)
    seen = inspection(reading(Component.BUSHING, (83.0, 77.0)), instruments=())
    budget = row(seen, entry).budget
    assert budget is not None
    instrument = next(part for source, part in budget.contributions.items() if source.kind == "instrument")
    assert instrument.points == pytest.approx(-(10.0 + 15.0) / 2 * 0.5 / math.sqrt(3))


def test_rule_2_monotone_passes_through_its_rows_and_never_falls() -> None:
    curve = Monotone(TABLE)
    assert [curve.at(size)[0] for size, _ in TABLE] == pytest.approx([percent for _, percent in TABLE])
    readings = [curve.at(84.5 - step * 0.05)[0] for step in range(200)]
    assert readings == sorted(readings)


def test_rule_2_monotone_curves_through_equal_rows_are_equal() -> None:
    assert Monotone(TABLE) == Monotone(tuple(TABLE))
    assert Monotone(TABLE) != Monotone((TABLE[0], TABLE[-1]))
    seen = inspection(reading(Component.BUSHING, (83.0, 77.0)))
    entry = wears(Component.BUSHING, 84.0, 76.5, table=TABLE, between=Between.MONOTONE)
    assert row(seen, entry) == row(seen, entry)


def derivatives(new: float, limit: float, size: float, table: tuple[tuple[float, float], ...] | None) -> Local:
    """Central differences, the table stretched with its ends."""

    def percent(n: float, lim: float, x: float) -> float:
        stretched = None
        if table is not None:
            stretched = tuple((lim + (s - limit) * (n - lim) / (new - limit), p) for s, p in table)
        scale = scale_for(wears(Component.BUSHING, n, lim, table=stretched), None, False, None)
        assert scale is not None
        return scale.read(x).percent

    h = 1e-5

    def slope(dn: float, dl: float, dx: float) -> float:
        up = percent(new + dn, limit + dl, size + dx)
        return (up - percent(new - dn, limit - dl, size - dx)) / (2 * h)

    return Local(percent(new, limit, size), slope(0, 0, h), slope(h, 0, 0), slope(0, h, 0))


@pytest.mark.parametrize(
    ("new", "limit", "size", "table"),
    [
        (143.0, 128.0, 131.1, None),
        (864.0, 876.0, 868.0, None),
        (84.0, 76.5, 81.0, TABLE),
        (84.0, 76.5, 75.0, TABLE),
        (40.0, 45.0, 42.7, ((40.0, 0.0), (42.0, 50.0), (45.0, 100.0))),
    ],
)
def test_rule_3_sensitivities_are_the_signed_derivatives(
    new: float, limit: float, size: float, table: tuple[tuple[float, float], ...] | None
) -> None:
    scale = scale_for(wears(Component.BUSHING, new, limit, table=table), None, False, None)
    assert scale is not None
    local, numeric = scale.read(size), derivatives(new, limit, size, table)
    assert (local.to_size, local.to_new, local.to_limit) == pytest.approx(
        (numeric.to_size, numeric.to_new, numeric.to_limit), rel=1e-6
    )


def test_rule_3_linear_sensitivities_in_closed_form() -> None:
    scale = Scale(143.0, 128.0, Straight(((143.0, 0.0), (128.0, 100.0))), Dimensions(143.0, 128.0))
    local = scale.read(131.0)
    assert local.percent == pytest.approx(80.0)
    assert (local.to_size, local.to_new, local.to_limit) == pytest.approx((-100 / 15, 20 / 15, 80 / 15))


@pytest.mark.parametrize(
    ("percent", "name"),
    [
        (-3.0, Stage.FIRST_HALF),
        (49.999999998, Stage.FIRST_HALF),
        (49.9999999995, Stage.SECOND_HALF),
        (50.0, Stage.SECOND_HALF),
        (79.9, Stage.SECOND_HALF),
        (80.0, Stage.NEAR_LIMIT),
        (99.9999999999, Stage.PAST_LIMIT),
        (130.0, Stage.PAST_LIMIT),
    ],
)
def test_rule_4_boundaries(percent: float, name: Stage) -> None:
    assert stage(percent) is name


def test_rule_4_of_equals_the_first() -> None:
    assert first_highest([(1, 5.0), (2, 5.0 + 1e-10), (3, 4.0)], lambda pair: pair[1]) == (1, 5.0)
    assert first_highest([(1, 5.0), (2, 5.0 + 1e-8)], lambda pair: pair[1]) == (2, 5.0 + 1e-8)


def test_rule_4_places_in_the_order_of_chart_else_of_the_reading() -> None:
    seen = inspection(reading(Component.BUSHING, {REVERSE: 80.0, FORWARD: 80.0}))
    charted = wears(Component.BUSHING, 84.0, 76.0, places=(FORWARD, REVERSE))
    assert row(seen, charted).place is FORWARD
    assert row(seen, wears(Component.BUSHING, 84.0, 76.0)).place is REVERSE


@pytest.mark.parametrize(
    ("impact", "percent", "assumed"),
    [(Impact.LOW, 72.5, False), (Impact.HIGH, 100.0, False), (None, 100.0, True)],
)
def test_rule_5_limit_by_impact(impact: Impact | None, percent: float, assumed: bool) -> None:
    seen = inspection(reading(Component.BUSHING, 54.1), machine=machine(impact=impact))
    worn = row(seen, wears(Component.BUSHING, 60.7, (51.6, 54.1)))
    assert worn.percent_worn == pytest.approx(percent, abs=0.05)
    assert (AssumedValue.IMPACT in worn.assumed) is assumed


def test_rule_5_ends_may_have_their_own_kind_of_limit() -> None:
    entry = wears(Component.BOTTOM_ROLLER, 200.0, (150.0, 160.0), ends=(200.0, 100.0))
    seen = inspection(reading(Component.BOTTOM_ROLLER, (180.0,) * 3), machine=machine(bottom_rollers=3))
    rows = [row(seen, entry, position=position) for position in (1, 2, 3)]
    assert [each.percent_worn for each in rows] == pytest.approx([20.0, 50.0, 20.0])
    assert [AssumedValue.IMPACT in each.assumed for each in rows] == [False, True, False]


def test_rule_5_that_an_impact_was_taken_is_told() -> None:
    seen = inspection(reading(Component.BUSHING, 54.1))
    assessed = assess(seen, chart(wears(Component.BUSHING, 60.7, (51.6, 54.1))))
    assert AssumedValue.IMPACT in assessed.assumed_values
    assert assessed.components[0].scale is not None
    assert assessed.components[0].scale.limit == 54.1


def test_rule_6_longest_span_of_pitch_governs() -> None:
    seen = inspection(reading(Component.PITCH, (867.0, 870.0, 866.0), joints=(1, 9, 17)))
    worn = row(seen, wears(Component.PITCH, 864.0, 876.0))
    assert (worn.percent_worn, worn.size_mm) == pytest.approx((50.0, 870.0))
    assert worn.readings == 3
    assert worn.worst_joint is None
    assert worn.budget is not None
    assert {source.kind.value for source in worn.budget.contributions} == {"seat", "inspector", "instrument"}


def test_rule_7_at_least_counts_as_said_and_at_most_not_at_all() -> None:
    entry = wears(Component.SPROCKET, 40.0, 30.0)
    faces = (PartPlace.FORWARD_FACE, PartPlace.REVERSE_FACE)
    worse = row(inspection(reading(Component.SPROCKET, dict(zip(faces, (36.0, at_least(50)), strict=True)))), entry)
    assert (worse.place, worse.percent_worn, worse.low, worse.high) == (faces[1], None, 50, None)
    known = row(inspection(reading(Component.SPROCKET, dict(zip(faces, (at_most(90), 36.0), strict=True)))), entry)
    assert known.place is faces[1]
    assert known.percent_worn == pytest.approx(40.0)


def test_rule_7_only_at_most_stands_in_sides_and_of_several_the_first() -> None:
    seen = inspection(
        reading(Component.TOP_ROLLER, {1: at_most(30), 2: at_most(60)}, unseen()), machine=machine(top_rollers=2)
    )
    entry = assess(seen, chart(wears(Component.TOP_ROLLER, 190.0, 160.0))).sides[0]
    assert entry.left is not None
    assert (entry.left.percent_worn, entry.left.low, entry.left.high, entry.left.position) == (None, None, 30, 1)
    assert (entry.right, entry.delta, entry.differs) == (None, None, None)


def test_rule_8_lug_is_a_chain_of_unknown_length() -> None:
    seen = inspection(reading(Component.LUG, (30.0, 28.0), (29.0, 27.0)), machine=machine(links=4))
    worn = row(seen, wears(Component.LUG, 32.0, 8.0))
    assert worn.worst_joint is not None
    assert worn.budget is not None
    spread = next(part for source, part in worn.budget.contributions.items() if source.kind == "spread")
    pooled = math.sqrt((3 * 3.0**2 + 2 * 2 * (100 / 24) ** 2) / 5)
    assert spread.points == pytest.approx(pooled / math.sqrt(2))  # no √(1 − n/M), whatever the links
    assert spread.dof == 5


def test_rule_8_repeats_of_one_spot() -> None:
    seen = inspection(
        reading(Component.BOTTOM_ROLLER, {1: (240.0, 241.0), 2: 238.0}), machine=machine(bottom_rollers=2)
    )
    entry = wears(Component.BOTTOM_ROLLER, 250.0, 200.0)
    first, second = row(seen, entry, position=1), row(seen, entry, position=2)
    assert (first.percent_worn, first.size_mm) == pytest.approx((19.0, 240.5))
    assert first.readings == 2
    assert first.worst_joint is None
    assert first.budget is not None
    assert second.budget is not None
    pooled = math.sqrt((3 * 1.0 + 2 * 1.0**2) / 4)  # both positions rest on it
    spreads = [
        next(part for source, part in each.contributions.items() if source.kind == "spread")
        for each in (first.budget, second.budget)
    ]
    assert [part.points for part in spreads] == pytest.approx([pooled / math.sqrt(2), pooled])
    assert {part.dof for part in spreads} == {4}


def test_rule_9_a_gauge_that_is_not_described_chooses_its_way_by_name() -> None:
    entry = wears(Component.BUSHING, ways={"template": Dimensions(10.0, 0.5)})
    worn = row(inspection(reading(Component.BUSHING, 5.25, gauge="template"), instruments=[gauge("caliper")]), entry)
    assert worn.percent_worn == pytest.approx(50.0)
    assert AssumedValue.INSTRUMENT in worn.assumed


def test_estimates_beside_sizes_without_percent() -> None:
    faces = (PartPlace.FORWARD_FACE, PartPlace.REVERSE_FACE)
    seen = inspection(reading(Component.SPROCKET, {faces[0]: 36.0, faces[1]: about(20)}, by_eye(10, 30)))
    worn = row(seen, wears(Component.SPROCKET))
    assert (worn.place, worn.percent_worn) == (faces[1], 20)
    assert worn.places[0].singles[0].size == 36.0


def test_scipy_interpolate_is_left_alone_until_a_chart_asks_for_it() -> None:
    code = "import sys, tracksworn.assessment.assess as _; print('scipy.interpolate' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_sizes_keep_their_gaps() -> None:
    entry = wears(Component.LINK, 143.0, 128.0)
    worn = row(inspection(reading(Component.LINK, sizes(131.0, None, 134.0), joints=(3, 13, 23))), entry)
    assert [(single.joint, single.size) for single in worn.places[0].singles] == [(3, 131.0), (23, 134.0)]
    assert (worn.readings, worn.worst_joint and worn.worst_joint.joint) == (2, 3)
