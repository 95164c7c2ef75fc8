"""Photos within finished documents: small, in colours of sRGB, and without where or with what they were taken."""

import re
from base64 import b64decode
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path, PurePosixPath

import pikepdf
import pillow_heif
import pytest
from builders import by_eye, inspection, reading
from drawn_photos import drawn

from tracksworn.documents.full.build import full_report
from tracksworn.documents.render.render import render
from tracksworn.documents.report import assess_dossier
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.model import Photo
from tracksworn.inspection.pictures import read_photo
from tracksworn.inspection.vocabulary import Component

TOLD = (b"Exif", b"Invented Camera", b"at home")
TRACES = (*TOLD, b"http://ns.adobe.com/xap", b"ICC_PROFILE")  # XMP and colours a PDF has of its own too
NAME = PurePosixPath("photos/left.jpg")


def told_all(form: str) -> bytes:
    """A photo that says where, when and with what it was taken, in every way that its form has."""
    picture, sheet = drawn((400, 300)), BytesIO()
    exif = picture.getexif()
    exif[0x010F] = "Invented Camera"
    exif.get_ifd(0x8825).update({1: "N", 2: (51.0, 28.0, 38.0), 3: "E", 4: (0.0, 0.0, 5.0)})
    xmp = b'<x:xmpmeta xmlns:x="adobe:ns:meta/" about="at home"/>'
    if form == "HEIC":
        pillow_heif.from_pillow(picture).save(sheet, quality=50, exif=exif.tobytes(), xmp=xmp)
    else:
        picture.save(sheet, form, exif=exif, xmp=xmp, comment=b"at home", dpi=(300, 300))
    return sheet.getvalue()


def pictures_in(pdf: bytes) -> Iterator[pikepdf.Stream]:
    with pikepdf.open(BytesIO(pdf)) as opened:
        for thing in opened.objects:
            if isinstance(thing, pikepdf.Stream) and thing.get("/Subtype") == "/Image" and thing["/Width"] > 2:
                yield thing


def everything_in(pdf: bytes) -> bytes:
    """The whole file, its streams those but pictures also as they are without compression."""
    with pikepdf.open(BytesIO(pdf)) as opened:
        streams = [thing for thing in opened.objects if isinstance(thing, pikepdf.Stream)]
        return pdf + b"\n".join(one.read_bytes() for one in streams if one.get("/Subtype") != "/Image")


@pytest.mark.parametrize("form", ["JPEG", "PNG", "HEIC"])
def test_no_document_tells_where_a_photo_was_taken(form: str) -> None:
    content = told_all(form)
    assert b"Invented Camera" in content, "the case itself must tell it"
    seen = inspection(reading(Component.LINK, by_eye(30, 50)), photos=[Photo(NAME)])
    dossier = Dossier(seen, Path("TEST-1"), photos={NAME: read_photo(content)}, digests={})
    files = {
        one.name: one.content for one in render(full_report(dossier, assess_dossier(dossier)), ["pdf", "html", "md"])
    }
    (pdf,) = (one for name, one in files.items() if name.endswith(".pdf"))
    held = [stream.read_raw_bytes() for stream in pictures_in(pdf)]
    assert len(held) == 1
    jpegs = [one for name, one in files.items() if name.endswith(".jpg")]
    assert len(jpegs) == 1
    (page,) = (one for name, one in files.items() if name.endswith(".html"))
    shown = [b64decode(data) for data in re.findall(rb"data:image/jpeg;base64,([A-Za-z0-9+/=]+)", page)]
    assert len(shown) == 1
    assert not [trace for trace in TOLD if trace in everything_in(pdf)]
    for one in (*held, *jpegs, *shown):
        assert one.startswith(b"\xff\xd8")
        assert len(one) < 100_000
        assert not [trace for trace in TRACES if trace in one]
