"""The twin wear rule: what a bar shows is what its gauge says."""

import pytest
from documents.drawing.sheets import (
    assert_sound,
    by_eye,
    filled,
    gauges,
    has_stage_ink,
    hatching,
    measured,
    not_seen,
    strokes,
)
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.assessment.model import Stage
from tracksworn.documents.drawing.bar import EDGE, LIMIT, MOST
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import STAGE_INKS
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.rule import (
    BAR,
    DEPTH,
    INNER,
    OUTER,
    TOP,
    draw_rule,
    draw_rule_scale,
    draw_twin_rule,
    words_inside,
)
from tracksworn.inspection.vocabulary import Side

SIDES = st.sampled_from(Side)


def rule(gauge: Gauge, side: Side = Side.LEFT) -> Drawing:
    return draw_rule(gauge, side, alternative="said")


def at(percent: float, side: Side = Side.LEFT) -> float:
    x = OUTER + percent * BAR / 100
    return x if side is Side.LEFT else OUTER + BAR + INNER - x


@given(gauges(), SIDES)
def test_any_gauge_is_sound_and_cheap(gauge: Gauge, side: Side) -> None:
    drawing = rule(gauge, side)
    assert_sound(drawing)
    assert len(drawing.paths) <= 8
    assert len(drawing.texts) <= 1
    assert drawing.alternative == "said"


@given(st.floats(0.5, 99.5), SIDES)
def test_the_edge_of_wear_stands_at_the_percent(percent: float, side: Side) -> None:
    drawing = rule(measured(percent), side)
    full = [line for line in strokes(drawing, EDGE) if {y for _, y in line.points} == {TOP, TOP + DEPTH}]
    assert [line.points[0][0] for line in full] == [pytest.approx(at(percent, side))]
    (solid,) = filled(drawing, next(STAGE_INKS[stage] for stage in Stage if filled(drawing, STAGE_INKS[stage])))
    ends = sorted(x for x, _ in solid.points)
    assert (ends[0], ends[-1]) == pytest.approx(sorted((at(percent, side), at(100, side))))


@given(st.floats(10, 90), st.floats(0.5, 9.5))
def test_the_whisker_ends_at_low_and_high(percent: float, within: float) -> None:
    level = [line for line in strokes(rule(measured(percent, within)), EDGE) if len({y for _, y in line.points}) == 1]
    (whisker,) = level
    assert [x for x, _ in whisker.points] == pytest.approx([at(percent - within), at(percent + within)])


@given(st.floats(1, 95), st.floats(1, 5))
def test_hatching_grows_with_wear(percent: float, more: float) -> None:
    less, greater = (
        max(x for line in hatching(rule(measured(w))) for x, _ in line.points) for w in (percent, percent + more)
    )
    assert less < greater <= at(percent + more) + 1e-3


@given(st.floats(100.5, 180))
def test_past_the_limit_breaks_through_the_stroke_which_opens(percent: float) -> None:
    drawing = rule(measured(percent))
    assert max(x for line in hatching(drawing) for x, _ in line.points) > at(100)
    assert max(x for line in hatching(drawing) for x, _ in line.points) <= at(MOST) + 1e-3
    inside = [y for line in strokes(drawing, LIMIT) for _, y in line.points if TOP < y < TOP + DEPTH]
    assert inside == []
    assert all(not (line.points[0][1] < TOP + 1 and line.points[1][1] > TOP + 1) for line in strokes(drawing, LIMIT))


def test_crossed_hatch_is_only_past_the_limit() -> None:
    def slopes(percent: float) -> set[bool]:
        return {
            (a[0] - b[0]) * (a[1] - b[1]) > 0 for a, b in (line.points for line in hatching(rule(measured(percent))))
        }

    assert len(slopes(99.0)) == 1
    assert len(slopes(101.0)) == 2


@given(st.integers(0, 60), st.integers(1, 30), SIDES)
def test_by_eye_has_no_edge_and_no_metal(low: int, extent: int, side: Side) -> None:
    drawing = rule(by_eye(low, low + extent), side)
    assert not has_stage_ink(drawing)
    assert [text.content for text in drawing.texts] == ["by eye"]
    upright = {round(line.points[0][0], 6) for line in strokes(drawing, EDGE) if line.points[0][0] == line.points[1][0]}
    assert upright == {round(at(low, side), 6), round(at(low + extent, side), 6)}
    assert all(abs(a[1] - b[1]) < DEPTH / 2 for a, b in (line.points for line in strokes(drawing, EDGE)))


def test_bounds_have_one_end() -> None:
    def ends(gauge: Gauge) -> set[float]:
        lines = [line.points for line in strokes(rule(gauge), EDGE) if len(line.points) == 2]
        return {round(a[0], 6) for a, b in lines if a[0] == b[0]}

    assert ends(by_eye(50, None)) == {round(at(50), 6)}
    assert ends(by_eye(None, 30)) == {round(at(30), 6)}


def test_not_seen_is_an_outline_with_its_reason() -> None:
    drawing = rule(not_seen("packed with clay"))
    assert not has_stage_ink(drawing)
    assert [text.content for text in drawing.texts] == ["not seen, packed with clay"]
    assert len(drawing.paths) == 1
    assert strokes(drawing, LIMIT) == []


def test_a_reason_too_long_for_the_bar_is_left_to_the_page() -> None:
    gauge = not_seen("guards fitted and the track packed with clay to the pins")
    assert words_inside(gauge) == "not seen"
    assert words_inside(not_seen("mud")) == "not seen, mud"


def test_better_than_new_reaches_out_over_a_dashed_end() -> None:
    drawing = rule(measured(-3.0))
    (solid,) = filled(drawing, STAGE_INKS[Stage.FIRST_HALF])
    assert min(x for x, _ in solid.points) == pytest.approx(at(-3.0))
    assert any(path.stroke and path.stroke.dash for path in drawing.paths)
    assert hatching(drawing) == []


@given(st.none() | gauges(), st.none() | gauges())
def test_the_twin_rule_is_its_two_halves(left: Gauge | None, right: Gauge | None) -> None:
    drawing = draw_twin_rule(left, right, alternative="both", middle=22.0)
    assert drawing.width == pytest.approx(2 * (OUTER + BAR) + 22.0)
    assert_sound(drawing)
    halves = [rule(gauge, side) for gauge, side in ((left, Side.LEFT), (right, Side.RIGHT)) if gauge is not None]
    assert sorted(t.content for t in drawing.texts) == sorted(t.content for half in halves for t in half.texts)


def test_the_scale_stands_over_the_bar() -> None:
    for side in Side:
        drawing = draw_rule_scale(side, ("0", "50", "80", "100"), alternative="scale")
        assert [text.at[0] for text in drawing.texts] == pytest.approx([at(p, side) for p in (0, 50, 80, 100)])
        assert_sound(drawing)
