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
from tracksworn.documents.sale.fitted_lots import BLOCK_BAR, LINE_BAR, FittedLot, in_block, in_lines, in_sheets
from tracksworn.documents.sale.view import Sale

ROOM: Final = {"A4": 249.9, "letter": 232.3}
"""How high the text of a sheet is, mm."""
HEAD: Final = 17.0
"""What the section's head and the columns' heads take of it."""
TRIES: Final = 4
TIGHTER: Final = 0.94
"""What is left of the room at the next try, where a sheet did not hold what was reckoned."""


class Layout(StrEnum):
    """How the catalogue tells of a lot."""

    LINES = "lines"
    BLOCKS = "blocks"


@dataclass(frozen=True, slots=True)
class Content:
    """A line of the table of contents."""

    name: str
    anchor: str
    sheet: str


@dataclass(frozen=True, slots=True)
class CataloguePlates:
    """The drawings of a catalogue and its lots in the room that each has."""

    layout: Layout
    distribution: Drawing
    scale: Drawing
    lots: tuple[FittedLot, ...]


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
    )


def _arrange(view: Sale, lay_out: LayOut, *, layout: Layout) -> Sheets:
    """Sheets as reckoned beforehand; laid out again only where they came out otherwise than the contents say."""
    room = ROOM[view.branding.paper] - HEAD
    lots = _draw(view, layout=layout).lots
    sheets = in_sheets(lots, room)
    contents = _contents(view, sheets, range(1, len(sheets) + 3))
    for _ in range(TRIES):
        laid_out = lay_out({"sheets": sheets, "contents": contents})
        whole = all(_sheet(laid_out, f"sheet-{n}") == _sheet(laid_out, f"sheet-end-{n}") for n in range(len(sheets)))
        if not whole:
            room *= TIGHTER
            sheets = in_sheets(lots, room)
        found = _contents(view, sheets, [_sheet(laid_out, anchor) for anchor in _anchors(len(sheets))])
        if whole and found == contents:
            break
        contents = found
    return laid_out


def _sheet(laid_out: Sheets, anchor: str) -> int:
    place = laid_out.place(anchor)
    return 0 if place is None else place[0]


def _anchors(count: int) -> tuple[str, ...]:
    return (*(f"sheet-{number}" for number in range(count)), "finding", "closing")


def _contents(view: Sale, sheets: Sequence[Sequence[FittedLot]], places: Sequence[int]) -> tuple[Content, ...]:
    """Which lots stand on which sheet, from 1, then what follows them."""
    names = [*(_from_to(sheet) for sheet in sheets), view.headings.finding, view.headings.closing]
    return tuple(
        Content(name, anchor, str(place + 1))
        for name, anchor, place in zip(names, _anchors(len(sheets)), places, strict=True)
    )


def _from_to(sheet: Sequence[FittedLot]) -> str:
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
