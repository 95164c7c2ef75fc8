"""What is used of the page engine that it does not promise: a test fails here when it changes."""

from collections import Counter
from pathlib import Path

import tinycss2
from documents.render.tools import words_of_pdf
from weasyprint import HTML
from weasyprint.html import UA

from tracksworn.documents.render.engine import _Page, basic_text, lay_out

LEFT_OUT = (
    "::marker",
    "::footnote-call",
    "::footnote-marker",
    "::note-call",
    "::note-marker",
    "::note-callback",
)


def rules(style: str) -> Counter[str]:
    """Every rule as written; an error is one of its own kind."""
    parsed = tinycss2.parse_stylesheet(style, skip_comments=True, skip_whitespace=True)
    assert not [one for one in parsed if one.type == "error"]
    return Counter(one.serialize() for one in parsed)


def test_its_style_of_html_loses_notes_and_markers_and_nothing_else() -> None:
    lost = rules(UA) - rules(basic_text())
    assert not rules(basic_text()) - rules(UA)
    assert sorted(one.partition(" {")[0] for one in lost.elements()) == sorted(LEFT_OUT)


def test_it_asks_a_page_for_its_style_by_the_name_that_ours_has() -> None:
    assert callable(HTML._ua_stylesheets)
    assert _Page._ua_stylesheets is not HTML._ua_stylesheets


def test_lists_have_their_markers_all_the_same(tmp_path: Path) -> None:
    lists = "<ul><li>leak</li></ul><ol><li>first</li><li>second</li></ol>"
    page = f"<html lang='en'><head><title>t</title></head><body>{lists}</body></html>"
    file = tmp_path / "lists.pdf"
    file.write_bytes(lay_out(page, ["@page { size: 90mm 60mm } body { font: 14px Barlow }"], {}).write())
    assert sorted(words_of_pdf(file).split()) == ["1.", "2.", "first", "leak", "second", "•"]
