"""How high a sheet's words stand, and so how high its rules may be for all to stand on one page."""

from collections.abc import Sequence
from typing import Final

from tracksworn.documents.drawing.rules import HEAD
from tracksworn.documents.drawing.type import MM_PER_POINT, width_mm
from tracksworn.documents.listing.room import CAPTION, COLUMNS, HEADLINE, SHEET, lines
from tracksworn.documents.listing.view import KeyFigure, Listing

SIZES: Final = (27.0, 24.0, 21.0, 18.0, 15.0)
"""Of the large figures, pt."""
GAP: Final = 8.0
BENEATH: Final = (42.0, 38.0, 34.0, 30.0)
"""What the words beneath a large figure may make it wide, mm; less where there is no room for all: they break."""
LEAST_PITCH: Final = 5.7
MOST_PITCH: Final = 9.2
"""Between which heights a rule with its row can be read and looks like one, mm."""
_SHEETS: Final = {"A4": 297.0 - 26.5, "letter": 279.4 - 26.5}
_LINE: Final = 8.0 * 1.32 * MM_PER_POINT
_HEAD: Final = 23.4
_LEGEND: Final = 9.6
_SAFE: Final = 4.8


def pitch_that_fills(view: Listing) -> float:
    """How high each rule with its row may be for all to stand on one page, mm, or a little less."""
    columns = _highest(view, columns_of_words(view))
    sides = max(side.drawing.height for side in view.sides)
    left = (
        _SHEETS[view.branding.paper] - _HEAD - _above(view) - sides - HEAD - _LEGEND - columns - _closing(view) - _SAFE
    )
    return left / max(len(view.rows), 1)


def columns_of_words(view: Listing) -> tuple[float, float, float]:
    """How wide what was found, what was not seen and the hazards stand, mm: other than usual where that saves lines."""
    usual, best = COLUMNS[0], min(COLUMNS, key=lambda widths: _highest(view, widths))
    return best if _highest(view, best) < _highest(view, usual) - _LINE else usual


def _highest(view: Listing, widths: tuple[float, float, float]) -> float:
    return max(map(_taken_by, (_found(view), _unseen(view), _hazards(view)), widths))


def _above(view: Listing) -> float:
    """Headline and large figures."""
    notes = max(_lines_beneath(one, width) for one, width in large_columns(view, large_size(view)))
    revision = lines(view.identification.revision, SHEET)
    return (
        5.75 * lines(view.headline, SHEET, HEADLINE) + 20.2 + 3.65 * notes + (1.4 + 3.8 * revision if revision else 0.0)
    )


def _lines_beneath(one: KeyFigure, width: float) -> int:
    """Lines under a large figure, those of its caption after the first among them."""
    return lines(one.caption, width, CAPTION) - 1 + sum(lines(note, width) for note in one.notes)


def _taken_by(texts: Sequence[str], width: float) -> float:
    """Heading and paragraphs of a column."""
    return 7.4 + sum(0.5 + _LINE * lines(text, width) for text in texts)


def _found(view: Listing) -> list[str]:
    said = "; ".join([*(f"MMM {one.said}" for one in view.also), *filter(None, [view.also_more])])
    also = f"{view.headings.also} {said}" if said else ""
    return [*(f"MMM {one.title}: {one.advice}." for one in view.found), view.found_more, also]


def _unseen(view: Listing) -> list[str]:
    parts = [f"{one.parts}: {one.reason}." for one in view.not_seen.parts] or [view.headings.all_seen]
    return [*parts, *view.not_seen.sentences]


def _hazards(view: Listing) -> list[str]:
    return [" ".join(one.text for one in view.hazards)]


def _closing(view: Listing) -> float:
    first = " ".join(
        (view.headings.what, view.basis, *(one.text for one in view.limits), view.headings.rules, view.rules)
    )
    signed = f"{view.signature.name}, {view.signature.title}, {view.signature.firm}, {view.signature.day}"
    texts = (first, f"{view.source} {view.terms_elsewhere} {view.signature.statement}", view.standing_terms, signed)
    return 1.5 + sum(0.5 + _LINE * lines(text, SHEET) for text in texts)


def large_size(view: Listing) -> float:
    """The size of the large figures in pt: the largest in which they stand side by side."""
    return _large(view)[0]


def _large(view: Listing) -> tuple[float, float]:
    """The size of the large figures, and what the words beneath may make them wide."""
    ways = ((size, beneath) for beneath in BENEATH for size in SIZES)
    return next((way for way in ways if sum(_widths(view, *way)) <= SHEET + GAP), (SIZES[-1], BENEATH[-1]))


def large_columns(view: Listing, size: float) -> tuple[tuple[KeyFigure, float], ...]:
    """Each figure with the room for it, gaps left out, what is left over shared out."""
    widths = _widths(view, size, _large(view)[1])
    spare = max((SHEET + GAP - sum(widths)) / len(widths), 0.0)
    return tuple((one, width + spare - GAP) for one, width in zip(view.figures, widths, strict=True))


def _widths(view: Listing, size: float, most: float) -> list[float]:
    """What each figure takes, with the gap after it; words beneath it that are longer than most break."""
    share = (SHEET + GAP) / max(len(view.figures), 1) - GAP
    return [_wide(one, size, min(most, share)) for one in view.figures]


def _wide(one: KeyFigure, size: float, most: float) -> float:
    beneath = max(width_mm(one.caption, 9.2, weight=600), *(width_mm(note, 7.8) for note in one.notes), 0.0)
    return max(width_mm(one.figure, size, weight=600), min(beneath, most)) + GAP
