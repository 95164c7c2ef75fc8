"""The typefaces that documents are set in, and which of them holds which characters.

The program's own come first, then those that it brings for further scripts, then those of a letterhead.
"""

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from itertools import groupby
from pathlib import Path
from typing import Any, Final, Literal

from tracksworn.documents import resources
from tracksworn.inspection.lettering import NO_INK, TABLE

Family = Literal["Barlow", "Barlow Semi Condensed"]


@dataclass(frozen=True, slots=True)
class Face:
    """One typeface: how CSS names it and its TrueType file, in the program's folder of fonts or as `content`."""

    family: str
    weight: int
    file: str
    italic: bool = False
    content: bytes = b""

    @property
    def path(self) -> Path:
        """The TrueType file of a face that the program brings."""
        return resources.fonts() / self.file

    @property
    def stem(self) -> str:
        """The file's name without its ending."""
        return self.file.removesuffix(".ttf")

    @property
    def program(self) -> bytes:
        """The bytes of the TrueType file."""
        return self.content or self.path.read_bytes()


OWN: Final = (
    Face("Barlow", 400, "Barlow-400.ttf"),
    Face("Barlow", 400, "Barlow-400-italic.ttf", italic=True),
    Face("Barlow", 500, "Barlow-500.ttf"),
    Face("Barlow", 600, "Barlow-600.ttf"),
    Face("Barlow Semi Condensed", 400, "BarlowSemiCondensed-400.ttf"),
    Face("Barlow Semi Condensed", 500, "BarlowSemiCondensed-500.ttf"),
    Face("Barlow Semi Condensed", 600, "BarlowSemiCondensed-600.ttf"),
    Face("Barlow Semi Condensed", 700, "BarlowSemiCondensed-700.ttf"),
)
"""The faces that pages and drawings ask for; Latin."""

FURTHER: Final = (
    Face("Noto Sans", 400, "NotoSans-400.ttf"),
    Face("Noto Sans", 600, "NotoSans-600.ttf"),
    Face("Noto Sans Hebrew", 400, "NotoSansHebrew-400.ttf"),
    Face("Noto Sans Hebrew", 600, "NotoSansHebrew-600.ttf"),
    Face("Vazirmatn", 400, "Vazirmatn-400.ttf"),
    Face("Vazirmatn", 600, "Vazirmatn-600.ttf"),
)
"""Greek, Cyrillic and rarer Latin; Hebrew; Arabic. They hold nothing that those above hold, but marks and the blank."""

FACES: Final = (*OWN, *FURTHER)

WEIGHTS: Final = (400, 600)
"""Those that families for further scripts have."""


@cache
def face_for(family: str, weight: int) -> Face:
    """The upright face of one of the program's families that is nearest in weight."""
    upright = [face for face in FACES if face.family == family and not face.italic]
    return nearest(upright, weight)


def nearest(faces: Sequence[Face], weight: int) -> Face:
    """The face nearest in weight; of two as near the lighter, as CSS and fontconfig have it for 500."""
    return min(faces, key=lambda face: (abs(face.weight - weight), face.weight))


@cache
def characters(face: Face) -> frozenset[int]:
    """The code points that a face has a glyph for."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415

    with TTFont(BytesIO(face.program)) as font:
        return frozenset(font.getBestCmap())


@cache
def web_font(face: Face) -> bytes:
    """The face as WOFF2, for embedding in a page that is read in a browser."""
    return _packed(face) if face.content else face.path.with_suffix(".woff2").read_bytes()


def _packed(face: Face) -> bytes:
    from fontTools.ttLib import TTFont  # noqa: PLC0415

    with TTFont(BytesIO(face.content), recalcTimestamp=False) as font:
        packed: Any = font
        packed.flavor = "woff2"
        out = BytesIO()
        packed.save(out)
    return out.getvalue()


def pieces(content: str, first: Face, more: Sequence[Face] = ()) -> Iterator[tuple[Face | None, str]]:
    """A text in pieces of one face each: `first` where it can, else one for further scripts, or None where none can.

    A base and its marks stay together.
    """
    if characters(first).issuperset(map(ord, content)):
        if content:
            yield first, content
        return
    order = _in_order(first, tuple(more))
    found = ((_holding(cluster, order), cluster) for cluster in _clusters(content))
    for face, run in groupby(found, key=lambda one: one[0]):
        yield face, "".join(cluster for _, cluster in run)


@cache
def _in_order(first: Face, more: tuple[Face, ...]) -> tuple[Face, ...]:
    """A face, then of each further family the face nearest in weight."""
    families = dict.fromkeys(face.family for face in (*FURTHER, *more))
    further = ([face for face in (*FURTHER, *more) if face.family == family] for family in families)
    return (first, *(nearest(faces, first.weight) for faces in further))


def _holding(cluster: str, order: Sequence[Face]) -> Face | None:
    wanted = {ord(character) for character in NO_INK.sub("", cluster)}
    whole = next((face for face in order if characters(face) >= wanted), None)
    return whole or next((face for face in order if ord(cluster[0]) in characters(face)), None)


def _clusters(content: str) -> Iterator[str]:
    """Every character with the marks and the signs without ink that follow it."""
    start = 0
    for index, character in enumerate(content):
        if index > start and not (unicodedata.category(character)[0] == "M" or NO_INK.match(character)):
            yield content[start:index]
            start = index
    if content:
        yield content[start:]


def built_in_characters() -> frozenset[int]:
    """The code points that every style of type can show, by the fonts themselves."""
    latin = frozenset.intersection(*map(characters, OWN))
    further = (frozenset.intersection(*map(characters, faces)) for faces in _by_family(FURTHER))
    return frozenset(code for code in latin.union(*further) if code >= ord(" "))


def _by_family(faces: Iterable[Face]) -> list[tuple[Face, ...]]:
    return [tuple(group) for _, group in groupby(faces, key=lambda face: face.family)]


def ranges(codes: Iterable[int]) -> list[tuple[int, int]]:
    """Code points as ranges, both ends among them."""
    found: list[tuple[int, int]] = []
    for code in sorted(codes):
        if found and code == found[-1][1] + 1:
            found[-1] = (found[-1][0], code)
        else:
            found.append((code, code))
    return found


def table(codes: Iterable[int]) -> str:
    """Code points as ranges, one a line."""
    return "".join(f"{first:04X}-{last:04X}\n" for first, last in ranges(codes))


if __name__ == "__main__":
    TABLE.write_text(table(built_in_characters()), encoding="ascii")
