"""Cautions in a PDF, read back by PDFium: the words, their size, and whether the page looks different without them."""

import ctypes
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Final

import numpy as np
import pypdfium2 as pdfium
from numpy.typing import NDArray
from pypdfium2 import raw

from tracksworn.documents.direction import reads_leftward
from tracksworn.documents.render.gate.wanted import Piece, squeezed, squeezed_character

LEAST_SIZE: Final = 7.0  # pt
LEAST_CONTRAST: Final = 3.0  # of single pixels, where WCAG asks 4.5 of whole strokes: thin strokes share their pixels
SCALE: Final = 3.0  # pixels a point: at two a thin stroke between two rows of them may pass for none
_ALEFS: Final = "اأإآٱ"
"""They need no ink of their own: behind a lam, one form stands for both letters."""


@dataclass(frozen=True, slots=True)
class _Glyph:
    page: int
    index: int  # among the characters of its page


def check_pdf(content: bytes, pieces: Sequence[Piece]) -> None:
    """Raises Refused unless every piece can be read on the pages."""
    pdf = pdfium.PdfDocument(content)
    try:
        pages = _holding(pieces, [_Page(page) for page in pdf])
        stream, glyphs = _stream(pages)
        found = {piece: _find(piece, stream, glyphs) for piece in pieces}
        for number, page in enumerate(pages):
            page.look({piece: [g.index for g in spot if g.page == number] for piece, spot in found.items()})
    finally:
        pdf.close()


def _holding(pieces: Sequence[Piece], pages: "list[_Page]") -> "list[_Page]":
    """The one page that holds all pieces, which is usual and quicker to look at, else all pages."""
    for page in reversed(pages):
        if all(squeezed(piece.text) in page.words for piece in pieces):
            return [page]
    return pages


def _stream(pages: "Sequence[_Page]") -> tuple[str, list[_Glyph]]:
    """The words of all pages run together, and where each character of them stands."""
    characters, glyphs = [], []
    for number, page in enumerate(pages):
        for index, character in enumerate(page.text):
            for kept in squeezed_character(character):
                characters.append(kept)
                glyphs.append(_Glyph(number, index))
    return "".join(characters), glyphs


def _find(piece: Piece, stream: str, glyphs: list[_Glyph]) -> list[_Glyph]:
    text = squeezed(piece.text)
    start = stream.find(text)
    found = list(range(start, start + len(text))) if start >= 0 else []
    if not found and reads_leftward(text):
        found = _in_any_order(text, stream)
    if not found and text:
        raise piece.missing("is not on its pages in full")
    return [glyphs[index] for index in found if stream[index] not in _ALEFS]


def _in_any_order(text: str, stream: str) -> list[int]:
    """Where all letters and digits of a text stand side by side; none if they do nowhere.

    What is written from right to left stands on a page in the order in which it is seen, and PDFium guesses the other.
    """
    places = [index for index, character in enumerate(stream) if character.isalnum()]
    missing = Counter(character for character in text if character.isalnum())
    size = missing.total()
    for end, place in enumerate(places, 1):
        missing[stream[place]] -= 1
        if end > size:
            missing[stream[places[end - size - 1]]] += 1
        if end >= size and not any(missing.values()):
            return places[end - size : end]
    return []


class _Page:
    """One page of the finished file."""

    def __init__(self, page: Any) -> None:
        self._page = page
        self._text = page.get_textpage()

    @cached_property
    def words(self) -> str:
        """What stands on it, without blanks."""
        return squeezed(self._text.get_text_range())

    @cached_property
    def text(self) -> str:
        """What stands on it, character by character as PDFium counts them."""
        count = self._text.count_chars()
        return "".join(chr(raw.FPDFText_GetUnicode(self._text.raw, index)) for index in range(count))

    def look(self, spots: dict[Piece, list[int]]) -> None:
        """Take the words away and see whether the page looks different where they stood."""
        spots = {piece: indices for piece, indices in spots.items() if indices}
        if not spots:
            return
        for piece, indices in spots.items():
            if any(self._size(index) < LEAST_SIZE for index in indices):
                raise piece.missing(f"is set smaller than {LEAST_SIZE:g} points")
        boxes = {piece: [self._box(index) for index in indices] for piece, indices in spots.items()}
        with_words = self._grey()
        for thing in {self._object(index) for indices in spots.values() for index in indices}:
            raw.FPDFPage_RemoveObject(self._page.raw, ctypes.cast(thing or 0, raw.FPDF_PAGEOBJECT))
        without = self._grey()
        lighter, darker = np.maximum(with_words, without), np.minimum(with_words, without)
        for piece, places in boxes.items():
            seen = sum(_reaches(lighter, darker, box) for box in places)
            if seen < 0.9 * len(places):
                raise piece.missing("cannot be seen on its page")

    def _size(self, index: int) -> float:
        matrix = raw.FS_MATRIX()
        raw.FPDFText_GetMatrix(self._text.raw, index, matrix)
        return float(raw.FPDFText_GetFontSize(self._text.raw, index) * abs(matrix.d or matrix.b))

    def _object(self, index: int) -> int | None:
        return ctypes.cast(raw.FPDFText_GetTextObject(self._text.raw, index), ctypes.c_void_p).value

    def _box(self, index: int) -> tuple[float, float, float, float]:
        left, bottom, right, top = self._text.get_charbox(index)
        height = self._page.get_height()
        return left, height - top, right, height - bottom

    def _grey(self) -> NDArray[np.uint8]:
        grey = self._page.render(scale=SCALE, grayscale=True, fill_color=(255, 255, 255, 255)).to_numpy()
        page: NDArray[np.uint8] = grey.reshape(grey.shape[0], grey.shape[1]).copy()
        return page


def _luminances() -> NDArray[np.float64]:
    """WCAG 2.2's relative luminance of each grey, with the 0.05 that its contrast adds."""
    share = np.arange(256) / 255
    linear = np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    return np.asarray(linear + 0.05, dtype=np.float64)


LUMINANCES: Final = _luminances()


def _reaches(lighter: NDArray[np.uint8], darker: NDArray[np.uint8], box: tuple[float, float, float, float]) -> bool:
    """Whether some pixel of a box has WCAG 2.2's contrast, looked up only where a word stands."""
    left, top, right, bottom = (value * SCALE for value in box)
    there = slice(max(int(top), 0), int(bottom) + 2), slice(max(int(left), 0), int(right) + 2)
    ratio = LUMINANCES[lighter[there]] / LUMINANCES[darker[there]]
    return bool(ratio.size and ratio.max() >= LEAST_CONTRAST)
