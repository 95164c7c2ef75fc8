"""Type inside drawings: shaped from the document's own faces and embedded as subsets (ISO 32000-1, 9.7)."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from itertools import groupby
from operator import itemgetter
from typing import Final

import pikepdf
import uharfbuzz as harfbuzz

from tracksworn.documents.direction import as_seen, levels
from tracksworn.documents.drawing.pdf import Run
from tracksworn.documents.drawing.plain import Text
from tracksworn.documents.shaping import Glyph, font, shaped
from tracksworn.documents.typefaces import FACES, Face, face_for, pieces

_STANDS_IN: Final = "\ufffd"
_KEPT: Final = 512  # texts of which the glyphs are kept: a document has a few hundred, and says most of them again


@dataclass(frozen=True, slots=True)
class _Row:
    """Glyphs of one face that stand on one height, thousandths of an em over the line, and the operand for them all."""

    face: Face
    glyphs: tuple[Glyph, ...]
    up: int
    operand: str
    advance: int


class Typesetter:
    """Sets the type of one document's drawings and remembers which glyphs it used, for embedding them."""

    def __init__(self, more: Sequence[Face] = ()) -> None:
        self._more = tuple(more)
        self._faces = (*FACES, *more)
        self._names = {face: f"T{index}" for index, face in reversed(list(enumerate(self._faces)))}
        self._used: dict[Face, dict[int, str]] = {}

    def set_type(self, text: Text) -> tuple[Run, ...]:
        """The glyphs of a text from left to right, in runs of one font each.

        A character that no face has should have been replaced before; it is left to `.notdef`.
        """
        rows = _rows(text.content, face_for(text.family, text.weight), self._more)
        return tuple(run for row in rows for run in self._runs(row))

    def _runs(self, row: _Row) -> Iterator[Run]:
        """Glyphs that read back as they were written, or else one glyph at a time."""
        used = self._used.setdefault(row.face, {})
        noted = [_instead(used, glyph) for glyph in row.glyphs]
        name = self._names[row.face]
        if not any(one is not None for one in noted):
            yield Run(name, row.operand, row.advance / 1000, row.up / 1000)
            return
        for instead, pairs in groupby(zip(noted, row.glyphs, strict=True), key=itemgetter(0)):
            some = tuple(glyph for _, glyph in pairs)
            yield Run(name, _operand(row.face, some), _advance(some) / 1000, row.up / 1000, instead)

    def resources(self, pdf: pikepdf.Pdf) -> pikepdf.Dictionary:
        """Embed the faces used, each with its used glyphs alone; the font resources of every drawing."""
        faces = [face for face in self._faces if face in self._used]
        return pikepdf.Dictionary({f"/{self._names[face]}": _embed(pdf, face, self._used[face]) for face in faces})


@lru_cache(maxsize=_KEPT)
def _rows(content: str, first: Face, more: tuple[Face, ...]) -> tuple[_Row, ...]:
    """A text from left to right."""
    parts = list(_parts(content, first, more))
    if len(parts) > 1:
        parts = as_seen(parts)
    return tuple(row for level, (face, piece) in parts for row in _of_one_face(face, piece, leftward=bool(level % 2)))


def _parts(content: str, first: Face, more: tuple[Face, ...]) -> Iterator[tuple[int, tuple[Face, str]]]:
    """The text in pieces of one level and one face each, with their level."""
    start = 0
    for level, group in groupby(levels(content)):
        end = start + len(list(group))
        for face, piece in pieces(content[start:end], first, more):
            yield level, (face or first, piece)
        start = end


def _of_one_face(face: Face, piece: str, *, leftward: bool) -> Iterator[_Row]:
    for up, group in groupby(shaped(face, piece, leftward=leftward), key=lambda glyph: glyph.up):
        glyphs = tuple(group)
        yield _Row(face, glyphs, up, _operand(face, glyphs), _advance(glyphs))


def _advance(glyphs: Sequence[Glyph]) -> int:
    return sum(glyph.advance for glyph in glyphs)


def _instead(used: dict[int, str], glyph: Glyph) -> str | None:
    """Note what a glyph stands for; what it stands for here, where that is not what it stood for at first."""
    first = used.setdefault(glyph.number, glyph.characters or _STANDS_IN)
    return None if glyph.characters == first else glyph.characters


