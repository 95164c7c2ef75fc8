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

from tracksworn.documents.sale.lot import HoursLeft, SaleLot, Worst

Cell = str | int | float | bool | date | None
DANGEROUS: Final = frozenset("=+-@\t\r")
"""What a spreadsheet takes for the beginning of a formula."""
_UNSEEN: Final = frozenset({"Cf", "Cc", "Zs", "Zl", "Zp"})
_POINTS: Final = 1
"""Decimals of percents: finer than any of them is known."""
_SHARE: Final = 3


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its name, what its cells are, and how one is got from a lot."""

    name: str
    kind: type
    cell: Callable[[SaleLot], Cell]


def _read(name: str, kind: type, label: str | None = None) -> Column:
    return Column(label or name, kind, lambda lot: None if lot.read is None else getattr(lot.read, name))


def _whole(name: str, kind: type, label: str, decimals: int | None = None) -> Column:
    def cell(lot: SaleLot) -> Cell:
        value = None if lot.read is None else getattr(lot.read.whole, name)
        return value if decimals is None or value is None else round(value, decimals)

    return Column(label, kind, cell)


def _worst(name: str, label: str) -> Column:
    def cell(lot: SaleLot) -> Cell:
        value = None if lot.read is None or lot.read.worst is None else getattr(lot.read.worst, name)
        return None if value is None else round(value, _POINTS)

    return Column(label, float, cell)


def _left(name: str, label: str) -> Column:
    def cell(lot: SaleLot) -> Cell:
        value = None if lot.read is None or lot.read.hours_left is None else getattr(lot.read.hours_left, name)
        return None if value is None else round(value, _POINTS)

    return Column(label, float, cell)


def _part(told: Worst | HoursLeft | None) -> str | None:
    if told is None:
        return None
    words = (told.part.side, told.part.component, told.part.position)
    return " ".join(str(word) for word in words if word is not None)


def _joined(words: Iterable[str], between: str = "; ") -> str | None:
    return between.join(words) or None


COLUMNS: Final[tuple[Column, ...]] = (
    Column("place_in_list", int, lambda lot: lot.entry.place),
    Column("lot", str, lambda lot: lot.lot),
    _read("number", str),
    _read("revision", int),
    _read("maker", str),
    _read("model", str),
    _read("year", int),
    _read("serial", str),
    _read("layout", str),
    _read("hours", float, "machine_hours"),
    _read("hours_from", str, "hours_known_from"),
    _read("inspected", date),
    _read("inspector", str),
    _read("place", str),
    _read("chart", str, "wear_chart"),
    _whole("percent_worn", float, "overall_percent_worn", _POINTS),
    _whole("low", float, "overall_low", _POINTS),
    _whole("high", float, "overall_high", _POINTS),
    _whole("bound", str, "overall_bound"),
    _whole("floor", float, "overall_floor", _POINTS),
    _whole("ceiling", float, "overall_ceiling", _POINTS),
    _whole("stage", str, "overall_stage"),
    _whole("by_eye", bool, "overall_all_by_eye"),
    _whole("seen_share", float, "share_of_cost_seen", _SHARE),
    _whole("unseen", int, "parts_not_seen"),
    _whole("past_limit", int, "parts_past_limit"),
    _whole("near_limit", int, "parts_near_limit"),
    Column("worst_part", str, lambda lot: None if lot.read is None else _part(lot.read.worst)),
    _worst("percent_worn", "worst_percent_worn"),
    _worst("low", "worst_low"),
    _worst("high", "worst_high"),
    _left("low", "hours_left_low"),
    _left("high", "hours_left_high"),
    Column("hours_left_of", str, lambda lot: None if lot.read is None else _part(lot.read.hours_left)),
    Column("to_act_on", str, lambda lot: _joined(dict.fromkeys(act.code for act in lot.read.acts) if lot.read else ())),
    _read("terms", str),
    _read("verdict", str),
    Column("another_look", str, lambda lot: _joined(lot.looks)),
    Column("documents", str, lambda lot: _joined(one.name for one in lot.documents)),
    Column("inspection", str, lambda lot: lot.entry.inspection),
    _read("fingerprint", str),
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
    return "".join(f"{json.dumps(lot.as_json(), ensure_ascii=False)}\n" for lot in lots).encode("utf-8")


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
