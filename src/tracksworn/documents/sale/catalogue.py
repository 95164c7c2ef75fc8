"""The printed catalogue: figures of all lots and a table of contents, then lot by lot, lists, cautions, signature."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import partial
from typing import Final

from tracksworn.documents.attached import Attachment
from tracksworn.documents.drawing.distribution import draw_distribution
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.whole_bar import draw_scale
from tracksworn.documents.render.fitting import WIDTH
from tracksworn.documents.render.gate.wanted import wanted
from tracksworn.documents.render.kind import Kind, LayOut, Sheets
from tracksworn.documents.sale.fitted_lots import (
    BLOCK_BAR,
    LINE_BAR,
    FittedLot,
    in_block,
    in_lines,
    in_sheets,
    labels_width,
)
from tracksworn.documents.sale.view import Sale

ROOM: Final = {"A4": 249.9, "letter": 232.3}
"""How high the text of a sheet is, mm."""
HEAD: Final = {"lines": 27.0, "blocks": 19.0}
"""What the section's head, the columns' heads, the key and the caution take of it."""
ROWS: Final = {"A4": 24, "letter": 22}
"""Lines of its lists for which the first sheet has room."""
IN_A_LINE: Final = 60
"""Characters of lots' names that stand on one line of the list by reason there."""
IN_HALF_A_LINE: Final = 30
"""The same of the list by machine, which stands in two columns."""
TRIES: Final = 4
TIGHTER: Final = 0.94
"""What is left of the room at the next try, where a sheet did not hold what was reckoned."""


class Layout(StrEnum):
    """How the catalogue tells of a lot."""

    LINES = "lines"
    BLOCKS = "blocks"


@dataclass(frozen=True, slots=True)
class CataloguePlates:
    """The drawings of a catalogue and its lots in the room that each has."""

    layout: Layout
    distribution: Drawing
    scale: Drawing
    lots: tuple[FittedLot, ...]
    labels: float  # how wide they stand in a block, mm


def catalogue_of(layout: Layout) -> Kind[Sale]:
    """The kind of document that a catalogue in that layout is."""
    return Kind(
        name="catalogue",
        draw=partial(_draw, layout=layout),
        width=lambda view: WIDTH,  # noqa: ARG005
        sheet_styles=lambda view: ("print.css", f"{view.branding.paper.lower()}.css", "catalogue-print.css"),
        screen_styles=(),
        wanted=lambda view: wanted(view.cautions),
        arrange=partial(_arrange, layout=layout),
    )


def _draw(view: Sale, *, layout: Layout) -> CataloguePlates:
    fit = in_lines if layout is Layout.LINES else in_block
    width = LINE_BAR if layout is Layout.LINES else BLOCK_BAR
    return CataloguePlates(
        layout=layout,
        distribution=draw_distribution(view.distribution),
        scale=draw_scale(width, view.distribution.limit, view.headings.reach),
        lots=tuple(fit(lot, view.headings) for lot in view.lots),
        labels=labels_width(view.headings),
    )


def _lists_first(view: Sale) -> int:
    """How many of its two lists the first sheet is reckoned to hold: lots by reason, then those by machine."""
    room, contents = ROWS[view.branding.paper], len(view.lots) // 30
    by_reason = contents + _rows((one.lots for one in view.looks), IN_A_LINE)
    by_machine = 2 + _rows((one.lots for one in view.machines), IN_HALF_A_LINE) // 2
    return int(by_reason <= room) + int(by_reason + by_machine <= room)


def _rows(lists: Iterable[str], in_a_line: int) -> int:
    """How many lines such lists of lots take."""
    return sum(1 + len(lots) // in_a_line for lots in lists)


def _arrange(view: Sale, lay_out: LayOut, *, layout: Layout) -> Sheets:
    """Sheets as reckoned beforehand; laid out again, with less on each, only where one came out as two."""
    room, lists_first = ROOM[view.branding.paper] - HEAD[layout], _lists_first(view)
    lots = _draw(view, layout=layout).lots
    for _ in range(TRIES):
        sheets = in_sheets(lots, room)
        first = {"which_first": lists_first > 0, "machines_first": lists_first > 1}
        laid_out = lay_out({"sheets": sheets, "ranges": tuple(map(_range, sheets)), **first})
        if lists_first and (_on(laid_out, "sheet-0") or 0) > 1:
            lists_first -= 1
            continue
        if all(_on(laid_out, f"sheet-{place}") == _on(laid_out, f"sheet-end-{place}") for place in range(len(sheets))):
            break
        room *= TIGHTER
    return laid_out


def _on(laid_out: Sheets, anchor: str) -> int | None:
    place = laid_out.place(anchor)
    return None if place is None else place[0]


def _range(sheet: Sequence[FittedLot]) -> str:
    """From which lot to which, of those that have a number."""
    names = [one.view.name for one in sheet if one.view.lot] or [one.view.name for one in sheet]
    first, last = names[0], names[-1]
    return first if first == last else f"{first} – {last}"


def write_catalogue(view: Sale, layout: Layout, attachments: Sequence[Attachment] = ()) -> bytes:
    """The catalogue as PDF. Raises Refused where a caution is not in it."""
    from tracksworn.documents.render.pdf import write_pdf  # noqa: PLC0415

    kind = catalogue_of(layout)
    return write_pdf(view, kind, kind.draw(view), None, attachments)
