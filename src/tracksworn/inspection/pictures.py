"""Photos and marks, taken by their content, decoded to the end and written anew without anything but the picture."""

from io import BytesIO

from PIL import Image

from tracksworn.inspection.colours import in_srgb
from tracksworn.inspection.decoding import Form, decode, form_of
from tracksworn.inspection.dossier import Picture, PictureRefused
from tracksworn.inspection.vector_marks import looks_like_svg, read_svg

_QUALITY = 82
_WHITE = (255, 255, 255)


def read_photo(content: bytes) -> Picture:
    """A photo as JPEG in sRGB, upright, at most 1600 pixels on the long edge, without metadata.

    The same bytes always give the same bytes. Raises PictureRefused for anything but a whole JPEG, PNG or HEIC
    picture of at most 100 megapixels.
    """
    form = form_of(content)
    if form is None:
        msg = "it is no JPEG, PNG or HEIC picture, whatever its name says; save it as one of these"
        raise PictureRefused(msg)
    return _as_jpeg(_decoded(content, form))


def read_mark(name: str, content: bytes) -> Picture:
    """A firm's mark: PNG and JPEG written anew without metadata, SVG canonically and only if it cannot run or fetch.

    `name` is used in messages alone; what counts is the content. Raises PictureRefused.
    """
    if looks_like_svg(content):
        return read_svg(content)
    form = form_of(content)
    if form not in (Form.JPEG, Form.PNG):
        msg = f"the mark {name} is no PNG, JPEG or SVG, whatever its name says; save it as one of these"
        raise PictureRefused(msg)
    image = _decoded(content, form)
    return _as_jpeg(image) if form is Form.JPEG else _as_png(image)


def _decoded(content: bytes, form: Form) -> Image.Image:
    picture = decode(content, form)
    return in_srgb(picture.image, picture.colours)


def _on_white(image: Image.Image) -> Image.Image:
    if image.mode == "RGB":
        return image
    ground = Image.new("RGB", image.size, _WHITE)
    ground.paste(image, mask=image.getchannel("A"))
    return ground


def _as_jpeg(image: Image.Image) -> Picture:
    return _written(_on_white(image), "JPEG", "image/jpeg", quality=_QUALITY, optimize=True, subsampling="4:2:0")


def _as_png(image: Image.Image) -> Picture:
    return _written(image, "PNG", "image/png", optimize=True)


def _written(image: Image.Image, form: str, media_type: str, **options: object) -> Picture:
    bare = image.copy()
    bare.info = {}  # a comment or profile there would be written along
    sheet = BytesIO()
    bare.save(sheet, form, **options)
    return Picture(sheet.getvalue(), media_type, *bare.size)
