"""WeasyPrint, held to our rules: nothing fetched but what the document holds, every warning an error, no clock."""

import logging
import re
import warnings
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final
from xml.etree import ElementTree

from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.fonts import configuration
from tracksworn.documents.render.leftward import ISOLATE, tell_leftward
from tracksworn.documents.render.panel import Area

configuration()  # before WeasyPrint is imported, which looks at the system's fonts otherwise

import weasyprint  # noqa: E402
from cssselect2 import ElementWrapper  # noqa: E402
from weasyprint.css.counters import CounterStyle  # noqa: E402
from weasyprint.html import UA  # noqa: E402
from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse  # noqa: E402

POINT: Final = 0.75  # points to a pixel of CSS
OPTIONS: Final = {"pdf_variant": "pdf/a-3a", "pdf_identifier": False, "uncompressed_pdf": True}
"""Whoever puts more into the file names it by its content, and compresses all of it, once."""


@dataclass(frozen=True, slots=True)
class Part:
    """Something a page may show by its name: the bytes of a picture."""

    content: bytes
    media_type: str


class _Closed(URLFetcher):  # type: ignore[misc]
    """Knows the document's own parts by name, and nothing else in the world."""

    def __init__(self, parts: Mapping[str, Part]) -> None:
        super().__init__(allowed_protocols=(), allow_redirects=False)
        self._parts = parts

    def fetch(self, url: str, headers: Mapping[str, str] | None = None) -> URLFetcherResponse:  # noqa: ARG002
        part = self._parts.get(url)
        if part is None:
            raise FatalURLFetchingError(f"a page asks for {url[:80]!r}, which is not part of the document")
        return URLFetcherResponse(url, part.content, {"Content-Type": part.media_type})


class _Page(weasyprint.HTML):  # type: ignore[misc]
    """A page whose templates are well-formed XML, which parses faster than the error-tolerant way of browsers.

    `quick` takes the engine's own style as it is: for the first page of a process, which may be the only one, reading
    ours takes longer than it saves. Pages come out the same, but for lists.
    """

    def __init__(self, root: ElementTree.Element, parts: Mapping[str, Part], *, quick: bool) -> None:
        self._quick = quick
        self.base_url = None
        self.url_fetcher = _Closed(parts)
        self.media_type = "print"
        self.wrapper_element = ElementWrapper.from_html_root(root, content_language=None)
        self.etree_element = self.wrapper_element.etree_element

    def _ua_stylesheets(self, forms: bool = False) -> list[Any]:
        return super()._ua_stylesheets(forms) if self._quick else [_basic_style()]


@lru_cache(maxsize=1)
def _basic_style() -> Any:
    return weasyprint.CSS(string=basic_text(), counter_style=CounterStyle())


def basic_text() -> str:
    """The engine's own style of HTML, but for what it says of every element's notes and markers.

    Nothing of ours uses these, and each of them would be worked out for each element. The engine offers no way to put
    its style otherwise, so that this and `_Page` use what is private to it; a test tells when that has changed.
    """
    return re.sub(r"(?m)^::(marker|footnote|note)[^{]*{[^}]*}", "", UA)


class Sheets:
    """Pages laid out and not yet written."""

    def __init__(self, document: Any) -> None:
        self._document = document

    @property
    def count(self) -> int:
        """How many they are."""
        return len(self._document.pages)

    def place(self, anchor: str) -> tuple[int, float] | None:
        """On which sheet an element of that id stands, from 0, and how far down: 0 at the top, 1 at the foot."""
        for index, page in enumerate(self._document.pages):
            if anchor in page.anchors:
                return index, page.anchors[anchor][1] / page.height
        return None

    def area(self, anchor: str) -> tuple[int, Area] | None:
        """On which sheet an element of that id stands, from 0, and its area there."""
        for index, page in enumerate(self._document.pages):
            if anchor in page.anchors:
                left, top, right, bottom = page.anchors[anchor]
                box = (left, page.height - bottom, right, page.height - top)
                return index, tuple(round(each * POINT, 2) for each in box)
        return None

    def write(self) -> bytes:
        """The sheets as tagged PDF/A-3a, not yet compressed and without an identifier."""
        with _complaints_are_errors(), warnings.catch_warnings():
            warnings.simplefilter("ignore", ResourceWarning)  # the engine leaves its colour profile open
            pdf: bytes = self._document.write_pdf(**OPTIONS)
        return pdf


def lay_out(page: str, styles: Sequence[str], parts: Mapping[str, Part], fonts: Any = None) -> Sheets:
    """Lay out a page of well-formed HTML, with a font configuration of its own or that of the program's faces.

    Raises Refused where the page is not well-formed, asks for anything that is not among its parts, or where the
    engine has anything to complain of.
    """
    with _complaints_are_errors():
        quick = _style.cache_info().hits == 0 and "<li" not in page
        sheets = [_style(text) for text in styles if text]
        root = parse(page)
        if ISOLATE in page:
            tell_leftward(root)
        page_ = _Page(root, parts, quick=quick)
        return Sheets(page_.render(stylesheets=sheets, font_config=fonts or configuration(), **OPTIONS))


def parse(page: str) -> ElementTree.Element:
    """The tree of a page. Raises Refused with the line where it is not well-formed XML."""
    try:
        return ElementTree.fromstring(page)  # noqa: S314 - our own page; expat bounds entities
    except ElementTree.ParseError as error:
        line, column = error.position
        there = page.splitlines()[line - 1][max(column - 40, 0) : column + 40].strip()
        raise Refused(f"a template makes a page that is not well-formed XML, near {there!r}: {error}") from error


@lru_cache(maxsize=32)
def _style(text: str) -> Any:
    """A style sheet, parsed once in a process."""
    return weasyprint.CSS(string=text, font_config=configuration(), url_fetcher=_Closed({}))


class _Ear(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.heard: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.heard.append(record.getMessage())


@contextmanager
def _complaints_are_errors() -> Iterator[None]:
    logger, ear = logging.getLogger("weasyprint"), _Ear()
    logger.addHandler(ear)
    propagates, logger.propagate = logger.propagate, False
    try:
        yield
    except FatalURLFetchingError as error:
        raise Refused(str(error)) from error
    finally:
        logger.removeHandler(ear)
        logger.propagate = propagates
    if ear.heard:
        raise Refused("the page engine complains: " + "; ".join(dict.fromkeys(ear.heard)))
