"""How a listing sheet goes on to its one page: the rules take the height that the words leave them."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from tracksworn.documents.drawing.columns import Column, draw_columns
from tracksworn.documents.drawing.plain import Drawing, Text
from tracksworn.documents.drawing.rule import BAR, INNER, draw_compact_rule
from tracksworn.documents.drawing.rules import RuleRow, RuleSide, draw_rules, heading_size
from tracksworn.documents.drawing.type import width_mm
from tracksworn.documents.listing.height import (
    LEAST_PITCH,
    MOST_PITCH,
    columns_of_words,
    large_columns,
    large_size,
    pitch_that_fills,
)
from tracksworn.documents.listing.room import SHEET
from tracksworn.documents.listing.view import Half, Listing, Row
from tracksworn.documents.render import photos
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.fitting import Fitted, shortened
from tracksworn.documents.render.gate.unseen import wanted_of_unseen
from tracksworn.documents.render.gate.wanted import Piece, wanted
from tracksworn.documents.render.heads import (
    MASTHEAD_INDENT,
    MASTHEAD_MARK,
    draw_masthead,
    lot_at_right,
    number_at_right,
)
from tracksworn.documents.render.kind import Kind, LayOut, Sheets
from tracksworn.documents.render.pair import Pair
from tracksworn.documents.words.cautions import SHORT_CAUTIONS

LOT: Final = 60.0
LOT_SIZES: Final = (31.0, 27.0, 21.0, 16.0)
"""Room for the lot's number, mm, and its sizes, pt."""
STEP: Final = 0.6
_BETWEEN: Final = 6.0  # columns of words, mm


@dataclass(frozen=True, slots=True)
class ListingPlates:
    """The drawings of a listing sheet and the sizes of its large type."""

    view: Listing
    masthead: Drawing  # firm, lot or number, and the identification strip
    mark: tuple[float, float] | None  # the size of the firm's mark on a sheet, mm
    indent: float  # of the title, beside the mark, mm
    glance: Drawing  # the large figures with what is said of them
    columns: tuple[float, float, float]  # how wide those of words are with the room after them, mm
    heading_size: float  # of that over the rules, pt

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

    def pair(self, row: Row) -> Pair:
        """The `left` and the `right` rule of a row, for where a page has columns of its own."""
        return Pair(_compact(row.left), _compact(row.right))


def draw_listing(view: Listing) -> ListingPlates:
    """Draw what does not depend on the room that is left."""
    mark = view.branding.mark
    return ListingPlates(
        view=view,
        masthead=_masthead(view),
        mark=photos.placed(mark, MASTHEAD_MARK, MASTHEAD_MARK) if mark else None,
        indent=MASTHEAD_INDENT if mark else 0.0,
        glance=_glance(view),
        columns=_with_room_between(columns_of_words(view)),
        heading_size=heading_size(view.headings.worn),
    )


def _with_room_between(widths: tuple[float, float, float]) -> tuple[float, float, float]:
    found, not_seen, cautions = widths
    return found + _BETWEEN, not_seen + _BETWEEN, cautions


def _masthead(view: Listing) -> Drawing:
    fitted, words = Fitted(view, SHEET), view.headings
    firm = shortened(view.branding.firm, SHEET - LOT - 16.0, 8.4, 600)
    at_right = _lot(view) if view.identification.lot else number_at_right(fitted)
    apart = " " if view.identification.lot else words.semicolon
    which = apart.join(text.content for text in at_right if text.content)
    strip = (f"{one.label}{words.colon}{one.value}" for one in fitted.strip.labelled)
    alternative = f"{firm}{words.semicolon}{which}. {words.semicolon.join(strip)}."
    return draw_masthead(fitted, firm, at_right, alternative=alternative)


def _lot(view: Listing) -> tuple[Text, Text]:
    lot = view.identification.lot
    size = next((one for one in LOT_SIZES if width_mm(lot, one, weight=600) <= LOT), LOT_SIZES[-1])
    return lot_at_right(view.headings.lot, lot, size, SHEET)


def _glance(view: Listing) -> Drawing:
    size, words = large_size(view), view.headings
    columns = [Column(one.figure, one.caption, one.notes, width) for one, width in large_columns(view, size)]
    said = (f"{one.figure}, {one.caption}{words.colon}{words.semicolon.join(one.notes)}." for one in view.figures)
    return draw_columns(columns, size, alternative=f"{words.at_a_glance}. {' '.join(said)}")


def _rule_row(row: Row) -> RuleRow:
    left, right = (_rule_side(half) for half in (row.left, row.right))
    return RuleRow(row.name, row.note, left, right, row.difference, row.differs)


def _rule_side(half: Half | None) -> RuleSide | None:
    return RuleSide(half.gauge, half.figure, half.interval, half.past_limit) if half else None


def _compact(half: Half | None) -> Drawing | None:
    if half is None:
        return None
    return draw_compact_rule(half.gauge, half.side, alternative=half.alternative, bar=BAR, inner=INNER)


# --- the height that is left ---


def _arrange(view: Listing, lay_out: LayOut) -> Sheets:
    """The highest rules with which all stands on one page: as estimated, else by what the words were too many."""
    pitch, tight = min(max(pitch_that_fills(view), LEAST_PITCH), MOST_PITCH), False
    while True:
        sheets = lay_out({"pitch": pitch, "tight": tight})
        if sheets.count == 1:
            return sheets
        if tight:
            raise Refused("the listing sheet is not handed over: its words do not fit one page")
        tight = pitch <= LEAST_PITCH
        pitch = max(pitch - STEP, LEAST_PITCH)


# --- what no template may leave out ---


def _wanted(view: Listing) -> tuple[Piece, ...]:
    return (*wanted(view.cautions, SHORT_CAUTIONS), *wanted_of_unseen(view.not_seen), *_qualified(view))


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
    wanted=_wanted,
    one_sheet=True,
)
