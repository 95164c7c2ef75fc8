"""Rules 20 to 22: which rows exist, in which order, and what they hold."""

import pytest
from builders import about, at_least, at_most, by_eye, chart, inspection, machine, reading, sizes, unseen, wears

from tracksworn.assessment.assess import assess
from tracksworn.assessment.model import Basis, Row
from tracksworn.inspection.chart import ChartComponent
from tracksworn.inspection.vocabulary import Component, Layout, PartPlace, Side

ROLLER = wears(Component.BOTTOM_ROLLER, 300.0, 200.0)
INNER, OUTER = PartPlace.INNER_TREAD, PartPlace.OUTER_TREAD


def keys(rows: tuple[Row, ...]) -> list[tuple[Component, Side, int | None]]:
    return [(each.component, each.side, each.position) for each in rows]


def bases(rows: tuple[Row, ...]) -> list[Basis]:
    return [each.basis for each in rows]


def test_rule_20_rows_of_the_chart_then_of_what_else_was_read() -> None:
    source = chart(
        wears(Component.SHOE, 70.0, 30.0),
        ROLLER,
        wears(Component.LINK, 143.0, 128.0),
        ChartComponent(Component.ADJUSTER, start=0.0, end=100.0),
    )
    seen = inspection(
        reading(Component.SPROCKET, 40.0), reading(Component.ADJUSTER, 40.0), machine=machine(bottom_rollers=2)
    )
    left, right = Side
    assert keys(assess(seen, source).components) == [
        (Component.SHOE, left, None),
        (Component.SHOE, right, None),
        (Component.BOTTOM_ROLLER, left, 1),
        (Component.BOTTOM_ROLLER, left, 2),
        (Component.BOTTOM_ROLLER, right, 1),
        (Component.BOTTOM_ROLLER, right, 2),
        (Component.LINK, left, None),
        (Component.LINK, right, None),
        (Component.SPROCKET, left, None),
        (Component.SPROCKET, right, None),
    ]


def test_rule_20_without_chart_the_typical_components_of_the_layout() -> None:
    seen = inspection(reading(Component.PITCH, about(20)), machine=machine(Layout.RUBBER, bottom_rollers=4))
    components = list(dict.fromkeys(each.component for each in assess(seen, None).components))
    assert components == [
        Component.LUG,
        Component.DRIVE_LUG,
        Component.SPROCKET,
        Component.FRONT_IDLER,
        Component.BOTTOM_ROLLER,
        Component.TOP_ROLLER,
        Component.PITCH,
    ]


def test_rule_20_no_reading_is_not_seen() -> None:
    row = assess(inspection(), chart(wears(Component.LINK, 143.0, 128.0))).components[0]
    assert (row.basis, row.readings, row.reason) == (Basis.NOT_SEEN, 0, None)
    assert {row.size_mm, row.percent_worn, row.low, row.high, row.uncertainty, row.dof, row.stage} == {None}


def test_rule_20_the_reason_is_kept() -> None:
    row = assess(inspection(reading(Component.LINK, unseen("packed"))), chart(wears(Component.LINK))).components[0]
    assert row.reason == "packed"


@pytest.mark.parametrize(
    ("left", "right", "count"),
    [
        (sizes(250.0, None, 240.0), None, 3),
        (sizes(250.0, 240.0, None), unseen(), 3),
        ({2: 240.0}, {5: about(20)}, 5),
        ({INNER: (240.0, 250.0, 260.0, 270.0)}, None, 4),
        (about(20), None, 1),
        (None, None, 1),
    ],
)
def test_rule_20_without_a_count_the_highest_position_named(left: object, right: object, count: int) -> None:
    seen = inspection(reading(Component.BOTTOM_ROLLER, left, right))  # type: ignore[arg-type]
    assert len(assess(seen, chart(ROLLER)).components) == 2 * count


def test_rule_20_no_top_rollers_no_rows() -> None:
    seen = inspection(machine=machine(top_rollers=0))
    assert assess(seen, chart(wears(Component.TOP_ROLLER, 190.0, 160.0, share=1.0))).components == ()


def test_rule_20_the_last_of_ends_is_the_count() -> None:
    entry = wears(Component.BOTTOM_ROLLER, 300.0, 200.0, ends=(260.0, 210.0))
    seen = inspection(reading(Component.BOTTOM_ROLLER, (250.0,) * 3), machine=machine(bottom_rollers=3))
    percents = [each.percent_worn for each in assess(seen, chart(entry)).rows(Component.BOTTOM_ROLLER, Side.LEFT)]
    assert percents == pytest.approx([20.0, 50.0, 20.0])


