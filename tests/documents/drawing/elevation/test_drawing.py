"""What is drawn of a side: gauges, mirrored sides, counts of elements, the words that stand for it."""

import math
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from documents.drawing.elevation.machines import NOT_SEEN, by_eye, hollin, measured, side_of

from tracksworn.assessment.model import Stage
from tracksworn.documents.drawing.elevation import (
    AdjusterTravel,
    ElevationResult,
    ElevationWords,
    SideElevation,
    draw_elevation,
    draw_sides,
)
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import STAGE_INKS
from tracksworn.documents.drawing.plain import Circle, Line, Path, Point
from tracksworn.documents.drawing.svg import svg
from tracksworn.inspection.vocabulary import Component, Layout, ShoeKind, Side

EVERY = [side_of(layout, side=side) for layout in Layout for side in Side]
INKS = set(STAGE_INKS.values())


def with_all(side: SideElevation, gauge: Gauge) -> SideElevation:
    return replace(
        side,
        worn=dict.fromkeys(side.worn, gauge),
        bottom_rollers=(gauge,) * len(side.bottom_rollers),
        top_rollers=(gauge,) * len(side.top_rollers),
    )


def hatching(result: ElevationResult) -> list[Path]:
    return [path for path in result.drawing.paths if path.stroke is not None and path.stroke.colour in INKS]


def hatched_length(result: ElevationResult) -> float:
    return sum(
        math.dist(*shape.points) for path in hatching(result) for shape in path.shapes if isinstance(shape, Line)
    )


def solid(result: ElevationResult) -> list[Path]:
    return [path for path in result.drawing.paths if path.fill in INKS]


def points(path: Path) -> list[Point]:
    flat: list[Point] = []
    for shape in path.shapes:
        if isinstance(shape, Circle):
            (x, y), r = shape.centre, shape.radius
            flat += [(x - r, y - r), (x + r, y + r)]
        elif isinstance(shape, Line):
            flat += shape.points
    return flat


@pytest.mark.parametrize("side", EVERY, ids=lambda side: f"{side.layout.value} {side.side.value}")
def test_a_drawing_stays_within_its_sheet_and_few_elements(side: SideElevation) -> None:
    drawing = draw_elevation(side).drawing
    assert drawing.width == side.width
    assert drawing.height <= side.height
    assert all(
        -0.4 <= x <= drawing.width + 0.4 and -0.4 <= y <= drawing.height
        for path in drawing.paths
        for x, y in points(path)
    )
    assert len(drawing.paths) <= 55
    assert len(drawing.texts) <= 45


def test_the_whole_report_machine_stays_few_elements() -> None:
    assert len(draw_elevation(hollin()).drawing.paths) <= 55


@pytest.mark.parametrize("layout", Layout)
def test_the_right_side_is_the_left_one_mirrored_but_not_its_type(layout: Layout) -> None:
    left, right = (draw_elevation(replace(side_of(layout, side=side), words=hollin().words)) for side in Side)
    numbers = [
        sorted((text.at[0], text.content) for text in result.drawing.texts if text.content.isdigit() and text.size < 7)
        for result in (left, right)
    ]
    assert [content for _, content in numbers[1]] == [content for _, content in numbers[0]][::-1]
    mirrored = sorted(left.drawing.width - x for x, _ in numbers[0])
    assert [x for x, _ in numbers[1]] == pytest.approx(mirrored, abs=0.01)
    assert left.denominator == right.denominator


@pytest.mark.parametrize("layout", Layout)
def test_metal_gone_grows_with_percent_until_nothing_is_left(layout: Layout) -> None:
    lengths = [hatched_length(draw_elevation(side_of(layout, percent=percent))) for percent in (0, 5, 20, 49, 99)]
    assert lengths[0] == 0
    assert lengths == sorted(set(lengths))
    past = draw_elevation(side_of(layout, percent=105))
    assert solid(past) == []
    assert {path.stroke.colour for path in hatching(past) if path.stroke} == {STAGE_INKS[Stage.PAST_LIMIT]}


@pytest.mark.parametrize("layout", Layout)
@pytest.mark.parametrize("pitch_known", [True, False])
def test_what_was_not_seen_has_no_ink_of_a_stage(layout: Layout, pitch_known: bool) -> None:
    result = draw_elevation(with_all(side_of(layout, pitch_known=pitch_known), NOT_SEEN))
    assert hatching(result) == solid(result) == []
    assert any(path.stroke and path.stroke.dash for path in result.drawing.paths)


@pytest.mark.parametrize("gauge", [by_eye(20, 40), by_eye(30, None), by_eye(None, 60)], ids=lambda gauge: gauge.figure)
def test_what_was_judged_by_eye_has_no_edge_but_the_dashed_ends_of_its_interval(gauge: Gauge) -> None:
    result = draw_elevation(with_all(side_of(Layout.OVAL), gauge))
    assert hatching(result) == solid(result) == []
    dashed = [path for path in result.drawing.paths if path.stroke and path.stroke.dash == (0.9, 0.6)]
    circles = sum(isinstance(shape, Circle) for path in dashed for shape in path.shapes)
    ends = sum(end is not None for end in (gauge.low, gauge.high))
    assert circles == ends * (6 + 1 + 2)  # bottom and top rollers, idler and sprocket


