"""Observations at their places: no label meets another, a part, a figure, or another's leader."""

import math
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from documents.drawing.elevation.machines import LONG_BARS, LONG_NAMES, NOT_SEEN, by_eye, hollin, measured, side_of
from hypothesis import given, settings
from hypothesis import strategies as st

from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.elevation import (
    AdjusterTravel,
    ElevationResult,
    ElevationWords,
    Pin,
    SideElevation,
    draw_elevation,
)
from tracksworn.documents.drawing.elevation.alike import draw_alike
from tracksworn.documents.drawing.elevation.boxes import Box, crossed, text_box
from tracksworn.documents.drawing.elevation.label import DISC, SMALL_DISC, Sizes, shapes
from tracksworn.documents.drawing.elevation.search import Choices, choose
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import INK, PAPER
from tracksworn.documents.drawing.plain import Circle, Line, Text
from tracksworn.inspection.model import Spot
from tracksworn.inspection.vocabulary import Component, Layout, ObservedPlace, Side, Suspension

PLACES: list[Component | ObservedPlace] = [part for part in Component if part is not Component.CUSHION]
PLACES += list(ObservedPlace)
LEAST_AIR = 0.15  # mm between a leader, or a disc, and type


def type_boxes(result: ElevationResult) -> list[Box]:
    """All type but the numbers in discs, each line a box."""
    return [text_box(text) for text in result.drawing.texts if text.colour != PAPER]


def leaders(result: ElevationResult) -> np.ndarray:
    """Starts and ends of the leaders."""
    lines = [
        shape.points
        for path in result.drawing.paths
        if path.stroke is not None and path.stroke.width == 0.9 and path.stroke.colour == PAPER
        for shape in path.shapes
        if isinstance(shape, Line)
    ]
    return np.asarray(lines).reshape(-1, 2, 2)


def wheels(result: ElevationResult) -> list[Circle]:
    """Everything round that is as large as a roller."""
    return [
        shape
        for path in result.drawing.paths
        if path.stroke is not None
        for shape in path.shapes
        if isinstance(shape, Circle) and shape.radius > 2
    ]


def discs(result: ElevationResult) -> list[Circle]:
    """The numbered discs of the observations."""
    return [
        shape
        for path in result.drawing.paths
        if path.fill == INK
        for shape in path.shapes
        if isinstance(shape, Circle) and shape.radius in (DISC, SMALL_DISC)
    ]


UNSEEN = Gauge(Basis.NOT_SEEN, "–", word="not seen", reason="guards fitted and packed with clay")
SANS_REASON = Gauge(Basis.NOT_SEEN, "–", word="nicht gesehen")
TENTH, AT_LEAST = replace(measured(49.6), figure="49.6"), replace(by_eye(60, None), figure="≥60")
WORDS = ElevationWords(
    "Linke Seite", "Vorderseite der Maschine links", "Kette, Prozent verschlissen", LONG_BARS, LONG_NAMES,
    by_eye="nach Augenmaß", not_seen="nicht gesehen", as_new="wie neu", better_than_new="besser als neu",
    scale_bars=((1828.8, "6 ft"), (914.4, "3 ft"), (304.8, "1 ft")),
)  # fmt: skip
titles = st.sampled_from(
    ["Leak", "Side wear, slight", "Flat spot, marked", "Kettenspannvorrichtung undicht (stark)",
     "Seitenverschleiß, Laufflächenrillen und Axialspiel (mittel)"]
)  # fmt: skip
subtitles = st.sampled_from(["", "track frame", "Befestigungsschraube der Bodenplatte 27"])
spots = st.builds(Spot, st.sampled_from(PLACES), st.none(), st.none() | st.integers(1, 12))
gauges = st.sampled_from(
    [measured(58), measured(0), measured(-3), measured(106), measured(130), TENTH, by_eye(20, 40), AT_LEAST, NOT_SEEN,
     UNSEEN, SANS_REASON]
)  # fmt: skip
travel = st.sampled_from(
    [None, AdjusterTravel("adjuster, 54 % of travel used", 54),
     AdjusterTravel("Kettenspannvorrichtung, 104 % des Wegs genutzt", 104)]
)  # fmt: skip


