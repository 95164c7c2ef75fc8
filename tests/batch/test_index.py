"""An index is written anew where anything that it follows from has changed, and only there."""

from collections.abc import Mapping, Sequence
from importlib.metadata import PackageNotFoundError
from pathlib import Path
from typing import Any

import pytest
from sales import LETTERHEAD, MARK, ORDER, AtOnce, write_lot, write_sale

from tracksworn.batch import program
from tracksworn.batch.index import Index, write_index
from tracksworn.batch.journal import Journal
from tracksworn.batch.order import Order
from tracksworn.batch.places import Folder
from tracksworn.batch.run import Batch
from tracksworn.documents.sale.lot import SaleLot
from tracksworn.inspection.dossier import Stationery
from tracksworn.inspection.sale_list import read_sale


@pytest.fixture
def sale(tmp_path: Path) -> Path:
    return write_sale(tmp_path / "sale", 2)


@pytest.fixture(autouse=True)
def firms(monkeypatch: pytest.MonkeyPatch) -> list[str | None]:
    """Whose letterhead each index had; the files of the index are short ones."""
    told: list[str | None] = []

    def short(lots: Sequence[SaleLot], *, stationery: Stationery | None, **_: Any) -> Mapping[str, bytes]:
        told.append(None if stationery is None else stationery.letterhead.firm)
        more = {"index.parquet": b"PAR1"} if program.installed("pyarrow") != "none" else {}
        return {"index.csv": f"{len(lots)} lots".encode(), **more}

    monkeypatch.setattr("tracksworn.documents.sale.index.index_files", short)
    monkeypatch.setattr(program, "version", lambda _: "22.0")
    return told


def missing(name: str) -> str:
    raise PackageNotFoundError(name)


def indexed(
    sale: Path, order: Order = ORDER, by: str = "this one", catalogue: str | None = None, title: str = ""
) -> Index:
    place = Folder(sale.parent / "out")
    journal = Journal(place, sale, order, by)
    with place.held():
        return write_index(list(Batch(read_sale(sale).lots, journal, AtOnce())), journal, catalogue, title)


def test_an_index_that_stands_is_left(sale: Path, firms: list[str | None]) -> None:
    assert indexed(sale) == Index(("index.csv", "index.parquet"), written=True, former=())
    assert indexed(sale) == Index(("index.csv", "index.parquet"), written=False, former=())
    assert firms == ["Millrace Plant Survey"]


def test_whatever_it_follows_from_writes_it_anew(sale: Path) -> None:
    indexed(sale)
    assert indexed(sale, catalogue="lines").written
    assert indexed(sale, Order(("listing",), ("pdf",), paper="letter")).written
    assert indexed(sale, title="Oxbow, 24 May 2031").written
    assert indexed(sale, by="another").written
    write_lot(sale, 2, worn=70)
    assert indexed(sale).written
    (sale / "shared" / "mark.svg").write_text(MARK.replace("V8Z", "V7Z"))
    assert indexed(sale).written
    (sale / "shared" / "letterhead.yaml").write_text(LETTERHEAD.replace("Millrace", "Millpond"))
    assert indexed(sale).written
    assert not indexed(sale).written


@pytest.mark.parametrize("note", [b"", b"[]", b"{}", b'{"digest": "x", "outputs": [{}]}', b"\xff"])
def test_a_note_that_does_not_read_writes_it_anew(sale: Path, note: bytes) -> None:
    indexed(sale)
    (sale.parent / "out" / ".batch" / "index.json").write_bytes(note)
    assert indexed(sale).written


def test_the_letterhead_is_that_of_the_first_lot_that_can_be_read(sale: Path, firms: list[str | None]) -> None:
    write_lot(sale, 1, worn="many")
    indexed(sale)
    write_lot(sale, 2, worn="many")
    indexed(sale)
    assert firms == ["Millrace Plant Survey", None]


def test_a_table_that_can_be_written_by_now_is_and_one_that_cannot_is_told(
    sale: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(program, "version", missing)
    assert indexed(sale).names == ("index.csv",)
    monkeypatch.setattr(program, "version", lambda _: "22.0")
    assert indexed(sale).names == ("index.csv", "index.parquet")
    monkeypatch.setattr(program, "version", missing)
    assert indexed(sale) == Index(("index.csv",), written=True, former=("index.parquet",))


def test_what_an_index_has_left_behind_is_told_as_long_as_it_stands(
    sale: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    indexed(sale)
    monkeypatch.setattr(program, "version", missing)
    for _ in range(2):
        assert indexed(sale).former == ("index.parquet",)
    write_lot(sale, 2, worn=70)
    assert indexed(sale) == Index(("index.csv",), written=True, former=("index.parquet",))
    (sale.parent / "out" / "index.parquet").unlink()
    assert indexed(sale).former == ()
    monkeypatch.setattr(program, "version", lambda _: "22.0")
    assert indexed(sale) == Index(("index.csv", "index.parquet"), written=True, former=())
    assert indexed(sale).former == ()
