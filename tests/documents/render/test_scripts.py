"""Documents in five scripts and in a letterhead's own font, read back by tools that had no part in making them."""

import re
import unicodedata
from functools import cache
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdfium2 as pdfium
import pytest
from documents.render.tools import run, words_of_pdf
from five_scripts import FIRM, INSPECTOR, JAPANESE, five_scripts
from five_scripts import PLACE as PLACE_IN_ARABIC
from long_example import CHART, INSPECTION
from playwright.sync_api import Browser

from tracksworn.documents.drawing.plain import Drawing, Text
from tracksworn.documents.drawing.svg import OTHER_SCRIPTS, svg
from tracksworn.documents.drawing.type import text_width, width_mm
from tracksworn.documents.full.build import full_report
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.fonts import SETTINGS, settings
from tracksworn.documents.render.gate.printed import check_pdf
from tracksworn.documents.render.gate.wanted import Piece
from tracksworn.documents.render.reading_back import readings
from tracksworn.documents.render.render import render
from tracksworn.documents.render.typesetting import Typesetter
from tracksworn.documents.report import assess_dossier
from tracksworn.documents.typefaces import FACES, FURTHER, OWN, face_for
from tracksworn.inspection.dossier import Dossier

PLACE = "日本 🚜 ساحة"


@cache
def made(form: str, fonts: str = "") -> bytes:
    dossier = five_scripts(place=PLACE, fonts=fonts) if fonts else five_scripts()
    return render(full_report(dossier, assess_dossier(dossier)), [form])[0].content


@pytest.fixture(scope="module")
def words(tmp_path_factory: pytest.TempPathFactory) -> str:
    file = tmp_path_factory.mktemp("scripts") / "report.pdf"
    file.write_bytes(made("pdf"))
    return "".join(one for one in run("pdftotext", "-enc", "UTF-8", file, "-") if unicodedata.category(one) != "Cf")


@pytest.mark.parametrize(
    "said",
    [
        INSPECTOR,
        FIRM,
        "ساحة النور",
        "لا يمكن رؤيته",
        "ثلاثة بكرات لا تدور",
        "המכונה נבדקה במגרש",
        "בוץ בתוך ה",
        "№ 3",
    ],
)
def test_words_of_a_pdf_read_in_the_order_in_which_they_were_written(words: str, said: str) -> None:
    assert said in words


def test_a_line_of_mixed_directions_reads_in_its_order() -> None:
    """By PDFium, which reorders whole lines; pdftotext does so run by run."""
    pdf = pdfium.PdfDocument(made("pdf"))
    said = "".join(page.get_textpage().get_text_range() for page in pdf)
    pdf.close()
    assert PLACE_IN_ARABIC in said
    assert re.search(r"not seen, guard-\S|not seen, [\u05d0-\u05ea]", said)


def test_every_glyph_of_the_pages_reads_back_as_something_it_can_stand_for() -> None:
    known = {face.family: readings(face) for face in FACES}
    with pikepdf.open(BytesIO(made("pdf"))) as pdf:
        fonts = [one for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and one.get("/Subtype") == "/Type0"]
        checked = 0
        for font in fonts:
            family = font.DescendantFonts[0].FontDescriptor.get("/FontFamily")
            table = font.ToUnicode.read_bytes().decode("ascii").lower()
            for glyph, code in re.findall(r"^<([0-9a-f]{4})> <([0-9a-f]*)>$", table, re.MULTILINE):
                said = bytes.fromhex(code).decode("utf-16-be")
                assert said
                if family is not None and int(glyph, 16):
                    assert said in known[str(family)][int(glyph, 16)]
                    checked += 1
    assert checked > 200


@pytest.mark.parametrize("family", sorted({face.family for face in FACES}))
def test_a_glyph_reads_alike_in_all_weights_of_a_family(family: str) -> None:
    first, *others = [readings(face) for face in FACES if face.family == family]
    assert all(other == first for other in others)


def test_only_the_programs_fonts_are_known_to_the_page_engine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / SETTINGS).write_text(settings(tmp_path), encoding="utf-8")
    monkeypatch.setenv("FONTCONFIG_FILE", str(tmp_path / SETTINGS))
    listed = run("fc-list", "--format", "%{file}\n").split()
    names = {Path(file).name for file in listed}
    assert names == {face.file for face in FACES} | {face.path.with_suffix(".woff2").name for face in FACES}
    assert {Path(file).parent for file in listed} == {FACES[0].path.parent}


def test_every_font_of_a_pdf_is_ours_and_embedded(tmp_path: Path) -> None:
    file = tmp_path / "report.pdf"
    file.write_bytes(made("pdf", JAPANESE))
    _, _, *lines = run("pdffonts", file).splitlines()
    assert all(" yes yes yes " in line for line in lines)
    families = {re.sub(r"[^A-Za-z]", "", line.split()[0].partition("+")[2]) for line in lines}
    assert all(name.startswith(("Barlow", "NotoSans", "Vazirmatn", "Letterhead")) for name in families)
    assert any(name.startswith("Letterhead") for name in families)


