"""The three formats of a report, held against tools that had no part in making them."""

from dataclasses import replace
from io import BytesIO
from itertools import pairwise
from pathlib import Path, PurePosixPath

import numpy as np
import pikepdf
import pytest
from documents.render.conftest import made, view
from documents.render.tools import figures, numbers, run, squeezed, words_of_pdf
from PIL import Image
from playwright.sync_api import Browser, Page

from tracksworn.documents.full.view import PinView
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.own.folder import read_templates
from tracksworn.documents.render.render import render
from tracksworn.inspection.dossier import Picture
from tracksworn.inspection.faults import Faulty

KINDS = ("like most", "short", "long")
pytestmark = pytest.mark.slow


def pdf(kind: str, folder: Path) -> Path:
    file = folder / "report.pdf"
    file.write_bytes(made(kind, "pdf")[0].content)
    return file


def html(kind: str) -> str:
    return made(kind, "html")[0].content.decode("utf-8")


@pytest.mark.parametrize("kind", KINDS)
def test_qpdf_finds_nothing_wrong(kind: str, tmp_path: Path) -> None:
    assert "No syntax or stream encoding errors found" in run("qpdf", "--check", pdf(kind, tmp_path))


@pytest.mark.parametrize("kind", KINDS)
def test_every_font_is_embedded_and_leads_back_to_unicode(kind: str, tmp_path: Path) -> None:
    rows = run("pdffonts", pdf(kind, tmp_path)).splitlines()[2:]
    assert rows
    assert all(row.split()[-5:-2] == ["yes", "yes", "yes"] for row in rows), rows
    assert all("Barlow" in row for row in rows), rows


@pytest.mark.parametrize("kind", KINDS)
def test_every_sheet_says_which_document_it_is_and_which_sheet(kind: str, tmp_path: Path) -> None:
    sheets = words_of_pdf(pdf(kind, tmp_path)).split("\f")[:-1]
    for index, sheet in enumerate(sheets, 1):
        assert "MPS-2031-0418-r0-full" in sheet
        assert "not sealed" in sheet
        assert "HLN640E0K00412" in sheet
        assert f"{index} of {len(sheets)}" in sheet
    assert "End of the report" in sheets[-1]
    assert "End of the report" not in "".join(sheets[:-1])


def test_findings_and_the_observations_they_rest_on_lead_to_each_other(tmp_path: Path) -> None:
    shown = view("long")
    pairs = [(one.number, shown.observations[index].number) for one in shown.findings for index in one.pins]
    assert pairs
    with pikepdf.open(pdf("long", tmp_path)) as file:
        links = [annot for page in file.pages for annot in page.get("/Annots", []) if annot.Subtype == "/Link"]
        names = {str(name) for name in file.Root.Names.Dests.Names if isinstance(name, pikepdf.String)}
    ends = sorted(str(link.Dest) for link in links)
    assert ends == sorted([f"observation-{seen}" for _, seen in pairs] + [f"finding-{found}" for found, _ in pairs])
    assert set(ends) <= names


def test_a_pin_on_a_drawing_leads_to_its_observation_where_that_is_on_the_page() -> None:
    shown = view("like most")
    known = shown.observations[0].number
    pins = (PinView(known, 20.0, 30.0, 3.5), PinView("99", 40.0, 30.0, 3.5))
    sides = (replace(shown.sides[0], pins=pins), shown.sides[1])
    with pikepdf.open(BytesIO(render(replace(shown, sides=sides), ["pdf"])[0].content)) as opened:
        links = {str(one.Dest): one for one in opened.pages[0].Annots if str(one.get("/Dest", "")).startswith("obs")}
        assert links.keys() == {f"observation-{known}"}
        (link,) = links.values()
        left, high, right, low = (float(end) * 25.4 / 72 for end in link.Rect)
        assert (right - left, abs(high - low)) == pytest.approx((3.5, 3.5), abs=0.01)
        assert left == pytest.approx(14.0 + 20.0, abs=0.01)
        above = opened.Root.StructTreeRoot.ParentTree.Nums[2 * int(link.StructParent) + 1]
        assert above.S == "/Link"


@pytest.mark.parametrize("kind", KINDS)
def test_no_sheet_but_the_last_is_half_empty_and_no_word_is_clipped(kind: str, tmp_path: Path) -> None:
    file = pdf(kind, tmp_path)
    run("pdftoppm", "-r", "40", "-gray", file, tmp_path / "sheet")
    sheets = [np.asarray(Image.open(name)) for name in sorted(tmp_path.glob("sheet*.pgm"))]
    for sheet in sheets[:-1]:
        body = sheet[: int(len(sheet) * 0.94)]
        assert np.flatnonzero((body < 200).any(axis=1))[-1] > len(body) / 2
    for sheet in sheets:
        assert (sheet[:, :16] == 255).all()
        assert (sheet[:, -16:] == 255).all()


