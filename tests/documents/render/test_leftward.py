"""Texts that read from right to left stand right on every line, not on the first alone."""

from io import BytesIO
from xml.etree.ElementTree import fromstring, tostring

import pypdfium2 as pdfium
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.render.engine import lay_out
from tracksworn.documents.render.leftward import tell_leftward

FIRST, SECOND = "מגן הבטן והמגן הימני מורכבים", "(2 יחידות); דבר לא פורק"

SAID = '<bdi dir="rtl">\u2068{}\u2069</bdi>'


def told(page: str) -> str:
    root = fromstring(page)
    tell_leftward(root)
    return tostring(root, encoding="unicode")


@pytest.mark.parametrize(
    ("page", "expected"),
    [
        ("<p>plain</p>", "<p>plain</p>"),
        ("<p>\u2068א\u2069</p>", f"<p>{SAID.format('א')}</p>"),
        (
            "<p>a \u2068א\u2069, \u2068ב\u2069. <b>c</b> d \u2068ג\u2069!</p>",
            f"<p>a {SAID.format('א')}, {SAID.format('ב')}. <b>c</b> d {SAID.format('ג')}!</p>",
        ),
        ("<p>\u2068Latin first א\u2069</p>", "<p>\u2068Latin first א\u2069</p>"),
        ("<p>\u2068not closed א</p>", "<p>\u2068not closed א</p>"),
        ("<style>\u2068א\u2069</style>", "<style>\u2068א\u2069</style>"),
        ('<img alt="\u2068א\u2069" />', '<img alt="\u2068א\u2069" />'),
    ],
)
def test_what_is_set_apart_and_begins_leftward_gets_an_element(page: str, expected: str) -> None:
    assert told(page) == expected


@given(st.lists(st.sampled_from(["\u2068", "\u2069", "א", "b", " ", "<i>ג</i>", "<b/>"]), max_size=12))
def test_no_word_is_lost_or_moved(parts: list[str]) -> None:
    page = f"<p>{''.join(parts)}</p>"
    assert "".join(fromstring(told(page)).itertext()) == "".join(fromstring(page).itertext())


def places(pdf: bytes) -> dict[str, tuple[float, float]]:
    """Where each letter of the one page stands: how far up, and its left edge; of letters that repeat the last."""
    with pdfium.PdfDocument(BytesIO(pdf)) as opened:
        text = opened[0].get_textpage()
        boxes = [
            (text.get_text_range(index, 1), text.get_charbox(index, loose=True)) for index in range(text.count_chars())
        ]
    return {letter: (round(bottom), left) for letter, (left, bottom, _, _) in boxes if letter.strip()}


def test_a_second_line_begins_on_its_right() -> None:
    """UAX #9: within the isolate the line reads leftward, so its bracket and its number stand right of its words."""
    page = f"<html lang='en'><head><title>t</title></head><body><p>\u2068{FIRST} {SECOND}\u2069.</p></body></html>"
    style = "@page { size: 90mm 60mm; margin: 9mm } p { font: 14px 'Barlow', 'Noto Sans Hebrew'; width: 48mm }"
    at = places(lay_out(page, [style], {}).write())
    assert at["2"][0] == at[";"][0] < at["ט"][0], "the case itself must fill two lines"
    assert at["2"][1] > at[";"][1] > at["פ"][1] > at["ק"][1]
    assert at["."][1] > at["2"][1]
