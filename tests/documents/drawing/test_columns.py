"""Large figures side by side: all is said, in the order in which it is read, and no column runs into the next."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.columns import GAP, Column, draw_columns
from tracksworn.documents.drawing.lettering import box_of
from tracksworn.documents.drawing.plain import Drawing, Path, Text

FIGURES = ("53 %", "580 to 1 120 h", "not known", "EUR 47 100")
CAPTIONS = (
    "worn as a whole, by cost",
    "to the next limit",
    "the worst: left bottom roller 3, by the widest of all names",
)
NOTES = ("95 % interval 51 to 55", "an estimate, no offer", "There is no wear chart, the hours were only told")


def texts(drawing: Drawing) -> list[Text]:
    return [mark for mark in drawing.marks if isinstance(mark, Text)]


@given(
    st.lists(
        st.builds(
            Column,
            st.sampled_from(FIGURES),
            st.sampled_from(CAPTIONS),
            st.lists(st.sampled_from(NOTES), max_size=3).map(tuple),
            st.floats(30.0, 60.0),
        ),
        min_size=1,
        max_size=4,
    )
)
def test_every_word_stands_in_the_room_of_its_own_column(columns: list[Column]) -> None:
    drawing = draw_columns(columns, 15.0, alternative="all of it")
    said = " ".join(text.content for text in texts(drawing))
    assert said == " ".join(" ".join((one.figure, one.caption, *one.notes)) for one in columns)
    lefts = [sum(one.width + GAP for one in columns[:index]) for index in range(len(columns))]
    for text in texts(drawing):
        index = next(nth for nth, left in enumerate(lefts) if left == pytest.approx(text.at[0]))
        box = box_of(text)
        assert box.right <= lefts[index] + columns[index].width + GAP / 2
        assert box.top >= 0
        assert box.bottom <= drawing.height
    assert drawing.width == pytest.approx(sum(one.width for one in columns) + GAP * (len(columns) - 1), abs=0.01)


def test_lines_of_a_column_stand_beneath_one_another() -> None:
    (drawing,) = (draw_columns([Column("53 %", CAPTIONS[2], NOTES, 36.0)], 27.0, alternative="all of it"),)
    boxes = [box_of(text) for text in texts(drawing)]
    assert len(boxes) > 1 + 1 + len(NOTES)
    assert all(above.bottom < beneath.top + 0.4 for above, beneath in pairwise(boxes))


def test_a_hairline_stands_between_two_columns_and_none_beside_one() -> None:
    alone, two = (draw_columns([Column("53 %", "worn", (), 40.0)] * n, 27.0, alternative="x") for n in (1, 2))
    assert not [mark for mark in alone.marks if isinstance(mark, Path)]
    (path,) = [mark for mark in two.marks if isinstance(mark, Path)]
    assert len(path.shapes) == 1