def test_a_letterheads_font_and_stand_ins_are_in_all_three_formats(tmp_path: Path) -> None:
    file = tmp_path / "report.pdf"
    file.write_bytes(made("pdf", JAPANESE))
    for said in (words_of_pdf(file), made("html", JAPANESE).decode(), made("md", JAPANESE).decode()):
        assert "日本 � U+1F69C" in said
        assert "🚜" not in said


@pytest.mark.parametrize("form", ["pdf", "html", "md"])
def test_the_same_input_gives_the_same_bytes(form: str) -> None:
    first = made(form, JAPANESE)
    made.cache_clear()
    assert made(form, JAPANESE) == first


def test_a_page_brings_the_fonts_of_its_scripts_and_no_others() -> None:
    def faces(page: bytes) -> int:
        return page.decode().count(f'font-family:"{OTHER_SCRIPTS}"')

    dossier = Dossier(INSPECTION, Path("TEST-1"), CHART, digests={})
    latin = render(full_report(dossier, assess_dossier(dossier)), ["html"])[0].content
    assert faces(latin) == 0
    assert faces(made("html")) == len(FURTHER)
    assert faces(made("html", JAPANESE)) == len(FURTHER) + 2
    assert len(made("html")) > len(latin)


def test_a_browser_sets_it_all_in_the_pages_own_fonts(browser: Browser) -> None:
    page = browser.new_page()
    page.set_content(made("html", JAPANESE).decode())
    session = page.context.new_cdp_session(page)
    session.send("DOM.enable")
    session.send("CSS.enable")
    root = session.send("DOM.getDocument", {"depth": -1})["root"]["nodeId"]
    nodes = session.send("DOM.querySelectorAll", {"nodeId": root, "selector": "body *"})["nodeIds"]
    used = [session.send("CSS.getPlatformFontsForNode", {"nodeId": node})["fonts"] for node in nodes]
    fonts = {(one["familyName"], one["isCustomFont"]) for fonts in used for one in fonts}
    page.close()
    assert all(custom for _, custom in fonts)
    names = {name.split()[0] for name, _ in fonts}
    assert names == {"Barlow", "Noto", "Vazirmatn", "Letterhead"}


def test_blocks_of_notes_read_the_way_of_their_first_letter() -> None:
    page = made("html").decode()
    assert '<p dir="rtl">המכונה' in page
    assert '<ul dir="rtl">' in page
    assert "<p>Plain words" in page


def test_type_in_drawings_is_as_wide_as_it_was_measured() -> None:
    for content in ("Ωραίου", "Ђорђе и синови", "محمد لا يمكن", "שלום (אבג) 12", "Ines 12"):
        text = Text((0, 0), content, 10, 600)
        set_ = sum(run.width for run in Typesetter().set_type(text)) * 10 * 25.4 / 72
        assert set_ <= text_width(text) + 0.01
        assert set_ == pytest.approx(text_width(text), rel=0.06)
    assert width_mm("漢", 10) == pytest.approx(10 * 25.4 / 72)


def test_runs_of_a_drawing_stand_in_the_order_in_which_they_are_seen() -> None:
    runs = Typesetter().set_type(Text((0, 0), "a אב 12 ג b", 10, 400, family="Barlow"))
    latin, hebrew = (f"T{FACES.index(face_for(name, 400))}" for name in ("Barlow", "Noto Sans Hebrew"))
    assert [run.font for run in runs] == [latin, hebrew, latin, latin, latin, hebrew, latin]


def test_a_glyph_that_stands_for_something_else_says_so() -> None:
    setter = Typesetter()
    plain = setter.set_type(Text((0, 0), "مم", 10))
    both = setter.set_type(Text((0, 0), "יִ", 10))
    assert all(run.instead is None for run in plain)
    assert {run.rise for run in both} != set()


def test_a_picture_names_the_further_family_only_where_it_needs_it() -> None:
    assert OTHER_SCRIPTS not in svg(Drawing(10, 10, (Text((0, 0), "Ärger"),), "words"))
    assert f"Barlow Semi Condensed, {OTHER_SCRIPTS}" in svg(Drawing(10, 10, (Text((0, 0), "Щит"),), "words"))


def test_the_gate_finds_words_that_read_leftward_and_misses_none() -> None:
    content = made("pdf")
    check_pdf(content, [Piece("notes", "\u2068המכונה נבדקה\u2069"), Piece("notes", "ثلاثة بكرات لا تدور")])
    with pytest.raises(Refused, match="not on its pages in full"):
        check_pdf(content, [Piece("notes", "לא נראה מעולם")])


def test_own_faces_are_the_eight_that_style_sheets_name() -> None:
    assert {face.family for face in OWN} == {"Barlow", "Barlow Semi Condensed"}
