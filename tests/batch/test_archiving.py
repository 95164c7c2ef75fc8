"""Documents put into an archive as they are written: once, noted only then, and left alone from then on."""

import shutil
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from archived import Clock, document
from records.sealed import AT, signer
from sales import ORDER, Run, made_at_once, run, tree, write_lot, write_sale

from tracksworn.assessment.fleet import Look
from tracksworn.batch.archiving import Archivist
from tracksworn.batch.order import Made, Order
from tracksworn.batch.run import OLD_SEALS, Coming
from tracksworn.batch.sealing import Sealer
from tracksworn.batch.work import make_lot
from tracksworn.documents.sale.lot import Read
from tracksworn.inspection.faults import Failed
from tracksworn.inspection.sale_list import Listed
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.held import Sought
from tracksworn.records.sealing.seal import Manner


def with_data(listed: Listed, order: Order, mark: str = "", kind: str = "") -> Made:
    """A lot with a document that says what it is; its data change with the inspection, its bytes also by `mark`."""
    made = made_at_once(listed, order)
    if not made.files:
        return made
    assert made.lot.read is not None
    content = document(made.lot.read.number, note=made.lot.read.fingerprint, mark=mark, kind=kind)
    return replace(made, files={name: content if name.endswith(".pdf") else b"x" for name in made.files})


def to_be_sealed(mark: str) -> Callable[[Listed, Order], Made]:
    return lambda listed, order: with_data(listed, order, mark, "listing")


class Sealing:
    """Appends what no seal is to every PDF; `sealed` are their names."""

    def __init__(self, identity: str = "a key") -> None:
        self.identity = identity
        self.sealed: list[str] = []

    def through(self, coming: Iterator[Coming]) -> Iterator[Coming]:
        for one in coming:
            yield one if not isinstance(one, Made) else replace(one, files=dict(map(self._sealed, one.files.items())))

    def _sealed(self, file: tuple[str, bytes]) -> tuple[str, bytes]:
        name, content = file
        if name.endswith(".pdf"):
            self.sealed.append(name)
            content += f"% {self.identity}\n".encode()
        return name, content

    def written(self, names: Iterable[str]) -> None:
        assert set(names) >= set(self.sealed[-1:])


@pytest.fixture
def sale(tmp_path: Path) -> Path:
    return write_sale(tmp_path / "sale", 2)


def archived(
    sale: Path, keeping: object = None, where: str = "records", order: Order = ORDER, **more: object
) -> tuple[Run, int, list[str]]:
    """A run into an archive: what it came to, how many were new there, and what it holds."""
    with Archive.open(sale.parent / where, new=True, clock=Clock()) as archive:
        archivist = Archivist(archive)
        done = run(sale, sale.parent / "out", order, **{"make": with_data, "keeping": keeping or archivist, **more})  # type: ignore[arg-type]
        return done, archivist.added, sorted({held.number for held in archive.find(Sought())})


def without_notes(sale: Path) -> None:
    shutil.rmtree(sale.parent / "out" / ".batch" / "lots")


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
        def has(self, read: Read, digest: str) -> bool:
            return False

        def instead(self, content: bytes) -> None:
            return None

        def add(self, content: bytes) -> None:
            raise Failed("the machine refuses")

    with pytest.raises(Failed, match="the machine refuses"):
        archived(sale, Refusing())
    done, added, held = archived(sale)
    assert (done.outcomes, added, held) == (["unchanged", "made"], 2, ["OXB-1", "OXB-2"])


def test_what_has_changed_without_a_revision_of_its_own_is_told(sale: Path) -> None:
    archived(sale)
    before = tree(sale.parent / "out")
    inspection = write_lot(sale, 2, worn=70)
    sealing = Sealing("")
    done, added, _ = archived(sale, sealing=sealing)
    assert (done.outcomes, added) == (["unchanged", "faulty"], 0)
    why = "OXB-2-r0.pdf is held already, with other data; what has changed needs a revision of its own"
    what = f"the archive does not take OXB-2-r0-listing.pdf: {why}; nothing is written for this lot"
    assert done.told == [f"{inspection}:1:1: {what}"]
    assert sealing.sealed == []
    assert tree(sale.parent / "out") == before
    assert archived(sale)[0].outcomes == ["unchanged", "faulty"]


