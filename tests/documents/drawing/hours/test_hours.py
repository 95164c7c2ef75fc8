"""The chart of hours left: any rows and visits, nothing on top of anything, nothing clipped, nothing lost."""

from dataclasses import replace
from itertools import pairwise

import pytest
from documents.drawing.sheets import assert_sound, filled, strokes
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.hours.axis import axis_for
from tracksworn.documents.drawing.hours.chart import WIDTH, Bar, HoursChart, HoursRow, Tick, VisitLine
from tracksworn.documents.drawing.hours.draw import START, draw_hours
from tracksworn.documents.drawing.inks import INK, PAPER
from tracksworn.documents.drawing.lettering import box_of
from tracksworn.documents.drawing.plain import Circle, Line

ACCENT = "#1f5c6b"
NAMES = ("Track links", "Pitch", "Bottom roller 12", "Drive lugs", "Front idler")
NOTES = ("", "line over 2 422 h", "left, the worst seen; left: last 752 h; right: no rate known")


def bar(low: float, best: float, high: float | None) -> Bar:
    if best == 0 and high == 0:
        return Bar(0, 0, 0, "0", "none: past its limit")
    return Bar(low, best, high, f"from {low:.0f}" if high is None else f"{low:.0f} to {high:.0f}")


def chart(*rows: HoursRow, visits: tuple[float, ...] = (), scales: int = 2) -> HoursChart:
    axis = axis_for([one for row in rows for one in row.bars])
    below = ("18 412", "Sept 2031", "1 240")[:scales]
    return HoursChart(
        rows=rows,
        visits=tuple(VisitLine(str(n), hours) for n, hours in enumerate(visits, start=1)),
        ticks=tuple(Tick(hours, f"{hours:.0f}" if hours else "now", below) for hours in axis.ticks),
        end=axis.end,
        axis_text="from now, hours",
        visits_text="shop visits",
        scales=("hour meter", "month, at 35 h a week", "of that travelling, 14 %")[:scales],
        alternative="said",
        accent=ACCENT,
    )


@st.composite
def bars(draw: st.DrawFn) -> Bar:
    best = draw(st.just(0.0) | st.floats(0.5, 90_000))
    if best == 0.0:
        return bar(0, 0, draw(st.just(0.0) | st.floats(1, 500)))
    low = best * draw(st.floats(0, 1))
    return bar(low, best, draw(st.none() | st.floats(best, 3 * best)))


@st.composite
def charts(draw: st.DrawFn) -> HoursChart:
    rows = []
    for _ in range(draw(st.integers(1, 25))):
        left, right = draw(st.tuples(bars(), bars()) | st.tuples(bars(), st.none()) | st.tuples(st.none(), bars()))
        rows.append(HoursRow(draw(st.sampled_from(NAMES)), draw(st.sampled_from(NOTES)), left, right))
    bests = sorted({one.best for row in rows for one in row.bars})
    visits = draw(st.lists(st.sampled_from(bests), unique=True, max_size=9))
    return chart(*rows, visits=tuple(sorted(visits)), scales=draw(st.integers(0, 3)))


@given(charts())
def test_any_chart_is_sound_and_loses_nothing(made: HoursChart) -> None:
    drawing = draw_hours(made)
    assert_sound(drawing)
    said = [text.content for text in drawing.texts]
    for row in made.rows:
        for one in row.bars:
            assert one.text in said
            assert not one.flag or one.flag in said
    assert {visit.number for visit in made.visits} <= set(said)
    assert len([shape for path in drawing.paths for shape in path.shapes if isinstance(shape, Circle)]) == len(
        made.visits
    )
    assert len(drawing.paths) <= 8


@given(charts())
def test_no_line_runs_through_type(made: HoursChart) -> None:
    drawing = draw_hours(made)
    boxes = [box_of(text) for text in drawing.texts if text.colour != PAPER]
    uprights = [
        shape
        for path in drawing.paths
        for shape in path.shapes
        if isinstance(shape, Line) and len(shape.points) == 2 and shape.points[0][0] == shape.points[1][0]
    ]
    for line in uprights:
        (x, top), (_, bottom) = sorted(line.points, key=lambda point: point[1])
        assert not any(
            box.left < x < box.right and top < box.bottom - 0.01 and bottom > box.top + 0.01 for box in boxes
        )


