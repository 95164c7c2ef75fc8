"""How lots are called, listed and ordered."""

from random import Random

from hypothesis import given
from hypothesis import strategies as st
from sale_lots import many

from tracksworn.documents.sale.lot import Entry, faulty_lot
from tracksworn.documents.sale.named import listed, name, natural
from tracksworn.documents.sale.ranks import COLUMNS, UNKNOWN, ranks


def test_numbers_that_follow_on_one_another_are_drawn_together() -> None:
    assert listed(["101", "102", "103", "105", "106", "OXB-7", "9", "10", "11"]) == "101–103, 105, 106, OXB-7, 9–11"
    assert listed(["007", "008", "009"]) == "007, 008, 009"
    assert listed([]) == ""


def test_a_lot_without_a_number_goes_by_its_inspection_or_its_folder() -> None:
    seventh = many(7)[6]
    assert (seventh.lot, name(seventh)) == (None, "OXB-0007")
    assert name(faulty_lot(Entry(1, "lots/107/inspection.yaml"), [])) == "107"
    assert name(faulty_lot(Entry(1, "lone.yaml"), [])) == "lone.yaml"


def test_nine_comes_before_ten() -> None:
    assert sorted(["Lot 10", "lot 9", "lot 9b", "9", "10", "a"], key=natural) == [
        "9",
        "10",
        "a",
        "lot 9",
        "lot 9b",
        "Lot 10",
    ]


@given(st.lists(st.text("1²٣a Ä-", max_size=6), max_size=8))
def test_any_names_can_be_ordered(names: list[str]) -> None:
    keys = [natural(one) for one in names]
    assert min(keys, default=()) <= max(keys, default=())


def test_every_lot_has_a_place_by_every_column() -> None:
    lots = many(60)
    for said in ranks(lots):
        assert len(said.split(" ")) == len(COLUMNS)


def test_ranks_order_as_the_figures_do() -> None:
    lots = many(60)
    column = list(COLUMNS).index("whole")
    by_rank = {said.split(" ")[column]: lot for said, lot in zip(ranks(lots), lots, strict=True)}
    known = [by_rank[rank] for rank in sorted((rank for rank in by_rank if rank != UNKNOWN), key=int)]
    figures = [lot.read.whole.percent_worn for lot in known if lot.read is not None]
    assert figures == sorted(figures, key=float)  # type: ignore[arg-type]
    unknown = [lot for said, lot in zip(ranks(lots), lots, strict=True) if said.split(" ")[column] == UNKNOWN]
    assert unknown
    assert all(lot.read is None or lot.read.whole.percent_worn is None for lot in unknown)


def test_ranks_do_not_depend_on_the_order_of_the_list() -> None:
    lots = many(40)
    shuffled = list(lots)
    Random(3).shuffle(shuffled)
    places = dict(zip((lot.entry.place for lot in shuffled), ranks(shuffled), strict=True))
    assert [places[lot.entry.place] for lot in lots] == list(ranks(lots))