def test_rule_21_measured_without_sizes_in_the_chart() -> None:
    source = chart(wears(Component.SPROCKET, share=1.0), wears(Component.PITCH))
    seen = inspection(
        reading(Component.SPROCKET, {PartPlace.FORWARD_FACE: (40.0, 42.0), PartPlace.REVERSE_FACE: 30.0}),
        reading(Component.PITCH, (866.0, 868.0)),
    )
    sprocket, pitch = (assess(seen, source).rows(each, Side.LEFT)[0] for each in source.components)
    assert (sprocket.basis, sprocket.size_mm, sprocket.percent_worn) == (Basis.MEASURED, 41.0, None)
    assert (sprocket.place, sprocket.readings) == (PartPlace.FORWARD_FACE, 2)
    assert (pitch.size_mm, pitch.percent_worn, pitch.low) == (867.0, None, None)
    overall = assess(seen, source).overall
    assert (overall.seen_share, overall.unseen, overall.percent_worn) == (0.0, 2, None)
    assert (overall.floor, overall.ceiling) == (0.0, 100.0)


def test_rule_21_travel_has_only_sides_with_a_size() -> None:
    source = chart(
        ChartComponent(Component.ADJUSTER, start=40.0, end=140.0),
        ChartComponent(Component.SAG, range=(55.0, 75.0)),
    )
    seen = inspection(
        reading(Component.SAG, (64.0, 68.0), 80.0, stopped="coasting", packed=False),
        reading(Component.ADJUSTER, (90.0, 94.0), unseen()),
        reading(Component.CUSHION, 10.0),
    )
    entries = [
        (each.component, each.side, each.size_mm, each.percent_used, each.in_range)
        for each in assess(seen, source).travel
    ]
    assert entries == [
        (Component.ADJUSTER, Side.LEFT, 92.0, 52.0, None),
        (Component.CUSHION, Side.LEFT, 10.0, None, None),
        (Component.SAG, Side.LEFT, 66.0, None, True),
        (Component.SAG, Side.RIGHT, 80.0, None, False),
    ]


def test_rule_21_travel_is_the_mean_of_the_values_at_whichever_place() -> None:
    source = chart(ChartComponent(Component.ADJUSTER, start=40.0, end=140.0))
    upper, lower = PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE
    seen = inspection(reading(Component.ADJUSTER, {upper: (90.0, 96.0), lower: 102.0}, {upper: unseen()}))
    entries = [(each.side, each.size_mm, each.percent_used) for each in assess(seen, source).travel]
    assert entries == [(Side.LEFT, 96.0, 56.0)]


def test_sag_is_valid_only_if_told_how_the_machine_was_stopped() -> None:
    source = chart(ChartComponent(Component.SAG, range=(55.0, 75.0)))
    for more in ({}, {"stopped": "coasting"}, {"packed": True}):
        assert assess(inspection(reading(Component.SAG, 60.0, **more)), source).travel[0].in_range is None


def test_rule_22_by_eye_or_not_seen_holds_for_each_position() -> None:
    seen = inspection(
        reading(Component.BOTTOM_ROLLER, by_eye(10, 30), unseen("guards")), machine=machine(bottom_rollers=3)
    )
    assessed = assess(seen, chart(ROLLER))
    assert bases(assessed.rows(Component.BOTTOM_ROLLER, Side.LEFT)) == [Basis.BY_EYE] * 3
    assert {each.reason for each in assessed.rows(Component.BOTTOM_ROLLER, Side.RIGHT)} == {"guards"}


def test_rule_22_lists_and_mappings_by_position() -> None:
    seen = inspection(
        reading(Component.BOTTOM_ROLLER, (280.0, None, 270.0), {2: at_least(40), "others": at_most(20)}),
        machine=machine(bottom_rollers=3),
    )
    assessed = assess(seen, chart(ROLLER))
    assert bases(assessed.rows(Component.BOTTOM_ROLLER, Side.LEFT)) == [Basis.MEASURED, Basis.NOT_SEEN, Basis.MEASURED]
    right = assessed.rows(Component.BOTTOM_ROLLER, Side.RIGHT)
    assert [(each.low, each.high) for each in right] == [(None, 20), (40, None), (None, 20)]


def test_rule_22_a_mapping_by_place_may_hold_lists_by_position() -> None:
    seen = inspection(
        reading(Component.BOTTOM_ROLLER, {INNER: (280.0, 260.0), OUTER: {2: 250.0}}), machine=machine(bottom_rollers=2)
    )
    rows = assess(seen, chart(ROLLER)).rows(Component.BOTTOM_ROLLER, Side.LEFT)
    assert [(each.place, each.percent_worn) for each in rows] == [(INNER, 20.0), (OUTER, 50.0)]


def test_row_keeps_what_documents_need() -> None:
    seen = inspection(
        reading(Component.BUSHING, {PartPlace.REVERSE_SIDE: about(20), PartPlace.FORWARD_SIDE: 80.0}, gauge="caliper")
    )
    row = assess(seen, chart(wears(Component.BUSHING, 84.0, 74.0))).components[0]
    assert row.place_order == (PartPlace.REVERSE_SIDE, PartPlace.FORWARD_SIDE)
    assert ([each.place for each in row.places], [each.place for each in row.estimates]) == (
        [PartPlace.FORWARD_SIDE],
        [PartPlace.REVERSE_SIDE],
    )
    assert (row.gauge, row.estimate) == ("caliper", None)
