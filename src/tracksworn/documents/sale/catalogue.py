"""The printed catalogue: figures of all lots and a table of contents, then lot by lot, lists, cautions, signature."""

from collections.abc import Sequence
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
HEAD: Final = 18.0
"""What the section's head and the columns' heads take of it."""
ROWS: Final = 28
"""Lines of its lists for which the first sheet has room."""
IN_A_LINE: Final = 60
"""Characters of lots' names that stand on one line of a list there."""
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
    lists_first: bool  # whether the lists by which lots are found stand on the first sheet


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
        lists_first=_rows(view) <= ROWS,
    )


def _rows(view: Sale) -> int:
    """How many lines the lists of lots would take on the first sheet, with a table of contents of three columns."""
    told = [*(one.lots for one in view.looks), *(one.lots for one in view.machines)]
    return sum(1 + len(lots) // IN_A_LINE for lots in told) + len(view.lots) // 30


def _arrange(view: Sale, lay_out: LayOut, *, layout: Layout) -> Sheets:
    """Sheets as reckoned beforehand; laid out again, with less on each, only where one came out as two."""
    room = ROOM[view.branding.paper] - HEAD
    lots = _draw(view, layout=layout).lots
    for _ in range(TRIES):
        sheets = in_sheets(lots, room)
        laid_out = lay_out({"sheets": sheets, "ranges": tuple(map(_range, sheets))})
        if all(_on(laid_out, f"sheet-{place}") == _on(laid_out, f"sheet-end-{place}") for place in range(len(sheets))):
            break
        room *= TIGHTER
    return laid_out


def _on(laid_out: Sheets, anchor: str) -> int | None:
    place = laid_out.place(anchor)
    return None if place is None else place[0]


def _range(sheet: Sequence[FittedLot]) -> str:
    """From which lot to which, for the table of contents."""
    first, last = sheet[0].view.name, sheet[-1].view.name
    return first if first == last else f"{first} – {last}"


def write_catalogue(view: Sale, layout: Layout, attachments: Sequence[Attachment] = ()) -> bytes:
    """The catalogue as PDF. Raises Refused where a caution is not in it."""
    from tracksworn.documents.render.gate.printed import check_words  # noqa: PLC0415
    from tracksworn.documents.render.pdf import write_pdf  # noqa: PLC0415

    kind = catalogue_of(layout)
    content = write_pdf(view, kind, kind.draw(view), None, attachments)
    check_words(content, kind.wanted(view))
    return content
