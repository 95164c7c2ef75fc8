"""Pictures decoded to their end, one at a time and in strips: no more is held than one at full size and a small one."""

import warnings
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from enum import StrEnum
from io import BytesIO
from typing import Final

from PIL import Image, ImageFile

from tracksworn.inspection.colours import Colours, colours_of_file, colours_of_heic
from tracksworn.inspection.dossier import PictureRefused

LONG_EDGE: Final = 1600
"""Pixels on the longer edge of a picture as kept: plenty for half a page in print."""
MOST_PIXELS: Final = 100_000_000
"""Larger pictures are refused before a pixel is decoded."""
MOST_SCANS: Final = 200
"""A progressive JPEG has about ten, and its previews as many again; thousands take minutes to decode."""

_FINER: Final = 1.5  # how much finer than kept a picture is before it is filtered
_STRIP: Final = 2_000_000  # pixels
_ORIENTATION_TAG: Final = 0x0112
_UPRIGHT: Final = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
_HEIF_BRANDS: Final = frozenset({b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1"})

Strips = Callable[[int, int], Image.Image]
"""The rows of a picture from one to before another."""


class Form(StrEnum):
    """The formats that are read."""

    JPEG = "JPEG"
    PNG = "PNG"
    HEIC = "HEIC"


@dataclass(frozen=True, slots=True)
class Decoded:
    """A picture upright and at most `LONG_EDGE` long, in the colours of its file; mode L, RGB, RGBA or CMYK."""

    image: Image.Image
    colours: Colours


def form_of(content: bytes) -> Form | None:
    """What a file is by its first bytes, whatever its name says; None for anything else."""
    if content.startswith(b"\xff\xd8\xff"):
        return Form.JPEG
    if content.startswith(b"\x89PNG\r\n\x1a\n"):
        return Form.PNG
    if content[4:8] == b"ftyp" and content[8:12] in _HEIF_BRANDS:
        return Form.HEIC
    return None


def decode(content: bytes, form: Form) -> Decoded:
    """All of a picture, brought down to what is kept. Raises PictureRefused.

    Errors of the decoders differ by format and version.
    """
    try:
        return _decode_heic(content) if form is Form.HEIC else _decode_raster(content, form)
    except PictureRefused:
        raise
    except Exception as error:
        msg = f"it is a {form} picture that cannot be read to its end; copy it again from where it was taken"
        raise PictureRefused(msg) from error


def _decode_raster(content: bytes, form: Form) -> Decoded:
    if form is Form.JPEG and content.count(b"\xff\xda") > MOST_SCANS:
        raise PictureRefused(f"it has more than {MOST_SCANS} scans; save it anew as a plain JPEG")
    with warnings.catch_warnings(), _to_the_end():
        warnings.simplefilter("ignore")  # of Pillow's own, lower, caps and of odd metadata, which is not kept
        try:
            image = Image.open(BytesIO(content), formats=(form,))
        except Image.DecompressionBombError as error:
            raise _too_large() from error
        _refuse_too_large(image.size)
        image.draft(None, _kept(image.size))  # a JPEG is scaled while it is decoded, which bounds the memory
        image.load()
        orientation, colours = _orientation(image), colours_of_file(image)
        small = _brought_down(image.size, lambda top, end: image.crop((0, top, image.width, end)))
    return Decoded(_turned(small, orientation), colours)


@contextmanager
def _to_the_end() -> Iterator[None]:
    """Half a picture is an error, though the page engine has Pillow take halves once it has been imported."""
    before = ImageFile.LOAD_TRUNCATED_IMAGES
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = before


def _decode_heic(content: bytes) -> Decoded:
    """The main picture of the file, which its decoder turns; where tiles are missing it leaves them grey."""
    if not _all_there(content):
        raise EOFError
    import pillow_heif  # noqa: PLC0415 - few photos are such

    file = pillow_heif.open_heif(BytesIO(content), convert_hdr_to_8bit=True)
    _refuse_too_large(file.size)
    data, stride = memoryview(file.data), file.stride
    width, height = file.size

    def strip(top: int, end: int) -> Image.Image:
        rows = data[top * stride : end * stride]
        return Image.frombytes(file.mode, (width, end - top), rows, "raw", file.mode, stride)

    return Decoded(_brought_down((width, height), strip), colours_of_heic(file.info))


def _all_there(content: bytes) -> bool:
    """Whether the boxes that pictures lie in (ISO/IEC 14496-12, 4.2) end before the file does."""
    at = 0
    while at + 8 <= len(content):
        size, kind = int.from_bytes(content[at : at + 4]), content[at + 4 : at + 8]
        if size == 1:
            size = int.from_bytes(content[at + 8 : at + 16])
        if size < 8:  # 0 is the last box, which goes to the end of the file
            return True
        if kind in (b"meta", b"mdat") and at + size > len(content):
            return False
        at += size
    return True


def _refuse_too_large(size: tuple[int, int]) -> None:
    if size[0] * size[1] > MOST_PIXELS:
        raise _too_large()


def _too_large() -> PictureRefused:
    return PictureRefused(f"it has more than {MOST_PIXELS // 1_000_000} megapixels; save it smaller")


def _kept(size: tuple[int, int]) -> tuple[int, int]:
    """The size at which a picture of that size is kept."""
    longest = max(LONG_EDGE, *size)
    width, height = (max(1, round(edge * LONG_EDGE / longest)) for edge in size)
    return width, height


def _brought_down(size: tuple[int, int], strips: Strips) -> Image.Image:
    """The picture at the size kept: first strip by strip by a whole number, which leaves it finer, then filtered."""
    factor = int(max(size) / (_FINER * LONG_EDGE))
    reduced = _plain(strips(0, size[1])) if factor < 2 else _reduced(size, strips, factor)
    kept = _kept(size)
    return reduced if reduced.size == kept else reduced.resize(kept, Image.Resampling.LANCZOS)


def _reduced(size: tuple[int, int], strips: Strips, factor: int) -> Image.Image:
    width, height = size
    rows = factor * max(1, _STRIP // (width * factor))
    reduced = Image.new(_plain(strips(0, 1)).mode, (-(-width // factor), -(-height // factor)))
    for top in range(0, height, rows):
        part = _plain(strips(top, min(top + rows, height)))
        reduced.paste(part.reduce(factor), (0, top // factor))
    return reduced


def _plain(image: Image.Image) -> Image.Image:
    """In a mode that can be filtered: L, RGB, RGBA or CMYK."""
    if image.mode.startswith("I"):  # 16 bits of grey, which a plain conversion would clip
        return image.convert("I").point(lambda value: value / 257).convert("L")
    if image.has_transparency_data or image.mode == "RGBa":
        return image.convert("RGBA")
    if image.mode == "1":
        return image.convert("L")
    return image if image.mode in ("L", "RGB", "CMYK") else image.convert("RGB")


def _orientation(image: Image.Image) -> int:
    """That of EXIF; 1 is upright."""
    try:
        orientation = image.getexif().get(_ORIENTATION_TAG, 1)
    except Exception:  # noqa: BLE001 - broken metadata says nothing against the picture
        return 1
    return orientation if isinstance(orientation, int) else 1


def _turned(image: Image.Image, orientation: int) -> Image.Image:
    turn = _UPRIGHT.get(orientation)
    return image if turn is None else image.transpose(turn)
