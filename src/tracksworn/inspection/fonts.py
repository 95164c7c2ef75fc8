"""A letterhead's own fonts: TrueType and OpenType files, checked before anything is set in them."""

from collections.abc import Callable
from functools import lru_cache
from io import BytesIO
from typing import Any, Final

from tracksworn.inspection.dossier import Font

LARGEST_FONT: Final = 40_000_000  # bytes
_FORMATS: Final = (b"\0\1\0\0", b"true", b"OTTO")
_OTHER_FORMATS: Final = {
    b"ttcf": "it is a collection of fonts; name one font taken out of it",
    b"wOFF": "it is a web font (WOFF), and the TrueType or OpenType file that it was made from is wanted",
    b"wOF2": "it is a web font (WOFF2), and the TrueType or OpenType file that it was made from is wanted",
}
_TABLES: Final = ("head", "hhea", "hmtx", "maxp", "cmap")
_OUTLINES: Final = ("glyf", "CFF ", "CFF2")
_ONE_OF: Final = 0x000F  # OS/2 fsType (ISO/IEC 14496-22): which use is licensed, the rest further limits
_NO_EMBEDDING: Final = 0x0002
_NO_SUBSET: Final = 0x0100
_BITMAPS_ALONE: Final = 0x0200


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
    if content[:4] not in _FORMATS:
        raise FontRefused("it is no TrueType or OpenType font")
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
            if not any(tag in font for tag in _OUTLINES):
                raise FontRefused("it is no whole font: it has no table of outlines, `glyf` or `CFF`")
            _refuse_unlicensed(font["OS/2"].fsType if "OS/2" in font else 0)
            _refuse_damaged(font, len(content))
            return _inked(font, content)
    except FontRefused:
        raise
    except Exception as error:
        raise FontRefused("it is damaged and cannot be read") from error


def _refuse_unlicensed(embedding: int) -> None:
    if embedding & _ONE_OF == _NO_EMBEDDING:
        raise FontRefused("its maker does not allow it to be embedded in documents")
    if embedding & _NO_SUBSET:
        raise FontRefused("its maker does not allow a part of it to be embedded, and documents carry no whole fonts")
    if embedding & _BITMAPS_ALONE:
        raise FontRefused("its maker does not allow its outlines to be embedded in documents")


def _refuse_damaged(font: Any, size: int) -> None:
    if any(entry.offset + entry.length > size for entry in font.reader.tables.values()):
        raise FontRefused("it is damaged: its end is cut off")
    if "glyf" in font:
        places = font["loca"].locations
        if len(places) != font["maxp"].numGlyphs + 1 or places[-1] > font.reader.tables["glyf"].length:
            raise FontRefused("it is damaged: its outlines are cut off")
    if len(font["hmtx"].metrics) != font["maxp"].numGlyphs or not 16 <= font["head"].unitsPerEm <= 16384:
        raise FontRefused("it is damaged: its widths cannot be read")


def _inked(font: Any, content: bytes) -> frozenset[int]:
    number = font.getReverseGlyphMap()
    numbered = ((code, number[name]) for code, name in (font.getBestCmap() or {}).items() if code > ord(" "))
    has_ink = _in_glyf(font) if "glyf" in font else _in_cff(content)
    return frozenset(code for code, at in numbered if has_ink(at))


def _in_glyf(font: Any) -> Callable[[int], bool]:
    places = font["loca"].locations
    return lambda at: bool(places[at] < places[at + 1])


def _in_cff(content: bytes) -> Callable[[int], bool]:
    import uharfbuzz as harfbuzz  # noqa: PLC0415 - reads thousands of PostScript outlines in a blink

    drawn = harfbuzz.Font(harfbuzz.Face(harfbuzz.Blob(content)))

    def has_ink(at: int) -> bool:
        extents = drawn.get_glyph_extents(at)
        return extents is not None and bool(extents.width and extents.height)

    return has_ink
