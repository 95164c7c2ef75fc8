"""How one component wore: every point, its interval, the limit and the way there."""

from dataclasses import replace

import pytest
from documents.drawing.sheets import assert_sound, points
from hypothesis import given, settings
from hypothesis import strategies as st

from tracksworn.documents.drawing.inks import INK, LABEL, PAPER
from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Path
from tracksworn.documents.drawing.svg import svg
from tracksworn.documents.drawing.trend.draw import draw_trends
from tracksworn.documents.drawing.trend.trend import (
    FOOT,
    HEAD,
    LEAST_TOP,
    MOST_TOP,
    PER_PERCENT,
    Outlook,
    Trend,
    TrendPoint,
    TrendSide,
)
from tracksworn.inspection.vocabulary import Side

NOW = 8412.0


def point(hours: float, percent: float, within: float = 5.0, **more: bool) -> TrendPoint:
    return TrendPoint(hours, percent, percent - within, percent + within, **more)


def onwards(percent: float, best: float, low: float, high: float) -> Outlook:
    start = (NOW, percent)
    return Outlook((start, (NOW + best, 100)), (start, (NOW + low, 100)), (start, (NOW + high, 100)))


LEFT = TrendSide(Side.LEFT, 5210, (point(7660, 61), point(NOW, 79)), onwards(79, 840, 620, 1070))
RIGHT = TrendSide(Side.RIGHT, 5210, (point(7660, 53), point(NOW, 67)), onwards(67, 1530, 1250, 1880))
LINKS = Trend((LEFT, RIGHT), ((5210, "5\u202f210"), (NOW, "8\u202f412")), "Track links.")


def drawn(trend: Trend) -> Drawing:
    (drawing,) = draw_trends([trend])
    return drawing


def one_side(*seen: TrendPoint, began: float | None = None) -> Trend:
    return replace(LINKS, sides=(TrendSide(Side.LEFT, began, seen),), labels=())


def height_of(percent: float) -> float:
    return HEAD + (LINKS.top - percent) * PER_PERCENT


def dots(drawing: Drawing, fill: str) -> list[Circle]:
    return [shape for path in drawing.paths if path.fill == fill for shape in path.shapes if isinstance(shape, Circle)]


def test_every_measured_point_is_a_dot_at_its_height_full_on_the_left_open_on_the_right() -> None:
    drawing = drawn(LINKS)
    for side, fill in ((LEFT, INK), (RIGHT, PAPER)):
        heights = [dot.centre[1] for dot in dots(drawing, fill)]
        assert heights == pytest.approx([height_of(one.percent) for one in side.points], abs=0.01)


def test_hours_run_from_left_to_right_and_both_sides_stand_as_far_from_their_hours() -> None:
    drawing = drawn(LINKS)
    left, right = ([dot.centre[0] for dot in dots(drawing, fill)] for fill in (INK, PAPER))
    assert left == sorted(left)
    assert [b - a for a, b in zip(left, right, strict=True)] == pytest.approx([right[0] - left[0]] * 2, abs=0.002)


def test_every_point_has_its_whole_interval() -> None:
    (whiskers,) = (path for path in drawn(one_side(point(7000, 40, 6), point(NOW, 60, 4))).paths if is_whisker(path))
    ends = [sorted(y for _, y in shape.points) for shape in whiskers.shapes if isinstance(shape, Line)]
    assert ends == [
        pytest.approx([height_of(46), height_of(34)], abs=0.01),
        pytest.approx([height_of(64), height_of(56)], abs=0.01),
    ]


def is_whisker(path: Path) -> bool:
    return (
        path.stroke is not None
        and all(isinstance(one, Line) and is_upright(one) for one in path.shapes)
        and path.stroke.width == 0.22
    )


def is_upright(line: Line) -> bool:
    return len(line.points) == 2 and line.points[0][0] == line.points[1][0]


def test_the_limit_is_the_heaviest_stroke_and_stands_at_a_hundred() -> None:
    heaviest = max(
        (path for path in drawn(LINKS).paths if path.stroke), key=lambda path: (path.stroke and path.stroke.width) or 0
    )
    assert heaviest.stroke is not None
    assert heaviest.stroke.width == 0.5
    assert [y for _, y in points(heaviest)] == pytest.approx([height_of(100)] * 2, abs=0.01)


