"""What is wrong with a sheet as a picture, held against Poppler's drawing of the same PDF."""

from pathlib import Path
from typing import Final

import numpy as np
from documents.render.tools import run
from PIL import Image

MOST_APART: Final = 6.0
"""How far the two may lie apart on average, of 255 greys, in squares of 8 by 8 dots, where only edges differ."""


def faults(picture: Path, pdf: Path) -> list[str]:
    """How it differs from the first sheet of the PDF."""
    with Image.open(picture) as one:
        one.load()
        kind, resolution, ours = one.format, one.info.get("dpi", (0.0, 0.0))[0], one.convert("L")
    if kind != "PNG" or not resolution:
        return [f"it is {kind} of {resolution} dots an inch"]
    beside = pdf.with_name(f"{pdf.stem}-by-poppler")
    run("pdftoppm", "-r", f"{resolution:.0f}", "-f", "1", "-singlefile", "-gray", "-png", pdf, beside)
    beside = beside.with_name(f"{beside.name}.png")
    with Image.open(beside) as other:
        theirs = other.convert("L")
    if any(abs(a - b) > 1 for a, b in zip(ours.size, theirs.size, strict=True)):
        return [f"it has {ours.size} dots, the sheet {theirs.size}"]
    apart = np.abs(_coarse(ours) - _coarse(theirs)).mean()
    return [f"it lies {apart:.1f} greys from the sheet"] if apart > MOST_APART else []


def _coarse(picture: Image.Image) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    size = picture.width // 8, picture.height // 8
    return np.asarray(picture.resize(size, Image.Resampling.BOX), dtype=np.float64)
