"""What is wrong with an HTML document in a browser without a network, by axe-core's rules of WCAG 2.2 A and AA."""

from importlib.resources import files
from pathlib import Path
from typing import Any, Final

from playwright.sync_api import Browser, Page

RULES: Final = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"]
MEDIA: Final = {"phone": (390, "screen"), "desk": (1280, "screen"), "paper": (688, "print")}
"""Where a page is looked at: how wide in CSS pixels, for paper A4 less its margins, and as what."""
_AXE: Final = files("axe_playwright_python") / "axe.min.js"
_ASK: Final = "rules => axe.run(document, {runOnly: {type: 'tag', values: rules}, resultTypes: ['violations']})"


def opened(file: Path, browser: Browser, where: str) -> Page:
    """The file as a browser shows it there; whatever it asks for from elsewhere is an error."""
    width, media = MEDIA[where]
    page = browser.new_context(offline=True, viewport={"width": width, "height": 900}).new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(file.as_uri(), wait_until="load")
    page.emulate_media(media="print" if media == "print" else "screen")
    page.evaluate("document.fonts.ready")
    elsewhere = [url for url in asked if url != file.as_uri() and not url.startswith("data:")]
    assert elsewhere == [], "it asks for more than itself"
    return page


def faults(page: Page) -> list[str]:
    """Rules that the page breaks, with the first element that does."""
    page.evaluate(_AXE.read_text("utf-8") + "; undefined")
    said: dict[str, list[dict[str, Any]]] = page.evaluate(_ASK, RULES)
    assert said["passes"], "axe-core checked nothing"
    return [f"{one['id']}: {one['help']} @ {one['nodes'][0]['target']}" for one in said["violations"]]


def unstyled(page: Page) -> None:
    """Take away every style."""
    page.evaluate(
        "document.querySelectorAll('style, link[rel=stylesheet]').forEach(one => one.remove());"
        "document.querySelectorAll('[style]').forEach(one => one.removeAttribute('style'))"
    )
