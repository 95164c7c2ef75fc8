"""Photos and marks: what is taken, what is refused, and that nothing but the picture stays."""

import struct
import zlib
from collections.abc import Callable
from io import BytesIO

import pillow_heif
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageCms, ImageFile

from tracksworn.inspection.decoding import LONG_EDGE, MOST_PIXELS
from tracksworn.inspection.dossier import PictureRefused
from tracksworn.inspection.pictures import read_mark, read_photo

GPS = 0x8825
ORIENTATION = 0x0112


def corner_marked(size: tuple[int, int] = (60, 40), mode: str = "RGB") -> Image.Image:
    """White with a dark block in its upper left quarter, so that one sees which way it is turned."""
    picture = Image.new("RGB", size, "white")
    picture.paste((20, 40, 120), (0, 0, size[0] // 2, size[1] // 2))
    return picture.convert(mode)


def as_bytes(picture: Image.Image, form: str = "JPEG", **options: object) -> bytes:
    sheet = BytesIO()
    picture.save(sheet, form, **options)
    return sheet.getvalue()


def heic(picture: Image.Image, orientation: int = 1) -> bytes:
    sheet = BytesIO()
    file = pillow_heif.from_pillow(picture)
    file.save(sheet, quality=90, exif=exif_of(orientation, place=True).tobytes())
    return sheet.getvalue()


def opened(content: bytes) -> Image.Image:
    picture = Image.open(BytesIO(content))
    picture.load()
    return picture


def dark_quarter(picture: Image.Image) -> tuple[bool, bool]:
    """Whether the dark block is at the left, and whether at the top."""
    grey = picture.convert("L")
    width, height = grey.size
    for left in (True, False):
        for top in (True, False):
            spot = grey.getpixel((width // 4 if left else width * 3 // 4, height // 4 if top else height * 3 // 4))
            assert isinstance(spot, int | float)
            if spot < 128:
                return left, top
    raise AssertionError("no dark quarter")


def exif_of(orientation: int, *, place: bool = False) -> Image.Exif:
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif[0x010F] = "Invented Camera"
    if place:
        exif[GPS] = {1: "N", 2: (51.0, 28.0, 38.0), 3: "E", 4: (0.0, 0.0, 5.0)}
    return exif


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_photo_is_turned_upright(orientation: int) -> None:
    upright = corner_marked((64, 32))
    undo = {
        1: None,
        2: Image.Transpose.FLIP_LEFT_RIGHT,
        3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90,
        7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }[orientation]
    held = upright if undo is None else upright.transpose(undo)
    photo = read_photo(as_bytes(held, exif=exif_of(orientation)))
    assert (photo.width, photo.height) == (64, 32)
    assert dark_quarter(opened(photo.content)) == (True, True)


def test_an_unknown_orientation_leaves_a_photo_as_it_is() -> None:
    assert dark_quarter(opened(read_photo(as_bytes(corner_marked(), exif=exif_of(9))).content)) == (True, True)


def test_broken_exif_says_nothing_against_the_picture() -> None:
    photo = read_photo(as_bytes(corner_marked(), exif=b"Exif\x00\x00MM\x00*\xff\xff\xff\xff"))
    assert (photo.width, photo.height) == (60, 40)


@pytest.mark.parametrize("form", ["JPEG", "PNG"])
def test_nothing_but_the_picture_stays(form: str) -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    content = as_bytes(
        corner_marked(), form, exif=exif_of(1, place=True), icc_profile=profile, dpi=(300, 300), comment=b"at home"
    )
    assert opened(content).getexif().get_ifd(GPS), "the case itself must have a place"
    for picture in (read_photo(content), read_mark("mark", content)):
        kept = opened(picture.content)
        assert dict(kept.getexif()) == {}
        assert set(kept.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
        for trace in (b"Exif", b"Invented", b"at home", b"ICC_PROFILE", b"iCCP", b"eXIf"):
            assert trace not in picture.content


def test_the_same_bytes_give_the_same_bytes() -> None:
    content = as_bytes(corner_marked((300, 200)))
    assert read_photo(content) == read_photo(content)


@pytest.mark.parametrize(
    ("size", "kept"),
    [
        ((1600, 900), (1600, 900)),
        ((1601, 900), (1600, 899)),
        ((3200, 1000), (1600, 500)),
        ((900, 2400), (600, 1600)),
        ((5000, 2), (1600, 1)),
        ((1, 1), (1, 1)),
    ],
)
@pytest.mark.parametrize("form", ["JPEG", "PNG"])
def test_the_long_edge_is_at_most_1600_pixels(form: str, size: tuple[int, int], kept: tuple[int, int]) -> None:
    photo = read_photo(as_bytes(Image.new("RGB", size, "grey"), form))
    assert (photo.width, photo.height) == kept == opened(photo.content).size
    assert max(kept) <= LONG_EDGE


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA", "I;16"])
def test_png_of_any_mode_becomes_a_plain_picture(mode: str) -> None:
    if mode == "I;16":
        grey = corner_marked(mode="L").convert("I")
        held = grey.point(lambda value: value * 257).convert("I;16")
    else:
        held = corner_marked(mode="L").point(lambda value: 255 * (value > 128)).convert(mode)
    photo = read_photo(as_bytes(held, "PNG"))
    kept = opened(photo.content)
    assert (kept.format, kept.mode, photo.media_type) == ("JPEG", "RGB", "image/jpeg")
    assert dark_quarter(kept) == (True, True)
    assert kept.convert("L").getpixel((55, 35)) == pytest.approx(255, abs=4)


def test_cmyk_progressive_and_several_pictured_jpeg_are_read() -> None:
    several = as_bytes(corner_marked(), "MPO", save_all=True, append_images=[Image.new("RGB", (60, 40))])
    for content in (as_bytes(corner_marked(mode="CMYK")), as_bytes(corner_marked(), progressive=True), several):
        assert dark_quarter(opened(read_photo(content).content)) == (True, True)


def test_what_is_transparent_becomes_white_in_a_photo_and_stays_in_a_mark() -> None:
    clear = Image.new("RGBA", (8, 8), (200, 0, 0, 0))
    content = as_bytes(clear, "PNG")
    assert opened(read_photo(content).content).getpixel((4, 4)) == (255, 255, 255)
    mark = read_mark("mark.png", content)
    kept = opened(mark.content)
    assert (mark.media_type, kept.mode) == ("image/png", "RGBA")
    pixel = kept.getpixel((4, 4))
    assert isinstance(pixel, tuple)
    assert pixel[3] == 0


def test_colours_come_out_in_srgb() -> None:
    """A profile with the plain Lab white and grey axis: its numbers differ from those of sRGB for the same colour."""
    lab = ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB"))
    srgb = ImageCms.createProfile("sRGB")
    colour = Image.new("RGB", (4, 4), (200, 30, 60))
    as_lab = ImageCms.profileToProfile(colour, srgb, lab, outputMode="LAB")
    assert as_lab is not None
    raw = Image.frombytes("RGB", as_lab.size, as_lab.tobytes())
    plain = opened(read_photo(as_bytes(raw, "PNG")).content).getpixel((1, 1))
    assert plain != (200, 30, 60), "without its profile it is another colour"
    broken = opened(read_photo(as_bytes(raw, "PNG", icc_profile=b"no profile")).content).getpixel((1, 1))
    assert broken == plain, "a profile that cannot be read is as none"


@pytest.mark.parametrize("orientation", [1, 6])
def test_heic_is_read_upright_and_its_place_goes(orientation: int) -> None:
    upright = corner_marked((64, 48))
    content = heic(upright.transpose(Image.Transpose.ROTATE_90) if orientation == 6 else upright, orientation)
    assert b"Invented Camera" in content, "the case itself must have metadata"
    photo = read_photo(content)
    assert (photo.width, photo.height, photo.media_type) == (64, 48, "image/jpeg")
    kept = opened(photo.content)
    assert dict(kept.getexif()) == {}
    assert dark_quarter(kept) == (True, True)


def png_chunk(name: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def png_claiming(width: int, height: int) -> bytes:
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = png_chunk(b"IDAT", zlib.compress(b"\x00" * 1000)) + png_chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + png_chunk(b"IHDR", head) + body


def jpeg_claiming(width: int, height: int) -> bytes:
    content = bytearray(as_bytes(corner_marked()))
    frame = content.index(b"\xff\xc0")
    content[frame + 5 : frame + 9] = struct.pack(">HH", height, width)
    return bytes(content)


@pytest.mark.parametrize(
    "content",
    [
        png_claiming(10_001, 10_000),
        jpeg_claiming(10_001, 10_000),
        png_claiming(60_000, 60_000),
        jpeg_claiming(65_500, 65_500),
    ],
    ids=["png", "jpeg", "png bomb", "jpeg bomb"],
)
def test_more_than_100_megapixels_are_refused_before_decoding(content: bytes) -> None:
    with pytest.raises(PictureRefused, match="more than 100 megapixels; save it smaller"):
        read_photo(content)


def test_100_megapixels_are_the_most() -> None:
    assert MOST_PIXELS == 100_000_000
    with pytest.raises(PictureRefused, match="cannot be read to its end"):
        read_photo(png_claiming(10_000, 10_000))  # not too large, but not all there


@pytest.mark.parametrize("make", [as_bytes, lambda held: as_bytes(held, "PNG"), heic], ids=["jpeg", "png", "heic"])
@pytest.mark.parametrize("share", [0.3, 0.6, 0.9])
def test_a_picture_that_ends_early_is_refused(make: Callable[[Image.Image], bytes], share: float) -> None:
    whole = make(Image.effect_noise((90, 70), 60).convert("RGB"))
    read_photo(whole)
    with pytest.raises(PictureRefused, match="cannot be read to its end; copy it again"):
        read_photo(whole[: int(len(whole) * share)])


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\xff\xd8",
        b"GIF89a" + bytes(40),
        b"BM" + bytes(60),
        b"RIFF\x00\x00\x00\x00WEBPVP8 " + bytes(40),
        b"II*\x00" + bytes(40),
        b"\x00\x00\x00\x1cftypavif" + bytes(40),
        b"%PDF-1.7",
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"%!PS-Adobe-3.0 EPSF-3.0",
    ],
    ids=["nothing", "stub", "gif", "bmp", "webp", "tiff", "avif", "pdf", "svg", "eps"],
)
def test_other_kinds_of_file_are_no_photo(content: bytes) -> None:
    with pytest.raises(PictureRefused, match="no JPEG, PNG or HEIC picture, whatever its name says"):
        read_photo(content)


@given(
    st.binary(max_size=200), st.sampled_from([b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"\x00\x00\x00\x18ftypheic", b""])
)
def test_any_bytes_are_taken_or_refused(tail: bytes, head: bytes) -> None:
    for read in (read_photo, lambda content: read_mark("mark", content)):
        try:
            picture = read(head + tail)
        except PictureRefused:
            continue
        assert picture.width > 0


def test_a_mark_is_taken_by_content_whatever_its_name() -> None:
    assert read_mark("mark.svg", as_bytes(corner_marked())).media_type == "image/jpeg"
    assert (
        read_mark("mark.png", b"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 3 4'/>").media_type
        == "image/svg+xml"
    )
    with pytest.raises(PictureRefused, match=r"the mark mark\.gif is no PNG, JPEG or SVG"):
        read_mark("mark.gif", b"GIF89a" + bytes(40))
    with pytest.raises(PictureRefused, match="no PNG, JPEG or SVG"):
        read_mark("mark.heic", heic(corner_marked()))


def test_half_a_picture_is_refused_after_the_page_engine_came_in(monkeypatch: pytest.MonkeyPatch) -> None:
    """WeasyPrint sets Pillow to take halves, for the whole process."""
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    whole = as_bytes(Image.effect_noise((90, 70), 60).convert("RGB"))
    with pytest.raises(PictureRefused, match="cannot be read to its end"):
        read_photo(whole[: len(whole) // 2])
    assert ImageFile.LOAD_TRUNCATED_IMAGES is True
