"""No style by way of a firm's own templates: its style sheets are judged as they are read, and nothing else is."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final
from xml.etree.ElementTree import Element

from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.gate.declared import of_style
from tracksworn.documents.render.gate.own_style import refused

PAGE_ALONE: Final = "body { margin: 0 }"
"""What the head of a listing sheet's page says, which is no part of the piece that another page takes in."""
_FACES: Final = re.compile(r"@font-face\s*\{[^}]*\}|/\*[^*]*\*/")


@dataclass(frozen=True, slots=True)
class Styles:
    """The style of a page in a browser, but for its fonts; a firm's own style sheets stand at its end."""

    built_in: str
    own: tuple[tuple[str, str], ...] = ()  # name and text

    @property
    def text(self) -> str:
        """All of it."""
        return f"{self.built_in}\n" + "".join(f"{text}\n" for _, text in self.own)

    def place(self, line: int, sheet: str) -> str:
        """Which line of a firm's own a line of the page's whole sheet is, as `extra.css, line 3`; empty for ours."""
        last = sheet.count("\n")
        for name, text in reversed(self.own):
            first = last - text.count("\n")
            if first <= line <= last:
                return f"{name}, line {line - first + 1}"
            last = first - 1
        return ""


def no_style_on_sheets(page: str) -> None:
    """Raises Refused for a style sheet in a page that is laid out on sheets, whose style comes beside it."""
    if "<style" in page.lower():
        raise _brought()


def no_style_but(root: Element, styles: Styles) -> None:
    """Raises Refused for any style in a browser's page but that of `styles` and what may stand in a firm's own."""
    for element in root.iter():
        if str(element.tag).rpartition("}")[2] == "style" and not _ours("".join(element.itertext()), styles.text):
            raise _brought()
    for why in _attributes(root):
        raise Refused(f"the document is not handed over: style={why}")


def _ours(text: str, styles: str) -> bool:
    if text.strip() in ("", PAGE_ALONE):
        return True
    return text.endswith(styles) and not _FACES.sub("", text.removesuffix(styles)).strip()


def _attributes(root: Element) -> Iterator[str]:
    for element in root.iter():
        for one in of_style(element.get("style", "")):
            if why := refused(one.name, one.value.lower()):
                yield f"{one.name}: {why}"


def _brought() -> Refused:
    return Refused("the document is not handed over: a template brings a style sheet; write it to extra.css")
