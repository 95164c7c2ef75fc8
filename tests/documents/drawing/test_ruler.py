"""The overall ruler: the figure never without floor, ceiling and worst, and nothing on top of anything."""

import pytest
from documents.drawing.sheets import assert_sound, filled, stage_of
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.inks import INK
from tracksworn.documents.drawing.ruler import Ruler, draw_ruler


@st.composite
def rulers(draw: st.DrawFn) -> Ruler:
    floor = draw(st.floats(0, 100))
    ceiling = draw(st.floats(floor, 100))
    whole = draw(st.floats(floor, ceiling))
    within = draw(st.floats(0.1, 12))
    kind = draw(st.sampled_from(["measured", "by eye", "at least", "nothing"]))
    worst = draw(st.none() | st.floats(-5, 160))
    nothing, bound = kind == "nothing", kind == "at least"
    return Ruler(
        percent=None if nothing else whole,
        low=None if nothing else whole if bound else whole - within,
        high=None if nothing or bound else whole + within,
        floor=floor,
        ceiling=100.0 if bound else ceiling,
        whole_text="" if nothing else f"at least {whole:.0f}" if bound else f"whole {whole:.0f}",
        floor_text=f"floor {floor:.0f}",
        ceiling_text=f"ceiling {ceiling:.0f}",
        new_text="as new",
        limit_text="limit",
        alternative="said",
        worst=worst,
        worst_text="worst" if worst is not None else "",
        worst_stage=stage_of(worst) if worst is not None else None,
        by_eye=kind == "by eye",
    )


@given(rulers())
def test_any_ruler_is_sound_and_loses_no_label(ruler: Ruler) -> None:
    drawing = draw_ruler(ruler)
    assert_sound(drawing)
    said = {text.content for text in drawing.texts}
    wanted = {ruler.whole_text, ruler.worst_text, "as new", "limit", "100"}
    wanted |= set() if ruler.all_seen else {ruler.floor_text, ruler.ceiling_text}
    assert wanted - {""} <= said
    assert len(drawing.paths) <= 8


def test_where_all_was_seen_the_figure_stands_once() -> None:
    said = {text.content for text in draw_ruler(example(percent=4.0, low=2.0, high=6.0, floor=4.0, ceiling=4.0)).texts}
    assert "whole 53" in said
    assert not {"floor 49", "ceiling 56"} & said


def example(**changes: float | bool | None) -> Ruler:
    values = {"percent": 53.0, "low": 51.0, "high": 55.0, "floor": 49.0, "ceiling": 56.0} | changes
    return Ruler(
        **values,  # type: ignore[arg-type]
        whole_text="whole 53",
        floor_text="floor 49",
        ceiling_text="ceiling 56",
        new_text="as new",
        limit_text="limit",
        alternative="said",
    )


def test_the_interval_is_a_bar_from_low_to_high() -> None:
    ruler = example()
    (bar,) = filled(draw_ruler(ruler), INK)
    ends = sorted(x for x, _ in bar.points)
    assert (ends[0], ends[-1]) == pytest.approx((51 * 182 / 110, 55 * 182 / 110))


def test_by_eye_the_interval_is_no_bar() -> None:
    assert filled(draw_ruler(example(by_eye=True)), INK) == []


def test_with_nothing_seen_there_is_no_interval() -> None:
    ruler = example(percent=None, low=None, high=None, floor=0.0, ceiling=100.0)
    assert filled(draw_ruler(ruler), INK) == []