@given(st.lists(bars(), min_size=1, max_size=50))
def test_the_axis_keeps_what_comes_first_legible(made: list[Bar]) -> None:
    axis = axis_for(made)
    ahead = sorted(one.best for one in made if one.best > 0)
    assert 1 <= len(axis.ticks) <= 9
    assert axis.ticks[-1] <= axis.end + 1e-6
    if ahead:
        assert sum(best <= axis.end for best in ahead) >= len(ahead) / 2
        assert ahead[0] <= axis.end
        assert axis.end <= max(10, min(10 * ahead[0], 5 * ahead[len(ahead) // 2]), 2.5 * ahead[len(ahead) // 2]) * 1.5


def test_a_long_life_beside_a_short_one_runs_off_the_axis_at_an_arrow() -> None:
    made = chart(
        HoursRow("Track links", "", bar(620, 830, 1070), bar(1250, 1500, 1880)),
        HoursRow("Pitch", "", bar(980, 1310, 1820), bar(9790, 14_000, None)),
    )
    assert made.end < 3000
    *_, arrow = filled(draw_hours(made), PAPER)
    assert max(x for x, _ in arrow.points) == WIDTH
    assert len(arrow.points) == 3
    assert "from 9790" in [text.content for text in draw_hours(made).texts]


def test_all_at_nought_is_flags_alone() -> None:
    made = chart(*(HoursRow(name, "", bar(0, 0, 0), bar(0, 0, 0)) for name in NAMES))
    drawing = draw_hours(made)
    assert_sound(drawing)
    assert [text.content for text in drawing.texts].count("none: past its limit") == 2 * len(NAMES)


def test_bars_stand_to_scale_left_solid_and_right_open() -> None:
    made = chart(HoursRow("Track links", "", bar(600, 800, 1000), bar(700, 900, 1000)))
    drawing = draw_hours(made)
    (solid,), (hollow,) = filled(drawing, INK), filled(drawing, PAPER)
    for shape, low, high in ((solid, 600, 1000), (hollow, 700, 1000)):
        ends = sorted({x for x, _ in shape.points})
        assert ends == pytest.approx([START + hours * (WIDTH - START) / made.end for hours in (low, high)])


def test_visits_are_drawn_through_all_rows_and_numbered_in_the_accent() -> None:
    rows = tuple(HoursRow(name, "", bar(500, 900, 1200), None) for name in NAMES)
    drawing = draw_hours(chart(*rows, visits=(0.0, 900.0)))
    lines = [path for path in drawing.paths if path.stroke is not None and path.stroke.colour == ACCENT]
    assert len(lines) == 1
    assert any(path.fill == ACCENT for path in drawing.paths)
    assert [text.content for text in drawing.texts if text.weight == 700] == ["1", "2"]


def test_visits_of_almost_one_hour_keep_their_numbers_apart() -> None:
    rows = (HoursRow("Track links", "", bar(500, 900, 1200), None),)
    drawing = draw_hours(chart(*rows, visits=(900.0, 901.0, 902.0)))
    (discs,) = [
        [one for one in path.shapes if isinstance(one, Circle)] for path in drawing.paths if path.fill == ACCENT
    ]
    assert all(right.centre[0] - left.centre[0] >= 3.5 for left, right in pairwise(discs))


def test_without_a_plan_nothing_is_said_of_visits() -> None:
    drawing = draw_hours(chart(HoursRow("Track links", "", bar(500, 900, 1200), None)))
    assert "shop visits" not in [text.content for text in drawing.texts]
    assert all(path.fill != ACCENT for path in drawing.paths)


def test_the_best_value_stands_out_of_its_bar() -> None:
    drawing = draw_hours(chart(HoursRow("Track links", "", bar(500, 900, 1200), None)))
    best = [path.stroke for path in drawing.paths if path.stroke is not None and path.stroke.width == 0.42]
    (line,) = strokes(drawing, best[0])
    (shape,) = filled(drawing, INK)
    heights = [y for _, y in shape.points]
    assert min(y for _, y in line.points) < min(heights)
    assert max(y for _, y in line.points) > max(heights)


def test_a_row_without_visits_or_scales_is_low() -> None:
    made = chart(HoursRow("Track links", "", bar(500, 900, 1200), None), scales=0)
    assert draw_hours(made).height < draw_hours(replace(made, scales=("hour meter",), ticks=())).height
