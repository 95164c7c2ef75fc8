"""What is wrong with an HTML document in a browser without a network, by axe-core's rules of WCAG 2.2 A and AA."""

from collections.abc import Iterator
from contextlib import contextmanager
from importlib.resources import files
from pathlib import Path
from typing import Any, Final

from playwright.sync_api import Browser, Page

RULES: Final = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"]
MEDIA: Final = {"phone": (390, "screen"), "desk": (1280, "screen"), "paper": (688, "print")}
"""Where a page is looked at: how wide in CSS pixels, for paper A4 less its margins, and as what."""
_AXE: Final = files("axe_playwright_python") / "axe.min.js"
_ASK: Final = "rules => axe.run(document, {runOnly: {type: 'tag', values: rules}, resultTypes: ['violations']})"
_WORDS: Final = "document.body.innerText.toUpperCase().split(/\\s+/)"
_TOPS: Final = "[...document.querySelectorAll('h1, h2')].map(one => one.getBoundingClientRect().top + scrollY)"
_WIDTHS: Final = "[document.documentElement.scrollWidth, innerWidth]"


@contextmanager
def opened(file: Path, browser: Browser) -> Iterator[Page]:
    """The file as a browser shows it; whatever it asks for from elsewhere is an error."""
    with browser.new_context(offline=True) as context:
        page = context.new_page()
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url))
        page.goto(file.as_uri(), wait_until="load")
        page.evaluate("document.fonts.ready")
        elsewhere = [url for url in asked if url != file.as_uri() and not url.startswith("data:")]
        assert elsewhere == [], "it asks for more than itself"
        page.evaluate(_AXE.read_text("utf-8") + "; undefined")
        yield page


def faults(file: Path, browser: Browser, language: str) -> list[str]:
    """Everything that keeps it from being read: on a phone, at a desk and on paper, and without styles."""
    with opened(file, browser) as page:
        found = [f"{where}: {fault}" for where in MEDIA for fault in at(page, where)]
        said = page.evaluate("document.documentElement.lang")
        found += [] if said == language else [f"its language is {said!r}, not {language!r}"]
        show(page, "phone")
        return found + of_order(page)


def at(page: Page, where: str) -> list[str]:
    """What is wrong with it there."""
    show(page, where)
    return [*of_width(page), *of_rules(page)]


def show(page: Page, where: str) -> None:
    """Look at it there."""
    width, media = MEDIA[where]
    page.set_viewport_size({"width": width, "height": 900})
    page.emulate_media(media="print" if media == "print" else "screen")


def of_rules(page: Page) -> list[str]:
    """Rules that the page breaks, with the first element that does."""
    said: dict[str, list[dict[str, Any]]] = page.evaluate(_ASK, RULES)
    assert said["passes"], "axe-core checked nothing"
    return [f"{one['id']}: {one['help']} @ {one['nodes'][0]['target']}" for one in said["violations"]]


def of_width(page: Page) -> list[str]:
    """Whether the page itself has to be moved sideways to be read."""
    wide, there = page.evaluate(_WIDTHS)
    return [f"it is {wide} pixels wide, where there are {there}"] if wide > there else []


def of_order(page: Page) -> list[str]:
    """Whether it reads in the same order, and says the same, once every style is taken away."""
    words, tops = page.evaluate(_WORDS), page.evaluate(_TOPS)
    found = [] if tops == sorted(tops) and tops else ["headings stand in another order than in the text"]
    page.evaluate(
        "document.querySelectorAll('style, link[rel=stylesheet]').forEach(one => one.remove());"
        "document.querySelectorAll('[style]').forEach(one => one.removeAttribute('style'))"
    )
    lost = sorted(set(words) - set(page.evaluate(_WORDS)))
    return found + ([f"words that only a style puts there, or keeps apart: {lost[:5]}"] if lost else [])
