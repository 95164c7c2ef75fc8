"""Rollers by position."""

from dataclasses import replace

import pytest
from documents.drawing.sheets import assert_sound, by_eye, gauges, has_stage_ink, measured, not_seen
from hypothesis import given, settings
from hypothesis import strategies as st

from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.strip import Strip, StripPlace, draw_strip


def strip(left: list[Gauge], right: list[Gauge], size: str = "219.1", flange: str = "") -> Strip:
    sides = [
        tuple(
            StripPlace(str(index + 1), gauge, size if gauge.percent else "", flange) for index, gauge in enumerate(side)
        )
        for side in (left, right)
    ]
    return Strip(sides[0], sides[1], "left", "right", "front", "said")


def places(minimum: int) -> st.SearchStrategy[list[Gauge]]:
    return st.lists(gauges(), min_size=minimum, max_size=20)


@settings(max_examples=40)
@given(places(1), places(0), st.sampled_from(["219.1", "10 15/16", "1219.12"]), st.sampled_from(["", "S", "D"]))
def test_any_rollers_are_sound_and_cheap(left: list[Gauge], right: list[Gauge], size: str, flange: str) -> None:
    drawing = draw_strip(strip(left, right, size, flange))
    assert_sound(drawing)
    assert drawing.width == 182
    assert len(drawing.paths) <= 14


def test_the_right_side_counts_backwards() -> None:
    gauge = measured(60)
    drawing = draw_strip(strip([gauge] * 3, [gauge] * 3))
    numbers = [text for text in drawing.texts if text.content in ("1", "2", "3")]
    assert [text.content for text in sorted(numbers, key=lambda text: text.at[0])] == ["1", "2", "3", "3", "2", "1"]


def test_neighbours_not_seen_for_one_reason_share_a_word() -> None:
    guarded = not_seen("guard fitted")
    said = [t.content for t in draw_strip(strip([measured(60)], [measured(50), guarded, guarded, guarded])).texts]
    assert said.count("not seen, guard fitted") == 1
    apart = draw_strip(strip([measured(60)], [not_seen("mud"), measured(50), not_seen("mud")]))
    assert len([text for text in apart.texts if text.content == "not seen,"]) == 2


def test_words_too_long_for_so_many_rollers_are_left_to_dashes_and_list() -> None:
    by_sight = replace(by_eye(40, 100), word="nach Augenmaß geschätzt")
    hidden = replace(not_seen(), figure="–", word="nichtgesehenwegenschlamm")
    drawing = draw_strip(strip([by_sight, hidden] * 10, [measured(60)] * 20))
    assert_sound(drawing)
    said = [text.content for text in drawing.texts]
    assert by_sight.word not in said
    assert said.count("–") == 10


def test_nothing_seen_has_no_stage_ink() -> None:
    assert not has_stage_ink(draw_strip(strip([not_seen()] * 8, [not_seen()] * 8)))


@pytest.mark.parametrize(("flange", "said"), [("S", ["S"]), ("", [])])
def test_a_flange_has_its_letter_only_where_known(flange: str, said: list[str]) -> None:
    drawing = draw_strip(strip([measured(60)], [], flange=flange))
    assert [text.content for text in drawing.texts if text.content in ("S", "D")] == said
