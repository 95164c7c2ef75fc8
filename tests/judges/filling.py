"""How sheets are filled, as PDFium reads it from tags and places: none nearly empty, none that ends with a heading."""

import ctypes
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import pypdfium2 as pdfium
from pypdfium2 import raw

LEAST_FILLED: Final = 0.4
"""How far down a sheet must be filled, of its height, where another follows."""


@dataclass(frozen=True, slots=True)
class Content:
    """A line or picture of a sheet that is no running head or foot: its place in reading order is that in its list."""

    tags: tuple[str, ...]  # from the document down to it
    foot: float  # its lower edge above the sheet's, pt

    @property
    def heads(self) -> bool:
        """Whether it is of a heading."""
        return any(len(tag) == 2 and tag[0] == "H" and tag[1].isdigit() for tag in self.tags)


def faults(file: Path, least: float = LEAST_FILLED) -> list[str]:
    """Sheets that are filled less far down though another follows, or end with a heading."""
    pdf = pdfium.PdfDocument(file)
    try:
        sheets = [(list(_contents(page)), page.get_height()) for page in pdf]
    finally:
        pdf.close()
    found = []
    for number, (contents, height) in enumerate(sheets, 1):
        if not contents:
            found.append(f"sheet {number} holds nothing that is tagged")
            continue
        lowest = min(contents, key=lambda one: one.foot)
        filled = 1 - lowest.foot / height
        if number < len(sheets) and filled < least:
            found.append(f"sheet {number} is filled to {filled:.0%}")
        if lowest.heads or contents[-1].heads:
            found.append(f"sheet {number} ends with a heading")
    return found


def _contents(page: Any) -> Iterator[Content]:
    feet: dict[int, float] = {}
    for thing in page.get_objects(max_depth=1):
        marked = raw.FPDFPageObj_GetMarkedContentID(thing.raw)
        feet[marked] = min(thing.get_bounds()[1], feet.get(marked, page.get_height()))
    tree = raw.FPDF_StructTree_GetForPage(page.raw)
    try:
        for index in range(raw.FPDF_StructTree_CountChildren(tree)):
            for marked, tags in _leaves(raw.FPDF_StructTree_GetChildAtIndex(tree, index), ()):
                if marked in feet:
                    yield Content(tags, feet[marked])
    finally:
        raw.FPDF_StructTree_Close(tree)


def _leaves(element: Any, above: tuple[str, ...]) -> Iterator[tuple[int, tuple[str, ...]]]:
    tags = (*above, _tag(element))
    for index in range(raw.FPDF_StructElement_CountChildren(element)):
        marked = raw.FPDF_StructElement_GetChildMarkedContentID(element, index)
        child = raw.FPDF_StructElement_GetChildAtIndex(element, index)
        if child:
            yield from _leaves(child, tags)
        elif marked >= 0:
            yield marked, tags


def _tag(element: Any) -> str:
    length = raw.FPDF_StructElement_GetType(element, None, 0)
    buffer = ctypes.create_string_buffer(length)
    raw.FPDF_StructElement_GetType(element, buffer, length)
    return buffer.raw[: max(length - 2, 0)].decode("utf-16-le")
