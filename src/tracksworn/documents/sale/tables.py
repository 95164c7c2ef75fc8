"""The lots as tables for other programs: CSV, JSON Lines, Parquet. Columns and words are English and never renamed."""

import csv
import json
import unicodedata
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from io import BytesIO, StringIO
from itertools import dropwhile
from typing import Final

from tracksworn.documents.sale.cells import Cell, hours_left, known
from tracksworn.documents.sale.lot import Part, SaleLot
from tracksworn.documents.sale.lot_json import as_json

DANGEROUS: Final = frozenset("=+-@\t\r")
"""What a spreadsheet takes for the beginning of a formula."""
_UNSEEN: Final = frozenset({"Cf", "Cc", "Zs", "Zl", "Zp"})
_POINTS: Final = 1
"""Decimals of percents: finer than any of them is known."""
_SHARE: Final = 3


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its name, what its cells are, how one is got from a lot, and to how many decimals."""

    name: str
    kind: type
    got: Callable[[SaleLot], Cell]
    decimals: int | None = None

    def cell(self, lot: SaleLot) -> Cell:
        """What stands there for a lot."""
        value = self.got(lot)
        return round(value, self.decimals) if self.decimals is not None and isinstance(value, float) else value


def _part(part: Part | None) -> str | None:
    """`left bottom roller 3`, as inspections name it."""
    if part is None:
        return None
    return " ".join(str(word) for word in (part.side, part.component, part.position) if word is not None)


def _next_part(lot: SaleLot) -> str | None:
    return _part(known("read.hours_left.part")(lot))


def _joined(words: Iterable[str], between: str = "; ") -> str | None:
    return between.join(words) or None


COLUMNS: Final[tuple[Column, ...]] = (
    Column("place_in_list", int, known("entry.place")),
    Column("lot", str, known("lot")),
    Column("number", str, known("read.number")),
    Column("revision", int, known("read.revision")),
    Column("maker", str, known("read.maker")),
    Column("model", str, known("read.model")),
    Column("year", int, known("read.year")),
    Column("serial", str, known("read.serial")),
    Column("layout", str, known("read.layout")),
    Column("machine_hours", float, known("read.hours")),
    Column("hours_known_from", str, known("read.hours_from")),
    Column("inspected", date, known("read.inspected")),
    Column("inspector", str, known("read.inspector")),
    Column("place", str, known("read.place")),
    Column("wear_chart", str, known("read.chart")),
    Column("overall_percent_worn", float, known("read.whole.percent_worn"), _POINTS),
    Column("overall_low", float, known("read.whole.low"), _POINTS),
    Column("overall_high", float, known("read.whole.high"), _POINTS),
    Column("overall_bound", str, known("read.whole.bound")),
    Column("overall_floor", float, known("read.whole.floor"), _POINTS),
    Column("overall_ceiling", float, known("read.whole.ceiling"), _POINTS),
    Column("overall_stage", str, known("read.whole.stage")),
    Column("overall_all_by_eye", bool, known("read.whole.by_eye")),
    Column("share_of_cost_seen", float, known("read.whole.seen_share"), _SHARE),
    Column("parts_not_seen", int, known("read.whole.unseen")),
    Column("parts_past_limit", int, known("read.whole.past_limit")),
    Column("parts_near_limit", int, known("read.whole.near_limit")),
    Column("worst_part", str, lambda lot: _part(known("read.worst.part")(lot))),
    Column("worst_percent_worn", float, known("read.worst.percent_worn"), _POINTS),
    Column("worst_low", float, known("read.worst.low"), _POINTS),
    Column("worst_high", float, known("read.worst.high"), _POINTS),
    Column("hours_left_low", float, lambda lot: hours_left(lot).low, _POINTS),
    Column("hours_left_high", float, lambda lot: hours_left(lot).high, _POINTS),
    Column("next_limit_hours_low", float, known("read.hours_left.low"), _POINTS),
    Column("next_limit_hours_high", float, known("read.hours_left.high"), _POINTS),
    Column("next_limit_of", str, lambda lot: None if known("read.hours_left.beaten")(lot) else _next_part(lot)),
    Column("next_limit_without_worst_part", bool, known("read.hours_left.without_worst")),
    Column("to_act_on", str, lambda lot: _joined(dict.fromkeys(act.code for act in lot.read.acts) if lot.read else ())),
    Column("terms", str, known("read.terms")),
    Column("verdict", str, known("read.verdict")),
    Column("another_look", str, lambda lot: _joined(lot.looks)),
    Column("documents", str, lambda lot: _joined(one.name for one in lot.documents)),
    Column("inspection", str, known("entry.inspection")),
    Column("fingerprint", str, known("read.fingerprint")),
    Column("faults", str, lambda lot: _joined(lot.faults)),
)  # fmt: skip
"""In their order. Percents have one decimal, shares three; JSON Lines have full precision."""


def write_csv(lots: Sequence[SaleLot]) -> bytes:
    """RFC 4180 in UTF-8; texts that a spreadsheet would take for a formula begin with an apostrophe."""
    out = StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow([column.name for column in COLUMNS])
    writer.writerows([_text(column.cell(lot)) for column in COLUMNS] for lot in lots)
    return out.getvalue().encode("utf-8")


def write_lines(lots: Sequence[SaleLot]) -> bytes:
    """One lot a line as JSON in UTF-8, in full precision, with all that the index knows of it."""
    return "".join(f"{json.dumps(as_json(lot), ensure_ascii=False)}\n" for lot in lots).encode("utf-8")


def write_parquet(lots: Sequence[SaleLot]) -> bytes | None:
    """The same columns as CSV with their types; None where pyarrow is not installed."""
    try:
        import pyarrow as pa  # noqa: PLC0415 - an optional extra
        from pyarrow import parquet  # noqa: PLC0415
    except ImportError:
        return None
    kinds: Mapping[type, pa.DataType] = {
        str: pa.string(), int: pa.int32(), float: pa.float64(), bool: pa.bool_(), date: pa.date32()
    }  # fmt: skip
    arrays = [pa.array([_plain(column.cell(lot)) for lot in lots], kinds[column.kind]) for column in COLUMNS]
    out = BytesIO()
    parquet.write_table(pa.table(arrays, names=[column.name for column in COLUMNS]), out)
    return out.getvalue()


def guarded(text: str) -> str:
    """A text with an apostrophe before it where a spreadsheet would take it for a formula."""
    return f"'{text}" if is_dangerous(text) else text


def is_dangerous(text: str) -> bool:
    """Whether a text begins, after any blanks and invisible characters, as a formula does."""
    return next(dropwhile(_is_passed_over, text), "x") in DANGEROUS


def _is_passed_over(character: str) -> bool:
    return character not in DANGEROUS and unicodedata.category(character) in _UNSEEN


def _text(cell: Cell) -> str | int | float:
    """A cell as CSV has it: numbers as numbers, days by ISO 8601, nothing where nothing is known."""
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, (int, float)):
        return cell
    return cell.isoformat() if isinstance(cell, date) else guarded(str(cell))


def _plain(cell: Cell) -> Cell:
    return str(cell) if isinstance(cell, str) else cell