def test_a_part_without_a_percent_is_plain() -> None:
    sized_only = replace(measured(10), percent=None, low=None, high=None, stage=None, figure="–")
    result = draw_elevation(with_all(side_of(Layout.EXCAVATOR), sized_only))
    assert hatching(result) == solid(result) == []


@pytest.mark.parametrize("kind", ShoeKind)
def test_every_kind_of_shoe_is_a_gauge(kind: ShoeKind) -> None:
    worn = replace(side_of(Layout.OVAL), shoe=kind)
    bare = replace(worn, worn={part: gauge for part, gauge in worn.worn.items() if part is not Component.SHOE})
    assert hatched_length(draw_elevation(worn)) > hatched_length(draw_elevation(bare)) + 10


@pytest.mark.parametrize("layout", [layout for layout in Layout if layout is not Layout.RUBBER])
def test_without_a_pitch_no_link_is_invented_and_no_scale_is_stated(layout: Layout) -> None:
    result = draw_elevation(side_of(layout, pitch_known=False))
    assert (result.links, result.scale) == (None, None)
    assert "pitch" in result.typical


def test_only_a_chart_with_the_wheels_places_gives_a_scale() -> None:
    result = draw_elevation(hollin())
    assert result.scale == f"1 : {result.denominator}"
    assert result.links == 45
    assert draw_elevation(side_of(Layout.ELEVATED_SPROCKET)).scale is None


def test_a_scale_that_is_asked_for_is_kept() -> None:
    assert draw_elevation(replace(hollin(), denominator=33)).scale == "1 : 33"


def test_both_sides_are_drawn_at_one_scale() -> None:
    left, right = draw_sides(hollin(), replace(hollin(Side.RIGHT), links=46, words=ElevationWords()))
    assert left.denominator == right.denominator


def test_figures_stand_at_the_parts_and_bold_past_the_limit() -> None:
    texts = {text.content: text for text in draw_elevation(hollin()).drawing.texts}
    assert {
        "80",
        "71",
        "107",
        "adjuster, 54 % of travel used",
        "front idler",
        "rear idler",
        "top roller",
    } <= texts.keys()
    assert texts["107"].weight == 700
    assert texts["71"].weight == 600


def test_no_type_is_under_the_floor() -> None:
    sides = [*EVERY, replace(hollin(), width=88, height=46, small=True)]
    assert min(text.size for side in sides for text in draw_elevation(side).drawing.texts) >= 6.2


def test_not_seen_wheels_say_so() -> None:
    texts = [text.content for text in draw_elevation(with_all(side_of(Layout.OVAL), NOT_SEEN)).drawing.texts]
    assert texts.count("not seen") == 2 + 1 + 4  # wheels, top roller, bars


def test_an_adjuster_that_was_not_seen_has_its_words_but_no_tick() -> None:
    def ticks(adjuster: AdjusterTravel) -> int:
        drawing = draw_elevation(replace(hollin(), adjuster=adjuster)).drawing
        return sum(path.stroke is not None and path.stroke.width == 0.6 for path in drawing.paths)

    assert ticks(AdjusterTravel("adjuster, 54 % of travel used", 54)) == 1
    assert ticks(AdjusterTravel("adjuster not seen", None)) == 0


def test_the_listing_sheets_drawing_has_figures_alone() -> None:
    texts = [
        text.content
        for text in draw_elevation(replace(hollin(), width=88, height=46, small=True, pins=())).drawing.texts
    ]
    assert "107" in texts
    assert not {"1", "8", "front idler", "sprocket", "Links"} & set(texts)


@pytest.mark.parametrize("side", [hollin(), *EVERY[:3]], ids=lambda side: f"{side.layout.value} {side.side.value}")
def test_the_alternative_stands_in_the_picture(side: SideElevation) -> None:
    root = ElementTree.fromstring(svg(draw_elevation(side).drawing))
    assert root[0].text == side.alternative


def test_the_same_side_gives_the_same_drawing() -> None:
    assert draw_elevation(hollin()) == draw_elevation(hollin())


@pytest.mark.parametrize("side", Side)
def test_on_a_flat_layout_the_bars_stand_in_one_line_beside_the_heading(side: Side) -> None:
    flat, raised = (replace(side_of(layout, side=side), words=hollin(side).words)
                    for layout in (Layout.OVAL, Layout.ELEVATED_SPROCKET))  # fmt: skip
    for one, rows in ((flat, 1), (raised, 4)):
        names = set(one.words.bars.values())
        bars = [text.at[1] for text in draw_elevation(one).drawing.texts if text.content in names]
        assert len(bars) == 4
        assert len(set(bars)) == rows


@pytest.mark.parametrize("height", [43.0, 36.0, 31.0])
def test_the_lowest_drawing_of_a_listing_sheet_has_every_rollers_figure_under_it_in_one_row(height: float) -> None:
    """However long the note in its corner: it stands in lines, and the track beside it as large as there is room."""
    for side, note in ((Side.LEFT, "parte delantera de la máquina a la izquierda"), (Side.RIGHT, "")):
        words = replace(hollin(side).words, title="Lado izquierdo", note=note, scale_bars=())
        drawn = draw_elevation(replace(hollin(side), width=89, height=height, small=True, pins=(), words=words))
        under = [text for text in drawn.drawing.texts if text.at[1] > drawn.drawing.height - 2]
        assert {text.content for text in under} == {"80", "71", "107", "65", "60", "66", "73", "81"}
        assert len({text.at[1] for text in under}) == 1
        assert drawn.denominator <= 82
