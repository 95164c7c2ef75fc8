"""axe-core and a browser refuse what somebody could not read."""

from pathlib import Path

import pytest
from judges import screens
from playwright.sync_api import Browser

pytestmark = pytest.mark.slow
SOUND = "<!DOCTYPE html><html lang=en><title>A page</title><body><h1>Words</h1><h2>More</h2></body>"
APPEND = "document.body.insertAdjacentHTML('beforeend', '{}')"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    (tmp_path / "page.html").write_text(SOUND, encoding="utf-8")
    return tmp_path / "page.html"


def test_a_sound_page_has_no_fault(file: Path, browser: Browser) -> None:
    assert screens.faults(file, browser, "en") == []


@pytest.mark.parametrize(
    ("spoil", "fault"),
    [
        ("document.documentElement.removeAttribute('lang')", "html-has-lang:"),
        ("document.title = ''", "document-title:"),
        (APPEND.format('<img src="data:,">'), "image-alt:"),
        (APPEND.format('<p style="color: #bbb">Hardly</p>'), "color-contrast:"),
        (APPEND.format("<input>"), "label:"),
        (APPEND.format('<p style="width: 400px">Wide</p>'), "it is 4"),
    ],
)
def test_a_spoiled_page_is_refused(spoil: str, fault: str, file: Path, browser: Browser) -> None:
    with screens.opened(file, browser) as page:
        page.evaluate(spoil)
        assert any(one.startswith(fault) for one in screens.at(page, "phone"))


@pytest.mark.parametrize(
    ("spoil", "fault"),
    [
        ("document.querySelector('h1').style = 'position: absolute; top: 600px'", "headings stand in another order"),
        ("document.querySelectorAll('h1, h2').forEach(one => one.remove())", "headings stand in another order"),
        (APPEND.format('<span style="display: block">Kept</span><span>apart</span>'), "words that only a style"),
    ],
)
def test_a_page_that_needs_its_styles_is_refused(spoil: str, fault: str, file: Path, browser: Browser) -> None:
    with screens.opened(file, browser) as page:
        page.evaluate(spoil)
        assert [one for one in screens.of_order(page) if one.startswith(fault)]


def test_a_page_in_another_language_is_refused(file: Path, browser: Browser) -> None:
    assert screens.faults(file, browser, "de") == ["its language is 'en', not 'de'"]


def test_a_page_that_asks_for_anything_is_refused(browser: Browser, tmp_path: Path) -> None:
    (tmp_path / "page.html").write_text("<!DOCTYPE html><img src=other.png>", encoding="utf-8")
    with pytest.raises(AssertionError, match="more than itself"), screens.opened(tmp_path / "page.html", browser):
        pass
