"""Listing sheets as files: one page whatever they hold, a piece for any web page, whole in what they must say."""

from dataclasses import replace
from functools import cache
from io import BytesIO
from pathlib import Path

import lots
import numpy as np
import pikepdf
import pypdfium2
import pytest
from documents.render.tools import run, squeezed, words_of_pdf
from PIL import Image
from playwright.sync_api import Browser

from tracksworn.documents.listing.view import Listing
from tracksworn.documents.render.files import File, Refused
from tracksworn.documents.render.gate.wanted import Piece
from tracksworn.documents.render.listing import LISTING, draw_listing
from tracksworn.documents.render.own.folder import read_templates
from tracksworn.documents.render.pdf import write_pdf
from tracksworn.documents.render.render import render
from tracksworn.documents.words.cautions import CAUTIONS, SHORT_CAUTIONS
from tracksworn.inspection.faults import Faulty

pytestmark = pytest.mark.slow


@cache
def view() -> Listing:
    return lots.ordinary()


@cache
def made(form: str) -> File:
    return render(view(), [form])[0]


def words(shown: Listing) -> set[str]:
    """Every word and figure that all formats must carry."""
    said = {shown.headline, shown.found_more, shown.source, *(one.text for one in shown.cautions)}
    for one in shown.figures:
        said |= {one.figure, one.caption, *one.notes}
    for row in shown.rows:
        said |= {row.name, row.difference}
        said |= {text for half in (row.left, row.right) if half for text in (half.figure, half.interval)}
    said |= {text for one in shown.not_seen.parts for text in (one.parts, one.reason)} | {*shown.not_seen.sentences}
    return {text for text in said if text}


# --- one page ---


def test_what_is_drawn_of_the_masthead_is_said_as_well() -> None:
    masthead = draw_listing(view()).masthead
    for text in masthead.texts:
        assert text.content in masthead.alternative


@pytest.mark.parametrize("name", lots.EXTREMES)
def test_any_sheet_is_one_page_and_within_its_margins(name: str) -> None:
    content = render(lots.EXTREMES[name](), ["pdf"])[0].content
    pages = list(pypdfium2.PdfDocument(content))
    assert len(pages) == 1
    grey = pages[0].render(scale=0.6, grayscale=True).to_numpy().reshape(-1, int(pages[0].get_width() * 0.6 + 0.999))
    margin = int(0.6 * 13 * 72 / 25.4)
    assert (grey[:, :margin] == 255).all()
    assert (grey[:, -margin:] == 255).all()


def test_the_file_is_sound_tagged_and_the_same_twice(tmp_path: Path) -> None:
    content = made("pdf").content
    assert render(view(), ["pdf"])[0].content == content
    file = tmp_path / "sheet.pdf"
    file.write_bytes(content)
    assert "No syntax or stream encoding errors found" in run("qpdf", "--check", file)
    with pikepdf.open(BytesIO(content)) as opened:
        assert b"<pdfuaid:part>1" in opened.Root.Metadata.read_bytes()
        tags = [thing for thing in opened.objects if isinstance(thing, pikepdf.Dictionary) and "/S" in thing]
        shown = [str(tag.get("/Alt", "")) for tag in tags if tag.S == "/Figure"]
    assert all(shown)
    assert any(words.startswith("Percent worn, left and right.") and "Left links: 60" in words for words in shown)


# --- all formats alike ---


def test_all_formats_carry_the_same_words_and_figures(tmp_path: Path, browser: Browser) -> None:
    file = tmp_path / "sheet.pdf"
    file.write_bytes(made("pdf").content)
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
        "pdf": words_of_pdf(file),
    }
    for form, text in texts.items():
        missing = {said for said in words(view()) if squeezed(said) not in squeezed(text)}
        assert missing == set(), form


def test_the_picture_for_a_web_listing_is_the_page_itself() -> None:
    picture = Image.open(BytesIO(made("png").content))
    assert picture.format == "PNG"
    assert picture.size == (1191, 1684)
    assert made("png").name == "TEST-1-r0-listing.png"
    assert np.asarray(picture.convert("L")).min() < 60
    assert render(view(), ["png"])[0].content == made("png").content


# --- a piece within another page ---

HOST = (
    "<!DOCTYPE html><html lang='en'><head><meta charset='utf-8'><title>Sale</title><style>h1 {{ color: rgb(200, 0, 0); "
    "margin: 30px }} p {{ letter-spacing: 2px }} table {{ width: 50% }} .figure {{ padding: 3px }}</style></head>"
    "<body><h1 class='title'>Sale</h1><p class='legend'>Lots</p><table><tr><td class='figure'>1</td></tr></table>{}"
    "</body></html>"
)
LOOK = """() => [...document.querySelectorAll('body > h1, body > p, body > table, body > table td, body')].map(one => {
  const style = getComputedStyle(one);
  const names = ['color', 'margin', 'padding', 'font', 'width', 'letterSpacing', 'border'];
  return names.map(name => style[name]);
})"""


