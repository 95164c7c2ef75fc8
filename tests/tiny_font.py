"""A small TrueType font for characters that the program's own lack: every one is a square with a hole."""

from functools import cache
from io import BytesIO
from typing import Any

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont, newTable
from fontTools.ttLib.tables._f_v_a_r import Axis
from fontTools.ttLib.tables.TupleVariation import TupleVariation


@cache
def tiny_font(
    characters: str, *, em: int = 1000, width: float = 1.0, weight: int = 400, embedding: int = 0, family: str = "Tiny"
) -> bytes:
    """A font that holds these characters and the blank. `width` is that of each, in ems."""
    builder, names = _begun(characters, em, postscript=False)
    blank = TTGlyphPen(None).glyph()
    builder.setupGlyf({name: blank if name == "space" else _square(em) for name in names})
    builder.setupHorizontalMetrics({name: (round(width * em), round(0.1 * em)) for name in names})
    builder.setupHorizontalHeader(ascent=round(0.9 * em), descent=-round(0.2 * em))
    builder.setupNameTable({"familyName": family, "styleName": "Regular"})
    builder.setupOS2(usWeightClass=weight, fsType=embedding)
    builder.setupPost()
    out = BytesIO()
    builder.save(out)
    return out.getvalue()


def _begun(characters: str, em: int, *, postscript: bool) -> tuple[Any, list[str]]:
    names = [".notdef", "space", *(f"u{ord(character):04X}" for character in characters)]
    builder: Any = FontBuilder(em, isTTF=not postscript)
    builder.setupGlyphOrder(names)
    builder.setupCharacterMap({ord(" "): "space", **{ord(one): f"u{ord(one):04X}" for one in characters}})
    return builder, names


@cache
def postscript_font(characters: str, *, em: int = 1000, variable: bool = False) -> bytes:
    """The same with PostScript outlines, each a disk of four cubic curves; heavier ones stand further right."""
    builder, names = _begun(characters, em, postscript=True)
    builder.setupNameTable({"familyName": "Tiny", "styleName": "Regular"})
    drawn = {name: _disk(em, variable=variable) for name in names if name != "space"}
    blank = T2CharStringPen(None if variable else em, None, CFF2=variable)
    outlines = {**drawn, "space": blank.getCharString()}
    if variable:
        builder.setupFvar([("wght", 300, 400, 900, "Weight")], [])
        builder.setupCFF2(outlines, regions=[{"wght": (0, 1, 1)}])
    else:
        builder.setupCFF("Tiny-Regular", {"FullName": "Tiny"}, outlines, {})
    builder.setupHorizontalMetrics({name: (em, round(0.1 * em)) for name in names})
    builder.setupHorizontalHeader(ascent=round(0.9 * em), descent=-round(0.2 * em))
    builder.setupOS2()
    builder.setupPost()
    out = BytesIO()
    builder.save(out)
    return out.getvalue()


def _disk(em: int, *, variable: bool) -> Any:
    pen = T2CharStringPen(None if variable else em, None, CFF2=variable)
    low, high, middle, bow = (round(part * em) for part in (0.1, 0.9, 0.5, 0.221))
    pen.moveTo((high, middle))
    pen.curveTo((high, middle + bow), (middle + bow, high), (middle, high))
    pen.curveTo((middle - bow, high), (low, middle + bow), (low, middle))
    pen.curveTo((low, middle - bow), (middle - bow, low), (middle, low))
    pen.curveTo((middle + bow, low), (high, middle - bow), (high, middle))
    pen.closePath()
    drawn = pen.getCharString()
    if variable:  # it stands a tenth of an em further to the right where the weight is greatest
        across, up, *more = drawn.program
        drawn.program = [across, up, round(0.1 * em), 0, 2, "blend", *more]
    return drawn


def _square(em: int) -> Any:
    pen = TTGlyphPen(None)
    for low, high in ((0.1, 0.8), (0.3, 0.6)):
        corners = ((low, low), (low, high), (high, high), (high, low))
        pen.moveTo((corners[0][0] * em, corners[0][1] * em))
        for x, y in corners[1:] if low == 0.1 else corners[:0:-1]:
            pen.lineTo((x * em, y * em))
        pen.closePath()
    return pen.glyph()


@cache
def variable_font(characters: str) -> bytes:
    """The same with an axis of weight from 300 to 900, along which squares grow wider."""
    font = TTFont(BytesIO(tiny_font(characters)))
    axis = Axis()
    axis.axisTag, axis.minValue, axis.defaultValue, axis.maxValue, axis.axisNameID = "wght", 300, 400, 900, 256
    font["name"].setName("Weight", 256, 3, 1, 0x409)
    font["fvar"] = table = newTable("fvar")
    table.axes, table.instances = [axis], []
    font["gvar"] = grown = newTable("gvar")
    grown.version, grown.reserved = 1, 0
    names = [name for name in font.getGlyphOrder() if font["glyf"][name].numberOfContours > 0]
    moved = [(0, 0)] * 2 + [(100, 0)] * 2 + [(0, 0)] * 4 + [(0, 0)] * 4
    grown.variations = {name: [TupleVariation({"wght": (0, 1, 1)}, moved)] for name in names}
    out = BytesIO()
    font.save(out)
    return out.getvalue()