@st.composite
def sides(draw: st.DrawFn) -> SideElevation:
    """A side of the full report: any layout, its parts, words and observations."""
    side = side_of(
        draw(st.sampled_from(Layout)), side=draw(st.sampled_from(Side)), bottom=draw(st.integers(1, 20)),
        top=draw(st.integers(0, 6)), pitch_known=draw(st.booleans()),
    )  # fmt: skip
    pins = draw(st.lists(st.tuples(titles, subtitles, spots, st.integers(0, 3)), max_size=14))
    rollers = (draw(st.tuples(*[gauges] * len(row))) for row in (side.bottom_rollers, side.top_rollers))
    bottom, top = rollers
    lugs = {Component.LUG, Component.DRIVE_LUG}
    absent = (
        {Component.LINK, Component.BUSHING, Component.PITCH, Component.SHOE} if side.layout is Layout.RUBBER else lugs
    )
    return replace(
        side,
        words=draw(st.sampled_from([side.words, WORDS])),
        bottom_rollers=bottom,
        top_rollers=top,
        suspension=draw(st.sampled_from([*Suspension, None])),
        worn={part: draw(gauges) for part in side.worn if part not in absent},
        adjuster=draw(travel),
        height=draw(st.sampled_from([55.0, 62.0, 80.0, 92.0])),
        pins=tuple(Pin(n + 1, *pin) for n, pin in enumerate(pins)),
    )


def small(side: SideElevation, height: float) -> SideElevation:
    """The same as a listing sheet has it."""
    return replace(side, small=True, width=89.0, height=height, words=replace(side.words, scale_bars=()))


def assert_legible(side: SideElevation, result: ElevationResult) -> None:
    """No type, disc or leader meets another's, and none leaves the sheet; every observation with a place has a disc."""
    boxes, lines, marks = type_boxes(result), leaders(result), discs(result)
    assert not any(a.meets(b) for a, b in combinations(boxes, 2))
    sheet = Box(-0.01, -0.01, side.width + 0.01, result.drawing.height + 0.01)
    around = [Box(x - r, y - r, x + r, y + r) for (x, y), r in ((disc.centre, disc.radius) for disc in marks)]
    assert all(within(box, sheet) for box in [*boxes, *around])
    if len(lines) and boxes:
        through = crossed(np.asarray([box.grown(LEAST_AIR).sides for box in boxes])[:, None], lines[:, 0], lines[:, 1])
        assert not through.any()
    assert not any(math.dist(d.centre, box.nearest(d.centre)) < d.radius + LEAST_AIR for d in marks for box in boxes)
    assert not any(math.dist(a.centre, b.centre) < a.radius + b.radius for a, b in combinations(marks, 2))
    assert len(marks) == len(result.placed) + len(result.bare)
    assert {(one.centre, one.radius) for one in result.discs} == {(one.centre, one.radius) for one in marks}
    assert len(result.placed) <= len(lines) <= len(marks)
    assert set(result.placed).isdisjoint(result.bare)


def within(box: Box, sheet: Box) -> bool:
    return sheet.left <= box.left and box.right <= sheet.right and sheet.top <= box.top and box.bottom <= sheet.bottom


@settings(max_examples=25)
@given(sides())
def test_no_label_meets_another_and_none_leaves_the_sheet(side: SideElevation) -> None:
    result = draw_elevation(side)
    assert_legible(side, result)
    said = {text for pin in side.pins for text in (pin.title, pin.subtitle)}
    named = [text_box(text) for text in result.drawing.texts if text.content in said]
    assert not [(box, wheel) for box in named for wheel in wheels(result) if meets(box, wheel)]


@settings(max_examples=20)
@given(sides(), st.sampled_from([43.0, 36.0, 29.0, 24.0]))
def test_nor_on_a_listing_sheet(side: SideElevation, height: float) -> None:
    of_a_listing = small(side, height)
    assert_legible(of_a_listing, draw_elevation(of_a_listing))


@settings(max_examples=20)
@given(sides(), st.sampled_from([38.0, 55.0, 80.0]), st.sampled_from([14.0, 21.0]))
def test_nor_in_a_comparison(side: SideElevation, width: float, height: float) -> None:
    compared = replace(side, small=True, words=ElevationWords(), pins=(), width=width, height=height)
    assert_legible(compared, draw_alike([compared], 10.0).results[0])


@pytest.mark.parametrize("layout", [Layout.OVAL, Layout.EXCAVATOR, Layout.TRACK_LOADER, Layout.RUBBER])
def test_labels_in_rows_over_a_flat_track_stand_clear_of_its_tips(layout: Layout) -> None:
    """However many words: they have two lines, long ones if need be."""
    title = "Seitenverschleiß, Laufflächenrillen und Axialspiel (mittel)"
    parts = (Component.FRONT_IDLER, Component.TOP_ROLLER)
    pins = tuple(Pin(n + 1, title, "untere Laufrolle 12", Spot(part)) for n, part in enumerate(parts))
    side = side_of(layout)
    result = draw_elevation(replace(side, words=replace(side.words, bars={}), pins=pins, height=80))
    tips = min(
        point[1]
        for path in result.drawing.paths
        if path.fill is not None and path.stroke is not None
        for shape in path.shapes
        if isinstance(shape, Line)
        for point in shape.points
    )
    named = [text for text in result.drawing.texts if text.content in (title, "untere Laufrolle 12")]
    assert len(named) == 2 * len(pins)
    assert [text.content for text in named if text_box(text).bottom >= tips] == []


