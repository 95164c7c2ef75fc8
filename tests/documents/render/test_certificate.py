"""Certificates in three formats: sound, on two sheets, alike in their words, never without what must stand on one."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from io import BytesIO
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2 as pdfium
import pytest
import zxingcpp
from certificates import certified
from documents.render.tools import run, squeezed, words_of_pdf
from PIL import Image
from playwright.sync_api import Browser

from tracksworn.assessment.decisions import Result
from tracksworn.documents.certificate.view import Certificate
from tracksworn.documents.render.files import File
from tracksworn.documents.render.own.folder import read_templates
from tracksworn.documents.render.render import render
from tracksworn.inspection.faults import Faulty

pytestmark = pytest.mark.slow


@cache
def view(result: Result | None = None) -> Certificate:
    return certified(result)


@cache
def made(form: str, result: Result | None = None) -> File:
    return render(view(result), [form])[0]


def written(content: bytes, folder: Path) -> Path:
    file = folder / "certificate.pdf"
    file.write_bytes(content)
    return file


def words(shown: Certificate) -> Iterator[str]:
    """Every word that all formats must carry."""
    terms = shown.terms
    yield from (shown.identification.title, shown.identification.number, shown.end, terms.verdict, terms.title)
    yield from (*terms.sentences, *terms.reasons, *terms.rule, *terms.is_not, *terms.allowed)
    for row, taken in zip(terms.rows, shown.taken, strict=True):
        yield from (row.name, taken.left, taken.right, taken.sampled)
        yield from (text for side in row.sides if side for text in (side.figure, side.verdict, side.probability))
    yield from (text for one in shown.details for text in (one.label, one.value))
    yield from (*shown.method, *shown.statement, *shown.check.steps, *shown.check.lines, shown.check.address)
    yield from (text for one in shown.not_seen.parts for text in (one.parts, one.reason))
    yield from shown.not_seen.sentences
    yield from (text for one in shown.opinions.acts for text in (one.label, one.value))
    yield from (text for one in shown.instruments for text in (one.name, one.calibrated))
    yield from (text for one in shown.fitted for text in (one.label, one.value))


def test_what_its_rule_rests_on_never_stands_alone_at_the_head_of_a_column() -> None:
    rule = view().terms.rule
    ended = f'{rule[-2]} <span class="together">{rule[-1]}</span></p>'
    assert ended in made("html").content.decode()


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_it_takes_two_sheets_each_with_its_number_and_none_half_empty(paper: str, tmp_path: Path) -> None:
    shown = replace(view(), branding=replace(view().branding, paper=paper))  # type: ignore[arg-type]
    file = written(render(shown, ["pdf"])[0].content, tmp_path)
    assert "No syntax or stream encoding errors found" in run("qpdf", "--check", file)
    assert ("letter" if paper == "letter" else "A4") in run("pdfinfo", file)
    sheets = words_of_pdf(file).split("\f")[:-1]
    assert len(sheets) == 2
    for index, sheet in enumerate(sheets, 1):
        assert f"{index} of 2" in sheet
        assert "MPS-2031-0418 · revision 0" in sheet
        assert "not sealed" in sheet
    assert sheets[-1].count(view().end) == 1
    run("pdftoppm", "-r", "40", "-gray", file, tmp_path / "sheet")
    for name in sorted(tmp_path.glob("sheet*.pgm")):
        picture = np.asarray(Image.open(name))
        body = picture[: int(len(picture) * 0.92)]
        assert np.flatnonzero((body < 200).any(axis=1))[-1] > len(body) / 2
        assert (picture[:, :16] == 255).all()
        assert (picture[:, -16:] == 255).all()


def test_the_code_on_the_printed_sheet_is_read_by_another_hand(tmp_path: Path) -> None:
    run("pdftoppm", "-r", "200", "-gray", written(made("pdf").content, tmp_path), tmp_path / "sheet")
    found = [
        code.text
        for name in sorted(tmp_path.glob("sheet*.pgm"))
        for code in zxingcpp.read_barcodes(np.asarray(Image.open(name)))
    ]
    assert found == [view().check.code]
    assert found[0].endswith(f"MPS-2031-0418-r0#sha256={view().fingerprint}")


@pytest.mark.parametrize("result", Result)
def test_the_verdict_is_the_largest_word(result: Result) -> None:
    page = pdfium.PdfDocument(made("pdf", result).content)[0]
    places = [one.get_bounds() for one in page.get_objects(filter=[pdfium.raw.FPDF_PAGEOBJ_TEXT], max_depth=1)]
    tallest = max(places, key=lambda place: place[3] - place[1])
    words = page.get_textpage().get_text_bounded(*tallest)
    assert words.strip()
    assert squeezed(words) in squeezed(view(result).terms.verdict)


def test_it_is_tagged_and_the_same_twice() -> None:
    content = made("pdf").content
    assert render(view(), ["pdf"])[0].content == content
    with pikepdf.open(BytesIO(content)) as opened:
        assert b"<pdfuaid:part>1" in opened.Root.Metadata.read_bytes()
        tags = [thing for thing in opened.objects if isinstance(thing, pikepdf.Dictionary) and "/S" in thing]
        shown = [str(tag.get("/Alt", "")) for tag in tags if tag.S == "/Figure"]
        assert all(shown)
        assert any(words.startswith("Fingerprint as a ring") for words in shown)
        assert any(words.startswith("QR code of millrace.example") for words in shown)


def test_all_formats_carry_the_same_words(browser: Browser, tmp_path: Path) -> None:
    page = browser.new_context(viewport={"width": 390, "height": 900}, offline=True).new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url) if not request.url.startswith("data:") else None)
    page.on("console", lambda message: asked.append(message.text))
    page.set_content(made("html").content.decode("utf-8"), wait_until="load")
    assert asked == []
    for width in (390, 1280):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.evaluate("document.querySelectorAll('svg, img').forEach(picture => picture.remove())")
    texts = {
        "html": page.evaluate("document.body.innerText"),
        "md": made("md").content.decode("utf-8").replace("\\", "").replace("*", ""),
        "pdf": words_of_pdf(written(made("pdf").content, tmp_path)),
    }
    for form, text in texts.items():
        missing = {said for said in words(view()) if squeezed(said) not in squeezed(text)}
        assert missing == set(), form


EXTENDED = '{% extends "tracksworn/certificate.html" %}'


@pytest.mark.parametrize(
    ("file", "text", "form"),
    [
        ("certificate.html", EXTENDED + "{% block cautions %}{% endblock %}", "html"),
        ("certificate.html", EXTENDED + "{% block not_seen %}{% endblock %}", "html"),
        ("certificate.html", EXTENDED + "{% block verdict %}Passes{% endblock %}", "html"),
        ("certificate.html", EXTENDED + "{% block rule %}{% endblock %}", "html"),
        ("certificate.html", EXTENDED + "{% block not_seen %}{% endblock %}", "pdf"),
        ("extra.css", ".rule-and-chart { display: none }", "html"),
        ("extra.css", ".statement { color: #ffffff }", "html"),
        ("certificate.md", '{% extends "tracksworn/certificate.md" %}{% block verdict %}{% endblock %}', "md"),
        ("certificate.md", '{% extends "tracksworn/certificate.md" %}{% block not_seen %}{% endblock %}', "md"),
        ("certificate.md", '{% extends "tracksworn/certificate.md" %}{% block cautions %}{% endblock %}', "md"),
    ],
)
def test_nothing_that_must_stand_on_it_can_be_left_out(file: str, text: str, form: str, tmp_path: Path) -> None:
    (tmp_path / file).write_text(text, encoding="utf-8")
    with pytest.raises(Faulty, match=r"caution|list of what was|statement"):
        render(view(), [form], templates=read_templates(tmp_path))
