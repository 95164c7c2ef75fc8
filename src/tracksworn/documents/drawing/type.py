"""How wide a line of type is, from the advance widths of the fonts that ship with the program."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import as_file, files
from typing import Final, Literal

from fontTools.ttLib import TTFont

from tracksworn.documents.drawing.plain import Text

MM_PER_POINT: Final = 25.4 / 72
CAP_HEIGHT: Final = 0.7  # of the size, in all the fonts
DESCENT: Final = 0.2

Family = Literal["Barlow", "Barlow Semi Condensed"]
Weight = Literal[400, 500, 600, 700]

_FILES: Final[Mapping[tuple[Family, Weight], str]] = {
    ("Barlow", 400): "Barlow-400.ttf",
    ("Barlow", 500): "Barlow-500.ttf",
    ("Barlow", 600): "Barlow-600.ttf",
    ("Barlow", 700): "Barlow-600.ttf",
    ("Barlow Semi Condensed", 400): "BarlowSemiCondensed-400.ttf",
    ("Barlow Semi Condensed", 500): "BarlowSemiCondensed-500.ttf",
    ("Barlow Semi Condensed", 600): "BarlowSemiCondensed-600.ttf",
    ("Barlow Semi Condensed", 700): "BarlowSemiCondensed-700.ttf",
}
_EM: Final = 1.0  # what a character that the fonts lack may take, in another font


def width_mm(
    text: str, size_pt: float, family: Family = "Barlow Semi Condensed", weight: Weight = 400, *, tabular: bool = True
) -> float:
    """The width of a line in mm, with tabular figures and without kerning, so rather too wide than too narrow.

    Measured by the advances in the font's `hmtx`. A character that the font lacks counts as one em.
    """
    advances = _advances(family, weight, tabular)
    return sum(advances.get(ord(character), _EM) for character in text) * size_pt * MM_PER_POINT


def text_width(text: Text) -> float:
    """The width in mm of a text of a drawing."""
    return width_mm(text.content, text.size, text.family, text.weight)


@cache
def _advances(family: Family, weight: Weight, tabular: bool) -> Mapping[int, float]:
    """Advance widths in em by code point."""
    with as_file(files("tracksworn.documents") / "fonts" / _FILES[family, weight]) as path, TTFont(path) as font:
        widths = font["hmtx"].metrics
        instead = _substitutes(font, "tnum") if tabular else {}
        em = font["head"].unitsPerEm
        return {code: widths[instead.get(name, name)][0] / em for code, name in font.getBestCmap().items()}


def _substitutes(font: TTFont, feature: str) -> dict[str, str]:
    """Which glyph a single-substitution feature puts in the place of which."""
    table = font["GSUB"].table
    lookups = {
        index
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == feature
        for index in record.Feature.LookupListIndex
    }
    subtables = [
        getattr(part, "ExtSubTable", part) for index in lookups for part in table.LookupList.Lookup[index].SubTable
    ]
    return {old: new for subtable in subtables for old, new in getattr(subtable, "mapping", {}).items()}
