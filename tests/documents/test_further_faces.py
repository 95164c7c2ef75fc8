"""Faces out of a letterhead's fonts: small, of our scale and under our name."""

from io import BytesIO

from fontTools.ttLib import TTFont
from tiny_font import tiny_font, variable_font

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
