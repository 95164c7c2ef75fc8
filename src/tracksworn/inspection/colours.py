"""The colours of a picture's file, and the same picture in those of sRGB (IEC 61966-2-1)."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from io import BytesIO
from typing import TYPE_CHECKING, Any, Final

from PIL import Image, ImageCms

from tracksworn.inspection.contrast import light

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_INTEROPERABILITY_IFD: Final = 0xA005
_INTEROPERABILITY_INDEX: Final = 1


class Space(Enum):
    """Colours that a file names without a profile: their primaries and white as CIE xy, red, green, blue, white."""

    SRGB = ((0.64, 0.33), (0.30, 0.60), (0.15, 0.06), (0.3127, 0.3290))
    """ITU-T H.273, colour primaries 1; also what a file has that names nothing."""
    DISPLAY_P3 = ((0.680, 0.320), (0.265, 0.690), (0.150, 0.060), (0.3127, 0.3290))
    """ITU-T H.273, colour primaries 12 (SMPTE EG 432-1), on screens with the transfer of sRGB."""
    DCF_OPTIONAL = ((0.64, 0.33), (0.21, 0.71), (0.15, 0.06), (0.3127, 0.3290))
    """The optional colour space of cameras' files (DCF 2.0), which Exif tells by the index R03; gamma 2.2."""

    def light(self, signal: float) -> float:
        """How much light a signal stands for, both from 0 to 1."""
        if self is Space.DCF_OPTIONAL:
            return float(signal ** (563 / 256))
        return light(signal)


@dataclass(frozen=True, slots=True)
class Colours:
    """What a file says of its colours; a profile goes before a name."""

    profile: bytes | None = None  # ICC
    space: Space = Space.SRGB


def colours_of_file(image: Image.Image) -> Colours:
    """Those that a JPEG or PNG says that it has."""
    profile = image.info.get("icc_profile") or None
    return Colours(profile, Space.DCF_OPTIONAL if _index(image) == "R03" else Space.SRGB)


def _index(image: Image.Image) -> str:
    try:
        index = image.getexif().get_ifd(_INTEROPERABILITY_IFD).get(_INTEROPERABILITY_INDEX, "")
    except Exception:  # noqa: BLE001 - broken metadata says nothing against the picture
        return ""
    return index if isinstance(index, str) else ""


def colours_of_heic(info: Mapping[str, Any]) -> Colours:
    """Those that a HEIC file says that it has, by a profile or by the code points of ITU-T H.273."""
    primaries = (info.get("nclx_profile") or {}).get("color_primaries")
    return Colours(info.get("icc_profile") or None, Space.DISPLAY_P3 if primaries == 12 else Space.SRGB)


def in_srgb(image: Image.Image, colours: Colours) -> Image.Image:
    """The same picture in mode RGB or RGBA with the colours of sRGB."""
    alpha = image.getchannel("A") if image.mode == "RGBA" else None
    turned = _by_profile(image, colours.profile) if colours.profile else _by_name(image.convert("RGB"), colours.space)
    if alpha is not None:
        turned.putalpha(alpha)
    return turned


def _by_profile(image: Image.Image, profile: bytes) -> Image.Image:
    plain = image if image.mode in ("RGB", "L", "CMYK") else image.convert("RGB")
    try:
        source = ImageCms.ImageCmsProfile(BytesIO(profile))
        turned = ImageCms.profileToProfile(plain, source, ImageCms.createProfile("sRGB"), outputMode="RGB")
    except (OSError, ValueError, ImageCms.PyCMSError):
        return plain.convert("RGB")
    return plain.convert("RGB") if turned is None else turned


def _by_name(image: Image.Image, space: Space) -> Image.Image:
    if space is Space.SRGB:
        return image
    import numpy as np  # noqa: PLC0415 - only for the few files that name their colours without a profile

    lights = np.array([space.light(step / 255) for step in range(256)], dtype=np.float32)
    across = np.linalg.solve(_to_xyz(Space.SRGB), _to_xyz(space)).astype(np.float32)
    linear = np.clip(lights[np.asarray(image)] @ across.T, 0, 1)
    signal = np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055)
    return Image.fromarray(np.rint(255 * signal).astype(np.uint8))


def _to_xyz(space: Space) -> "NDArray[np.float64]":
    """The matrix from linear red, green and blue to CIE XYZ, by which white has luminance 1."""
    import numpy as np  # noqa: PLC0415

    *primaries, white = (np.array([x / y, 1.0, (1 - x - y) / y]) for x, y in space.value)
    unscaled = np.column_stack(primaries)
    return unscaled * np.linalg.solve(unscaled, white)