def _operand(face: Face, glyphs: Sequence[Glyph]) -> str:
    """The array for TJ: glyphs in hexadecimal, shifts between them where they do not follow their widths."""
    parts, run, shift = [], "", 0
    width_of = font(face).get_glyph_h_advance
    for glyph in glyphs:
        if shift := shift - glyph.across:
            parts += [f"<{run}>", str(shift)] if run else [str(shift)]
            run = ""
        run += f"{glyph.number:04X}"
        shift = width_of(glyph.number) - glyph.advance + glyph.across
    if run:
        parts.append(f"<{run}>")
    return f"[{' '.join([*parts, str(shift)] if shift else parts)}]"


def _embed(pdf: pikepdf.Pdf, face: Face, used: dict[int, str]) -> pikepdf.Object:
    program = _subset(face, used)
    name = pikepdf.Name(f"/{_tag(program)}+{face.file.removesuffix('.ttf')}")
    descriptor = pdf.make_indirect(_descriptor(pdf, face, name, program))
    widths = [value for glyph in sorted(used) for value in (glyph, [font(face).get_glyph_h_advance(glyph)])]
    descendant = pikepdf.Dictionary(
        Type=pikepdf.Name.Font,
        Subtype=pikepdf.Name.CIDFontType2,
        BaseFont=name,
        CIDSystemInfo=pikepdf.Dictionary(Registry="Adobe", Ordering="Identity", Supplement=0),
        FontDescriptor=descriptor,
        W=pikepdf.Array(widths),
        CIDToGIDMap=pikepdf.Name.Identity,
    )
    return pdf.make_indirect(
        pikepdf.Dictionary(
            Type=pikepdf.Name.Font,
            Subtype=pikepdf.Name.Type0,
            BaseFont=name,
            Encoding=pikepdf.Name("/Identity-H"),
            DescendantFonts=[pdf.make_indirect(descendant)],
            ToUnicode=pdf.make_stream(_to_unicode(used)),
        )
    )


def _subset(face: Face, glyphs: Iterable[int]) -> bytes:
    wanted = harfbuzz.SubsetInput()
    wanted.flags = harfbuzz.SubsetFlags.RETAIN_GIDS | harfbuzz.SubsetFlags.NO_HINTING
    wanted.sets(harfbuzz.SubsetInputSets.GLYPH_INDEX).update({0, *glyphs})
    dropped = (int.from_bytes(tag) for tag in (b"GSUB", b"GPOS", b"GDEF", b"name", b"post", b"OS/2"))
    wanted.sets(harfbuzz.SubsetInputSets.DROP_TABLE_TAG).update(dropped)
    return bytes(harfbuzz.subset(font(face).face, wanted).blob.data)


def _tag(program: bytes) -> str:
    """Six capitals that tell one subset from another, as PDF asks for."""
    return "".join(chr(ord("A") + byte % 26) for byte in sha256(program).digest()[:6])


def _descriptor(pdf: pikepdf.Pdf, face: Face, name: pikepdf.Name, program: bytes) -> pikepdf.Dictionary:
    extents = font(face).get_font_extents("ltr")
    stream = pdf.make_stream(program, Length1=len(program))
    return pikepdf.Dictionary(
        Type=pikepdf.Name.FontDescriptor,
        FontName=name,
        Flags=4,
        FontBBox=[-200, extents.descender, 1200, extents.ascender],
        ItalicAngle=0,
        Ascent=extents.ascender,
        Descent=extents.descender,
        CapHeight=700,
        StemV=50 + face.weight // 10,
        FontFile2=stream,
    )


def _to_unicode(used: dict[int, str]) -> bytes:
    entries = [f"<{glyph:04X}> <{text.encode('utf-16-be').hex()}>" for glyph, text in sorted(used.items())]
    blocks = [entries[start : start + 100] for start in range(0, len(entries), 100)]
    body = "\n".join(f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar" for block in blocks)
    return (
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
        "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n"
        f"{body}\nendcmap\nCMapName currentdict /CMap defineresource pop\nend\nend"
    ).encode("ascii")
