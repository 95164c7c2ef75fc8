"""Every kind of document in a browser: no barrier on a phone, a desk and on paper, and readable without styles."""

from pathlib import Path

import pytest
from judges import screens
from judges.documents import DOCUMENTS, written
from playwright.sync_api import Browser

pytestmark = pytest.mark.slow
WORDS = "document.body.innerText.toUpperCase().split(/\\s+/)"
TOPS = "[...document.querySelectorAll('h1, h2')].map(one => one.getBoundingClientRect().top + scrollY)"


@pytest.mark.parametrize("where", screens.MEDIA)
@pytest.mark.parametrize("name", DOCUMENTS)
def test_axe_finds_no_barrier(name: str, where: str, browser: Browser, tmp_path: Path) -> None:
    assert screens.faults(screens.opened(written(name, "html", tmp_path), browser, where)) == []


@pytest.mark.parametrize("name", DOCUMENTS)
def test_it_can_be_read_without_styles_in_the_same_order(name: str, browser: Browser, tmp_path: Path) -> None:
    page = screens.opened(written(name, "html", tmp_path), browser, "phone")
    words, tops = page.evaluate(WORDS), page.evaluate(TOPS)
    assert len(tops) > 1
    assert tops == sorted(tops), "headings stand in another order than in the text"
    screens.unstyled(page)
    assert set(words) <= set(page.evaluate(WORDS)), "words that only a style puts there, or keeps apart"


@pytest.mark.parametrize(
    ("spoil", "rule"),
    [
        ("document.documentElement.removeAttribute('lang')", "html-has-lang"),
        ("document.title = ''", "document-title"),
        ("document.body.insertAdjacentHTML('beforeend', '<img src=\"data:,\">')", "image-alt"),
        ("document.body.insertAdjacentHTML('beforeend', '<p style=\"color: #bbb\">Hardly</p>')", "color-contrast"),
        ("document.body.insertAdjacentHTML('beforeend', '<input>')", "label"),
    ],
)
def test_axe_refuses(spoil: str, rule: str, browser: Browser, tmp_path: Path) -> None:
    file = tmp_path / "page.html"
    file.write_text("<!DOCTYPE html><html lang=en><title>A page</title><body><p>Words</p></body>", encoding="utf-8")
    page = screens.opened(file, browser, "desk")
    assert screens.faults(page) == []
    page.evaluate(spoil)
    assert [fault for fault in screens.faults(page) if fault.startswith(f"{rule}:")]


def test_a_page_that_asks_for_anything_is_refused(browser: Browser, tmp_path: Path) -> None:
    (tmp_path / "page.html").write_text("<!DOCTYPE html><img src=other.png>", encoding="utf-8")
    with pytest.raises(AssertionError, match="more than itself"):
        screens.opened(tmp_path / "page.html", browser, "desk")
