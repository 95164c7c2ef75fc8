"""How labels are broken into lines and kept apart."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.lettering import Box, balanced, box_of, broken, spread
from tracksworn.documents.drawing.plain import Text
from tracksworn.documents.drawing.type import width_mm

STYLE = Text((0, 0), "", 7.0)
WORDS = st.lists(st.sampled_from(["a", "limit", "worn", "shoulders", "7.72", "undercarriage"]), min_size=1, max_size=12)


@given(WORDS, st.floats(8, 60))
def test_lines_keep_every_word_and_fit(words: list[str], room: float) -> None:
    lines = broken(" ".join(words), room, STYLE)
    assert " ".join(lines).split(" ") == words
    assert all(width_mm(line, 7.0) <= room or " " not in line for line in lines)


@given(WORDS, st.floats(8, 60))
def test_balanced_lines_are_no_more_and_no_wider(words: list[str], room: float) -> None:
    greedy, even = broken(" ".join(words), room, STYLE), balanced(" ".join(words), room, STYLE)
    assert len(even) == len(greedy)
    assert " ".join(even) == " ".join(greedy)
    assert max(width_mm(line, 7.0) for line in even) <= max(width_mm(line, 7.0) for line in greedy) + 1e-9


@given(st.lists(st.floats(0, 40), min_size=1, max_size=6), st.floats(0.5, 4))
def test_labels_are_spread_in_order_apart_and_within(wanted: list[float], gap: float) -> None:
    wanted = sorted(wanted)
    heights = spread(wanted, gap, 0.0, 40.0)
    assert all(after - before >= gap - 1e-9 for before, after in itertools.pairwise(heights))
    assert heights[0] >= 0.0
    assert heights[-1] <= 40.0 + 1e-9


@given(st.lists(st.floats(1, 6), min_size=1, max_size=5))
def test_labels_far_enough_apart_are_left_alone(gaps: list[float]) -> None:
    wanted = [5.0 + sum(gaps[:index]) for index in range(len(gaps))]
    assert spread(wanted, 1.0, 0.0, 40.0) == pytest.approx(wanted)


def test_boxes_follow_anchor_and_turn() -> None:
    level = box_of(Text((10, 10), "131.1", 8.0, anchor="end"))
    assert level.right == 10
    assert level.bottom > 10 > level.top
    turned = box_of(Text((10, 10), "131.1", 8.0, anchor="middle", turn=-90.0))
    assert abs((turned.bottom - turned.top) - (level.right - level.left)) < 1e-9
    assert turned.left < 10 < turned.right


def test_a_gap_may_be_asked_for_or_borne() -> None:
    one, other = Box(0, 0, 2, 2), Box(2.5, 0, 4, 2)
    assert not one.meets(other)
    assert one.meets(other, 0.6)
