"""PostScript outlines (CFF, cubic curves) as TrueType ones (quadratic), which pages and drawings embed alike."""

from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

MOST_ERROR: Final = 0.001
"""How far, in ems, a curve may lie from the one that it stands for: a hundredth of a millimetre at 28 points."""

_POST_WITHOUT_NAMES: Final = 3.0
_MAXIMA: Final = (
    ("maxZones", 1),
    ("maxTwilightPoints", 0),
    ("maxStorage", 0),
    ("maxFunctionDefs", 0),
    ("maxInstructionDefs", 0),
    ("maxStackElements", 0),
    ("maxSizeOfInstructions", 0),
    ("maxComponentElements", 0),
)
_POSTSCRIPT_ONLY: Final = ("CFF ", "CFF2", "VORG")


def has_postscript_outlines(font: "TTFont") -> bool:
    """Whether a font has outlines of that kind."""
    return "CFF " in font or "CFF2" in font


def into_truetype(font: "TTFont") -> None:
    """Give the font TrueType outlines in the place of its own (ISO/IEC 14496-22: glyf, loca, maxp 1.0)."""
    from fontTools.ttLib import newTable  # noqa: PLC0415

    glyphs = _quadratic(font)
    order = font.getGlyphOrder()
    font["loca"] = newTable("loca")
    font["glyf"] = table = newTable("glyf")
    table.glyphOrder, table.glyphs = order, glyphs
    for tag in _POSTSCRIPT_ONLY:
        if tag in font:
            del font[tag]
    table.compile(font)
    for name, glyph in glyphs.items():
        width, _ = font["hmtx"][name]
        font["hmtx"][name] = (width, getattr(glyph, "xMin", 0))
    _head(font, len(order))


def _quadratic(font: "TTFont") -> dict[str, Any]:
    from fontTools.pens.cu2quPen import Cu2QuPen  # noqa: PLC0415
    from fontTools.pens.ttGlyphPen import TTGlyphPen  # noqa: PLC0415

    drawn = font.getGlyphSet()
    glyphs = {}
    for name in font.getGlyphOrder():
        pen = TTGlyphPen(drawn)
        drawn[name].draw(Cu2QuPen(pen, MOST_ERROR * font["head"].unitsPerEm, reverse_direction=True))
        glyphs[name] = pen.glyph()
    return glyphs


def _head(font: "TTFont", count: int) -> None:
    from fontTools.ttLib import newTable  # noqa: PLC0415

    font["maxp"] = table = newTable("maxp")
    table.tableVersion, table.numGlyphs = 0x00010000, count
    for name, value in _MAXIMA:
        setattr(table, name, value)
    table.compile(font)
    if "post" in font:
        font["post"].formatType = _POST_WITHOUT_NAMES
    font.sfntVersion = "\0\1\0\0"
