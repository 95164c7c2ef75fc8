"""Makes the fonts for further scripts: `python make_further.py FOLDER`, which holds their npm packages unpacked.

It takes out of each what Barlow lacks. Vazirmatn's lam-alef becomes two glyphs, so that each letter reads back alone.
"""

import sys
from collections.abc import Iterable, Iterator
from copy import deepcopy
from io import BytesIO
from pathlib import Path
from typing import Any, Final

from fontTools.otlLib.builder import SingleSubstBuilder, buildCoverage
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.ttLib.scaleUpem import scale_upem
from fontTools.ttLib.tables import otTables
from fontTools.ttLib.tables._g_l_y_f import Glyph

HERE: Final = Path(__file__).parent
WEIGHTS: Final = {400: "400Regular", 600: "600SemiBold"}
PACKAGES: Final = {"noto-sans": "NotoSans", "noto-sans-hebrew": "NotoSansHebrew", "vazirmatn": "Vazirmatn"}
BLOCKS: Final = {
    "NotoSans": (
        (0x00A0, 0x024F),
        (0x0300, 0x03FF),
        (0x0400, 0x052F),
        (0x1E00, 0x20CF),
        (0x2100, 0x218F),
        (0x2200, 0x22FF),
        (0xFFFD, 0xFFFD),
    ),
    "NotoSansHebrew": ((0x0590, 0x05FF), (0xFB1D, 0xFB4F)),
    "Vazirmatn": ((0x0600, 0x06FF), (0x0750, 0x077F), (0xFDFC, 0xFDFF)),
}
MARKS: Final = frozenset(range(0x0300, 0x0370))  # they stand in the face of their base
NAMES: Final = [*range(7), 13, 14, 16, 17]  # with them weights are one family
FEATURES: Final = ["kern", "mark", "mkmk", "ccmp", "locl", "liga", "tnum", "calt"]
ALEFS: Final = (0x0622, 0x0623, 0x0625, 0x0627, 0x0671)
IGNORE_MARKS: Final = 8


def make(folder: Path) -> None:
    """Write every face beside this file, as TTF and as WOFF2."""
    latin = frozenset.intersection(*(frozenset(TTFont(file).getBestCmap()) for file in HERE.glob("Barlow*.ttf")))
    for package, stem in PACKAGES.items():
        for weight, name in WEIGHTS.items():
            (source,) = folder.glob(f"*{package}-[0-9]*/package/{name}/*_{name}.ttf")
            font = _cut_down(TTFont(source, recalcTimestamp=False), stem, latin)
            if stem == "Vazirmatn":
                LamAlef(font).split()
            font.save(HERE / f"{stem}-{weight}.ttf")
            font = TTFont(HERE / f"{stem}-{weight}.ttf", recalcTimestamp=False)
            font.flavor = "woff2"
            font.save(HERE / f"{stem}-{weight}.woff2")


def _cut_down(font: TTFont, stem: str, latin: frozenset[int]) -> TTFont:
    if font["head"].unitsPerEm != 1000:
        scale_upem(font, 1000)
    options = Options(hinting=False, notdef_outline=True, glyph_names=False, recalc_timestamp=False)
    options.layout_features = FEATURES if stem == "NotoSans" else ["*"]
    options.drop_tables += ["STAT", "DSIG", "gasp"]
    options.name_IDs = NAMES
    wanted = {code for first, last in BLOCKS[stem] for code in range(first, last + 1)} - latin | {0x20}
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=(wanted | MARKS if stem == "NotoSans" else wanted) & set(font.getBestCmap()))
    subsetter.subset(font)
    out = BytesIO()
    font.save(out)
    return TTFont(BytesIO(out.getvalue()), recalcTimestamp=False)


