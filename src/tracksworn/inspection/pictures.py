"""Photos and marks, taken by their content, decoded to the end and written anew without anything but the picture."""

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO

import pillow_heif
from PIL import Image, ImageCms, ImageFile

from tracksworn.inspection.dossier import Picture, PictureRefused
from tracksworn.inspection.vector_marks import looks_like_svg, read_svg

LONG_EDGE = 1600
"""Pixels on the longer edge of a picture as kept: plenty for half a page in print."""
MOST_PIXELS = 100_000_000
"""Larger pictures are refused before a pixel is decoded."""

_QUALITY = 82
_ORIENTATION_TAG = 0x0112
_WHITE = (255, 255, 255)
_HEIF_BRANDS = frozenset({b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1"})
_UPRIGHT = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}


def read_photo(content: bytes) -> Picture:
    """A photo as JPEG in sRGB, upright, at most 1600 pixels on the long edge, without metadata.

    The same bytes always give the same bytes. Raises PictureRefused for anything but a whole JPEG, PNG or HEIC
    picture of at most 100 megapixels.
    """
    kind = _kind_of(content)
    if kind is None:
        msg = "it is no JPEG, PNG or HEIC picture, whatever its name says; save it as one of these"
        raise PictureRefused(msg)
    image, orientation = _decode(content, kind)
    return _as_jpeg(_turned(_scaled(_on_white(_in_srgb(image))), orientation))


def read_mark(name: str, content: bytes) -> Picture:
    """A firm's mark: PNG and JPEG written anew without metadata, SVG canonically and only if it cannot run or fetch.

    `name` is used in messages alone; what counts is the content. Raises PictureRefused.
    """
    if looks_like_svg(content):
        return read_svg(content)
    kind = _kind_of(content)
    if kind not in ("JPEG", "PNG"):
        msg = f"the mark {name} is no PNG, JPEG or SVG, whatever its name says; save it as one of these"
        raise PictureRefused(msg)
    image, orientation = _decode(content, kind)
    if kind == "JPEG":
        return _as_jpeg(_turned(_scaled(_on_white(_in_srgb(image))), orientation))
    return _as_png(_turned(_scaled(_in_srgb(image)), orientation))


def _kind_of(content: bytes) -> str | None:
    if content.startswith(b"\xff\xd8\xff"):
        return "JPEG"
    if content.startswith(b"\x89PNG\r\n\x1a\n"):
        return "PNG"
    if content[4:8] == b"ftyp" and content[8:12] in _HEIF_BRANDS:
        return "HEIC"
    return None


def _decode(content: bytes, kind: str) -> tuple[Image.Image, int]:
    """All pixels, and the orientation of EXIF (1 is upright). Errors of the decoders differ by format and version."""
    try:
        return _decode_heic(content) if kind == "HEIC" else _decode_raster(content, kind)
    except PictureRefused:
        raise
    except Exception as error:
        msg = f"it is a {kind} picture that cannot be read to its end; copy it again from where it was taken"
        raise PictureRefused(msg) from error


def _decode_raster(content: bytes, kind: str) -> tuple[Image.Image, int]:
    with warnings.catch_warnings(), _to_the_end():
        warnings.simplefilter("ignore")  # of Pillow's own, lower, caps and of odd metadata, which is not kept
        try:
            image = Image.open(BytesIO(content), formats=(kind,))
        except Image.DecompressionBombError as error:
            raise _too_large() from error
        _refuse_too_large(image.size)
        image.draft(None, (LONG_EDGE, LONG_EDGE))  # a JPEG is scaled while it is decoded, which bounds the memory
        image.load()
        return image, _orientation(image)


@contextmanager
def _to_the_end() -> Iterator[None]:
    """Half a picture is an error, though the page engine has Pillow take halves once it has been imported."""
    before = ImageFile.LOAD_TRUNCATED_IMAGES
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = before


def _decode_heic(content: bytes) -> tuple[Image.Image, int]:
    file = pillow_heif.open_heif(BytesIO(content), convert_hdr_to_8bit=True)
    _refuse_too_large(file.size)
    image: Image.Image = file.to_pillow()
    return image, 1  # its decoder has turned it already


def _refuse_too_large(size: tuple[int, int]) -> None:
    if size[0] * size[1] > MOST_PIXELS:
        raise _too_large()


def _too_large() -> PictureRefused:
    return PictureRefused(f"it has more than {MOST_PIXELS // 1_000_000} megapixels; save it smaller")


def _orientation(image: Image.Image) -> int:
    try:
        orientation = image.getexif().get(_ORIENTATION_TAG, 1)
    except Exception:  # noqa: BLE001 - broken metadata says nothing against the picture
        return 1
    return orientation if isinstance(orientation, int) else 1


def _in_srgb(image: Image.Image) -> Image.Image:
    """The same picture in mode RGB or RGBA with the colours of sRGB."""
    if image.mode.startswith("I"):  # 16 bits of grey, which a plain conversion would clip
        image = image.convert("I").point(lambda value: value / 257).convert("L")
    profile = image.info.get("icc_profile")
    has_alpha = image.has_transparency_data
    alpha = image.convert("RGBA").getchannel("A") if has_alpha else None
    colours = _by_profile(image, profile) if profile else image.convert("RGB")
    if alpha is not None:
        colours.putalpha(alpha)
    return colours


def _by_profile(image: Image.Image, profile: bytes) -> Image.Image:
    plain = image if image.mode in ("RGB", "L", "CMYK") else image.convert("RGB")
    try:
        source = ImageCms.ImageCmsProfile(BytesIO(profile))
        turned = ImageCms.profileToProfile(plain, source, ImageCms.createProfile("sRGB"), outputMode="RGB")
    except (OSError, ValueError, ImageCms.PyCMSError):
        return plain.convert("RGB")
    return plain.convert("RGB") if turned is None else turned


def _on_white(image: Image.Image) -> Image.Image:
    if image.mode == "RGB":
        return image
    ground = Image.new("RGB", image.size, _WHITE)
    ground.paste(image, mask=image.getchannel("A"))
    return ground


def _scaled(image: Image.Image) -> Image.Image:
    longest = max(image.size)
    if longest <= LONG_EDGE:
        return image
    width, height = (max(1, round(edge * LONG_EDGE / longest)) for edge in image.size)
    return image.resize((width, height), Image.Resampling.LANCZOS, reducing_gap=3.0)


def _turned(image: Image.Image, orientation: int) -> Image.Image:
    turn = _UPRIGHT.get(orientation)
    return image if turn is None else image.transpose(turn)


def _as_jpeg(image: Image.Image) -> Picture:
    return _written(image, "JPEG", "image/jpeg", quality=_QUALITY, optimize=True, subsampling="4:2:0")


def _as_png(image: Image.Image) -> Picture:
    return _written(image, "PNG", "image/png", optimize=True)


def _written(image: Image.Image, form: str, media_type: str, **options: object) -> Picture:
    bare = image.copy()
    bare.info = {}  # a comment or profile there would be written along
    sheet = BytesIO()
    bare.save(sheet, form, **options)
    return Picture(sheet.getvalue(), media_type, *bare.size)
