"""Drawings in a PDF: the page engine sees a tiny picture of the right size, which is then swapped for operators.

Laying out and writing two thousand shapes takes the engine half a second; swapped in they take eight milliseconds.
"""

import struct
import zlib
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

import pikepdf

from tracksworn.documents.drawing.pdf import UNITS, operators
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.svg import number
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.typesetting import Typesetter
from tracksworn.documents.typefaces import Face

_MARK: Final = b"TRK"  # the first pixel of a stand-in; the second is its drawing's number


def stand_in(index: int) -> bytes:
    """A PNG of two pixels that tells which drawing is to stand in its place."""
    header = struct.pack(">IIBBBBB", 2, 1, 8, 2, 0, 0, 0)
    pixels = zlib.compress(b"\0" + _MARK + index.to_bytes(3, "big"))
    return b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", header) + _chunk(b"IDAT", pixels) + _chunk(b"IEND", b"")


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def swap(pdf: pikepdf.Pdf, drawings: Mapping[int, Drawing], more: Sequence[Face] = ()) -> None:
    """Put each drawing in the place of its stand-in, its type in the program's faces and further ones.

    Raises Refused where one of them is not on any page.
    """
    places = dict(_stand_ins(pdf))
    if missing := set(drawings) - set(places):
        raise Refused(f"{len(missing)} of {len(drawings)} drawings are on no page of the PDF")
    typesetter = Typesetter(more)
    contents = {index: operators(drawings[index], typesetter.set_type) for index in sorted(places)}
    fonts = pdf.make_indirect(typesetter.resources(pdf))
    for index, content in contents.items():
        _become_form(places[index], drawings[index], content, fonts)


def _stand_ins(pdf: pikepdf.Pdf) -> Iterator[tuple[int, pikepdf.Stream]]:
    for thing in pdf.objects:
        if isinstance(thing, pikepdf.Stream) and thing.get("/Subtype") == "/Image" and thing.get("/Width") == 2:
            pixels = thing.read_bytes()
            if pixels[:3] == _MARK:
                yield int.from_bytes(pixels[3:6], "big"), thing


def _become_form(place: pikepdf.Stream, drawing: Drawing, content: bytes, fonts: pikepdf.Object) -> None:
    """Matrix and box let the unit square of an image hold the drawing's units, so that strokes scale evenly."""
    for key in set(place.stream_dict.keys()) - {"/Length"}:
        del place[key]
    place.write(content)
    place["/Type"] = pikepdf.Name.XObject
    place["/Subtype"] = pikepdf.Name.Form
    width, height = drawing.width * UNITS, drawing.height * UNITS
    place["/BBox"] = pikepdf.Array([0, 0, _decimal(width), _decimal(height)])
    place["/Matrix"] = pikepdf.Array([_inverse(width), 0, 0, _inverse(height), 0, 0])
    place["/Resources"] = pikepdf.Dictionary(Font=fonts)


def _decimal(value: float) -> pikepdf.Object:
    return pikepdf.Object.parse(number(value).encode())


def _inverse(value: float) -> pikepdf.Object:
    return pikepdf.Object.parse(f"{1 / value:.11f}".encode())
