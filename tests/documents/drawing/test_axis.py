"""The common axis: what names the pale marks of the others, and its limit."""

from tracksworn.documents.drawing.axis import CommonAxis, Span, draw_axis
from tracksworn.documents.drawing.lettering import box_of
from tracksworn.documents.drawing.plain import Text


def texts(*others: tuple[float, str]) -> list[Text]:
    spans = tuple(Span(percent, percent - 2, percent + 2, percent, percent, tag=tag) for percent, tag in others)
    drawn = draw_axis(CommonAxis(spans[0], spans[1:], "axis", 77.0, limit="limit"))
    return [mark for mark in drawn.marks if isinstance(mark, Text)]


def test_marks_of_the_others_are_named_and_its_own_is_not() -> None:
    said = [text.content for text in texts((30.0, "1"), (50.0, "2"), (80.0, "3"))]
    assert "2" in said
    assert "3" in said
    assert "1" not in said
    assert "limit" in said


def test_names_too_close_for_two_stand_as_one() -> None:
    said = texts((10.0, "1"), (64.0, "207"), (67.0, "131"), (3.0, "118"))
    assert "207, 131" in [text.content for text in said]
    assert all(box_of(text).left >= 0 for text in said)


def test_a_long_word_for_the_limit_stands_before_the_hundred() -> None:
    span = Span(30.0, 28.0, 32.0, 30.0, 30.0)
    for word in ("limit", "Grenzwert"):
        drawn = draw_axis(CommonAxis(span, (), "axis", 77.0, limit=word))
        written = {mark.content: box_of(mark) for mark in drawn.marks if isinstance(mark, Text)}
        assert written[word].right <= 77.0
        assert written[word].left > written["80"].right
        assert written[word].right < written["100"].left or written[word].left > written["100"].right
