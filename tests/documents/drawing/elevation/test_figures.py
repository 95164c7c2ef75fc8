"""Figures and words at the parts: in hubs, under rollers, under the ground line, and the bar of the scale."""

import math
from dataclasses import replace

import pytest
from documents.drawing.elevation.machines import NOT_SEEN, by_eye, hollin, measured, side_of

from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.elevation import SideElevation, draw_elevation
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.plain import Line, Text
from tracksworn.inspection.vocabulary import Component, Layout, Side

FLAT = [layout for layout in Layout if layout is not Layout.ELEVATED_SPROCKET]
UNSEEN = Gauge(Basis.NOT_SEEN, "–", word="not seen", reason="guard fitted")
BARS = ((2000.0, "2 m"), (1000.0, "1 m"), (500.0, "500 mm"))


def texts(side: SideElevation) -> dict[str, Text]:
    return {text.content: text for text in draw_elevation(side).drawing.texts}


def with_bars(side: SideElevation) -> SideElevation:
    return replace(side, words=replace(side.words, scale_bars=BARS))


def test_rollers_that_were_not_seen_have_the_reason_over_all_of_them() -> None:
    rollers = (*[measured(58)] * 2, *[UNSEEN] * 4, *[measured(61)] * 2)
    said = texts(replace(hollin(), bottom_rollers=rollers, pins=()))
    numbers = [said[str(number)].at[0] for number in range(3, 7)]
    assert said["not seen, guard fitted"].at[0] == pytest.approx(sum(numbers) / 4)
    assert "–" not in said


def test_a_single_roller_that_was_not_seen_keeps_its_dash_where_no_word_fits() -> None:
    rollers = (*[measured(58)] * 10, UNSEEN, *[measured(61)] * 9)
    said = texts(replace(hollin(), bottom_rollers=rollers))
    assert "–" in said
    assert not {"not seen", "not seen, guard fitted"} & said.keys()


def test_different_reasons_stand_apart() -> None:
    other = replace(UNSEEN, reason="packed with clay")
    said = texts(replace(hollin(), bottom_rollers=(UNSEEN,) * 4 + (other,) * 4))
    assert {"not seen, guard fitted", "not seen, packed with clay"} <= said.keys()


def test_a_wheel_that_was_not_seen_says_why() -> None:
    side = side_of(Layout.OVAL)
    said = texts(replace(side, worn={**side.worn, Component.SPROCKET: UNSEEN}))
    assert said["guard fitted"].at[0] == said["not seen"].at[0]
    assert said["guard fitted"].at[1] > said["not seen"].at[1]


def test_a_size_without_percent_is_not_said_to_be_unseen() -> None:
    side = side_of(Layout.OVAL)
    without = Gauge(Basis.NOT_SEEN, "–", word="measured, no percent")
    assert "measured, no percent" in texts(replace(side, worn={**side.worn, Component.SPROCKET: without}))


@pytest.mark.parametrize("layout", FLAT)
def test_the_top_rollers_figure_stands_centred_under_it(layout: Layout) -> None:
    side = replace(side_of(layout, top=1), top_rollers=(measured(38),))
    (roller,) = [text for text in draw_elevation(side).drawing.texts if text.content == "38"]
    assert roller.anchor == "middle"
    assert roller.halo


def test_the_raised_sprockets_name_stands_close_under_its_teeth() -> None:
    result = draw_elevation(hollin())
    said = {text.content: text for text in result.drawing.texts}
    hub = next(text for text in result.drawing.texts if text.content == "40" and text.size == 11 and text.at[1] < 35)
    pitches_on_sheet = 400 / result.denominator  # its radius to the pin line
    assert math.dist(said["sprocket"].at, hub.at) < pitches_on_sheet + 5


def test_a_figure_under_nought_has_its_word() -> None:
    within, beyond = measured(-3), replace(measured(-9), high=-2.0)
    side = replace(side_of(Layout.OVAL, top=0), bottom_rollers=(within, measured(58), beyond))
    said = texts(side)
    assert said["as new"].at[0] == said["-3"].at[0]
    assert said["better than new"].at[0] == said["-9"].at[0]
    assert not {"as new", "better than new"} & texts(replace(side, bottom_rollers=(measured(58),))).keys()


def test_a_range_in_a_small_hub_makes_it_larger() -> None:
    side = side_of(Layout.EXCAVATOR)
    ranged = replace(side, worn={**side.worn, Component.FRONT_IDLER: by_eye(20, 40)})
    assert texts(ranged)["20–40"].size >= 7.8


@pytest.mark.parametrize("side", Side)
def test_the_scale_bar_is_as_long_as_it_says(side: Side) -> None:
    result = draw_elevation(with_bars(hollin(side)))
    (text,) = [text for text in result.drawing.texts if f"1 : {result.denominator}" in text.content]
    length = {called: mm for mm, called in BARS}[text.content.split(" · ")[0]] / result.denominator
    bars = [
        abs(shape.points[1][0] - shape.points[0][0])
        for path in result.drawing.paths
        for shape in path.shapes
        if isinstance(shape, Line) and len(shape.points) == 2 and shape.points[0][1] == shape.points[1][1]
    ]
    assert any(bar == pytest.approx(length) for bar in bars)
    assert (text.anchor == "end") == (side is Side.RIGHT)


def test_no_scale_bar_where_no_scale_is_stated() -> None:
    assert not any(" · 1 : " in content for content in texts(with_bars(side_of(Layout.OVAL))))


def test_not_seen_without_a_reason_says_that_much() -> None:
    said = texts(replace(side_of(Layout.OVAL), bottom_rollers=(replace(NOT_SEEN, word="not seen"),) * 6))
    assert "not seen" in said