def test_what_the_archive_holds_is_not_made_anew_for_another_program(sale: Path) -> None:
    archived(sale)
    before = tree(sale.parent / "out")
    done, added, _ = archived(sale, program="another")
    assert (done.outcomes, added) == (["unchanged", "unchanged"], 0)
    assert tree(sale.parent / "out") == before
    assert run(sale, sale.parent / "elsewhere", ORDER, "another", make=with_data).outcomes == ["made", "made"]


def test_another_archive_or_one_that_was_lost_is_filled(sale: Path) -> None:
    archived(sale)
    done, added, held = archived(sale, where="others")
    assert (done.outcomes, added, held) == (["unchanged", "unchanged"], 2, ["OXB-1", "OXB-2"])
    shutil.rmtree(sale.parent / "records")
    done, added, held = archived(sale)
    assert (done.outcomes, added, held) == (["unchanged", "unchanged"], 2, ["OXB-1", "OXB-2"])


def test_what_the_archive_holds_of_the_same_data_is_not_sealed_anew(sale: Path) -> None:
    archived(sale, make=to_be_sealed("one"), sealing=Sealing())
    before = tree(sale.parent / "out")
    without_notes(sale)
    (sale.parent / "out" / "OXB-2-r0-listing.pdf").unlink()
    sealing = Sealing()
    done, added, _ = archived(sale, make=to_be_sealed("two"), sealing=sealing)
    assert (done.outcomes, added, sealing.sealed) == (["made", "made"], 0, [])
    assert tree(sale.parent / "out") == before
    assert archived(sale, make=to_be_sealed("two"), sealing=Sealing())[0].outcomes == ["unchanged", "unchanged"]


def test_another_format_leaves_what_is_archived(sale: Path) -> None:
    archived(sale, make=to_be_sealed("one"), sealing=Sealing())
    before = tree(sale.parent / "out")
    more = Order(("listing",), ("pdf", "html"))
    sealing = Sealing()
    done, added, _ = archived(sale, order=more, make=to_be_sealed("two"), sealing=sealing)
    assert (done.outcomes, added, sealing.sealed) == (["made", "made"], 0, [])
    now = tree(sale.parent / "out")
    assert {name: now[name] for name in before} == before
    assert sorted(set(now) - set(before)) == ["OXB-1-r0-listing.html", "OXB-2-r0-listing.html"]


def test_a_renewed_certificate_leaves_what_is_archived(sale: Path) -> None:
    archived(sale, make=to_be_sealed("one"), sealing=Sealing())
    done, added, _ = archived(sale, make=to_be_sealed("two"), sealing=Sealing("another key"))
    assert (done.outcomes, done.asked, added) == (["unchanged", "unchanged"], [], 0)
    assert {one.warnings for one in done.taken} == {(OLD_SEALS,)}
    done, _, _ = archived(sale, make=to_be_sealed("two"), sealing=Sealing())
    assert {one.warnings for one in done.taken} == {()}


def test_seals_of_another_archive_are_no_others(sale: Path) -> None:
    archived(sale, where="for-practice", make=to_be_sealed("one"), sealing=Sealing("a practice key"))
    sealing = Sealing("a key")
    done, added, _ = archived(sale, make=to_be_sealed("one"), sealing=sealing)
    assert (done.outcomes, added, len(sealing.sealed)) == (["made", "made"], 2, 2)
    for content in tree(sale.parent / "out").values():
        assert content.endswith(b"% a key\n")
    sealing = Sealing("another key")
    assert run(sale, sale.parent / "out", make=to_be_sealed("one"), sealing=sealing).outcomes == ["made", "made"]


