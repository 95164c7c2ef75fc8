"""Travel and range: a tick where the size is, and no metal."""

import pytest
from documents.drawing.sheets import assert_sound, has_stage_ink, strokes
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.rule import BAR, INNER, OUTER
from tracksworn.documents.drawing.travel import LINE, TICK, draw_range, draw_travel
from tracksworn.inspection.vocabulary import Side

SIDES = st.sampled_from(Side)


def tick(drawing: Drawing) -> float:
    (line,) = strokes(drawing, TICK)
    return line.points[0][0]


@given(st.floats(0, 100), SIDES)
def test_the_tick_stands_at_the_travel_used(used: float, side: Side) -> None:
    drawing = draw_travel(used, side, alternative="said")
    assert_sound(drawing)
    assert not has_stage_ink(drawing)
    x = OUTER + used * BAR / 100
    assert tick(drawing) == pytest.approx(x if side is Side.LEFT else OUTER + BAR + INNER - x)


@given(st.floats(1, 200), st.floats(10, 90), st.floats(0, 40), SIDES)
def test_the_tick_is_in_or_outside_the_range_as_the_size_is(size: float, low: float, extent: float, side: Side) -> None:
    high = low + extent
    drawing = draw_range(size, low, high, side, alternative="said")
    assert_sound(drawing)
    ends = sorted({line.points[0][0] for line in strokes(drawing, LINE) if line.points[0][0] == line.points[1][0]})
    assert len(strokes(drawing, TICK)) == 1
    inside = ends[0] - 1e-6 <= tick(drawing) <= ends[-1] + 1e-6
    if abs(size - low) > 1e-6 and abs(size - high) > 1e-6:
        assert inside == (low <= size <= high)


@pytest.mark.parametrize("used", [-30.0, 130.0])
def test_beyond_the_ends_an_arrow_points_on(used: float) -> None:
    within, beyond = (draw_travel(one, Side.LEFT, alternative="said") for one in (50.0, used))
    assert len(strokes(beyond, LINE)) == len(strokes(within, LINE)) + 1
    assert_sound(beyond)
