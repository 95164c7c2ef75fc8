"""How much of what users wrote one sheet has room for; what is left out is counted, never dropped in silence."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from tracksworn.documents.drawing.lettering import broken
from tracksworn.documents.drawing.plain import Text
from tracksworn.documents.drawing.type import width_mm

FOUND: Final = 51.0
UNSEEN: Final = 57.0
HAZARDS: Final = 62.0
"""Widths of the three columns of words, mm, with gaps between of six."""
COLUMNS: Final = (
    (FOUND, UNSEEN, HAZARDS),
    (45.0, 51.0, 74.0),
    (45.0, 57.0, 68.0),
    (51.0, 49.0, 70.0),
    (57.0, 51.0, 62.0),
    (45.0, 63.0, 62.0),
)
"""The same widths, and others for where one column would stand much higher than its neighbours."""
SHEET: Final = 182.0
STYLE: Final = Text((0, 0), "", 8.0)
"""Type of the columns and of what stands beneath them."""
HEADLINE: Final = Text((0, 0), "", 13.0, 600)
CAPTION: Final = Text((0, 0), "", 9.2, 600)
"""Type of the one sentence, and of what stands under a large figure."""
SAFE: Final = 0.96
"""Lines are broken a little earlier here than on the page, so that they are rather counted too many."""


@dataclass(frozen=True, slots=True)
class Room:
    """What a sheet has room for: mm that an elevation is high, and lines of each kind of words."""

    elevation: float
    found: int = 9
    also: int = 5
    parts: int = 7
    reason: int = 3
    sentence: int = 3
    headline: int = 3


ROOMS: Final = (
    Room(43.0),
    Room(36.0, also=4),
    Room(31.0, found=8, also=3),
    Room(36.0, found=6, also=2, parts=5, reason=2, sentence=2, headline=2),
    Room(29.0, found=4, also=1, parts=3, reason=1, sentence=2, headline=2),
)
"""From the usual to the least, drawings before words: the first with which all stands on one page."""
LOWER: Final = {"A4": 0.0, "letter": 5.0}
"""How much lower elevations are, by paper, mm."""


@lru_cache(maxsize=512)  # a sheet asks of every text several times, to share out its room
def lines(text: str, width: float, style: Text = STYLE) -> int:
    """How many lines a text takes."""
    room = SAFE * width
    said = text.replace("\n", " ")
    return sum(1 + int(_wide(line, style) / room) for line in broken(said, room, style)) if said else 0


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


def fitting(texts: Sequence[str], most: int, width: float, *, run_on: bool = False) -> int:
    """How many of the texts, from the first on, take no more than `most` lines; `run_on` in one paragraph."""
    for count in range(1, len(texts) + 1):
        said = texts[:count]
        if (lines(" ".join(said), width) if run_on else sum(lines(one, width) for one in said)) > most:
            return count - 1
    return len(texts)


def _wide(line: str, style: Text) -> float:
    return width_mm(line, style.size, style.family, style.weight)
