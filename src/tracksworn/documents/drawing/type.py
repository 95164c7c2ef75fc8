"""How wide a line of type is, from the fonts that ship with the program."""

from collections.abc import Mapping
from functools import cache, lru_cache
from typing import Final, Literal

import uharfbuzz as harfbuzz

from tracksworn.documents.drawing.plain import Text
from tracksworn.documents.typefaces import Face, Family, face_for, pieces
from tracksworn.inspection.lettering import NO_INK

MM_PER_POINT: Final = 25.4 / 72
CAP_HEIGHT: Final = 0.7  # of the size, in all the fonts
DESCENT: Final = 0.2

Weight = Literal[400, 500, 600, 700]

_EM: Final = 1.0  # what a character takes that is set in a letterhead's font, or in none


def width_mm(text: str, size_pt: float, family: Family = "Barlow Semi Condensed", weight: Weight = 400) -> float:
    """The width of a line in mm, without kerning, so rather too wide than too narrow.

    Latin is measured by the advances in the font's `hmtx`; other scripts are shaped. A character that none of the
    program's fonts has counts as one em.
    """
    return in_ems(text, family, weight) * size_pt * MM_PER_POINT


@lru_cache(maxsize=2048)
def in_ems(text: str, family: Family, weight: Weight) -> float:
    """The width of a line in ems, as `width_mm` has it, kept: a page asks for the same words many times."""
    face = face_for(family, weight)
    advances = _advances(face)
    try:
        return sum([advances[character] for character in text])
    except KeyError:
        return sum(_ems(which, piece) for which, piece in pieces(text, face))


def text_width(text: Text) -> float:
    """The width in mm of a text of a drawing."""
    return width_mm(text.content, text.size, text.family, text.weight)


def further(text: Text) -> bool:
    """Whether a text has characters that its own face lacks."""
    return not all(character in _advances(face_for(text.family, text.weight)) for character in text.content)


def _ems(face: Face | None, piece: str) -> float:
    if face is None:
        return _EM * len(NO_INK.sub("", piece))
    if face.family.startswith("Barlow"):
        advances = _advances(face)
        return sum(advances.get(character, 0.0) for character in piece)
    from tracksworn.documents.shaping import shaped  # noqa: PLC0415 - what is all Latin needs no shaping

    return sum(glyph.advance for glyph in shaped(face, piece)) / 1000


@cache
def _advances(face: Face) -> Mapping[str, float]:
    """Advance widths in em by character."""
    read = harfbuzz.Face(harfbuzz.Blob(face.program))
    font, em = harfbuzz.Font(read), read.upem
    return {chr(code): font.get_glyph_h_advance(font.get_nominal_glyph(code)) / em for code in read.unicodes}
