"""Type inside drawings: shaped by HarfBuzz from the program's own faces and embedded as subsets (ISO 32000-1, 9.7)."""

import zlib
from collections.abc import Iterable, Iterator
from functools import cache
from hashlib import sha256
from itertools import groupby
from typing import Final

import pikepdf
import uharfbuzz as harfbuzz

from tracksworn.documents.drawing.pdf import Run
from tracksworn.documents.drawing.plain import Text
from tracksworn.documents.render.fonts import FACES, Face, characters

FEATURES: Final = {"kern": True, "tnum": True}


@cache
def _font(face: Face) -> harfbuzz.Font:
    return harfbuzz.Font(harfbuzz.Face(harfbuzz.Blob.from_file_path(str(face.path))))


@cache
def face_for(family: str, weight: int) -> Face:
    """The face of that family nearest in weight."""
    upright = [face for face in FACES if face.family == family and not face.italic]
    return min(upright, key=lambda face: abs(face.weight - weight))


class Typesetter:
    """Sets the type of one document's drawings and remembers which glyphs it used, for embedding them."""

    def __init__(self) -> None:
        self._used: dict[Face, dict[int, str]] = {}

    def set_type(self, text: Text) -> tuple[Run, ...]:
        """The glyphs of a text, in runs of one font each; characters that no face has are left to `.notdef`."""
        face = face_for(text.family, text.weight)
        return tuple(self._run(*part) for part in _by_face(text.content, face))

    def _run(self, face: Face, content: str) -> Run:
        buffer = harfbuzz.Buffer()
        buffer.add_str(content)
        buffer.guess_segment_properties()
        harfbuzz.shape(_font(face), buffer, FEATURES)
        glyphs = [info.codepoint for info in buffer.glyph_infos]
        advances = [position.x_advance for position in buffer.glyph_positions]
        self._remember(face, content, glyphs, [info.cluster for info in buffer.glyph_infos])
        return Run(_name(face), _operand(face, glyphs, advances), sum(advances) / 1000)

    def _remember(self, face: Face, content: str, glyphs: list[int], clusters: list[int]) -> None:
        used = self._used.setdefault(face, {})
        ends = sorted({*clusters, len(content)})
        for glyph, cluster in zip(glyphs, clusters, strict=True):
            used.setdefault(glyph, content[cluster : ends[ends.index(cluster) + 1]])

    def resources(self, pdf: pikepdf.Pdf) -> pikepdf.Dictionary:
        """Embed the faces used, each with its used glyphs alone; the font resources of every drawing."""
        faces = sorted(self._used, key=_name)
        return pikepdf.Dictionary({f"/{_name(face)}": _embed(pdf, face, self._used[face]) for face in faces})


def _by_face(content: str, first: Face) -> Iterator[tuple[Face, str]]:
    """Split a text where a face lacks a character that another one has."""

    def chosen(character: str) -> Face:
        code = ord(character)
        return next((face for face in (first, *FACES) if code in characters(face)), first)

    for face, run in groupby(content, key=chosen):
        yield face, "".join(run)


def _name(face: Face) -> str:
    return f"T{FACES.index(face)}"


def _operand(face: Face, glyphs: list[int], advances: list[int]) -> str:
    """The array for TJ: glyphs in hexadecimal, kerning between them where it differs from the widths."""
    parts, run = [], ""
    for glyph, advance in zip(glyphs, advances, strict=True):
        run += f"{glyph:04X}"
        if shift := _font(face).get_glyph_h_advance(glyph) - advance:
            parts += [f"<{run}>", str(shift)]
            run = ""
    return f"[{' '.join([*parts, f'<{run}>'] if run else parts)}]"


def _embed(pdf: pikepdf.Pdf, face: Face, used: dict[int, str]) -> pikepdf.Object:
    program = _subset(face, used)
    name = pikepdf.Name(f"/{_tag(program)}+{face.path.stem}")
    descriptor = pdf.make_indirect(_descriptor(pdf, face, name, program))
    widths = [value for glyph in sorted(used) for value in (glyph, [_font(face).get_glyph_h_advance(glyph)])]
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
    return bytes(harfbuzz.subset(_font(face).face, wanted).blob.data)


def _tag(program: bytes) -> str:
    """Six capitals that tell one subset from another, as PDF asks for."""
    return "".join(chr(ord("A") + byte % 26) for byte in sha256(program).digest()[:6])


def _descriptor(pdf: pikepdf.Pdf, face: Face, name: pikepdf.Name, program: bytes) -> pikepdf.Dictionary:
    extents = _font(face).get_font_extents("ltr")
    stream = pdf.make_stream(zlib.compress(program, 6), Filter=pikepdf.Name.FlateDecode, Length1=len(program))
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
