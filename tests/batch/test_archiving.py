"""Documents put into an archive as they are written: once, noted only then, and left alone from then on."""

from dataclasses import replace
from pathlib import Path

import pytest
from archived import Clock, document
from sales import ORDER, Run, made_at_once, run, tree, write_lot, write_sale

from tracksworn.batch.archiving import Archivist
from tracksworn.batch.order import Made, Order
from tracksworn.inspection.faults import Failed
from tracksworn.inspection.sale_list import Listed
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.held import Sought


def with_data(listed: Listed, order: Order) -> Made:
    """A lot with a document that says of itself what it is; its bytes change with the inspection."""
    made = made_at_once(listed, order)
    if not made.files:
        return made
    assert made.lot.read is not None
    content = document(made.lot.read.number, mark=made.lot.read.fingerprint)
    return replace(made, files=dict.fromkeys(made.files, content))


@pytest.fixture
def sale(tmp_path: Path) -> Path:
    return write_sale(tmp_path / "sale", 2)


def archived(sale: Path, keeping: object = None, program: str = "this one") -> tuple[Run, int, list[str]]:
    """A run into an archive: what it came to, how many were new there, and what it holds."""
    with Archive.open(sale.parent / "records", new=True, clock=Clock()) as archive:
        archivist = Archivist(archive)
        done = run(sale, sale.parent / "out", program=program, make=with_data, keeping=keeping or archivist)
        return done, archivist.added, sorted({held.number for held in archive.find(Sought())})


def test_what_is_written_is_put_into_the_archive_once(sale: Path) -> None:
    done, added, held = archived(sale)
    assert (done.outcomes, added, held) == (["made", "made"], 2, ["OXB-1", "OXB-2"])
    done, added, held = archived(sale)
    assert (done.outcomes, added, held) == (["unchanged", "unchanged"], 0, ["OXB-1", "OXB-2"])


def test_what_was_made_without_is_taken_up(sale: Path) -> None:
    run(sale, sale.parent / "out", make=with_data)
    done, added, _ = archived(sale)
    assert (done.outcomes, added) == (["unchanged", "unchanged"], 2)


def test_an_archive_that_fails_ends_the_run_and_the_next_one_takes_it_up(sale: Path) -> None:
    class Refusing:
        def add(self, content: bytes) -> str | None:
            raise Failed("the machine refuses")

    with pytest.raises(Failed, match="the machine refuses"):
        archived(sale, Refusing())
    done, added, held = archived(sale)
    assert (done.outcomes, added, held) == (["unchanged", "made"], 2, ["OXB-1", "OXB-2"])


def test_what_has_changed_without_a_revision_of_its_own_is_told(sale: Path) -> None:
    archived(sale)
    write_lot(sale, 2, worn=70)
    done, added, _ = archived(sale)
    assert (done.outcomes, added) == (["unchanged", "faulty"], 0)
    assert "OXB-2-r0-listing.pdf: " in done.told[0]
    assert "is held already with other bytes" in done.told[0]
    assert "what has changed needs a revision of its own" in done.told[0]


def test_what_the_archive_holds_is_not_made_anew_for_another_program(sale: Path) -> None:
    archived(sale)
    before = tree(sale.parent / "out")
    done, added, _ = archived(sale, program="another")
    assert (done.outcomes, added) == (["unchanged", "unchanged"], 0)
    assert tree(sale.parent / "out") == before
    assert run(sale, sale.parent / "elsewhere", ORDER, "another", make=with_data).outcomes == ["made", "made"]
