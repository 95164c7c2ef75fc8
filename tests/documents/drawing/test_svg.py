"""SVG held against its standard: text lengths as SVG 2 (W3C), chapter 11.7, defines `textLength`."""

from dataclasses import replace
from xml.etree import ElementTree

import pytest

from tracksworn.documents.drawing.plain import Drawing, Text
from tracksworn.documents.drawing.svg import number, svg
from tracksworn.documents.drawing.type import text_width

WORDS = Text(
    at=(10.0, 8.0), content="Heat mark & leak", size=7.2, family="Barlow Semi Condensed", weight=600, colour="#1b2329"
)
DRAWING = Drawing(60.0, 20.0, (WORDS, replace(WORDS, at=(10.0, 16.0), content="47", halo=True)), "A mark")
SVG = "{http://www.w3.org/2000/svg}"


def texts(drawing: Drawing, *, fitted: bool) -> list[ElementTree.Element]:
    return list(ElementTree.fromstring(svg(drawing, fitted=fitted)).iter(f"{SVG}text"))


def test_a_fitted_text_is_as_long_as_its_own_font_makes_it_and_its_halo_too() -> None:
    words, halo, figure = texts(DRAWING, fitted=True)
    assert words.get("textLength") == number(text_width(WORDS))
    assert halo.get("textLength") == figure.get("textLength")
    assert {one.get("lengthAdjust") for one in (words, halo, figure)} == {"spacingAndGlyphs"}
    assert str(words.get("font-family")).startswith("Barlow Semi Condensed, ")
    assert str(words.get("font-family")).endswith("sans-serif")


def test_where_the_fonts_are_at_hand_no_text_is_stretched() -> None:
    assert all(one.get("textLength") is None for one in texts(DRAWING, fitted=False))


@pytest.mark.parametrize("content", ["", "a < b", "±\u00a03"])
def test_any_words_are_well_formed(content: str) -> None:
    (text,) = texts(replace(DRAWING, marks=(replace(WORDS, content=content),)), fitted=True)
    assert (text.text or "") == content
