"""The index of a sale and its catalogue before the same judges as every document."""

from pathlib import Path

import pytest
from judges import filling, screens, sheets
from judges.verapdf import VeraPdf
from playwright.sync_api import Browser
from sale_lots import many, with_long_names

from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.gate.printed import check_pdf
from tracksworn.documents.render.gate.wanted import wanted
from tracksworn.documents.sale.build import sale
from tracksworn.documents.sale.catalogue import Layout
from tracksworn.documents.sale.index import index_files
from tracksworn.documents.sale.page import write_page

pytestmark = pytest.mark.slow
LOTS = many(26)


@pytest.mark.parametrize(
    ("layout", "language", "paper"),
    [
        (Layout.LINES, "en", "A4"),
        (Layout.BLOCKS, "de", "letter"),
        pytest.param(Layout.BLOCKS, "fr", "A4", marks=pytest.mark.long),
        pytest.param(Layout.LINES, "es", "letter", marks=pytest.mark.long),
    ],
)
def test_no_judge_finds_a_fault_in_a_catalogue(
    layout: Layout, language: str, paper: str, verapdf: VeraPdf, tmp_path: Path
) -> None:
    file = tmp_path / "catalogue.pdf"
    file.write_bytes(index_files(LOTS, catalogue=layout, language=language, paper=paper)["catalogue.pdf"])
    assert sheets.faults(file, verapdf) == []
    assert filling.faults(file) == []
    try:
        check_pdf(file.read_bytes(), wanted(sale(LOTS, language=language).cautions))
    except Refused as error:
        pytest.fail(str(error))


@pytest.mark.parametrize("language", ["en", "de", *(pytest.param(one, marks=pytest.mark.long) for one in ("es", "fr"))])
def test_no_judge_finds_a_fault_in_an_index(language: str, browser: Browser, tmp_path: Path) -> None:
    file = tmp_path / "index.html"
    file.write_text(write_page(sale(with_long_names(LOTS), language=language)), encoding="utf-8")
    assert screens.faults(file, browser, language) == []