@pytest.mark.parametrize("kind", KINDS)
def test_no_heading_stands_alone_at_the_foot_of_a_sheet(kind: str, tmp_path: Path) -> None:
    headings = {"Observations", "Photos", "Not seen", "Readings as taken", "Wear chart", "Remarks", "Cautions"}
    for sheet in words_of_pdf(pdf(kind, tmp_path)).split("\f")[:-1]:
        before_the_foot = sheet.split("\nDocument\n")[0].strip().splitlines()
        assert before_the_foot[-1] not in headings


def test_metadata_is_the_documents_own_and_the_same_bytes_come_twice(tmp_path: Path) -> None:
    content = made("short", "pdf")[0].content
    assert render(view("short"), ["pdf"])[0].content == content
    with pikepdf.open(BytesIO(content)) as opened:
        assert str(opened.Root.Lang) == "en"
        assert opened.Root.ViewerPreferences.DisplayDocTitle
        assert str(opened.docinfo["/CreationDate"]) == "D:20310418"
        assert opened.open_metadata()["dc:title"] == str(opened.docinfo["/Title"])
        assert b"<pdfuaid:part>1" in opened.Root.Metadata.read_bytes()
        assert opened.Root.MarkInfo.Marked


def test_letter_paper(tmp_path: Path) -> None:
    base = view("like most")
    letter = replace(base, branding=replace(base.branding, paper="letter"))
    file = tmp_path / "letter.pdf"
    file.write_bytes(render(letter, ["pdf"])[0].content)
    assert "612 x 792 pts (letter)" in run("pdfinfo", file)


def test_drawings_and_headings_are_tagged_with_alternatives() -> None:
    with pikepdf.open(BytesIO(made("like most", "pdf")[0].content)) as opened:
        tags = [thing for thing in opened.objects if isinstance(thing, pikepdf.Dictionary) and "/S" in thing]
        figures = [tag for tag in tags if tag.S == "/Figure"]
        assert any("left side: links 79 % worn" in str(tag.get("/Alt", "")) for tag in figures)
        assert all(str(tag.get("/Alt", "")) for tag in figures)
        kinds = {str(tag.S) for tag in tags if isinstance(tag.S, pikepdf.Name)}
        assert {"/H1", "/H2", "/H3", "/Table", "/TH", "/TD", "/Figure", "/L"} <= kinds


@pytest.fixture
def opened(browser: Browser) -> Page:
    context = browser.new_context(viewport={"width": 1280, "height": 900}, offline=True)
    return context.new_page()


def watched(page: Page) -> list[str]:
    """Everything that a page asks for or complains of."""
    seen: list[str] = []
    page.on("request", lambda request: seen.append(request.url) if not request.url.startswith("data:") else None)
    page.on("console", lambda message: seen.append(message.text))
    page.on("pageerror", lambda error: seen.append(str(error)))
    page.on("dialog", lambda dialog: seen.append(f"dialog {dialog.message}"))
    return seen


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("width", [390, 1280])
def test_the_html_asks_for_nothing_and_fits(kind: str, width: int, opened: Page) -> None:
    seen = watched(opened)
    opened.set_viewport_size({"width": width, "height": 900})
    opened.set_content(html(kind), wait_until="load")
    opened.evaluate("document.fonts.ready")
    assert seen == []
    assert opened.evaluate("document.documentElement.scrollWidth") <= width
    assert opened.evaluate("document.fonts.check('16px Barlow')")
    assert opened.evaluate("[...document.images].every(image => image.complete && image.naturalWidth > 0)")
    assert opened.evaluate("document.querySelectorAll('main, header, footer').length") >= 3


def test_headings_of_the_html_skip_no_level(opened: Page) -> None:
    opened.set_content(html("like most"))
    levels = opened.evaluate("[...document.querySelectorAll('h1,h2,h3,h4')].map(h => +h.tagName[1])")
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_a_mark_with_a_script_neither_runs_nor_fetches(opened: Page) -> None:
    evil = (
        b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9" onload="alert(1)"><script>alert(2)</script>'
        b'<image href="https://evil.example/x.png" width="9" height="9"/></svg>'
    )
    base = view("short")
    marked = replace(base, branding=replace(base.branding, mark=Picture(evil, "image/svg+xml", 9, 9)))
    seen = watched(opened)
    opened.set_content(render(marked, ["html"])[0].content.decode("utf-8"), wait_until="load")
    assert seen == []
    with pytest.raises(Refused, match="mark"):
        render(marked, ["pdf"])


