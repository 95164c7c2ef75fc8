"""The index as a workbook for a clerk: lots, figures of all lots, and the cautions, in the reader's language.

It is dated by its lots and not by the clock, so that the same lots give the same bytes.
"""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from io import BytesIO
from typing import Any, Final

from tracksworn.documents.sale.build import day_of
from tracksworn.documents.sale.cells import Cell, hours_left, known
from tracksworn.documents.sale.lot import SaleLot
from tracksworn.documents.sale.view import LotView, ReadView, Sale
from tracksworn.documents.words.language import N_, Language

_LONGEST: Final = 32_000
"""Characters of a cell, of which the format allows 32 767."""
_PLAIN: Final = re.compile("0|[1-9][0-9]{0,14}")
"""A number that a cell holds to its last digit, of which it has 15."""


@dataclass(frozen=True, slots=True)
class _Column:
    head: str
    width: float
    cell: Callable[[SaleLot, LotView], Cell]
    style: str = "text"


def _of_lot(way: str) -> Callable[[SaleLot, LotView], Cell]:
    got = known(way)
    return lambda lot, _: got(lot)


def _told(tell: Callable[[ReadView], str]) -> Callable[[SaleLot, LotView], Cell]:
    return lambda _, view: None if view.read is None else tell(view.read)


def _hours_left_of(read: ReadView) -> str:
    return ", ".join(filter(None, (read.left.next, read.left.part, read.left.rest_on)))


_COLUMNS: Final = (
    _Column(N_("Lot"), 8, lambda lot, _: _number(lot.lot), "lot"),
    _Column(N_("Maker"), 14, _of_lot("read.maker")),
    _Column(N_("Model"), 14, _of_lot("read.model")),
    _Column(N_("Year"), 6, _of_lot("read.year"), "count"),
    _Column(N_("Serial number"), 20, _of_lot("read.serial")),
    _Column(N_("Machine hours"), 9, _of_lot("read.hours"), "hours"),
    _Column(N_("Inspected"), 11, _of_lot("read.inspected"), "day"),
    _Column(N_("Inspector"), 16, _of_lot("read.inspector")),
    _Column(N_("Overall, % worn"), 9, _of_lot("read.whole.percent_worn"), "strong"),
    _Column(N_("Bound"), 9, _told(lambda read: read.whole.bound)),
    _Column(N_("Low, %"), 7, _of_lot("read.whole.low"), "percent"),
    _Column(N_("High, %"), 7, _of_lot("read.whole.high"), "percent"),
    _Column(N_("Floor, %"), 7, _of_lot("read.whole.floor"), "percent"),
    _Column(N_("Ceiling, %"), 7, _of_lot("read.whole.ceiling"), "percent"),
    _Column(N_("Stage"), 26, _told(lambda read: read.whole.stage)),
    _Column(N_("Cost seen"), 8, _of_lot("read.whole.seen_share"), "share"),
    _Column(N_("Parts not seen"), 8, _of_lot("read.whole.unseen"), "count"),
    _Column(N_("Worst part"), 24, _told(lambda read: read.worst_part)),
    _Column(N_("Worst, % worn"), 8, _of_lot("read.worst.percent_worn"), "percent"),
    _Column(N_("Parts past limit"), 8, _of_lot("read.whole.past_limit"), "count"),
    _Column(N_("Hours left, at least"), 9, lambda lot, _: hours_left(lot).low, "hours"),
    _Column(N_("Hours left, at most"), 9, lambda lot, _: hours_left(lot).high, "hours"),
    _Column(N_("Hours left of"), 30, _told(_hours_left_of)),
    _Column(N_("To act on"), 50, _told(lambda read: "; ".join(filter(None, (read.past_limit, *read.acts))))),
    _Column(N_("Terms"), 30, _told(lambda read: read.verdict)),
    _Column(N_("Another look"), 40, lambda _, view: "; ".join(view.every_look)),
    _Column(N_("Wear chart"), 30, _told(lambda read: read.chart)),
    _Column(N_("Inspection"), 28, lambda _, view: view.record),
    _Column(N_("Faults"), 60, lambda lot, _: "; ".join(lot.faults)),
)  # fmt: skip

_STYLES: Final[Mapping[str, Mapping[str, object]]] = {
    "text": {},
    "lot": {"bold": True, "align": "left"},
    "count": {"num_format": "0"},
    "hours": {"num_format": "# ##0"},
    "percent": {"num_format": "0"},
    "strong": {"num_format": "0", "bold": True},
    "share": {"num_format": "0%"},
    "day": {"num_format": "yyyy-mm-dd", "align": "left"},
    "head": {"bold": True, "bottom": 2, "text_wrap": True, "valign": "top"},
    "wrapped": {"text_wrap": True, "valign": "top"},
    "link": {"font_color": "#1f5c6b", "underline": 1},
}


