"""Glyphs for a run of text, by HarfBuzz (the OpenType shaping rules of each script)."""

from dataclasses import dataclass
from functools import cache
from typing import Final

import uharfbuzz as harfbuzz

from tracksworn.documents.typefaces import Face
from tracksworn.inspection.lettering import NO_INK

FEATURES: Final = {"kern": True}
BRACKETS: Final = "()[]{}<>«»‹›≤≥"
_MIRRORED: Final = str.maketrans(BRACKETS, ")(][}{><»«›‹≥≤")
"""Signs that show their counterpart where text reads leftward (UAX #9, rule L4), and are noted as what they show."""


@dataclass(frozen=True, slots=True)
class Glyph:
    """One glyph, in thousandths of an em: its number in the font, the characters it stands for, advance and offsets.

    Where several glyphs stand for one cluster, the first of them in the text holds its characters, the others none.
    """

    number: int
    characters: str
    advance: int
    across: int
    up: int


@cache
def font(face: Face) -> harfbuzz.Font:
    """The face for HarfBuzz; all faces have 1000 units an em."""
    return harfbuzz.Font(harfbuzz.Face(harfbuzz.Blob(face.program)))


def shaped(face: Face, content: str, *, leftward: bool | None = None) -> tuple[Glyph, ...]:
    """The glyphs of a text of one face and one direction, in the order in which they stand from left to right.

    Where the direction is not said it is that of the text's script.
    """
    buffer = harfbuzz.Buffer()
    buffer.cluster_level = harfbuzz.BufferClusterLevel.CHARACTERS
    buffer.flags = harfbuzz.BufferFlags.REMOVE_DEFAULT_IGNORABLES
    buffer.add_str(content)
    buffer.guess_segment_properties()
    if leftward is not None:
        buffer.direction = "rtl" if leftward else "ltr"
    harfbuzz.shape(font(face), buffer, FEATURES)
    clusters = [info.cluster for info in buffer.glyph_infos]
    ends = dict(zip(starts := sorted({*clusters, len(content)}), starts[1:], strict=False))
    told: set[int] = set()
    glyphs = []
    for info, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        said = "" if info.cluster in told else content[info.cluster : ends[info.cluster]]
        told.add(info.cluster)
        if buffer.direction == "rtl":
            said = said.translate(_MIRRORED)
        place = (position.x_advance, position.x_offset, position.y_offset)
        glyphs.append(Glyph(info.codepoint, NO_INK.sub("", said), *place))
    return tuple(glyphs)
