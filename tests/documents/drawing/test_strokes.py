"""The ring of a fingerprint: every digit can be read back from its stroke."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.inks import INK
from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Path
from tracksworn.documents.drawing.strokes import DIGITS, INNER, LEAST, OUTLINE, SIDE, STEP, Ring, draw_ring

ACCENT = "#1f5c6b"


def ring(digits: str, *, sealed: bool = False) -> Drawing:
    return draw_ring(Ring(digits, ("not sealed", "revision 0"), sealed, ACCENT, "the digits"))


def strokes(drawing: Drawing) -> Path:
    (found,) = [path for path in drawing.paths if path.stroke and len(path.shapes) == DIGITS]
    return found


def read_back(drawing: Drawing) -> str:
    """The digits, clockwise from the mark at the top, from where each stroke ends."""
    digits: dict[float, str] = {}
    for shape in strokes(drawing).shapes:
        assert isinstance(shape, Line)
        x, y = shape.points[-1][0] - SIDE / 2, shape.points[-1][1] - SIDE / 2
        angle = math.degrees(math.atan2(x, -y)) % 360
        digits[angle] = f"{round((math.hypot(x, y) - INNER - LEAST) / STEP):x}"
    return "".join(digits[angle] for angle in sorted(digits))


@given(st.text("0123456789abcdef", min_size=DIGITS, max_size=DIGITS))
def test_every_digit_can_be_read_back_in_order(digits: str) -> None:
    assert read_back(ring(digits)) == digits


def test_the_longest_stroke_stays_within_the_outline_and_the_shortest_shows() -> None:
    assert INNER + LEAST + 15 * STEP < OUTLINE
    assert LEAST > 0.5


@pytest.mark.parametrize(("sealed", "ink"), [(False, INK), (True, ACCENT)])
def test_only_a_sealed_one_has_the_accent_and_a_whole_outline(sealed: bool, ink: str) -> None:
    drawing = ring("5de1" * 16, sealed=sealed)
    pen = strokes(drawing).stroke
    assert pen is not None
    assert pen.colour == ink
    (outline,) = [path.stroke for path in drawing.paths if isinstance(path.shapes[0], Circle)]
    assert outline is not None
    assert bool(outline.dash) is not sealed


def test_its_words_stand_amid_the_strokes() -> None:
    words = ring("0" * DIGITS).texts
    assert [word.content for word in words] == ["not sealed", "revision 0"]
    assert words[0].weight > words[1].weight
    for word in words:
        assert math.hypot(word.at[0] - SIDE / 2, word.at[1] - SIDE / 2) < INNER / 2
