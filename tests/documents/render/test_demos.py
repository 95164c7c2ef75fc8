"""Every demo inspection, from its files to the three formats: sound files that carry the same figures."""

import re
from collections.abc import Iterator
from functools import cache
from io import BytesIO
from pathlib import Path
from xml.etree.ElementTree import Element

import pikepdf
import pytest
from documents.render.tools import figures, numbers, run, squeezed, words_of_pdf
from playwright.sync_api import Browser

from tracksworn.assessment.model import Basis
from tracksworn.documents.full.build import full_report
from tracksworn.documents.full.view import FullReport
from tracksworn.documents.render.files import File
from tracksworn.documents.render.full_report import FULL_REPORT
from tracksworn.documents.render.gate.printed import check_pdf
from tracksworn.documents.render.render import render
from tracksworn.documents.render.tree import read_html
from tracksworn.documents.report import assess_dossier
from tracksworn.inspection.reading import read_inspection

DEMOS = sorted(Path(__file__).parents[3].glob("demo_inspections/*/inspection.yaml"))
EACH = [
    path if "2031" in path.parent.name or "OXB" in path.parent.name else pytest.param(path, marks=pytest.mark.long)
    for path in DEMOS
]
"""What is of earlier years is there to be compared with."""
pytestmark = pytest.mark.slow


@cache
def finished(inspection: Path) -> tuple[FullReport, tuple[File, ...]]:
    dossier = read_inspection(inspection)
    view = full_report(dossier, assess_dossier(dossier))
    return view, render(view, ["pdf", "html", "md"])


def test_there_are_demos() -> None:
    assert len(DEMOS) >= 4


@pytest.mark.parametrize("inspection", EACH, ids=lambda path: path.parent.name)
def test_a_demo_is_sound_and_says_the_same_in_all_formats(inspection: Path, browser: Browser, tmp_path: Path) -> None:
    view, files = finished(inspection)
    named = {Path(file.name).suffix: file.content for file in files if "/" not in file.name}
    printed = tmp_path / "report.pdf"
    printed.write_bytes(named[".pdf"])
    assert "No syntax or stream encoding errors found" in run("qpdf", "--check", printed)
    check_pdf(named[".pdf"], FULL_REPORT.wanted(view))
    asked: list[str] = []
    page = browser.new_context(offline=True).new_page()
    page.on("request", lambda request: asked.append(request.url) if not request.url.startswith("data:") else None)
    page.on("console", lambda message: asked.append(message.text))
    page.set_content(named[".html"].decode("utf-8"), wait_until="load")
    assert asked == []
    page.evaluate("document.querySelectorAll('svg, img').forEach(picture => picture.remove())")
    texts = {
        "html": page.evaluate("document.body.innerText"),
        "md": named[".md"].decode("utf-8").replace("\\", "").replace("*", ""),
        "pdf": words_of_pdf(printed),
    }
    for form, text in texts.items():
        missing = {said for said in figures(view) if squeezed(said) not in squeezed(text)}
        assert missing == set(), form
    assert numbers(texts["html"]) <= numbers(texts["md"])


SVG = "{http://www.w3.org/2000/svg}"
MEASURED = re.compile(r"\d[\s\u00a0\u202f\u2009]*(?:%|mm\b|in\b)")
SCALE = re.compile(r"\b1[\s\u00a0]*:[\s\u00a0]*\d|^of that travelling,")
"""What a drawing shows is a percent or a size; an axis and the scale of the drawing are not."""


def named_parts(inspection: Path) -> dict[str, bytes]:
    return {Path(file.name).suffix: file.content for file in finished(inspection)[1] if "/" not in file.name}


def figures_of_pdf(content: bytes) -> Iterator[str]:
    with pikepdf.open(BytesIO(content)) as pdf:
        for tag in pdf.objects:
            if isinstance(tag, pikepdf.Dictionary) and tag.get("/S") == "/Figure":
                yield str(tag.get("/Alt", ""))


def figures_of_html(page: str) -> Iterator[tuple[str, list[str]]]:
    """The alternative of every picture, and what is lettered in it."""
    root = read_html(page)
    for drawing in root.iter(f"{SVG}svg"):
        if drawing.get("aria-hidden") == "true":
            continue  # shows another picture of the page once more, smaller
        yield "".join(_texts(drawing, "title")), list(_texts(drawing, "text"))
    for picture in root.iter("img"):
        yield picture.get("alt", ""), []


def _texts(drawing: Element, kind: str) -> Iterator[str]:
    return ("".join(one.itertext()) for one in drawing.iter(f"{SVG}{kind}"))


@pytest.mark.parametrize("inspection", EACH, ids=lambda path: path.parent.name)
def test_every_picture_says_in_words_what_it_shows(inspection: Path) -> None:
    files = named_parts(inspection)
    in_html = list(figures_of_html(files[".html"].decode("utf-8")))
    in_pdf = set(figures_of_pdf(files[".pdf"]))
    assert "" not in in_pdf
    assert in_pdf == {alternative for alternative, _ in in_html}, "a picture in one that is not in the other"
    for alternative, lettered in in_html:
        shown = {one for text in lettered if MEASURED.search(text) and not SCALE.search(text) for one in numbers(text)}
        assert shown <= numbers(alternative), alternative
    assert_every_part_is_told(finished(inspection)[0], in_pdf)


def assert_every_part_is_told(view: FullReport, told: set[str]) -> None:
    """By a picture of its own and by that of its side."""
    sides = [one for row in view.parts for one in (row.left, row.right) if one]
    for side in (one for one in sides if one.gauge.basis is not Basis.NOT_SEEN):
        assert side.alternative in told
        assert side.figure in side.alternative
    assert any(view.whole.figure in one and "floor" in one for one in told)
    for drawn in view.sides:
        assert drawn.drawing.alternative in told