class LamAlef:
    """Lam-alef as two glyphs: the ligature's form for the lam, a blank without width for the alef."""

    def __init__(self, font: TTFont) -> None:
        self.font = font
        self.gsub, self.gpos = font["GSUB"].table, font["GPOS"].table
        final = dict(pair for one in _subtables(self.gsub, "fina") for pair in one.mapping.items())
        self.alefs = {final[name]: code for code, name in font.getBestCmap().items() if code in ALEFS}
        self.ligatures: dict[tuple[str, str], str] = {}  # by forms of lam and alef
        self.blanks: dict[str, str] = {}  # by form of alef

    def split(self) -> None:
        """Take the ligatures out, and put contextual substitutions in their place."""
        self._take_out()
        order = self.font.getGlyphOrder()
        self.blanks = {alef: f"blank{self.alefs[alef]:04X}" for alef in sorted(self.alefs, key=order.index)}
        self._add_blanks(order)
        self._substitute()
        self._hang_marks()

    def _take_out(self) -> None:
        for table in (*_subtables(self.gsub, "rlig"), *_subtables(self.gsub, "liga")):
            for first, ligatures in list(getattr(table, "ligatures", {}).items()):
                ours = [one for one in ligatures if one.Component[0] in self.alefs and len(one.Component) == 1]
                self.ligatures.update({(first, one.Component[0]): one.LigGlyph for one in ours})
                kept = [one for one in ligatures if one not in ours and len(one.Component) < 3]  # three: Allah
                table.ligatures.pop(first)
                if kept:
                    table.ligatures[first] = kept

    def _add_blanks(self, order: Iterable[str]) -> None:
        names = [*order, *self.blanks.values()]
        self.font.setGlyphOrder(names)
        self.font["glyf"].glyphOrder = names
        for blank in self.blanks.values():
            self.font["glyf"].glyphs[blank] = Glyph()
            self.font["hmtx"].metrics[blank] = (0, 0)
            self.font["GDEF"].table.GlyphClassDef.classDefs[blank] = 1

    def _substitute(self) -> None:
        to_blank = self._add(self.gsub, self._single(self.blanks))
        chain = otTables.Lookup()
        chain.LookupType, chain.LookupFlag, chain.SubTable = 6, IGNORE_MARKS, []
        for alef in self.blanks:
            forms = {lam: form for (lam, other), form in self.ligatures.items() if other == alef}
            to_form = self._add(self.gsub, self._single(forms))
            chain.SubTable.append(self._pair(sorted(forms), alef, (to_form, to_blank)))
        chain.SubTableCount = len(chain.SubTable)
        _list_in(self.gsub, "rlig", self._add(self.gsub, chain))

    def _single(self, mapping: dict[str, str]) -> Any:
        builder = SingleSubstBuilder(self.font, None)
        builder.mapping = dict(mapping)
        return builder.build()

    def _pair(self, lams: list[str], alef: str, lookups: tuple[int, int]) -> Any:
        table = otTables.ChainContextSubst()
        table.Format, table.InputGlyphCount, table.SubstCount = 3, 2, 2
        table.BacktrackGlyphCount, table.BacktrackCoverage = 0, []
        table.LookAheadGlyphCount, table.LookAheadCoverage = 0, []
        table.InputCoverage = [self._coverage(lams), self._coverage([alef])]
        table.SubstLookupRecord = []
        for place, lookup in enumerate(lookups):
            record = otTables.SubstLookupRecord()
            record.SequenceIndex, record.LookupListIndex = place, lookup
            table.SubstLookupRecord.append(record)
        return table

    def _coverage(self, names: Iterable[str]) -> Any:
        return buildCoverage(names, self.font.getReverseGlyphMap())

    def _hang_marks(self) -> None:
        """Marks hang from the blank as they did from the second part of the ligature."""
        for lookup in list(self.gpos.LookupList.Lookup):
            for table in map(_plain, lookup.SubTable):
                if type(table).__name__ == "MarkLigPos" and (anchors := self._anchors(table)):
                    hung = otTables.Lookup()
                    hung.LookupType, hung.LookupFlag, hung.SubTableCount = 4, lookup.LookupFlag, 1
                    hung.SubTable = [self._on_bases(table, anchors)]
                    if hasattr(lookup, "MarkFilteringSet"):
                        hung.MarkFilteringSet = lookup.MarkFilteringSet
                    _list_in(self.gpos, "mark", self._add(self.gpos, hung))

    def _anchors(self, table: Any) -> dict[str, Any]:
        parts = dict(zip(table.LigatureCoverage.glyphs, table.LigatureArray.LigatureAttach, strict=True))
        found = {}
        for (_, alef), form in self.ligatures.items():
            if form in parts:
                record = otTables.BaseRecord()
                record.BaseAnchor = deepcopy(parts[form].ComponentRecord[-1].LigatureAnchor)
                found[self.blanks[alef]] = record
        return found

    def _on_bases(self, table: Any, anchors: dict[str, Any]) -> Any:
        marks = otTables.MarkBasePos()
        marks.Format, marks.ClassCount = 1, table.ClassCount
        marks.MarkCoverage, marks.MarkArray = deepcopy(table.MarkCoverage), deepcopy(table.MarkArray)
        names = sorted(anchors, key=self.font.getGlyphID)
        marks.BaseCoverage, marks.BaseArray = self._coverage(names), otTables.BaseArray()
        marks.BaseArray.BaseRecord = [anchors[name] for name in names]
        marks.BaseArray.BaseCount = len(names)
        return marks

    @staticmethod
    def _add(table: Any, lookup: Any) -> int:
        table.LookupList.Lookup.append(lookup)
        table.LookupList.LookupCount = len(table.LookupList.Lookup)
        return len(table.LookupList.Lookup) - 1


def _plain(table: Any) -> Any:
    return getattr(table, "ExtSubTable", table)


def _features(table: Any, tag: str) -> Iterator[Any]:
    return (record.Feature for record in table.FeatureList.FeatureRecord if record.FeatureTag == tag)


def _subtables(table: Any, tag: str) -> Iterator[Any]:
    indices = dict.fromkeys(index for feature in _features(table, tag) for index in feature.LookupListIndex)
    return (_plain(one) for index in indices for one in table.LookupList.Lookup[index].SubTable)


def _list_in(table: Any, tag: str, lookup: int) -> None:
    for feature in _features(table, tag):
        feature.LookupListIndex.append(lookup)
        feature.LookupCount = len(feature.LookupListIndex)


if __name__ == "__main__":
    make(Path(sys.argv[1]))
