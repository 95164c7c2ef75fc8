"""The colours of cameras and phones come out as those of sRGB; primaries by ITU-T H.273 and DCF 2.0."""

import struct
from io import BytesIO

import pillow_heif
import pytest
from PIL import Image, ImageCms

from tracksworn.inspection.colours import Colours, Space, in_srgb
from tracksworn.inspection.pictures import read_photo

# The same colour in Display P3 and in sRGB, worked out from the primaries of ITU-T H.273 (12 and 1), both with the
# transfer of IEC 61966-2-1.
P3_AND_SRGB = [
    ((234, 51, 35), (255, 0, 0)),
    ((117, 251, 76), (0, 255, 0)),
    ((0, 0, 245), (0, 0, 255)),
    ((128, 128, 128), (128, 128, 128)),
    ((255, 255, 255), (255, 255, 255)),
    ((255, 0, 0), (255, 0, 0)),  # outside sRGB, so at its edge
]


def fixed(value: float) -> bytes:
    return struct.pack(">i", round(value * 65536))


def display_p3() -> bytes:
    """An ICC profile of Display P3, version 4; colorants adapted to D50 as the profiles of phones have them."""
    colorants = {
        b"rXYZ": (0.51512, 0.24120, -0.00105),
        b"gXYZ": (0.29198, 0.69225, 0.04189),
        b"bXYZ": (0.15710, 0.06657, 0.78407),
        b"wtpt": (0.96420, 1.0, 0.82491),
    }
    tags = {name: b"XYZ " + bytes(4) + b"".join(map(fixed, value)) for name, value in colorants.items()}
    parts = (2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045)
    curve = b"para" + bytes(4) + struct.pack(">HH", 3, 0) + b"".join(map(fixed, parts))
    tags |= dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), curve)
    said = "P3".encode("utf-16-be")
    tags[b"desc"] = b"mluc" + bytes(4) + struct.pack(">II2s2sII", 1, 12, b"en", b"US", len(said), 28) + said
    table, body, start = b"", b"", 128 + 4 + 12 * len(tags)
    for name, content in tags.items():
        table += name + struct.pack(">II", start + len(body), len(content))
        body += content + bytes(-len(content) % 4)
    header = bytearray(128)
    header[0:4] = struct.pack(">I", start + len(body))
    header[8:12], header[12:24], header[36:40] = b"\x04\x00\x00\x00", b"mntrRGB XYZ ", b"acsp"
    header[68:80] = b"".join(map(fixed, (0.9642, 1.0, 0.8249)))
    return bytes(header) + struct.pack(">I", len(tags)) + table + body


def raster(colour: tuple[int, int, int], form: str, **options: object) -> bytes:
    sheet = BytesIO()
    Image.new("RGB", (64, 64), colour).save(sheet, form, **options)
    return sheet.getvalue()


def heic(colour: tuple[int, int, int], **options: object) -> bytes:
    sheet = BytesIO()
    whole = {"quality": -1, "chroma": 444, "matrix_coefficients": 0, "full_range_flag": 1}
    pillow_heif.from_pillow(Image.new("RGB", (64, 64), colour)).save(sheet, **whole, **options)
    return sheet.getvalue()


def colour_of(content: bytes) -> tuple[int, ...]:
    pixel = Image.open(BytesIO(read_photo(content).content)).getpixel((30, 30))
    assert isinstance(pixel, tuple)
    return pixel


@pytest.mark.parametrize(("held", "expected"), P3_AND_SRGB)
def test_display_p3_by_profile_or_by_name_is_turned_into_srgb(
    held: tuple[int, int, int], expected: tuple[int, int, int]
) -> None:
    profile = display_p3()
    for content in (
        raster(held, "JPEG", quality=100, subsampling=0, icc_profile=profile),
        raster(held, "PNG", icc_profile=profile),
        heic(held, icc_profile=profile),
        heic(held, color_primaries=12, transfer_characteristics=13),
    ):
        assert colour_of(content) == pytest.approx(expected, abs=4)


def test_without_a_name_or_a_profile_colours_stay() -> None:
    for content in (raster((234, 51, 35), "PNG"), heic((234, 51, 35), color_primaries=1)):
        assert colour_of(content) == pytest.approx((234, 51, 35), abs=3)


def test_the_optional_colours_of_cameras_are_known_by_their_index() -> None:
    """Worked out by hand: 219 has the light 0.716 there, of which the wider red makes 1.40 times as much in sRGB."""
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0xA005] = {1: "R03"}
    red = raster((219, 0, 0), "JPEG", quality=100, subsampling=0, exif=exif)
    assert b"R03" in red, "the case itself must have the index"
    assert colour_of(red) == pytest.approx((255, 0, 0), abs=3)
    assert colour_of(raster((219, 0, 0), "JPEG", quality=100, subsampling=0)) == pytest.approx((219, 0, 0), abs=3)


def test_a_name_gives_what_a_colour_engine_gives_for_the_profile() -> None:
    """Little CMS, by a profile, against our own arithmetic, over a raster of colours."""
    held = Image.new("RGB", (216, 1))
    steps = (10, 60, 110, 160, 200, 245)
    held.putdata([(red, green, blue) for red in steps for green in steps for blue in steps])
    named = in_srgb(held, Colours(space=Space.DISPLAY_P3))
    profiled = in_srgb(held, Colours(profile=display_p3()))
    pairs = zip(named.tobytes(), profiled.tobytes(), strict=True)
    assert max(abs(one - other) for one, other in pairs) <= 2


@pytest.mark.parametrize("mode", ["L", "CMYK", "RGB"])
def test_a_profile_of_other_channels_is_as_none(mode: str) -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes() if mode != "RGB" else b"no profile"
    sheet = BytesIO()
    Image.new("RGB", (64, 64), (90, 90, 90)).convert(mode).save(sheet, "JPEG", icc_profile=profile)
    assert colour_of(sheet.getvalue()) == pytest.approx((90, 90, 90), abs=2)


def test_ink_as_cameras_and_scanners_turn_it_round_is_read() -> None:
    """CMYK in JPEG is written inverted: white paper is 255 four times; common practice, no source."""
    sheet = BytesIO()
    Image.new("CMYK", (64, 64), (0, 0, 0, 0)).save(sheet, "JPEG")
    assert colour_of(sheet.getvalue()) == pytest.approx((255, 255, 255), abs=2)
