"""The HTML as a browser shows it on a desk, on a phone and on paper."""

from io import BytesIO

import pikepdf
import pytest
from documents.render.conftest import made
from playwright.sync_api import Browser, Page

KINDS = ("like most", "short", "long")
pytestmark = pytest.mark.slow


def opened(kind: str, browser: Browser, width: int = 1280) -> Page:
    page = browser.new_context(viewport={"width": width, "height": 900}, offline=True).new_page()
    page.set_content(made(kind, "html")[0].content.decode("utf-8"), wait_until="load")
    page.evaluate("document.fonts.ready")
    return page


def sheets(content: bytes) -> int:
    with pikepdf.open(BytesIO(content)) as pdf:
        return len(pdf.pages)


@pytest.mark.parametrize("kind", KINDS)
def test_printed_from_a_browser_it_takes_hardly_more_sheets_than_the_pdf(kind: str, browser: Browser) -> None:
    printed = opened(kind, browser).pdf(prefer_css_page_size=True)
    assert sheets(printed) <= sheets(made(kind, "pdf")[0].content) + 2


def test_paper_keeps_the_heads_of_tables_and_the_ink_of_pins(browser: Browser) -> None:
    page = opened("like most", browser, 688)  # A4 less its margins, in CSS pixels
    page.emulate_media(media="print")
    assert page.evaluate("getComputedStyle(document.querySelector('.twin thead')).display") == "table-header-group"
    assert page.evaluate("getComputedStyle(document.querySelector('.pin')).printColorAdjust") == "exact"
