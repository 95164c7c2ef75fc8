"""A letterhead's own fonts: TrueType files, checked before anything is set in them."""

from functools import lru_cache
from io import BytesIO
from typing import Any, Final

from tracksworn.inspection.dossier import Font

LARGEST_FONT: Final = 40_000_000  # bytes
_OTHER_FORMATS: Final = {
    b"OTTO": "it has PostScript outlines (CFF), and a font with TrueType outlines is wanted",
    b"ttcf": "it is a collection of fonts; name one font taken out of it",
    b"wOFF": "it is a web font (WOFF), and the TrueType file that it was made from is wanted",
    b"wOF2": "it is a web font (WOFF2), and the TrueType file that it was made from is wanted",
}
_NO_EMBEDDING: Final = 0x0002  # OS/2 fsType: restricted licence
_TABLES: Final = ("head", "hhea", "hmtx", "maxp", "cmap", "loca", "glyf")


class FontRefused(ValueError):  # noqa: N818 - named for what happened to the font
    """A font that was not taken; its text says what is wrong and what would be right."""


@lru_cache(maxsize=4)
def read_font(name: str, content: bytes) -> Font:
    """The font in a file, and the characters that it has an outline for. Raises FontRefused.

    The last few are kept, since a batch of inspections has one letterhead.
    """
    if len(content) > LARGEST_FONT:
        raise FontRefused("it is larger than 40 MB")
    if why := _OTHER_FORMATS.get(content[:4]):
        raise FontRefused(why)
    if content[:4] not in (b"\0\1\0\0", b"true"):
        raise FontRefused("it is no TrueType font")
    characters = _characters(content)
    if not characters:
        raise FontRefused("it has no outline for any character")
    return Font(name, content, characters)


def _characters(content: bytes) -> frozenset[int]:
    """The code points with an outline. What the library makes of damaged bytes may be any error at all."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415 - only for who has such a font

    try:
        with TTFont(BytesIO(content), lazy=True, checkChecksums=0) as font:
            if lost := [tag for tag in _TABLES if tag not in font]:
                raise FontRefused(f"it is no whole font: the table `{lost[0]}` is missing")
            if "OS/2" in font and font["OS/2"].fsType & 0xF == _NO_EMBEDDING:
                raise FontRefused("its maker does not allow it to be embedded in documents")
            return _inked(font)
    except FontRefused:
        raise
    except Exception as error:
        raise FontRefused("it is damaged and cannot be read") from error


def _inked(font: Any) -> frozenset[int]:
    places = font["loca"].locations
    if len(places) != font["maxp"].numGlyphs + 1 or places[-1] > font.reader.tables["glyf"].length:
        raise FontRefused("it is damaged: its outlines are cut off")
    if len(font["hmtx"].metrics) != font["maxp"].numGlyphs or not 16 <= font["head"].unitsPerEm <= 16384:
        raise FontRefused("it is damaged: its widths cannot be read")
    number = font.getReverseGlyphMap()
    numbered = ((code, number[name]) for code, name in (font.getBestCmap() or {}).items())
    return frozenset(code for code, at in numbered if code > ord(" ") and places[at] < places[at + 1])