def write_workbook(lots: Sequence[SaleLot], view: Sale) -> bytes:
    """Numbers as numbers, days as days; every text stays a text, whatever it begins with."""
    import xlsxwriter  # noqa: PLC0415 - only where an index is written

    out, say = BytesIO(), Language(view.branding.language).say
    options = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    book = xlsxwriter.Workbook(out, options)
    day = day_of(lots)
    book.set_properties(
        {
            "title": view.identification.title,
            "author": view.branding.firm,
            "created": datetime(day.year, day.month, day.day),  # noqa: DTZ001 - a day, which is nowhere else another
        }
    )
    styles = {name: book.add_format({"font_name": "Arial", "font_size": 9, **how}) for name, how in _STYLES.items()}
    _write_lots(book.add_worksheet(_sheet_name(view.headings.lots)), lots, view, styles, say)
    _write_figures(book.add_worksheet(_sheet_name(view.headings.figures)), view, styles)
    _write_cautions(book.add_worksheet(_sheet_name(view.headings.cautions)), view, styles)
    book.close()
    return out.getvalue()


def _sheet_name(name: str) -> str:
    return name[:31]


def _write_lots(
    sheet: Any, lots: Sequence[SaleLot], view: Sale, styles: dict[str, Any], say: Callable[..., str]
) -> None:
    last = len(_COLUMNS)
    for place, column in enumerate(_COLUMNS):
        sheet.set_column(place, place, column.width)
        sheet.write_string(0, place, say(column.head), styles["head"])
    sheet.set_column(last, last + 8, 24)
    sheet.write_string(0, last, view.headings.documents, styles["head"])
    for row, (lot, shown) in enumerate(zip(lots, view.lots, strict=True), start=1):
        for place, column in enumerate(_COLUMNS):
            _write(sheet, (row, place), column.cell(lot, shown), styles[column.style])
        for place, one in enumerate(lot.documents, start=last):
            sheet.write_url(row, place, f"external:{one.name}", styles["link"], one.name)
    sheet.freeze_panes(1, 1)
    sheet.autofilter(0, 0, max(len(lots), 1), last - 1)
    sheet.set_landscape()
    sheet.set_paper(1 if view.branding.paper == "letter" else 9)
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0)


def _write_figures(sheet: Any, view: Sale, styles: dict[str, Any]) -> None:
    sheet.set_column(0, 0, 70)
    sheet.set_column(1, 1, 10)
    sheet.set_column(2, 2, 90)
    row = 0
    for text in (view.summary.headline, *view.summary.sentences):
        sheet.write_string(row, 0, text, styles["wrapped"])
        row += 1
    for cells, style in _counts(view):
        row += cells is None
        for place, cell in enumerate(cells or ()):
            _write(sheet, (row, place), cell, styles[style])
        row += cells is not None
    sheet.write_string(row + 1, 0, view.thresholds, styles["wrapped"])


def _counts(view: Sale) -> Iterator[tuple[tuple[Cell, ...] | None, str]]:
    """Rows with their style; None is an empty one."""
    words = view.headings
    yield None, "text"
    yield (words.stage, words.count), "head"
    for one in view.stages:
        yield (f"{one.name}, {one.range}", int(one.count)), "text"
    yield None, "text"
    yield (words.reasons, words.count, words.which), "head"
    for one in view.looks:
        yield (one.name, int(one.count), one.lots), "text"


def _write_cautions(sheet: Any, view: Sale, styles: dict[str, Any]) -> None:
    sheet.set_column(0, 0, 30)
    sheet.set_column(1, 1, 110)
    for row, one in enumerate(view.cautions):
        sheet.write_string(row, 0, one.title, styles["wrapped"])
        sheet.write_string(row, 1, f"{one.text} {one.references}".rstrip(), styles["wrapped"])


def _write(sheet: Any, at: tuple[int, int], cell: Cell, style: Any) -> None:
    if isinstance(cell, date):
        sheet.write_datetime(*at, cell, style)
    elif isinstance(cell, str):
        if cell:
            sheet.write_string(*at, cell[:_LONGEST], style)
    elif cell is not None:
        sheet.write_number(*at, cell, style)


def _number(lot: str | None) -> Cell:
    """A lot's number as one, so that 9 comes before 10; as a text where a number would not show it as it is written."""
    return int(lot) if lot is not None and _PLAIN.fullmatch(lot) else lot