@pytest.mark.parametrize("kind", KINDS)
def test_the_three_formats_carry_the_same_figures(kind: str, tmp_path: Path, opened: Page) -> None:
    opened.set_content(html(kind))
    opened.evaluate("document.querySelectorAll('svg, img').forEach(picture => picture.remove())")
    in_html = opened.evaluate("document.body.innerText")
    in_markdown = made(kind, "md")[0].content.decode("utf-8")
    in_pdf = words_of_pdf(pdf(kind, tmp_path))
    for said in figures(view(kind)):
        assert squeezed(said) in squeezed(in_html)
        assert squeezed(said) in squeezed(in_markdown.replace("\\", "").replace("*", ""))
        assert squeezed(said) in squeezed(in_pdf)
    assert numbers(in_html) <= numbers(in_markdown)


def test_markdowns_pictures_lie_beside_it_and_open() -> None:
    page, *pictures = made("like most", "md")
    assert page.name == "MPS-2031-0418-r0-full.md"
    text = page.content.decode("utf-8")
    for picture in pictures:
        assert PurePosixPath(picture.name).parts[0] == "MPS-2031-0418-r0-full"
        assert f"]({picture.name})" in text
        if picture.name.endswith(".jpg"):
            Image.open(BytesIO(picture.content)).verify()
        else:
            assert picture.content.startswith(b"<svg ")
    assert len(pictures) == text.count("](MPS-2031-0418-r0-full/")


EXTENDED = '{% extends "tracksworn/full.html" %}'
TEMPLATES = {
    "emptied": ("full.html", '{% extends "tracksworn/full.html" %}{% block cautions %}{% endblock %}'),
    "own page": (
        "full.html",
        "<html lang='en'><head><title>x</title></head><body><p>x</p></body></html>",
    ),
    "shortened": (
        "full.html",
        '{% extends "tracksworn/full.html" %}{% block cautions %}{{ view.cautions[0].title }}{% endblock %}',
    ),
    "hidden": (
        "full.html",
        EXTENDED + '{% block cautions %}<div style="display:none">{{ super() }}</div>{% endblock %}',
    ),
    "styled away": ("extra.css", ".cautions { color: #ffffff; font-size: 1pt }"),
    "fetching": (
        "full.html",
        EXTENDED + '{% block whole %}<img src="https://a.example/x" alt="x"/>{% endblock %}',
    ),
    "unsafe": ("full.html", "{{ view.__class__.__mro__ }}"),
    "unknown": ("full.html", '{% extends "tracksworn/full.html" %}{% block whole %}{{ nothing }}{% endblock %}'),
}


@pytest.mark.parametrize(
    ("name", "form"),
    [*((name, "html") for name in TEMPLATES), *((name, "pdf") for name in ("emptied", "styled away", "fetching"))],
)
def test_no_template_of_a_firm_gets_past_the_gate(name: str, form: str, tmp_path: Path) -> None:
    file, text = TEMPLATES[name]
    (tmp_path / file).write_text(text, encoding="utf-8")
    with pytest.raises(Faulty):
        render(view("short"), [form], templates=read_templates(tmp_path))


@pytest.mark.parametrize(
    "text",
    [
        '{% extends "tracksworn/full.md" %}{% block cautions %}{% endblock %}',
        '{% extends "tracksworn/full.md" %}{% block cautions %}<!-- {{ super() | ready }} -->{% endblock %}',
        "# Nothing",
    ],
)
def test_no_markdown_template_gets_past_the_gate(text: str, tmp_path: Path) -> None:
    (tmp_path / "full.md").write_text(text, encoding="utf-8")
    with pytest.raises(Faulty):
        render(view("short"), ["md"], templates=read_templates(tmp_path))


def test_a_firms_own_template_and_style_are_used(tmp_path: Path) -> None:
    own = EXTENDED + '{% block sides %}<p class="own">Our own words</p>{{ super() }}{% endblock %}'
    (tmp_path / "full.html").write_text(own, encoding="utf-8")
    (tmp_path / "extra.css").write_text(".own { color: #0d3b66 }", encoding="utf-8")
    page = render(view("short"), ["html"], templates=read_templates(tmp_path))[0].content.decode("utf-8")
    assert "Our own words" in page
    assert ".own { color: #0d3b66 }" in page