def test_what_is_ahead_ends_at_the_limit_or_at_the_frame() -> None:
    far = replace(LEFT, outlook=onwards(79, 40_000, 30_000, 90_000))
    for trend in (LINKS, replace(LINKS, sides=(far, RIGHT))):
        drawing = drawn(trend)
        assert all(
            0 <= x <= drawing.width and 0 <= y <= drawing.height for path in drawing.paths for x, y in points(path)
        )
    assert LINKS.end == NOW + min(1880, 0.8 * (NOW - 5210))


def test_by_eye_has_a_dashed_range_and_no_edge() -> None:
    drawing = drawn(one_side(point(7000, 30), point(NOW, 50, 10, counts=True, by_eye=True)))
    assert len(dots(drawing, INK)) == 1
    dashed = [path for path in drawing.paths if path.stroke and path.stroke.dash]
    assert [sorted(y for _, y in points(path)) for path in dashed] == [
        pytest.approx([height_of(60), height_of(40)], abs=0.01)
    ]


def test_what_no_rate_rests_on_is_lighter_and_no_part_of_the_line() -> None:
    seen = (point(6000, 20), point(7000, 50, counts=False), point(NOW, 60))
    trend = one_side(*seen, began=5210)
    drawing = drawn(trend)
    assert trend.sides[0].line == ((5210, 0), (6000, 20), (NOW, 60))
    assert trend.sides[0].aside == ((6000, 20), (7000, 50), (NOW, 60))
    assert [dot.centre[1] for dot in dots(drawing, LABEL)] == [pytest.approx(height_of(50), abs=0.01)]
    assert len(dots(drawing, INK)) == 2


def test_a_reading_of_the_part_before_is_joined_to_nothing() -> None:
    side = one_side(point(6000, 88, counts=False), point(NOW, 30), began=7000).sides[0]
    assert side.line == ((7000, 0), (NOW, 30))
    assert side.aside == ()


def test_worn_beyond_the_top_it_is_a_pointer_there() -> None:
    drawing = drawn(replace(one_side(point(7000, 90), point(NOW, 240)), top=MOST_TOP))
    assert len(dots(drawing, INK)) == 1
    assert all(y >= 0 for path in drawing.paths for _, y in points(path))


def test_a_trend_is_few_elements_of_few_segments() -> None:
    drawing = drawn(LINKS)
    assert len(drawing.paths) <= 16
    assert len(drawing.texts) == 5
    assert len(svg(drawing)) < 4500


def test_the_same_trend_gives_the_same_bytes() -> None:
    assert [svg(one) for one in draw_trends([LINKS, LINKS])] == [svg(drawn(LINKS))] * 2


def test_all_of_a_page_are_as_high_as_its_top_asks() -> None:
    assert drawn(LINKS).height == pytest.approx(HEAD + LEAST_TOP * PER_PERCENT + FOOT)
    assert drawn(replace(LINKS, top=130)).height == pytest.approx(HEAD + 130 * PER_PERCENT + FOOT)


hours = st.lists(st.integers(1, 60), min_size=2, max_size=6, unique=True).map(
    lambda some: sorted(h * 200.0 for h in some)
)


@st.composite
def sides(draw: st.DrawFn, side: Side) -> TrendSide:
    at = draw(hours)
    seen = tuple(
        point(
            hour,
            draw(st.floats(-8, 190)),
            draw(st.floats(1, 20)),
            counts=draw(st.booleans()),
            by_eye=draw(st.booleans()),
        )
        for hour in at
    )
    began = draw(st.none() | st.floats(0, at[-1] - 100))
    ahead = draw(st.none() | st.floats(1, 60_000))
    start, limit = (at[-1], seen[-1].percent), 100.0
    outlook = ahead and Outlook(
        (start, (at[-1] + ahead, limit)), (start, (at[-1], limit)), (start, (at[-1] + 3 * ahead, limit))
    )
    return TrendSide(side, began, seen, outlook or None)


@settings(max_examples=40, deadline=None)
@given(sides(Side.LEFT), sides(Side.RIGHT), st.sampled_from([1, 2]))
def test_any_trend_is_sound(left: TrendSide, right: TrendSide, count: int) -> None:
    bare = Trend((left, right)[:count], (), "said")
    first, last = bare.span
    drawing = drawn(replace(bare, labels=((first, f"{first:.0f}"), (last, f"{last:.0f}"))))
    assert_sound(drawing)
    assert all(-0.3 <= y <= drawing.height for path in drawing.paths for _, y in points(path))
