"""Cautions in a PDF, read back by PDFium: the words, their size, and whether the page looks different without them."""

import ctypes
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import Any, Final

import numpy as np
import pypdfium2 as pdfium
from numpy.typing import NDArray
from pypdfium2 import raw

from tracksworn.documents.direction import reads_leftward
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.gate.wanted import Piece, squeezed, squeezed_character
from tracksworn.inspection.contrast import light

PIXEL_CONTRAST: Final = 3.0  # of single pixels, where WCAG asks 4.5 of whole strokes: thin strokes share their pixels
MOST_CROSSED: Final = 0.1
PILED: Final = 1.4
BY_ROUNDING: Final = 0.005  # pt, by which what is set in a size may stand in the file in a smaller one
PLAIN_CONTRAST: Final = 1.5
MOST_SHEETS: Final = 400
LONGEST_SHEET: Final = 850.0  # pt
PLACES: Final = 6
"""How many places of a piece are looked at: the first are usually read."""
SCALE: Final = 3.0  # pixels a point: at two a thin stroke between two rows of them may pass for none
_ALEFS: Final = "اأإآٱ"
"""They need no ink of their own: behind a lam, one form stands for both letters."""


@dataclass(frozen=True, slots=True)
class _Glyph:
    page: int
    index: int  # among the characters of its page


@dataclass(frozen=True, slots=True, eq=False)
class _Spot:
    """One place where a piece stands, with what is against reading it there."""

    piece: Piece
    glyphs: tuple[_Glyph, ...]
    refusals: list[str] = field(default_factory=list)


def all_said(content: bytes, drawn: str, pieces: Iterable[Piece]) -> bool:
    """Whether every piece stands in the words of the pages, or in those of the drawings that will be put on them.

    Enough for the program's own templates, which the tests look at by sight: these cannot hide what they print.
    """
    there = squeezed(drawn)
    wanted = {text for text in (squeezed(piece.text) for piece in pieces) if text not in there}
    pdf = pdfium.PdfDocument(content)
    try:
        for number in reversed(range(len(pdf))):  # the last pages usually hold them all, and no other is opened then
            if not wanted:
                break
            there = squeezed(pdf[number].get_textpage().get_text_range()) + there
            wanted = {text for text in wanted if text not in there}
    finally:
        pdf.close()
    return not wanted


def check_pdf(content: bytes, pieces: Sequence[Piece], on_each: Piece | None = None) -> None:
    """Raises Refused unless every piece can be read on the pages: one of the places where it stands is enough.

    `on_each` must stand on every one of them.
    """
    pdf = pdfium.PdfDocument(content)
    try:
        pages = [_Page(page) for page in pdf]
        if on_each is not None:
            _on_ordinary_sheets(pages, on_each)
        pages = _holding(pieces, pages)
        stream, glyphs = _stream(pages)
        spots = [_Spot(piece, place) for piece in pieces for place in _find(piece, stream, glyphs)]
        for number, page in enumerate(pages):
            there = {spot: [g.index for g in spot.glyphs if g.page == number] for spot in spots}
            for spot, why in page.look({spot: indices for spot, indices in there.items() if indices}).items():
                spot.refusals.append(why)
        for piece in pieces:
            places = [spot for spot in spots if spot.piece is piece]
            if not any(not spot.refusals for spot in places):
                raise piece.missing(places[0].refusals[0])
    finally:
        pdf.close()


def _on_ordinary_sheets(pages: "Sequence[_Page]", piece: Piece) -> None:
    """Every sheet is of paper, not so many or so large that nobody could read them, and says what it is part of."""
    if len(pages) > MOST_SHEETS:
        raise Refused(f"the document is not handed over: it has more than {MOST_SHEETS} sheets")
    for number, page in enumerate(pages, 1):
        if not page.shows(squeezed(piece.text)):
            raise piece.missing(f"cannot be seen on sheet {number}")


