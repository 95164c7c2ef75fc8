"""Pictures brought down in strips are the pictures that they were, and no more is held than is needed."""

import struct
import zlib
from io import BytesIO
from pathlib import Path

import pillow_heif
import pytest
from drawn_photos import FORMS, FULL, drawn, inspection_with, photo, taken
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageChops, ImageStat

from tracksworn.inspection.decoding import LONG_EDGE, MOST_SCANS, Form, decode
from tracksworn.inspection.dossier import PictureRefused
from tracksworn.inspection.pictures import read_photo

PLAIN_SIZE = (5200, 300)


def as_bytes(picture: Image.Image, form: str, **options: object) -> bytes:
    sheet = BytesIO()
    picture.save(sheet, form, **options)
    return sheet.getvalue()


def mean_difference(one: Image.Image, other: Image.Image) -> float:
    return max(ImageStat.Stat(ImageChops.difference(one, other)).mean)


@pytest.mark.parametrize(
    ("mode", "most"), [("1", 8), ("L", 2), ("P", 2), ("RGB", 2), ("RGBA", 2), ("LA", 2), ("I;16", 2)]
)
def test_strips_give_the_picture_that_one_filter_gives(mode: str, most: int) -> None:
    whole = drawn(PLAIN_SIZE)
    if mode == "I;16":
        held = whole.convert("L").convert("I").point(lambda value: value * 257).convert("I;16")
    else:
        held = whole.convert(mode)
    small = decode(as_bytes(held, "PNG"), Form.PNG).image.convert("RGB")
    expected = (held.convert("RGB") if mode != "I;16" else whole.convert("L").convert("RGB")).resize(
        (1600, 92), Image.Resampling.LANCZOS
    )
    assert small.size == expected.size
    assert mean_difference(small, expected) < most


@settings(max_examples=30, deadline=None)
@given(st.integers(1, 9000), st.integers(1, 40), st.booleans())
def test_any_size_is_brought_down_in_its_own_proportion(long: int, short: int, upright: bool) -> None:
    size = (short, long) if upright else (long, short)
    kept = decode(as_bytes(Image.new("L", size, 90), "PNG"), Form.PNG).image
    scale = min(1.0, LONG_EDGE / max(size))
    assert kept.size == tuple(max(1, round(edge * scale)) for edge in size)
    assert kept.getextrema() == (90, 90)


def test_what_is_hidden_behind_transparency_does_not_bleed_into_the_edge() -> None:
    """Opaque green beside transparent red: filtered apart from its alpha, the edge would turn brown."""
    held = Image.new("RGBA", (5200, 60), (255, 0, 0, 0))
    held.paste((0, 160, 0, 255), (0, 0, 2603, 60))
    red, _, _, _ = decode(as_bytes(held, "PNG"), Form.PNG).image.split()
    alpha = decode(as_bytes(held, "PNG"), Form.PNG).image.getchannel("A")
    seen = Image.composite(red, Image.new("L", red.size), alpha.point(lambda value: 255 * (value > 60)))
    assert seen.getextrema() == (0, 0)


def test_the_main_of_several_pictures_in_a_heic_is_read() -> None:
    file = pillow_heif.from_pillow(Image.new("RGB", (64, 64), "black"))
    file.add_from_pillow(Image.new("RGB", (96, 64), "white"))
    sheet = BytesIO()
    file.save(sheet, quality=90, primary_index=1)
    kept = decode(sheet.getvalue(), Form.HEIC).image
    assert kept.size == (96, 64)
    assert min(ImageStat.Stat(kept).mean) > 250


@pytest.mark.parametrize("mode", ["L", "RGBA"])
def test_heic_in_grey_or_with_alpha_is_read(mode: str) -> None:
    sheet = BytesIO()
    pillow_heif.from_pillow(Image.new("RGBA", (64, 64), (9, 9, 9, 0)).convert(mode)).save(sheet, quality=90)
    mean = ImageStat.Stat(Image.open(BytesIO(read_photo(sheet.getvalue()).content)).convert("L")).mean[0]
    assert mean == pytest.approx(255 if mode == "RGBA" else 9, abs=4)


