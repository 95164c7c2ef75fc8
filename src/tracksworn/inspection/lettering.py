"""Which characters can be printed: those of the program's own fonts, as listed in a file, and of a letterhead's."""

import re
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Final

TABLE: Final = Path(__file__).with_name("printed_characters.txt")
"""Ranges of code points, one a line, `0020-007E`; `python -m tracksworn.documents.typefaces` writes it anew."""

NO_INK: Final = re.compile(
    r"[\n\t\u00ad\u034f\u061c\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufe00-\ufe0f\ufeff\U000e0100-\U000e01ef]"
)
"""Characters that steer how others are set, and need no glyph (Unicode's default ignorables, the usual ones)."""


def unprinted(text: str, further: Iterable[frozenset[int]] = ()) -> tuple[str, ...]:
    """The characters of a text that no font holds, each once: neither the program's nor `further` ones."""
    if text.isascii():
        return ()
    held = (built_in(), *further)
    characters = dict.fromkeys(NO_INK.sub("", text))
    return tuple(one for one in characters if not any(ord(one) in font for font in held))


def stand_in(character: str) -> str:
    """What is printed for a character that no font holds: U+FFFD and its code."""
    return f"\ufffd U+{ord(character):04X}"


@cache
def built_in() -> frozenset[int]:
    """The code points that the program's own fonts hold."""
    ranges = (line.split("-") for line in TABLE.read_text(encoding="ascii").split())
    return frozenset(code for first, last in ranges for code in range(int(first, 16), int(last, 16) + 1))