def meets(box: Box, wheel: Circle) -> bool:
    (x, y), r = wheel.centre, wheel.radius
    return math.dist((x, y), (min(max(x, box.left), box.right), min(max(y, box.top), box.bottom))) < r


def test_a_few_observations_all_stand_with_their_words() -> None:
    result = draw_elevation(hollin())
    assert (result.placed, result.bare) == ((1, 2, 3), ())
    assert {"Side wear, slight", "idler rim, inner face"} <= {text.content for text in result.drawing.texts}


@pytest.mark.parametrize("side", Side)
def test_most_of_fourteen_observations_find_room(side: Side) -> None:
    parts: list[Component | ObservedPlace] = [
        Component.FRONT_IDLER, Component.REAR_IDLER, Component.SPROCKET, Component.TOP_ROLLER, Component.SHOE,
        ObservedPlace.TRACK_FRAME, ObservedPlace.PIVOT_SHAFT, ObservedPlace.ADJUSTER_SEAL, ObservedPlace.PIN,
        Component.LINK,
    ]  # fmt: skip
    spots = [Spot(part) for part in parts] + [Spot(Component.BOTTOM_ROLLER, None, number) for number in (1, 4, 6, 8)]
    pins = tuple(Pin(n + 1, "Leak, marked", "seen on one side", spot) for n, spot in enumerate(spots))
    result = draw_elevation(replace(hollin(side), pins=pins))
    assert len(result.placed) >= 11
    assert len(result.placed) + len(result.bare) == 14
    numbers = {text.content: text.at for text in result.drawing.texts if text.weight == 700}
    for one in result.discs:
        assert math.dist(numbers[str(one.number)], one.centre) < one.radius


@pytest.mark.parametrize("layout", [Layout.ELEVATED_SPROCKET, Layout.EXCAVATOR, Layout.RUBBER])
def test_what_is_inside_the_loop_is_labelled_there(layout: Layout) -> None:
    """The leader passes through neither the chain nor another wheel."""
    side = replace(
        side_of(layout), height=80, pins=(Pin(1, "Leak, marked", "", Spot(Component.BOTTOM_ROLLER, None, 3)),)
    )
    result = draw_elevation(side)
    [(start, end)] = leaders(result)
    text = next(text for text in result.drawing.texts if text.content == "Leak, marked")
    upper = min(circle.centre[1] - circle.radius for circle in wheels(result))
    assert upper < text.at[1] < end[1]
    through = [c for c in wheels(result) if math.dist(c.centre, end) > c.radius and meets_line(c, start, end)]
    assert result.placed == (1,)
    assert through == []


def test_where_its_part_has_no_room_inside_the_loop_the_title_stands_there_alone() -> None:
    part = "a third bottom roller of the left side with a name that is by far too long for any room between wheels"
    side = side_of(Layout.ELEVATED_SPROCKET)
    result = draw_elevation(
        replace(side, height=66, pins=(Pin(1, "Leak, marked", part * 2, Spot(Component.BOTTOM_ROLLER, None, 3)),))
    )
    [(start, end)] = leaders(result)
    assert [text.content for text in result.drawing.texts if text.content in ("Leak, marked", part)] == ["Leak, marked"]
    assert result.placed == (1,)
    upper = min(circle.centre[1] - circle.radius for circle in wheels(result))
    assert upper < start[1] < end[1]


def meets_line(wheel: Circle, start: np.ndarray, end: np.ndarray) -> bool:
    points = (start + share * (end - start) for share in np.linspace(0, 1, 50))
    return any(math.dist(wheel.centre, point) < wheel.radius * 0.98 for point in points)


def test_every_observation_stands_at_its_part_even_in_a_crowd() -> None:
    spots = [Spot(part, None, number) for part in (Component.BOTTOM_ROLLER, Component.SHOE, Component.LINK)
             for number in range(1, 9)] + [Spot(Component.FRONT_IDLER)] * 6  # fmt: skip
    pins = tuple(Pin(n + 1, "Side wear, flange worn and end play, marked", "", spot) for n, spot in enumerate(spots))
    result = draw_elevation(replace(hollin(), pins=pins))
    assert sorted(result.placed + result.bare) == [pin.number for pin in pins]


@pytest.mark.parametrize("layout", Layout)
def test_what_is_on_the_lower_run_is_named_under_the_figures(layout: Layout) -> None:
    part = Component.LUG if layout is Layout.RUBBER else Component.SHOE
    pins = tuple(Pin(joint, "Bent, marked", f"shoe {joint}", Spot(part, None, joint)) for joint in (6, 31))
    result = draw_elevation(replace(side_of(layout), pins=pins))
    assert (result.placed, result.bare) == ((6, 31), ())
    texts = {text.content: text.at[1] for text in result.drawing.texts}
    figures = max(text.at[1] for text in result.drawing.texts if text.content == "40")
    assert texts["shoe 31"] > texts["31"] > figures > texts["shoe 6"]


