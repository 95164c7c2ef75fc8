"""Machines side by side in three formats: sound, alike in their figures, never without what was not seen."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from io import BytesIO
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from builders import about, reading, unseen
from documents.render.tools import run, squeezed, words_of_pdf
from PIL import Image
from playwright.sync_api import Browser
from side_by_side import headed, looked_at, set_side_by_side

from tracksworn.documents.comparison.view import Comparison
from tracksworn.documents.render.files import File
from tracksworn.documents.render.own.folder import read_templates
from tracksworn.documents.render.render import render
from tracksworn.inspection.faults import Faulty
from tracksworn.inspection.vocabulary import Component

pytestmark = pytest.mark.slow


@cache
def view(count: int) -> Comparison:
    firsts = (
        looked_at("118", letterhead=headed("Millrace")),
        looked_at("131", 5.0, about(40), readings=[reading(Component.SPROCKET, unseen("mud"), unseen("guard fitted"))]),
    )
    rest = (looked_at(str(number), 20.0 + number / 10, 50.0) for number in range(201, 207))
    return set_side_by_side(*(*firsts, *rest)[:count])


@cache
def made(count: int, form: str) -> File:
    return render(view(count), [form])[0]


def figures(shown: Comparison) -> Iterator[str]:
    """Every figure and word that all formats must carry."""
    yield from (shown.summary.headline, *shown.summary.sentences, shown.end)
    for one in shown.machines:
        yield from (
            one.name,
            one.serial,
            one.overall.interval,
            one.overall.seen,
            one.worst.label,
            one.counts,
            one.cost.left,
        )
        yield from (part.reason for part in one.not_seen.parts)
        yield one.fingerprint
    for row in shown.rows:
        yield from (half.figure for cell in row.cells for half in (cell.left, cell.right) if half)
    for pair in shown.differences.pairs:
        yield from (pair.overall.figure, pair.verdict)
        yield from (gap.figure for sides in pair.sides if sides for gap in (sides.left, sides.right))


@pytest.mark.parametrize("count", [2, 5, 8])
def test_the_pdf_is_sound_lies_on_its_side_and_leaves_no_sheet_half_empty(count: int, tmp_path: Path) -> None:
    file = tmp_path / "comparison.pdf"
    file.write_bytes(made(count, "pdf").content)
    assert "No syntax or stream encoding errors found" in run("qpdf", "--check", file)
    assert "841.89 x 595.2" in run("pdfinfo", file)
    sheets = words_of_pdf(file).split("\f")[:-1]
    for index, sheet in enumerate(sheets, 1):
        assert f"{index} of {len(sheets)}" in sheet
        assert "not sealed" in sheet
    run("pdftoppm", "-r", "40", "-gray", file, tmp_path / "sheet")
    pictures = [np.asarray(Image.open(name)) for name in sorted(tmp_path.glob("sheet*.pgm"))]
    for picture in pictures[:-1]:
        body = picture[: int(len(picture) * 0.92)]
        assert np.flatnonzero((body < 200).any(axis=1))[-1] > len(body) / 2
    for picture in pictures:
        assert (picture[:, :16] == 255).all()
        assert (picture[:, -16:] == 255).all()


def test_the_pdf_is_tagged_and_the_same_twice() -> None:
    content = made(2, "pdf").content
    assert render(view(2), ["pdf"])[0].content == content
    with pikepdf.open(BytesIO(content)) as opened:
        assert b"<pdfuaid:part>1" in opened.Root.Metadata.read_bytes()
        tags = [thing for thing in opened.objects if isinstance(thing, pikepdf.Dictionary) and "/S" in thing]
        shown = [str(tag.get("/Alt", "")) for tag in tags if tag.S == "/Figure"]
        assert all(shown)
        assert any("on the axis of all" in words for words in shown)


@pytest.mark.parametrize("count", [2, 8])
def test_all_formats_carry_the_same_words_and_figures(count: int, tmp_path: Path, browser: Browser) -> None:
    file = tmp_path / "comparison.pdf"
    file.write_bytes(made(count, "pdf").content)
    page = browser.new_context(viewport={"width": 390, "height": 900}, offline=True).new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url) if not request.url.startswith("data:") else None)
    page.on("console", lambda message: asked.append(message.text))
    page.set_content(made(count, "html").content.decode("utf-8"), wait_until="load")
    assert asked == []
    for width in (390, 1280):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.evaluate("document.querySelectorAll('svg, img').forEach(picture => picture.remove())")
    texts = {
        "html": page.evaluate("document.body.innerText"),
        "md": made(count, "md").content.decode("utf-8").replace("\\", "").replace("*", ""),
        "pdf": words_of_pdf(file),
    }
    for form, text in texts.items():
        missing = {said for said in figures(view(count)) if squeezed(said) not in squeezed(text)}
        assert missing == set(), form


EXTENDED = '{% extends "tracksworn/compare.html" %}'


@pytest.mark.parametrize(
    ("file", "text", "form"),
    [
        ("compare.html", EXTENDED + "{% block cautions %}{% endblock %}", "html"),
        ("compare.html", EXTENDED + "{% block not_seen %}{% endblock %}", "html"),
        ("compare.html", EXTENDED + "{% block not_seen %}{% endblock %}", "pdf"),
        ("extra.css", ".gap { color: #ffffff }", "html"),
        ("extra.css", ".machines { display: none }", "html"),
        ("compare.md", '{% extends "tracksworn/compare.md" %}{% block not_seen %}{% endblock %}', "md"),
        ("compare.md", '{% extends "tracksworn/compare.md" %}{% block cautions %}{% endblock %}', "md"),
    ],
)
def test_neither_cautions_nor_what_was_not_seen_can_be_left_out(
    file: str, text: str, form: str, tmp_path: Path
) -> None:
    (tmp_path / file).write_text(text, encoding="utf-8")
    with pytest.raises(Faulty, match=r"caution|what was not seen of"):
        render(view(2), [form], templates=read_templates(tmp_path))


def test_letter_paper_lies_on_its_side_too(tmp_path: Path) -> None:
    base = view(2)
    file = tmp_path / "letter.pdf"
    file.write_bytes(render(replace(base, branding=replace(base.branding, paper="letter")), ["pdf"])[0].content)
    assert "792 x 612 pts (letter)" in run("pdfinfo", file)
