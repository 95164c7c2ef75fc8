"""How a listing sheet goes on to its one page: the rules take the height that the words leave them."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from tracksworn.documents.drawing.plain import Drawing, Text
from tracksworn.documents.drawing.rule import BAR, INNER, draw_compact_rule
from tracksworn.documents.drawing.rules import HEAD, RuleRow, RuleSide, draw_rules
from tracksworn.documents.drawing.type import MM_PER_POINT, width_mm
from tracksworn.documents.listing.room import FOUND, HAZARDS, SHEET, UNSEEN, lines
from tracksworn.documents.listing.view import Half, KeyFigure, Listing, Row
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.fitting import shortened
from tracksworn.documents.render.gate.wanted import Piece, wanted
from tracksworn.documents.render.kind import Kind, LayOut, Sheets
from tracksworn.documents.render.plates import Pair
from tracksworn.documents.words.cautions import SHORT_CAUTIONS

SIZES: Final = (27.0, 24.0, 21.0, 18.0, 15.0)
"""Of the large figures, pt."""
GAP: Final = 8.0
LOT: Final = 60.0
LOT_SIZES: Final = (31.0, 27.0, 21.0, 16.0)
HEADLINE: Final = Text((0, 0), "", 13.0, 600)
CAPTION: Final = Text((0, 0), "", 9.2, 600)
LEAST_PITCH: Final = 5.8
MOST_PITCH: Final = 8.6
"""Height of a rule with its row, mm."""
STEP: Final = 0.6
_SHEETS: Final = {"A4": 297.0 - 26.5, "letter": 279.4 - 26.5}
_LINE: Final = 8.0 * 1.32 * MM_PER_POINT
_HEAD: Final = 23.4
_LEGEND: Final = 9.6
_SAFE: Final = 4.8


@dataclass(frozen=True, slots=True)
class Column:
    """One large figure in the room that it takes, mm."""

    told: KeyFigure
    width: float


@dataclass(frozen=True, slots=True)
class ListingPlates:
    """The drawings of a listing sheet and the sizes of its large type."""

    view: Listing
    halves: tuple[Pair, ...]  # for where a page has columns of its own
    size: float  # of the large figures, pt
    columns: tuple[Column, ...]
    lot_size: float
    firm: str  # as much of it as stands beside the lot

    def rules(self, pitch: float) -> Drawing:
        """All rules as one drawing."""
        view = self.view
        said = [f"{view.headings.worn}."]
        for row in view.rows:
            said += [half.alternative for half in (row.left, row.right) if half]
            said.append(f"{row.name}, {view.headings.difference}: {row.difference}.")
        rows = tuple(map(_rule_row, view.rows))
        words = view.headings.difference
        return draw_rules(rows, difference=words, alternative=" ".join(said), pitch=pitch)


def draw_listing(view: Listing) -> ListingPlates:
    """Draw what does not depend on the room that is left."""
    size, lot = _size(view), view.identification.lot
    return ListingPlates(
        view=view,
        halves=tuple(Pair(_compact(row.left), _compact(row.right)) for row in view.rows),
        size=size,
        columns=tuple(Column(one, round(width, 2)) for one, width in _columns(view, size)),
        lot_size=next((one for one in LOT_SIZES if width_mm(lot, one, weight=600) <= LOT), LOT_SIZES[-1]),
        firm=shortened(view.branding.firm, SHEET - LOT - 2 * GAP, 8.4, 600),
    )


def _size(view: Listing) -> float:
    """Of the large figures."""
    return next((one for one in SIZES if sum(_wide(told, one) for told in view.figures) <= SHEET + GAP), SIZES[-1])


def _columns(view: Listing, size: float) -> tuple[tuple[KeyFigure, float], ...]:
    """Each figure with the room for it, gaps left out, what is left over shared out."""
    widths = [_wide(one, size) for one in view.figures]
    spare = max((SHEET + GAP - sum(widths)) / len(widths), 0.0)
    return tuple((one, width + spare - GAP) for one, width in zip(view.figures, widths, strict=True))


def _rule_row(row: Row) -> RuleRow:
    left, right = (_rule_side(half) for half in (row.left, row.right))
    return RuleRow(row.name, row.note, left, right, row.difference, row.differs)


def _rule_side(half: Half | None) -> RuleSide | None:
    return RuleSide(half.gauge, half.figure, half.interval, half.past_limit) if half else None


def _compact(half: Half | None) -> Drawing | None:
    if half is None:
        return None
    return draw_compact_rule(half.gauge, half.side, alternative=half.alternative, bar=BAR, inner=INNER)


def _wide(one: KeyFigure, size: float) -> float:
    """What a figure takes, with the gap after it; long words beneath it break."""
    beneath = max(width_mm(one.caption, 9.2, weight=600), *(width_mm(note, 7.8) for note in one.notes), 0.0)
    return max(width_mm(one.figure, size, weight=600), min(beneath, 42.0)) + GAP


# --- the height that is left ---


def _arrange(view: Listing, lay_out: LayOut) -> Sheets:
    """The highest rules with which all stands on one page: as estimated, else by what the words were too many."""
    pitch = min(max(_estimate(view), LEAST_PITCH), MOST_PITCH)
    while True:
        sheets = lay_out({"pitch": pitch})
        end = sheets.place("end")
        if end is not None and end[0] == 0:
            return sheets
        if pitch <= LEAST_PITCH:
            raise Refused("the listing sheet is not handed over: its words do not fit one page")
        pitch = max(pitch - STEP, LEAST_PITCH)


def _estimate(view: Listing) -> float:
    """The pitch that fills the sheet, or a little less."""
    columns = max(_taken_by(_found(view), FOUND), _taken_by(_unseen(view), UNSEEN), _taken_by(_hazards(view), HAZARDS))
    sides = max(side.drawing.height for side in view.sides)
    left = (
        _SHEETS[view.branding.paper] - _HEAD - _above(view) - sides - HEAD - _LEGEND - columns - _closing(view) - _SAFE
    )
    return left / max(len(view.rows), 1)


def _above(view: Listing) -> float:
    """Headline and large figures."""
    notes = max(_lines_beneath(one, width) for one, width in _columns(view, _size(view)))
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
    also = f"{view.headings.also} {view.also}" if view.also else ""
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
    texts = (first, f"{view.source} {view.terms_elsewhere} {view.signature.statement}", view.standing_terms, "signed")
    return 1.5 + sum(0.5 + _LINE * lines(text, SHEET) for text in texts)


def _unpaged(view: Listing) -> Mapping[str, object]:  # noqa: ARG001
    return {"pitch": MOST_PITCH}


# --- what no template may leave out ---


def _wanted(view: Listing) -> tuple[Piece, ...]:
    return (*wanted(view.cautions, SHORT_CAUTIONS), *_unseen_pieces(view), *_qualified(view))


def _unseen_pieces(view: Listing) -> Iterator[Piece]:
    said = [f"{one.parts}: {one.reason}" for one in view.not_seen.parts] + [*view.not_seen.sentences]
    yield from (Piece("not seen", text, "list") for text in said)


def _qualified(view: Listing) -> Iterator[Piece]:
    """What the large figures must never stand without."""
    yield from (Piece(one.caption, note, "figure") for one in view.figures for note in one.notes)


LISTING: Final[Kind[Listing]] = Kind(
    name="listing",
    draw=draw_listing,
    width=lambda view: SHEET,  # noqa: ARG005
    sheet_styles=lambda view: (f"{view.branding.paper.lower()}.css", "listing-print.css"),
    screen_styles=("listing-screen.css",),
    arrange=_arrange,
    unpaged=_unpaged,
    wanted=_wanted,
    one_sheet=True,
)
