"""Faces out of a letterhead's fonts: small, of our scale and under our name."""

from io import BytesIO

import pytest
from fontTools.pens.areaPen import AreaPen
from fontTools.ttLib import TTFont
from tiny_font import postscript_font, tiny_font, variable_font

from tracksworn.documents.further_faces import further_faces
from tracksworn.documents.shaping import shaped
from tracksworn.documents.typefaces import characters, web_font
from tracksworn.inspection.fonts import read_font

FIRST = read_font("first.ttf", tiny_font("日本", em=2048, width=0.8, family="Barlow"))
SECOND = read_font("second.ttf", tiny_font("本語"))


def test_each_character_comes_from_the_first_font_that_holds_it() -> None:
    first, second = further_faces([FIRST, SECOND], "日本語✓")
    assert characters(first) == {0x20, ord("日"), ord("本")}
    assert characters(second) == {0x20, ord("語")}
    assert (first.family, second.family) == ("Letterhead 1", "Letterhead 2")


def test_no_more_than_is_needed_is_taken() -> None:
    (face,) = further_faces([FIRST], "日")
    assert characters(face) == {0x20, ord("日")}
    assert further_faces([FIRST], "語") == ()


def test_a_font_of_another_scale_is_as_wide_as_it_was() -> None:
    (face,) = further_faces([FIRST], "日")
    assert shaped(face, "日")[0].advance == 800


def test_the_same_font_gives_the_same_bytes_with_no_name_of_its_own() -> None:
    (face,) = further_faces([read_font("first.ttf", bytes(FIRST.content))], "日本")
    (other,) = further_faces([FIRST], "本日")
    assert face == other
    assert b"Barlow" not in face.content
    assert web_font(face)[:4] == b"wOF2"


def test_a_variable_font_gives_two_weights() -> None:
    faces = further_faces([read_font("variable.ttf", variable_font("日"))], "日")
    assert [face.weight for face in faces] == [400, 600]
    for face in faces:
        with TTFont(BytesIO(face.content)) as font:
            assert "fvar" not in font
    assert faces[0].content != faces[1].content


@pytest.mark.parametrize("em", [1000, 2048])
def test_postscript_outlines_become_truetype_ones_of_the_same_shape(em: int) -> None:
    """A disk of four cubic curves: its area, by the integral of x dy, is kept to a thousandth, its hole stays none."""
    (face,) = further_faces([read_font("own.otf", postscript_font("日本", em=em))], "日")
    with TTFont(BytesIO(face.content)) as font:
        assert font.sfntVersion == "\0\1\0\0"
        assert not {"CFF ", "VORG"} & set(font.keys())
        pen = AreaPen(font.getGlyphSet())
        font.getGlyphSet()[font.getBestCmap()[ord("日")]].draw(pen)
    with TTFont(BytesIO(postscript_font("日本"))) as cubic:
        held = AreaPen(cubic.getGlyphSet())
        cubic.getGlyphSet()["u65E5"].draw(held)
    assert abs(pen.value) == pytest.approx(abs(held.value), rel=2e-3)
    assert pen.value < 0, "TrueType's outer outlines run clockwise"
    assert shaped(face, "日")[0].advance == 1000


def test_a_variable_font_with_postscript_outlines_gives_two_weights() -> None:
    """The axis goes from 400 to 900: at 600 two fifths of the shift of 100 are made."""
    faces = further_faces([read_font("own.otf", postscript_font("日", variable=True))], "日")
    assert [face.weight for face in faces] == [400, 600]
    for face, left in zip(faces, (100, 140), strict=True):
        with TTFont(BytesIO(face.content)) as font:
            assert font["glyf"][font.getBestCmap()[ord("日")]].xMin == pytest.approx(left, abs=1)
        assert web_font(face)[:4] == b"wOF2"
