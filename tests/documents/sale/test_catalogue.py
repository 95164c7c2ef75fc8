"""The printed catalogue: every lot on the sheet that the contents say, nothing cut that must be read."""

import re
from dataclasses import replace
from io import BytesIO
from itertools import pairwise
from typing import Any

import pikepdf
import pypdfium2 as pdfium
import pytest
from sale_lots import many, with_long_names

from tracksworn.documents.sale.build import sale
from tracksworn.documents.sale.catalogue import Layout, write_catalogue
from tracksworn.documents.sale.fitted_lots import FittedLot, in_block, in_lines, in_sheets
from tracksworn.documents.sale.index import LINES, index_files
from tracksworn.documents.sale.tables import write_lines

LOTS = many(30)


def texts(content: bytes) -> list[str]:
    pdf = pdfium.PdfDocument(content)
    try:
        return [page.get_textpage().get_text_range() for page in pdf]
    finally:
        pdf.close()


@pytest.mark.slow
@pytest.mark.parametrize("layout", Layout)
def test_every_lot_stands_on_the_sheet_that_the_contents_say(layout: Layout) -> None:
    view = sale(LOTS)
    first, *sheets = texts(write_catalogue(view, layout))
    ranges = re.findall(r"(\S+) – (\S+)[\s.]+(\d+)", first)
    assert ranges
    names = [lot.name for lot in view.lots]
    covered = []
    for start, end, sheet in ranges:
        some = names[names.index(start) : names.index(end) + 1]
        assert [name for name in some if name not in sheets[int(sheet) - 2]] == []
        covered += some
    numbered = {lot.name for lot in view.lots if lot.lot}
    assert numbered - set(covered) <= {names[-1]}  # a last sheet with one lot is no range


@pytest.mark.slow
@pytest.mark.parametrize("layout", Layout)
def test_long_names_stay_within_their_sheets(layout: Layout, monkeypatch: pytest.MonkeyPatch) -> None:
    from tracksworn.documents.render import pdf

    passes, lay_out = [], pdf._lay_out

    def counted(*of: Any) -> Any:
        passes.append(1)
        return lay_out(*of)

    monkeypatch.setattr(pdf, "_lay_out", counted)
    content = write_catalogue(sale(with_long_names(many(14)), language="de"), layout)
    assert len(passes) == 1  # heights were reckoned rightly
    assert "LOT-0001-" in "".join(texts(content)).replace("\r\n", "")


@pytest.mark.slow
def test_it_carries_the_lots_as_data_and_repeats_to_the_byte() -> None:
    files = index_files(LOTS[:6], catalogue=Layout.LINES)
    assert files == index_files(many(6), catalogue=Layout.LINES)
    with pikepdf.open(BytesIO(files["catalogue.pdf"])) as pdf:
        assert pdf.attachments[LINES].get_file().read_bytes() == write_lines(LOTS[:6])


def test_the_index_has_every_file() -> None:
    assert set(index_files(LOTS[:3])) == {"index.html", "index.csv", "index.xlsx", "index.jsonl", "index.parquet"}


def fitted(layout: Layout, lots: int = 200) -> list[FittedLot]:
    view = sale(with_long_names(many(lots)))
    return [(in_lines if layout is Layout.LINES else in_block)(lot, view.headings) for lot in view.lots]


@pytest.mark.parametrize("layout", Layout)
def test_sheets_hold_all_lots_in_order_and_no_more_than_fits(layout: Layout) -> None:
    lots = fitted(layout)
    sheets = in_sheets(lots, 230.0)
    assert [lot for sheet in sheets for lot in sheet] == lots
    for sheet, following in pairwise(sheets):
        taken = sum(lot.height for lot in sheet)
        assert taken <= 230.0
        assert taken + following[0].height > 230.0


def test_a_block_has_room_for_a_stage_and_a_share_that_take_two_lines_each() -> None:
    view = sale(LOTS[:1], language="de")
    (lot,) = view.lots
    read = lot.read
    assert read is not None
    reach = "Ungesehenes neu 70, an der Grenze 79"
    short = replace(read.whole, figure="74", bound="", interval="65 bis 84", stage="zweite Hälfte", reach=reach)
    long = replace(short, bound="≈", stage="zweite Hälfte, eventuell nahe der Grenze")
    heights = [in_block(replace(lot, read=replace(read, whole=whole)), view.headings).height for whole in (short, long)]
    assert heights[1] - heights[0] == pytest.approx(3.58)


def test_a_lot_number_is_never_cut() -> None:
    for layout in Layout:
        assert all(one.lot == one.view.lot for one in fitted(layout) if one.view.lot)


def test_no_reason_gives_way_to_the_findings_and_what_hours_rest_on_is_said() -> None:
    for one in fitted(Layout.LINES):
        read = one.view.read
        assert all(look in one.reasons for look in one.view.looks if read)
        assert bool(one.acts) is bool(read and read.acts)
        rest_on = read.left.rest_on if read else ""
        assert rest_on == one.soonest or rest_on in one.rest_on
        assert (read.verdict if read else "") in one.reasons


@pytest.mark.parametrize("language", ["en", "de", "es", "fr"])
def test_no_part_loses_its_side_in_any_language(language: str) -> None:
    view = sale(LOTS, language=language)
    for one in (in_lines(lot, view.headings) for lot in view.lots):
        read = one.view.read
        soonest = (read.left.next or read.left.part or read.left.rest_on) if read else ""
        assert (one.worst_part, one.soonest) == (read.worst_part if read else "", soonest)


def test_a_lot_that_needs_another_look_says_why_in_lines_and_in_blocks() -> None:
    view = sale(LOTS)
    for lot in view.lots:
        told = in_lines(lot, view.headings).reasons
        assert ", ".join(lot.looks) in told or lot.read is None
        block = [one.text for one in in_block(lot, view.headings).told if one.label == view.headings.why]
        assert block == ([", ".join(lot.looks)] if lot.looks and lot.read else [])
