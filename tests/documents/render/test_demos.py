"""Every demo inspection, from its files to the three formats: sound files that carry the same figures."""

from functools import cache
from pathlib import Path

import pytest
from documents.render.tools import figures, numbers, run, squeezed, words_of_pdf
from playwright.sync_api import Browser

from tracksworn.documents.full.build import full_report
from tracksworn.documents.full.view import FullReport
from tracksworn.documents.render.files import File
from tracksworn.documents.render.render import render
from tracksworn.documents.report import assess_dossier
from tracksworn.inspection.reading import read_inspection

DEMOS = sorted(Path(__file__).parents[3].glob("demo_inspections/*/inspection.yaml"))
pytestmark = pytest.mark.slow


@cache
def finished(inspection: Path) -> tuple[FullReport, tuple[File, ...]]:
    dossier = read_inspection(inspection)
    view = full_report(dossier, assess_dossier(dossier))
    return view, render(view, ["pdf", "html", "md"])


def test_there_are_demos() -> None:
    assert len(DEMOS) >= 4


@pytest.mark.parametrize("inspection", DEMOS, ids=lambda path: path.parent.name)
def test_a_demo_is_sound_and_says_the_same_in_all_formats(inspection: Path, browser: Browser, tmp_path: Path) -> None:
    view, files = finished(inspection)
    named = {Path(file.name).suffix: file.content for file in files if "/" not in file.name}
    printed = tmp_path / "report.pdf"
    printed.write_bytes(named[".pdf"])
    assert "No syntax or stream encoding errors found" in run("qpdf", "--check", printed)
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