def piece() -> str:
    """What a web listing takes in: the one element of the page's body."""
    page = made("html").content.decode("utf-8")
    return page[page.index("<article") : page.index("</article>") + len("</article>")]


def test_the_piece_touches_nothing_of_the_page_that_takes_it_in(browser: Browser) -> None:
    page = browser.new_context(viewport={"width": 1000, "height": 900}, offline=True).new_page()
    looks = []
    for content in ("", piece()):
        page.set_content(HOST.format(content), wait_until="load")
        looks.append(page.evaluate(LOOK))
    assert looks[0] == looks[1]
    inside = page.evaluate("getComputedStyle(document.querySelector('.tracksworn-listing h1')).color")
    assert inside == "rgb(27, 35, 41)"


def test_the_piece_runs_nothing_and_its_rules_all_stand_under_its_class() -> None:
    text = piece()
    assert text.count("<script") == 1
    assert '<script type="application/ld+json">' in text
    style = text[text.index("<style>") : text.index("</style>")]
    selectors = [
        line.split("{")[0] for line in style.split("\n") if line.lstrip().startswith((".", "#")) or line[:1].isalpha()
    ]
    assert len(selectors) > 50
    assert all(part.strip().startswith(".tracksworn-listing") for line in selectors for part in line.split(","))


# --- what cannot be left out ---

EXTENDED = '{% extends "tracksworn/listing.html" %}'


@pytest.mark.parametrize(
    ("file", "text", "form"),
    [
        ("listing.html", EXTENDED + "{% block cautions %}{% endblock %}", "html"),
        ("listing.html", EXTENDED + "{% block not_seen %}{% endblock %}", "pdf"),
        ("listing.html", EXTENDED + "{% block whole %}{% endblock %}", "html"),
        ("listing.html", EXTENDED + "{% block closing %}{% endblock %}", "html"),
        ("listing.html", EXTENDED + "{% block found %}<script>1</script>{% endblock %}", "html"),
        (
            "listing.html",
            EXTENDED + '{% block found %}<script type="application/ld+json" src="x">1</script>{% endblock %}',
            "html",
        ),
        ("extra.css", ".cautions { font-size: 6pt }", "pdf"),
        ("listing.md", '{% extends "tracksworn/listing.md" %}{% block not_seen %}{% endblock %}', "md"),
    ],
)
def test_neither_cautions_nor_doubt_nor_what_was_not_seen_can_be_left_out(
    file: str, text: str, form: str, tmp_path: Path
) -> None:
    (tmp_path / file).write_text(text, encoding="utf-8")
    with pytest.raises(Faulty, match=r"not handed over|is less than 7 points"):
        render(view(), [form], templates=read_templates(tmp_path))


def test_what_the_programs_own_template_leaves_out_is_refused_too() -> None:
    wanting = replace(LISTING, wanted=lambda _: (Piece("blocks", "Block the machine with what nobody has."),))
    with pytest.raises(Refused, match="blocks"):
        write_pdf(view(), wanting, draw_listing(view()), None)


def test_what_stands_in_a_drawing_or_on_the_page_is_found() -> None:
    drawn, set_by_page = view().figures[0].caption, view().cautions[-1].text
    assert drawn in {text.content for text in draw_listing(view()).glance.texts}
    wanting = replace(LISTING, wanted=lambda _: (Piece("figure", drawn), Piece("caution", set_by_page)))
    assert write_pdf(view(), wanting, draw_listing(view()), None)


def test_nothing_that_a_firm_adds_goes_on_to_a_second_sheet(tmp_path: Path) -> None:
    more = "{% block footer %}" + "<p>More.</p>" * 60 + "{% endblock %}"
    (tmp_path / "listing.html").write_text(EXTENDED + more, encoding="utf-8")
    with pytest.raises(Faulty, match="do not fit one page"):
        render(view(), ["pdf"], templates=read_templates(tmp_path))


def test_the_short_cautions_are_the_long_ones_by_name_with_every_rule() -> None:
    assert [one.identity for one in SHORT_CAUTIONS] == [one.identity for one in CAUTIONS]
    rules = " ".join(one.references for one in SHORT_CAUTIONS)
    for one in CAUTIONS:
        for word in one.references.replace(",", " ").replace(".", " . ").split():
            if any(character.isdigit() for character in word):
                assert word in rules, word
