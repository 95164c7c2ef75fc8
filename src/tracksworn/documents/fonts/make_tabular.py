"""Makes tabular figures the ordinary ones of every font beside this file: `python make_tabular.py`.

So no style asks for them, and pages are laid out faster. A font that was made so already stays as it is.
"""

from itertools import chain
from pathlib import Path
from typing import Any, Final

from fontTools.ttLib import TTFont

HERE: Final = Path(__file__).parent


def make(file: Path) -> None:
    """Let the figures' characters lead to the glyphs that the feature `tnum` puts in their place."""
    font = TTFont(file, recalcTimestamp=False)
    tabular = _tabular(font)
    tables = [table.cmap for table in font["cmap"].tables if table.isUnicode()]
    changed = {code: tabular[glyph] for table in tables for code, glyph in table.items() if glyph in tabular}
    if changed:
        for table in tables:
            table.update(changed)
        font.save(file)


def _tabular(font: TTFont) -> dict[str, str]:
    if "GSUB" not in font:
        return {}
    substitutions = font["GSUB"].table
    wanted = [each.Feature for each in substitutions.FeatureList.FeatureRecord if each.FeatureTag == "tnum"]
    lookups = [substitutions.LookupList.Lookup[index] for each in wanted for index in each.LookupListIndex]
    subtables: list[Any] = list(chain.from_iterable(each.SubTable for each in lookups))
    return {glyph: figure for each in subtables for glyph, figure in each.mapping.items()}


if __name__ == "__main__":
    for each in sorted((*HERE.glob("*.ttf"), *HERE.glob("*.woff2"))):
        make(each)
