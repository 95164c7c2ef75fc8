"""A part against what is allowed: what is drawn stands where the figures say."""

import pytest
from documents.drawing.sheets import assert_sound, has_stage_ink, hatching, stage_of, strokes
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.allowance import (
    ALLOWED,
    WIDTH,
    Allowance,
    draw_allowance,
    draw_allowance_scale,
)
from tracksworn.documents.drawing.bar import EDGE, OUTLINE
from tracksworn.documents.drawing.plain import Drawing

MOST = 100.0
AS_NEW, END = 1.0, WIDTH - 3.0


def x_of(percent: float, most: float = MOST) -> float:
    return AS_NEW + (END - AS_NEW) * min(max(percent, 0.0), most) / most


def measured(percent: float, below: float, above: float, allowed: float | None = 66.0) -> Allowance:
    text = "" if allowed is None else f"{allowed:.0f}"
    return Allowance(
        Basis.MEASURED, percent, percent - below, percent + above, stage_of(percent), allowed, text, word="no percent"
    )


def drawn(allowance: Allowance, most: float = MOST) -> Drawing:
    return draw_allowance(allowance, most, alternative="said")


@given(st.floats(-5, 140), st.floats(0.5, 20), st.floats(0.5, 20), st.floats(0, 120))
def test_bar_whisker_and_stroke_stand_where_the_figures_say(
    percent: float, below: float, above: float, allowed: float
) -> None:
    drawing = drawn(measured(percent, below, above, allowed))
    assert_sound(drawing)
    (stroke,) = strokes(drawing, ALLOWED)
    assert stroke.points[0][0] == pytest.approx(x_of(allowed))
    whisker = next(line for line in strokes(drawing, EDGE) if line.points[0][1] == line.points[1][1])
    assert [x for x, _ in whisker.points] == pytest.approx([x_of(percent - below), x_of(percent + above)])
    bars = [line for line in strokes(drawing, OUTLINE) if line.closed]
    assert len(bars) == (x_of(percent) > AS_NEW)
    for bar in bars:
        assert max(x for x, _ in bar.points) == pytest.approx(x_of(percent))


def test_hatch_never_leaves_the_bar() -> None:
    lines = hatching(drawn(measured(50.0, 5.0, 5.0)))
    assert lines
    assert max(x for line in lines for x, _ in line.points) <= x_of(50.0) + 1e-6


def test_past_the_limit_the_hatch_is_crossed() -> None:
    def slopes(percent: float) -> set[bool]:
        lines = hatching(drawn(measured(percent, 5.0, 5.0), 120.0))
        return {(b[0] - a[0]) * (b[1] - a[1]) > 0 for a, b in (line.points for line in lines)}

    assert (len(slopes(99.0)), len(slopes(101.0))) == (1, 2)


@pytest.mark.parametrize(
    "allowance",
    [
        Allowance(Basis.NOT_SEEN, word="not seen"),
        Allowance(Basis.MEASURED, word="no percent"),
        Allowance(Basis.BY_EYE, 50.0, 40.0, 60.0, stage_of(50.0), 66.0, "66"),
        Allowance(Basis.BY_EYE, None, 60.0, None, None, 66.0, "66"),
        Allowance(Basis.BY_EYE, None, None, 30.0, None, 66.0, "66"),
    ],
    ids=["not seen", "no percent", "by eye", "at least", "at most"],
)
def test_what_was_not_measured_has_no_metal(allowance: Allowance) -> None:
    drawing = drawn(allowance)
    assert_sound(drawing)
    assert not has_stage_ink(drawing)
    assert len(strokes(drawing, ALLOWED)) == (allowance.allowed is not None)
    assert {text.content for text in drawing.texts} == {allowance.allowed_text or allowance.word}


def test_without_an_allowance_there_is_no_stroke() -> None:
    drawing = drawn(measured(48.0, 5.0, 5.0, allowed=None))
    assert strokes(drawing, ALLOWED) == []
    assert drawing.texts == ()


def test_the_scale_has_its_figures_over_their_percents() -> None:
    scale = draw_allowance_scale(60.0, alternative="said")
    assert_sound(scale)
    assert [text.content for text in scale.texts] == ["0", "20", "40", "60"]
    assert [text.at[0] for text in scale.texts] == pytest.approx([x_of(p, 60.0) for p in (0, 20, 40, 60)])