def _holding(pieces: Sequence[Piece], pages: "list[_Page]") -> "list[_Page]":
    """As few pages as hold all pieces, the last first, which is usually one and quick to look at; else all pages."""
    wanted = {squeezed(piece.text) for piece in pieces}
    chosen: set[int] = set()
    for number, page in reversed(list(enumerate(pages))):
        if held := {text for text in wanted if text in page.words}:
            chosen.add(number)
            wanted -= held
    return [page for number, page in enumerate(pages) if number in chosen] if not wanted else pages


def _stream(pages: "Sequence[_Page]") -> tuple[str, list[_Glyph]]:
    """The words of all pages run together, and where each character of them stands."""
    characters, glyphs = [], []
    for number, page in enumerate(pages):
        for index, character in enumerate(page.text):
            for kept in squeezed_character(character):
                characters.append(kept)
                glyphs.append(_Glyph(number, index))
    return "".join(characters), glyphs


def _find(piece: Piece, stream: str, glyphs: list[_Glyph]) -> list[tuple[_Glyph, ...]]:
    """The places where a piece stands, the first few of them."""
    text = squeezed(piece.text)
    places: list[Sequence[int]] = [range(start, start + len(text)) for start in _starts(text, stream)]
    if not places and reads_leftward(text):
        places = [found for found in [_in_any_order(text, stream)] if found]
    if not places and text:
        raise piece.missing("is not on its pages in full")
    return [tuple(glyphs[index] for index in place if stream[index] not in _ALEFS) for place in places] or [()]


def _starts(text: str, stream: str) -> Iterator[int]:
    start = stream.find(text) if text else -1
    for _ in range(PLACES):
        if start < 0:
            return
        yield start
        start = stream.find(text, start + 1)


def _in_any_order(text: str, stream: str) -> Sequence[int]:
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

    def shows(self, text: str) -> bool:
        """Whether a text stands on it, with ink, within an ordinary sheet."""
        if max(self._page.get_size()) > LONGEST_SHEET:
            return False
        stream, glyphs = _stream([self])
        places = [glyphs[start : start + len(text)] for start in _starts(text, stream)]
        grey = self._grey() if places else None
        return grey is not None and any(
            all(_ink(grey, self._box(one.index)) for one in place if self.text[one.index].isalnum()) for place in places
        )

    def look(self, spots: Mapping[_Spot, Sequence[int]]) -> dict[_Spot, str]:
        """Take the words away and see whether the page looks different where they stood; what is wrong, by spot."""
        if not spots:
            return {}
        wrong = {spot: why for spot, indices in spots.items() if (why := self._misplaced(indices, spot.piece.least))}
        boxes = {spot: [self._box(index) for index in indices] for spot, indices in spots.items()}
        piled = self._piled({index: box for spot in spots for index, box in zip(spots[spot], boxes[spot], strict=True)})
        with_words = self._grey()
        fixed = self._take_away({self._object(index) for indices in spots.values() for index in indices})
        without = self._grey()
        lighter, darker = np.maximum(with_words, without), np.minimum(with_words, without)
        for spot, places in boxes.items():
            drawn = [self._object(index) in fixed for index in spots[spot]]
            seen = [
                _ink(with_words, box) if in_drawing else _reaches(lighter, darker, box)
                for box, in_drawing in zip(places, drawn, strict=True)
            ]
            if sum(seen) < 0.9 * len(places) or self._loses_letters(spots[spot], seen):
                wrong.setdefault(spot, "cannot be seen on its page")
            elif sum(index in piled for index in spots[spot]) > MOST_CROSSED * len(places):
                wrong.setdefault(spot, "has its letters or lines one on the other")
            elif not any(drawn) and sum(_crossed(without, box) for box in places) > MOST_CROSSED * len(places):
                wrong.setdefault(spot, "has something lying over or under it")
        return wrong

    def _piled(self, boxes: Mapping[int, tuple[float, float, float, float]]) -> set[int]:
        """The letters that lie on others: how many cover each half point, summed up."""
        width, height = self._page.get_size()
        count = np.zeros((int(2 * height) + 2, int(2 * width) + 2), np.uint8)
        areas = {index: _area(box) for index, box in boxes.items() if self.text[index].isalnum()}
        for area in {(a.start, a.stop, b.start, b.stop): (a, b) for a, b in areas.values()}.values():
            count[area] += 1  # once for the letters of a ligature, which have one box
        return {index for index, area in areas.items() if count[area].size and count[area].mean() >= PILED}

    def _take_away(self, things: Iterable[int | None]) -> set[int | None]:
        """Take texts off the page; those that stand in a drawing of ours cannot be, and are given back."""
        page = self._page.raw
        return {
            one for one in things if not raw.FPDFPage_RemoveObject(page, ctypes.cast(one or 0, raw.FPDF_PAGEOBJECT))
        }

    def _loses_letters(self, indices: Sequence[int], seen: Sequence[bool]) -> bool:
        """Whether letters or digits next to each other are not seen: a word of a sentence can turn it round."""
        lost = [not one and self.text[index].isalnum() for index, one in zip(indices, seen, strict=True)]
        return any(one and next_one for one, next_one in pairwise(lost))

    def _misplaced(self, indices: Sequence[int], least: float) -> str:
        """What is wrong with how its letters are set: too small, squashed, mirrored or turned."""
        matrices = [self._matrix(index) for index in indices]
        if any(size < least - BY_ROUNDING or across < 0.8 * size for size, across in matrices):
            return f"is set smaller than {least:g} points, squashed or not upright"
        return ""

    def _matrix(self, index: int) -> tuple[float, float]:
        """Size of a character in points, and how wide it is set in proportion; not positive where it is turned."""
        matrix = raw.FS_MATRIX()
        raw.FPDFText_GetMatrix(self._text.raw, index, matrix)
        size = raw.FPDFText_GetFontSize(self._text.raw, index)
        upright = abs(matrix.b) + abs(matrix.c) <= abs(matrix.a) / 2 and matrix.a > 0 and matrix.d > 0
        return (float(size * matrix.d), float(size * matrix.a)) if upright else (0.0, 0.0)

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
    return np.array([light(grey / 255) + 0.05 for grey in range(256)], dtype=np.float64)


