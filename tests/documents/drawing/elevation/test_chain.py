"""The chain on its wheels: links of exactly one pitch, closed, on the wheels that carry it."""

import math
from dataclasses import replace

import pytest
from documents.drawing.elevation.machines import HOLLIN, PITCHES
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.elevation.undercarriage import Fitted, Undercarriage, undercarriage
from tracksworn.documents.drawing.elevation.walk import Chain, chain
from tracksworn.documents.drawing.elevation.wheels import top_roller_centres, wraps
from tracksworn.inspection.chart import Geometry
from tracksworn.inspection.vocabulary import Component, Layout

TO_SCALE = Fitted(Layout.ELEVATED_SPROCKET, True, HOLLIN, 8, 1, 45, None)


def typical(layout: Layout, *, bottom: int = 6, top: int = 1, links: int | None = None) -> Fitted:
    return Fitted(layout, False, Geometry(pitch=PITCHES[layout]), bottom, top, links, None)


def chords(it: Chain) -> list[float]:
    return [math.dist(a, b) for a, b in zip(it.pins, it.pins[1:] + it.pins[:1], strict=True)]


@pytest.mark.parametrize(
    "fitted", [TO_SCALE, *(typical(layout) for layout in Layout)], ids=lambda fitted: fitted.layout.value
)
def test_every_link_is_one_pitch_and_the_last_ends_at_the_first_pin(fitted: Fitted) -> None:
    it = chain(undercarriage(fitted))
    assert chords(it) == pytest.approx([it.undercarriage.pitch] * len(it.pins), abs=1e-5)
    assert abs(it.gap) < 1e-4


def test_the_count_recorded_is_drawn_by_moving_the_front_idler() -> None:
    full, short = chain(undercarriage(TO_SCALE)), chain(undercarriage(replace(TO_SCALE, links=44)))
    assert (len(full.pins), len(short.pins)) == (45, 44)
    assert short.forward == pytest.approx(full.forward - 108, abs=4)  # a link shorter is half a link of travel


def test_a_count_beyond_the_adjusters_travel_gives_way_to_the_nearest_whole() -> None:
    assert len(chain(undercarriage(replace(TO_SCALE, links=60))).pins) == 45


def test_without_the_wheels_places_the_count_sets_their_distance() -> None:
    few, many = (chain(undercarriage(typical(Layout.EXCAVATOR, links=links))) for links in (45, 53))
    assert (len(few.pins), len(many.pins)) == (45, 53)
    assert many.undercarriage.rear_x - few.undercarriage.rear_x == pytest.approx(4 * 190, rel=0.05)


@pytest.mark.parametrize("layout", Layout)
def test_pins_lie_on_the_sprocket_and_stand_off_every_wheel_by_the_rail(layout: Layout) -> None:
    it = chain(undercarriage(typical(layout)))
    for wheel in it.wheels:
        distances = [math.dist(pin, wheel.centre) - wheel.radius for pin in it.pins]
        assert (
            min(distances) > -0.02 * it.undercarriage.pitch
        )  # chords cut into the arc between their ends, pins do not
    sprocket = it.wheels[0]
    on_it = [pin for pin in it.pins if abs(math.dist(pin, sprocket.centre) - sprocket.radius) < 0.01]
    assert len(on_it) >= 3


def test_pins_on_the_sprocket_lie_in_every_second_gap_of_hunting_teeth() -> None:
    it = chain(undercarriage(TO_SCALE))
    assert it.undercarriage.hunting
    x, y = it.undercarriage.sprocket_at
    first, second = (math.atan2(pin[1] - y, pin[0] - x) for pin in it.pins[:2])
    assert second - first == pytest.approx(2 * math.tau / 23, abs=1e-6)


def test_the_sprockets_radius_is_that_of_its_polygon() -> None:
    """r = P / (2 sin(π / n)), plane geometry of a regular polygon; n is 11.5 for 23 hunting teeth."""
    assert undercarriage(TO_SCALE).sprocket_radius == pytest.approx(216 / (2 * math.sin(math.pi / 11.5)))
    assert undercarriage(TO_SCALE).sprocket_radius * 2 == pytest.approx(800, abs=1)


@pytest.mark.parametrize("layout", Layout)
@pytest.mark.parametrize("top", [1, 2, 6])
def test_every_top_roller_carries_the_upper_run(layout: Layout, top: int) -> None:
    it = chain(undercarriage(typical(layout, top=top)))
    carrying = [wheel.centre for wheel in it.wheels if wheel.part is Component.TOP_ROLLER]
    assert sorted(carrying) == sorted(top_roller_centres(it.undercarriage))
    assert all(
        turn > 0
        for wheel, (_, turn) in zip(it.wheels, wraps(it.wheels), strict=True)
        if wheel.part is Component.TOP_ROLLER
    )


@pytest.mark.parametrize("layout", Layout)
def test_bottom_rollers_stand_on_the_rail_in_a_row_clear_of_each_other(layout: Layout) -> None:
    for count in (1, 2, 8, 20):
        it = undercarriage(typical(layout, bottom=count))
        assert it.bottom_height - it.bottom_radius == pytest.approx(it.rail_line)
        assert all(b - a > 2 * it.bottom_radius for a, b in zip(it.bottom_at, it.bottom_at[1:], strict=False))


def test_wheels_that_would_run_into_one_another_give_way_to_typical_ones() -> None:
    nonsense = Geometry(
        idler_centres=300, sprocket_back=100, sprocket_height=10, front_idler=900, rear_idler=900, pitch=216
    )
    it = undercarriage(replace(TO_SCALE, geometry=nonsense, links=None))
    assert not it.to_scale
    assert "idler_centres" in it.typical
    assert it.pitch == 216


lengths = st.floats(50, 6000)


@given(
    st.sampled_from(Layout),
    st.builds(
        Geometry, idler_centres=st.none() | lengths, sprocket_back=st.none() | lengths,
        sprocket_height=st.none() | lengths, front_idler=st.none() | lengths, sprocket=st.none() | lengths,
        teeth=st.none() | st.integers(5, 60),
        bottom_roller=st.none() | lengths, pitch=st.none() | st.floats(60, 320),
    ),
    st.integers(1, 20), st.integers(0, 6), st.none() | st.integers(20, 120),
)  # fmt: skip
def test_any_geometry_gives_a_closed_chain(
    layout: Layout, geometry: Geometry, bottom: int, top: int, links: int | None
) -> None:
    it = chain(undercarriage(Fitted(layout, True, geometry, bottom, top, links, None)))
    assert math.dist(it.line.points[0], it.line.points[-1]) < 1e-6
    assert bool(it.pins) == (geometry.pitch is not None)
    if it.pins:
        assert chords(it) == pytest.approx([it.undercarriage.pitch] * len(it.pins), abs=1e-4)


def test_an_undercarriage_says_what_of_it_is_typical() -> None:
    it: Undercarriage = undercarriage(replace(TO_SCALE, geometry=replace(HOLLIN, top_roller=None)))
    assert "top_roller" in it.typical
    assert it.to_scale
    assert not undercarriage(replace(TO_SCALE, geometry=replace(HOLLIN, front_idler=None))).to_scale
    assert not undercarriage(replace(TO_SCALE, geometry=replace(HOLLIN, pitch=None))).to_scale