def test_what_was_made_anew_meanwhile_becomes_what_the_archive_holds(sale: Path) -> None:
    archived(sale, make=to_be_sealed("one"))
    before = tree(sale.parent / "out")
    (sale.parent / "out" / "OXB-2-r0-listing.pdf").unlink()
    assert run(sale, sale.parent / "out", make=to_be_sealed("two")).outcomes == ["unchanged", "made"]
    assert tree(sale.parent / "out") != before
    done, added, _ = archived(sale, make=to_be_sealed("two"))
    assert (done.outcomes, done.asked, added) == (["unchanged", "made"], [], 0)
    assert tree(sale.parent / "out") == before
    assert archived(sale)[0].outcomes == ["unchanged", "unchanged"]


def test_what_was_made_in_another_way_is_no_stand_in(sale: Path) -> None:
    archived(sale)
    without_notes(sale)
    done, added, _ = archived(sale, make=lambda listed, order: with_data(listed, order, "in German"))
    assert (done.outcomes, added) == (["faulty", "faulty"], 0)
    assert "is held already, made in another way, and only sealed ones stand beside each other" in done.told[0]
    assert {one.lot.looks for one in done.taken} == {(Look.UNMADE,)}, "its files have no faults"


@pytest.mark.slow
@pytest.mark.parametrize("other", [{"language": "de"}, {"paper": "letter"}])
def test_an_unsealed_sheet_in_another_language_or_on_other_paper_is_no_stand_in(
    tmp_path: Path, other: dict[str, str]
) -> None:
    sale, order = write_sale(tmp_path / "sale", 1), Order(("listing",), ("pdf",))
    archived(sale, order=order, make=make_lot)
    before = tree(sale.parent / "out")
    without_notes(sale)
    assert archived(sale, order=order, make=make_lot)[0].outcomes == ["made"]
    done, added, _ = archived(sale, order=replace(order, **other), make=make_lot)  # type: ignore[arg-type]
    assert (done.outcomes, added, tree(sale.parent / "out")) == (["faulty"], 0, before)


def test_what_keeps_its_old_seal_is_never_taken_for_newly_sealed(sale: Path) -> None:
    archived(sale, make=to_be_sealed("one"), sealing=Sealing())
    without_notes(sale)
    for _ in range(2):
        done, _, _ = archived(sale, make=to_be_sealed("two"), sealing=Sealing("another key"))
        assert {one.warnings for one in done.taken} == {(OLD_SEALS,)}
    sealing = Sealing("another key")
    assert run(sale, sale.parent / "out", make=to_be_sealed("two"), sealing=sealing).outcomes == ["made", "made"]


def test_of_documents_that_are_not_sealed_only_one_is_taken(sale: Path) -> None:
    both = Order(("listing", "full"), ("pdf",))

    def two(listed: Listed, order: Order) -> Made:
        made = with_data(listed, order)
        return replace(made, files={name: with_data(listed, both, name).files[name] for name in made.files})

    done, added, _ = archived(sale, order=both, make=two)
    assert (done.outcomes, added, tree(sale.parent / "out")) == (["faulty", "faulty"], 0, {})
    assert "OXB-1-r0.pdf is another one of this run, and only sealed ones stand beside each other" in done.told[0]


@pytest.mark.slow
def test_a_sealed_sheet_is_known_again_by_its_data_and_the_way_it_was_made(tmp_path: Path) -> None:
    sale = write_sale(tmp_path / "sale", 1)
    order = Order(("listing", "full"), ("pdf",), sealed=True)
    sealers = [Sealer(signer(), Manner(), clock=lambda: AT) for _ in range(3)]
    done, added, _ = archived(sale, order=order, make=make_lot, sealing=sealers[0])
    assert (done.outcomes, added, str(sealers[0].tally)) == (["made"], 2, "2 documents sealed")
    before = tree(sale.parent / "out")
    without_notes(sale)
    done, added, _ = archived(sale, order=order, make=make_lot, sealing=sealers[1])
    assert (done.outcomes, added, str(sealers[1].tally)) == (["made"], 0, "0 documents sealed")
    done, added, _ = archived(sale, order=replace(order, language="de"), make=make_lot, sealing=sealers[2])
    assert (done.outcomes, added, str(sealers[2].tally)) == (["faulty"], 0, "0 documents sealed")
    assert "OXB-1-r0-full.pdf is held already, made in another language, in other units" in "".join(done.told)
    assert tree(sale.parent / "out") == before
