"""How much of what users wrote one sheet has room for; what is left out is counted, never dropped in silence."""

from collections.abc import Sequence
from typing import Final

from tracksworn.documents.drawing.lettering import broken
from tracksworn.documents.drawing.plain import Text
from tracksworn.documents.drawing.type import width_mm

FOUND: Final = 53.0
UNSEEN: Final = 57.0
HAZARDS: Final = 60.0
"""Widths of the three columns, mm, with gaps between of six."""
SHEET: Final = 182.0
STYLE: Final = Text((0, 0), "", 8.0)
"""Type of the columns and of what stands beneath them."""
SAFE: Final = 0.96
"""Lines are broken a little earlier here than on the page, so that they are rather counted too many."""


def lines(text: str, width: float, style: Text = STYLE) -> int:
    """How many lines a text takes."""
    room = SAFE * width
    return sum(1 + int(_wide(line, style) / room) for line in broken(text, room, style)) if text else 0


def clipped(text: str, most: int, width: float, style: Text = STYLE) -> str:
    """A text in no more than `most` lines, with an ellipsis where it was cut."""
    if lines(text, width, style) <= most:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        fits = lines(f"{text[:middle].rstrip()}…", width, style) <= most
        low, high = (middle, high) if fits else (low, middle - 1)
    return f"{text[:low].rstrip(' ,;.')}…"


def fitting(texts: Sequence[str], most: int, width: float) -> int:
    """How many of the texts, from the first on, take no more than `most` lines together."""
    taken = 0
    for index, text in enumerate(texts):
        taken += lines(text, width)
        if taken > most:
            return index
    return len(texts)


def _wide(line: str, style: Text) -> float:
    return width_mm(line, style.size, style.family, style.weight)
