"""The sheets as pictures for a web listing, drawn from the finished PDF by PDFium; the same bytes each time."""

from collections.abc import Iterator
from io import BytesIO
from typing import Final

import pypdfium2 as pdfium

DOTS_PER_INCH: Final = 144
"""Twice what a page is shown at on a screen of ordinary density: an A4 sheet is 1190 dots wide."""
POINTS_PER_INCH: Final = 72


def draw_pages(pdf: bytes) -> Iterator[bytes]:
    """A PNG of each page, its resolution told in it."""
    document = pdfium.PdfDocument(pdf)
    try:
        for page in document:
            picture = page.render(scale=DOTS_PER_INCH / POINTS_PER_INCH, fill_color=(255, 255, 255, 255))
            out = BytesIO()
            picture.to_pil().convert("RGB").save(out, "PNG", optimize=True, dpi=(DOTS_PER_INCH, DOTS_PER_INCH))
            yield out.getvalue()
    finally:
        document.close()
