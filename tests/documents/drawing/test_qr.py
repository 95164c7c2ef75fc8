"""A code as drawn can be read by a reader that had no part in making it, and keeps its quiet zone."""

import numpy as np
import pytest
import zxingcpp
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from tracksworn.documents.drawing.inks import INK
from tracksworn.documents.drawing.plain import Drawing, Line
from tracksworn.documents.drawing.qr import QUIET, SIDE, draw_qr

LONG = "https://millrace.example/r/MPS-2031-0418-r0#sha256=" + "5de1fca9591ba3fb" * 4


def painted(drawing: Drawing, per_mm: int = 20) -> NDArray[np.uint8]:
    """Painted by the even-odd rule, as the drawing says."""
    (path,) = drawing.paths
    assert path.fill == INK
    size = (round(drawing.width * per_mm), round(drawing.height * per_mm))
    dark = np.zeros(size[::-1], dtype=bool)
    for shape in path.shapes:
        assert isinstance(shape, Line)
        one = Image.new("1", size, 0)
        ImageDraw.Draw(one).polygon([(x * per_mm, y * per_mm) for x, y in shape.points], fill=1)
        dark ^= np.asarray(one, dtype=bool)
    return np.where(dark, 0, 255).astype(np.uint8)


@pytest.mark.parametrize("content", [LONG, "OXB-0231-r0#sha256=" + "0" * 64, "Straße 5, Ñandú"])
def test_an_independent_reader_reads_what_went_in(content: str) -> None:
    (found,) = zxingcpp.read_barcodes(painted(draw_qr(content, alternative="")))
    assert found.text == content
    assert str(found.format) in ("QRCode", "BarcodeFormat.QRCode", "QR Code")


def test_the_quiet_zone_is_white_on_every_side() -> None:
    drawing = draw_qr(LONG, alternative="")
    points = [
        point for path in drawing.paths for shape in path.shapes if isinstance(shape, Line) for point in shape.points
    ]
    module = drawing.width / (45 + 2 * QUIET)  # version 7, as ISO/IEC 18004 gives it for so many bytes at level M
    assert min(min(point) for point in points) == pytest.approx(QUIET * module)
    assert max(max(point) for point in points) == pytest.approx(drawing.width - QUIET * module)


def test_it_is_no_wider_than_asked_and_its_modules_are_whole_hundredths() -> None:
    for side in (SIDE, 20.0):
        drawing = draw_qr(LONG, alternative="", side=side)
        assert drawing.width <= side
        assert round(100 * drawing.width / 53, 6) == round(100 * drawing.width / 53)


def test_one_path_without_type_and_the_same_twice() -> None:
    drawing = draw_qr(LONG, alternative="a code")
    assert len(drawing.marks) == 1
    assert drawing == draw_qr(LONG, alternative="a code")
    assert drawing.alternative == "a code"
