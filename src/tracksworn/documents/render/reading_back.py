"""What the glyphs of a PDF stand for, put right where the page engine took it from the first place it met them.

It takes a bracket that stands mirrored for its counterpart, and a base with marks for nothing; then every later one
reads back wrongly, or not at all. What a glyph stands for is known from its face.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, partial
from io import BytesIO
from typing import Any, Final

import pikepdf

from tracksworn.documents.direction import reads_leftward
from tracksworn.documents.shaping import BRACKETS
from tracksworn.documents.typefaces import FACES, OWN, Face

_ENTRY: Final = re.compile(rb"^<([0-9a-f]{4})> <([0-9a-f]*)>$", re.MULTILINE)
_DEPTH: Final = 4  # how often a glyph is substituted for one that was substituted


def mend(pdf: pikepdf.Pdf, more: Sequence[Face] = ()) -> None:
    """Put right what the fonts of the pages say of their glyphs; nothing to do where all is set in Latin."""
    fonts = list(_fonts(pdf))
    own = {face.family for face in OWN}
    if all(family in own for family, _ in fonts):
        return
    tables = [_Table(family, stream, _said(stream)) for family, stream in fonts]
    faces = {face.family: face for face in reversed((*FACES, *more))}
    mirrored = any(reads_leftward(said) for table in tables for said in table.said)
    for table in tables:
        if table.family in faces and any(len(said) != 1 or (mirrored and said in BRACKETS) for said in table.said):
            known = readings(faces[table.family])
            table.stream.write(_ENTRY.sub(partial(_right, known=known), table.stream.read_bytes()))


@dataclass(frozen=True, slots=True)
class _Table:
    """A family of the pages, its table from glyphs to characters, and all that this says."""

    family: str
    stream: pikepdf.Object
    said: tuple[str, ...]


def _fonts(pdf: pikepdf.Pdf) -> Iterator[tuple[str, pikepdf.Object]]:
    """The family of every font of the pages, and its table from glyphs to characters."""
    seen: set[tuple[int, int]] = set()
    for page in pdf.pages:
        for font in page.Resources.get("/Font", pikepdf.Dictionary()).as_dict().values():
            if font.objgen not in seen:
                seen.add(font.objgen)
                yield str(font.DescendantFonts[0].FontDescriptor.FontFamily), font.ToUnicode


def _said(table: pikepdf.Object) -> tuple[str, ...]:
    return tuple(_text(code) for _, code in _ENTRY.findall(table.read_bytes()))


def _text(code: bytes) -> str:
    return bytes.fromhex(code.decode("ascii")).decode("utf-16-be", "replace")


def _right(entry: re.Match[bytes], known: Mapping[int, tuple[str, ...]]) -> bytes:
    possible = known.get(int(entry[1], 16), ())
    if not possible or _text(entry[2]) in possible:
        return entry[0]
    return b"<%s> <%s>" % (entry[1], possible[0].encode("utf-16-be").hex().encode("ascii"))


@cache
def readings(face: Face) -> Mapping[int, tuple[str, ...]]:
    """What each glyph of a face can stand for: by its character map, and by what takes another glyph's place.

    The same for all weights of a family.
    """
    from fontTools.ttLib import TTFont  # noqa: PLC0415

    with TTFont(BytesIO(face.program)) as font:
        said: dict[str, dict[str, None]] = {}
        for code, name in sorted(font.getBestCmap().items()):
            said.setdefault(name, {})[chr(code)] = None
        for _ in range(_DEPTH):
            for subtable in _substitutions(font):
                _extend(said, subtable)
        return {font.getGlyphID(name): tuple(texts) for name, texts in said.items()}


def _substitutions(font: Any) -> Iterator[Any]:
    lookups = font["GSUB"].table.LookupList.Lookup if "GSUB" in font else ()
    for lookup in lookups:
        for subtable in lookup.SubTable:
            yield getattr(subtable, "ExtSubTable", subtable)


def _extend(said: dict[str, dict[str, None]], subtable: Any) -> None:
    for old, new in getattr(subtable, "mapping", {}).items():
        if isinstance(new, str):
            said.setdefault(new, {}).update(said.get(old, {}))
    for first, ligatures in getattr(subtable, "ligatures", {}).items():
        for ligature in ligatures:
            parts = [next(iter(said.get(name, {})), "") for name in (first, *ligature.Component)]
            if all(parts):
                said.setdefault(ligature.LigGlyph, {})["".join(parts)] = None
