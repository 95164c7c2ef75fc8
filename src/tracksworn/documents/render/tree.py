"""HTML read as a browser reads it, by a parser that had no part in making it."""

from collections.abc import Iterator
from typing import Any
from xml.etree.ElementTree import Element

import tinyhtml5


def read_html(page: str) -> Element:
    """The tree of a page, without namespaces on HTML's own elements."""
    root: Any = tinyhtml5.parse(page, namespace_html_elements=False)
    return root  # type: ignore[no-any-return]


def texts(page: str) -> Iterator[str]:
    """All words of a page's body in order."""
    body = read_html(page).find("body")
    if body is not None:
        yield from body.itertext()