def test_where_its_words_find_no_room_its_number_stands_under_the_ground_line() -> None:
    title = "Heat mark and pin walk at the inner side, marked"
    pins = tuple(Pin(joint, title, "", Spot(ObservedPlace.PIN, None, joint)) for joint in range(26, 36))
    result = draw_elevation(replace(hollin(), pins=pins))
    assert len(result.placed) >= 2
    assert len(result.bare) + len(result.placed) == 10
    heights = {text.content: text.at[1] for text in result.drawing.texts if text.colour == PAPER}
    assert all(heights[str(number)] > result.drawing.height - 18 for number in result.bare)


def test_the_graver_of_two_keeps_its_words() -> None:
    """Both labels would stand on the one place that is free; the higher rank wins whatever the order."""
    meets = np.array([[False, True], [True, False]])
    for ranks in ((0, 3), (3, 0)):
        two = Choices(np.array([0, 1, 2]), np.array([1.0, 1.0]), meets, np.zeros((2, 2)), ranks)
        assert choose(two) == [0 if rank else None for rank in ranks]


@pytest.mark.parametrize("layout", Layout)
@pytest.mark.parametrize("side", Side)
def test_of_fourteen_on_any_layout_ten_are_named_and_all_are_numbered(layout: Layout, side: Side) -> None:
    rubber = layout is Layout.RUBBER
    parts: list[Component | ObservedPlace] = [
        Component.FRONT_IDLER, Component.SPROCKET, Component.TOP_ROLLER, ObservedPlace.TRACK_FRAME,
        ObservedPlace.RECOIL_SPRING, ObservedPlace.ADJUSTER_BRACKET, Component.LUG if rubber else Component.SHOE,
        Component.DRIVE_LUG if rubber else Component.LINK,
    ]  # fmt: skip
    spots = [Spot(part) for part in parts] + [Spot(Component.BOTTOM_ROLLER, None, number) for number in (1, 3, 4, 6)]
    spots += [Spot(parts[6], None, number) for number in (9, 30)]
    pins = tuple(Pin(n + 1, "Leak, marked", "seen on one side", spot) for n, spot in enumerate(spots))
    result = draw_elevation(replace(side_of(layout, side=side), pins=pins, height=80))
    assert len(result.placed) >= 10
    assert sorted(result.placed + result.bare) == list(range(1, 15))


def test_a_place_that_is_not_on_the_machine_is_left_to_the_list() -> None:
    pins = (
        Pin(1, "Leak", "", Spot(Component.REAR_IDLER)),
        Pin(2, "Leak", "", Spot(None)),
        Pin(3, "Leak", "", Spot(Component.SPROCKET)),
    )
    result = draw_elevation(replace(side_of(Layout.OVAL), pins=pins))
    assert (result.placed, result.bare) == ((3,), ())


def test_long_words_are_broken_into_lines() -> None:
    title = "Tread grooves, flange worn and end play on the outer side, severe"
    result = draw_elevation(replace(hollin(), pins=(Pin(1, title, "", Spot(Component.FRONT_IDLER)),)))
    lines = [
        text.content for text in result.drawing.texts if text.content and text.content in title and " " in text.content
    ]
    assert " ".join(lines) == title
    assert max(text_box(Text((0, 0), line, 7.1, 600)).right for line in lines) <= 44


def test_the_search_leaves_out_as_few_as_it_must() -> None:
    """Two labels of two options each, whose cheap ones meet; a third whose only option meets all of the second's."""
    meets = np.zeros((5, 5), dtype=bool)
    for a, b in ((0, 2), (4, 2), (4, 3)):
        meets[a, b] = meets[b, a] = True
    choices = Choices(np.array([0, 2, 4, 5]), np.array([1.0, 9.0, 1.0, 5.0, 1.0]), meets, np.zeros((5, 5)))
    chosen = choose(choices)
    assert chosen[0] == 0
    assert sorted(option is None for option in chosen[1:]) == [False, True]
    free = choose(Choices(np.array([0, 2, 4]), choices.costs[:4], meets[:4, :4], np.zeros((4, 4))))
    assert free == [0, 1]  # 1 + 5 is less than 9 + 1


def test_words_that_are_each_wider_than_a_line_stand_one_a_line() -> None:
    longest = "Kettenführungsverschleiß Spurkranzberührungsfläche"
    narrow = shapes(Pin(1, longest, "", Spot(Component.LINK)), Sizes())[-1]
    assert [text.content for text in narrow.texts] == longest.split()
