"""Tables for other programs, read back by others: csv, json, calamine, pyarrow."""

import csv
import json
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from io import BytesIO, StringIO

import pyarrow.parquet
import pytest
import time_machine
from hypothesis import given
from hypothesis import strategies as st
from python_calamine import CalamineWorkbook
from sale_lots import many

from tracksworn.documents.sale.build import sale
from tracksworn.documents.sale.lot import SaleLot
from tracksworn.documents.sale.lot_json import lot_of_json
from tracksworn.documents.sale.tables import COLUMNS, guarded, is_dangerous, write_csv, write_lines, write_parquet
from tracksworn.documents.sale.workbook import write_workbook

LOTS = many(40)
FORMULA = "=cmd|' /C calc'!A0"


def called(maker: str) -> tuple[SaleLot, ...]:
    first = LOTS[0]
    assert first.read is not None
    return (replace(first, read=replace(first.read, maker=maker)), *LOTS[1:])


def rows_of(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(content.decode("utf-8"), newline="")))


def sheet_of(lots: tuple[SaleLot, ...]) -> list[list[object]]:
    book = CalamineWorkbook.from_filelike(BytesIO(write_workbook(lots, sale(lots))))
    return [list(row) for row in book.get_sheet_by_index(0).to_python()]


def test_csv_has_every_lot_and_every_column() -> None:
    rows = rows_of(write_csv(LOTS))
    assert len(rows) == len(LOTS)
    assert list(rows[0]) == [column.name for column in COLUMNS]
    first = LOTS[0].read
    assert first is not None
    assert first.whole.percent_worn is not None
    assert float(rows[0]["overall_percent_worn"]) == round(first.whole.percent_worn, 1)
    assert rows[0]["inspected"] == first.inspected.isoformat()
    assert rows[7]["faults"].startswith("lots/107/inspection.yaml:31:11: ")
    assert rows[7]["overall_percent_worn"] == ""


# OWASP, "CSV Injection": cells that begin with =, +, -, @, tab or return may be run by a spreadsheet.
@pytest.mark.parametrize(
    "text", [FORMULA, "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "  =1", "\u200b=1", "\ufeff-1", "\u00a0@a"]
)
def test_a_text_that_begins_as_a_formula_is_guarded(text: str) -> None:
    assert guarded(text) == f"'{text}"
    assert rows_of(write_csv(called(text)))[0]["maker"] == f"'{text}"


@pytest.mark.parametrize("text", ["Hollin", "H-640E", "a=b", "", "'=1", "ā", "5 - 3"])
def test_any_other_text_is_left_as_it_is(text: str) -> None:
    assert guarded(text) == text


@given(st.text())
def test_what_is_guarded_is_never_dangerous(text: str) -> None:
    assert not is_dangerous(guarded(text))


def test_numbers_stay_numbers_though_they_begin_with_a_minus() -> None:
    first = LOTS[0]
    assert first.read is not None
    below = replace(first, read=replace(first.read, whole=replace(first.read.whole, low=-2.04)))
    assert rows_of(write_csv([below]))[0]["overall_low"] == "-2.0"


def test_lines_are_the_lots_in_full_precision() -> None:
    said = [json.loads(line) for line in write_lines(LOTS).decode("utf-8").splitlines()]
    assert tuple(map(lot_of_json, said)) == LOTS


def test_parquet_has_the_same_columns_with_their_types() -> None:
    content = write_parquet(LOTS)
    assert content is not None
    table = pyarrow.parquet.read_table(BytesIO(content))
    assert table.column_names == [column.name for column in COLUMNS]
    assert table.num_rows == len(LOTS)
    assert str(table.schema.field("inspected").type) == "date32[day]"
    assert table["overall_percent_worn"].null_count == sum(
        lot.read is None or lot.read.whole.percent_worn is None for lot in LOTS
    )


def test_the_workbook_keeps_texts_as_texts_and_numbers_as_numbers() -> None:
    head, first, *_ = sheet_of(called(FORMULA))
    row = dict(zip(map(str, head), first, strict=False))
    assert row["Maker"] == FORMULA
    assert row["Lot"] == 101.0
    assert isinstance(row["Overall, % worn"], float)
    assert row["Inspected"] == LOTS[0].read.inspected if LOTS[0].read else date.min


def test_every_reason_and_every_part_past_its_limit_stands_in_the_workbook() -> None:
    heads, *rows = sheet_of(LOTS)
    act, look, left = (heads.index(head) for head in ("To act on", "Another look", "Hours left, at least"))
    for lot, row in zip(LOTS, rows, strict=True):
        assert len(str(row[look]).split("; ")) == len(lot.looks) or not lot.looks
        past = lot.read is not None and lot.read.whole.past_limit > 0
        assert ("past limit" in str(row[act])) is past
        assert row[left] == 0.0 or not past


@pytest.mark.parametrize(
    ("lot", "cell"),
    [
        ("9", 9.0),
        ("0", 0.0),
        ("007", "007"),
        ("999999999999999", 999999999999999.0),
        ("9999999999999999", "9999999999999999"),
    ],
)
def test_a_lot_number_in_the_workbook_is_no_other(lot: str, cell: object) -> None:
    head, first, *_ = sheet_of((replace(LOTS[0], lot=lot), *LOTS[1:3]))
    assert first[head.index("Lot")] == cell


def test_the_workbook_has_figures_and_every_caution() -> None:
    view = sale(LOTS)
    book = CalamineWorkbook.from_filelike(BytesIO(write_workbook(LOTS, view)))
    assert len(book.sheet_names) == 3
    cautions = [str(row[1]) for row in book.get_sheet_by_index(2).to_python()]
    assert [any(text.startswith(one.text) for text in cautions) for one in view.cautions] == [True] * 8


@pytest.mark.parametrize(
    "write", [write_csv, write_lines, write_parquet, lambda lots: write_workbook(lots, sale(lots))]
)
@pytest.mark.parametrize("lots", [LOTS, tuple(lot for lot in many(60) if lot.read is None)])
def test_the_same_lots_give_the_same_bytes_at_any_time(
    write: Callable[[Sequence[SaleLot]], bytes], lots: Sequence[SaleLot]
) -> None:
    with time_machine.travel(date(2031, 5, 20), tick=False):
        before = write(lots)
    with time_machine.travel(date(2033, 11, 2), tick=False):
        assert write(lots) == before


def test_an_index_without_a_lot_that_could_be_read_is_dated_by_no_clock() -> None:
    faulty = tuple(lot for lot in many(60) if lot.read is None)
    assert sale(faulty).identification.issued == "1980-01-01"