LUMINANCES: Final = _luminances()


def _reaches(lighter: NDArray[np.uint8], darker: NDArray[np.uint8], box: tuple[float, float, float, float]) -> bool:
    """Whether some pixel of a box has WCAG 2.2's contrast, looked up only where a word stands."""
    left, top, right, bottom = (value * SCALE for value in box)
    left -= 0.5  # a thin stroke may be drawn half a pixel before its box
    there = slice(max(int(top), 0), int(bottom) + 2), slice(max(int(left), 0), int(right) + 2)
    ratio = LUMINANCES[lighter[there]] / LUMINANCES[darker[there]]
    return bool(ratio.size and ratio.max() >= PIXEL_CONTRAST)


def _area(box: tuple[float, float, float, float]) -> tuple[slice, slice]:
    """The middle of a letter's box, in half points."""
    left, top, right, bottom = (2 * value for value in box)
    across, down = 0.2 * (right - left), 0.2 * (bottom - top)
    there = max(top + down, 0.0), max(bottom - down, 0.0), max(left + across, 0.0), max(right - across, 0.0)
    above, below, before, after = (round(value) for value in there)
    return slice(above, max(below, above + 1)), slice(before, max(after, before + 1))


def _ink(page: NDArray[np.uint8], box: tuple[float, float, float, float]) -> bool:
    """Whether a box has both ink and ground in it."""
    left, top, right, bottom = (value * SCALE for value in box)
    there = page[max(int(top), 0) : int(bottom) + 2, max(int(left), 0) : int(right) + 2]
    return bool(there.size and LUMINANCES[there.max()] / LUMINANCES[there.min()] >= PIXEL_CONTRAST)


def _crossed(without: NDArray[np.uint8], box: tuple[float, float, float, float]) -> bool:
    """Whether anything stands where a letter stood, once it is taken away."""
    left, top, right, bottom = (value * SCALE for value in box)
    there = without[max(int(top) + 1, 0) : int(bottom), max(int(left) + 1, 0) : int(right)]
    return bool(there.size and LUMINANCES[there.max()] / LUMINANCES[there.min()] >= PLAIN_CONTRAST)