def test_ten_bits_a_colour_come_down_to_eight() -> None:
    deep = pillow_heif.from_bytes("RGB;16", (64, 64), b"\x00\x80" * (64 * 64 * 3))
    sheet = BytesIO()
    deep.save(sheet, quality=-1)
    assert ImageStat.Stat(decode(sheet.getvalue(), Form.HEIC).image).mean == pytest.approx([128] * 3, abs=2)


@pytest.mark.parametrize(("kind", "sample"), [(0, "8000"), (2, "8000" * 3), (4, "8000ffff"), (6, "8000" * 3 + "ffff")])
def test_sixteen_bits_a_colour_come_down_to_eight(kind: int, sample: str) -> None:
    """PNG of bit depth 16 (ISO/IEC 15948): grey, colours, and each with alpha."""
    rows = b"".join(b"\0" + bytes.fromhex(sample) * 20 for _ in range(10))
    head = struct.pack(">IIBBBBB", 20, 10, 16, kind, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(rows)), (b"IEND", b""))
    content = b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body)) for name, body in chunks
    )
    kept = Image.open(BytesIO(read_photo(content).content))
    assert ImageStat.Stat(kept).mean == pytest.approx([128] * 3, abs=1)


def test_heic_in_tiles_as_phones_write_it_is_read_whole_or_refused() -> None:
    content = photo("HEIC", (640, 520))
    kept = decode(content, Form.HEIC).image
    assert mean_difference(kept, drawn((640, 520))) < 6
    assert mean_difference(decode(content + b"trailer", Form.HEIC).image, kept) == 0
    for share in (30, 70, 90, 99):
        with pytest.raises(PictureRefused, match="cannot be read to its end"):
            decode(content[: len(content) * share // 100], Form.HEIC)


def test_a_jpeg_of_endless_scans_is_refused_before_decoding() -> None:
    """Each scan goes over the whole picture again: a small file can keep a decoder busy for hours."""
    content = as_bytes(drawn((64, 48)), "JPEG", progressive=True)
    scan = content.rindex(b"\xff\xda")
    last = content[scan:-2]
    decode(content, Form.JPEG)
    with pytest.raises(PictureRefused, match="more than 200 scans; save it anew as a plain JPEG"):
        decode(content[:-2] + last * MOST_SCANS + b"\xff\xd9", Form.JPEG)


BEFORE = """
from pathlib import Path
import weasyprint
from tracksworn.documents.report import make_report
from tracksworn.inspection.pictures import read_photo
from tracksworn.inspection.reading import read_inspection
"""
READ = "for name in sys.argv[1:]: read_photo(Path(name).read_bytes())"
REPORT = "make_report(read_inspection(Path(sys.argv[1])), formats=['pdf', 'html'])"


@pytest.mark.slow
@pytest.mark.parametrize(
    "form", [pytest.param(form, marks=pytest.mark.long) if form == "HEIC" else form for form in FORMS]
)
def test_a_photo_of_48_megapixels_takes_little_more_than_itself(form: str, tmp_path: Path) -> None:
    """Decoded it takes four bytes a pixel, 186 MiB; a JPEG is decoded at the size wanted and takes a sixteenth."""
    full = tmp_path / "full"
    full.write_bytes(photo(form))
    decoded = 4 * FULL[0] * FULL[1] / 2**20
    once = taken(BEFORE, READ, full).mib
    assert once < (0.4 if form == "JPEG" else 1.4) * decoded
    assert taken(BEFORE, READ, full, full, full).mib - once < 0.5 * decoded


@pytest.mark.slow
@pytest.mark.long
def test_ten_large_photos_take_hardly_more_memory_than_one(tmp_path: Path) -> None:
    one, ten = (taken(BEFORE, REPORT, inspection_with(tmp_path, photo("JPEG"), count, "JPEG")).mib for count in (1, 10))
    assert ten - one < 60
