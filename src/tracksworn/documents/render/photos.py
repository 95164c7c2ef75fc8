"""Photos brought down to the size in which they are printed; the engine would embed the originals."""

from functools import lru_cache
from io import BytesIO
from typing import Final

from PIL import Image

from tracksworn.inspection.dossier import Picture

PIXELS_PER_MM: Final = 8  # about 200 to the inch
QUALITY: Final = 82


def for_print(picture: Picture, width_mm: float, height_mm: float) -> Picture:
    """The photo as JPEG, no larger than print needs it within a box of that size."""
    return _scaled(picture, round(width_mm * PIXELS_PER_MM), round(height_mm * PIXELS_PER_MM))


def placed(picture: Picture, width_mm: float, height_mm: float) -> tuple[float, float]:
    """How wide and high it stands within a box of that size, mm."""
    scale = min(width_mm / picture.width, height_mm / picture.height)
    return picture.width * scale, picture.height * scale


@lru_cache(maxsize=64)
def _scaled(picture: Picture, width: int, height: int) -> Picture:
    with Image.open(BytesIO(picture.content), formats=("JPEG",)) as image:
        image.draft("RGB", (width, height))
        small = image.convert("RGB")
        small.thumbnail((width, height), Image.Resampling.LANCZOS)
        out = BytesIO()
        small.save(out, "JPEG", quality=QUALITY)
    return Picture(out.getvalue(), "image/jpeg", *small.size)
