"""Texts that read from right to left, as elements: at each new line the page engine forgets what is set apart.

The engine lays every line out by itself, and an isolate (UAX #9) that began on the line before is not on it.
"""

import re
from itertools import pairwise
from typing import Final
from xml.etree.ElementTree import Element

from tracksworn.documents.direction import begins_leftward

ISOLATE: Final = "\u2068"
_APART: Final = re.compile("\u2068[^\u2068\u2069]*\u2069")


def tell_leftward(root: Element) -> None:
    """Put each text of a page's body that is set apart and begins leftward into an element that says so."""
    for element in list(root.iter()):
        if element.tag not in ("style", "title") and isinstance(element.tag, str):
            _tell_within(element)


def _tell_within(element: Element) -> None:
    children = list(element)
    for index in range(len(children), 0, -1):
        child = children[index - 1]
        child.tail, inserted = _divided(child.tail)
        element[index:index] = inserted
    element.text, inserted = _divided(element.text)
    element[0:0] = inserted


def _divided(text: str | None) -> tuple[str | None, list[Element]]:
    """What stands before the first text that reads leftward, and an element for each with what follows it."""
    if text is None or ISOLATE not in text:
        return text, []
    found = [part for part in _APART.finditer(text) if begins_leftward(part[0])]
    starts = [part.start() for part in found]
    elements = []
    for part, (_, end) in zip(found, pairwise([*starts, len(text)]), strict=True):
        element = Element("bdi", dir="rtl")
        element.text, element.tail = part[0], text[part.end() : end]
        elements.append(element)
    return text[: starts[0]] if starts else text, elements
