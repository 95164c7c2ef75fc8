"""A run does what is asked of every lot, only where something has changed, and the same whatever comes between."""

import errno
import json
import os
import shutil
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from pathlib import Path

import pytest
from sales import MARK, ORDER, AtOnce, made_at_once, photo, run, states, tree, write_lot, write_sale

from tracksworn.assessment.fleet import Look
from tracksworn.batch import run as running
from tracksworn.batch.journal import Journal, Note
from tracksworn.batch.order import Made, Order, Templates, failed
from tracksworn.batch.places import Elsewhere, Folder, place_of
from tracksworn.batch.run import Batch
from tracksworn.documents.sale.lot_json import as_json
from tracksworn.inspection.faults import Failed
from tracksworn.inspection.sale_list import Listed, read_sale

_TWICE = "the same number and revision; nothing is written for this one"
ALL = ["lot-1", "lot-2", "lot-3", "lot-4"]


@pytest.fixture
def sale(tmp_path: Path) -> Path:
    return write_sale(tmp_path / "sale")


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "out"


def test_every_lot_has_its_documents(sale: Path, out: Path) -> None:
    done = run(sale, out)
    assert done.outcomes == ["made"] * 4
    assert sorted(tree(out)) == [f"OXB-{place}-r0-listing.pdf" for place in range(1, 5)]
    assert [one.lot.read.number for one in done.taken if one.lot.read] == ["OXB-1", "OXB-2", "OXB-3", "OXB-4"]


def test_an_unchanged_run_makes_and_touches_nothing(sale: Path, out: Path) -> None:
    first = run(sale, out)
    run(sale, out)  # notes by now hold the times of files that were too new
    before = states(out)
    again = run(sale, out)
    assert again.asked == []
    assert again.outcomes == ["unchanged"] * 4
    assert [one.lot for one in again.taken] == [one.lot for one in first.taken]
    assert states(out) == before


def changed_photo(sale: Path) -> None:
    (sale / "lot-2" / "photos" / "a.jpg").write_bytes(photo(9))


def changed_in_the_same_moment(sale: Path) -> None:
    """As many bytes, and the time that the file had."""
    path = sale / "lot-2" / "inspection.yaml"
    state = path.stat()
    path.write_text(path.read_text().replace("about 32", "about 33"))
    os.utime(path, ns=(state.st_atime_ns, state.st_mtime_ns))


def changed_chart(sale: Path) -> None:
    path = sale / "shared" / "chart.yaml"
    path.write_text(path.read_text().replace("90.0 mm", "91.0 mm"))


def changed_mark(sale: Path) -> None:
    (sale / "shared" / "mark.svg").write_text(MARK.replace("V8Z", "V7Z"))


def changed_link(sale: Path) -> None:
    """A chart that is a link leads to another file."""
    (sale / "shared" / "other.yaml").write_text((sale / "shared" / "chart.yaml").read_text().replace("90.0", "92.0"))
    (sale / "shared" / "chart.yaml").unlink()
    (sale / "shared" / "chart.yaml").symlink_to("other.yaml")


@pytest.mark.parametrize(
    ("change", "anew"),
    [
        (changed_photo, ["lot-2"]),
        (changed_in_the_same_moment, ["lot-2"]),
        (changed_chart, ALL),
        (changed_mark, ALL),
        (changed_link, ALL),
        (lambda sale: write_lot(sale, 5), ["lot-5"]),
    ],
)
def test_what_has_changed_makes_exactly_its_lots_anew(
    sale: Path, out: Path, change: Callable[[Path], object], anew: list[str]
) -> None:
    run(sale, out)
    run(sale, out)
    change(sale)
    assert run(sale, out).asked == anew
    assert run(sale, out).asked == []


def test_a_file_that_was_only_touched_makes_nothing_anew(sale: Path, out: Path) -> None:
    run(sale, out)
    for path in sale.rglob("*.yaml"):
        os.utime(path, (1, 1))
    assert run(sale, out).asked == []


OTHERS = {
    "documents": ("listing", "full"),
    "formats": ("pdf", "html"),
    "language": "de",
    "units": "imperial",
    "paper": "letter",
    "templates": Templates(Path("own"), (("extra.css", "p { margin: 0 }"),)),
    "sealed": True,
}


@pytest.mark.parametrize("asked", [one.name for one in fields(Order)])
def test_another_order_makes_all_anew(sale: Path, out: Path, asked: str) -> None:
    order = replace(ORDER, **{asked: OTHERS[asked]})  # type: ignore[arg-type]
    run(sale, out)
    assert run(sale, out, order).asked == ALL
    assert run(sale, out, order).asked == []


def test_the_same_order_in_other_words_makes_nothing_anew(sale: Path, out: Path) -> None:
    run(sale, out, Order(("listing", "full"), ("pdf", "html")))
    assert run(sale, out, Order(("full", "listing"), ("html", "pdf"))).asked == []


def test_another_program_makes_all_anew(sale: Path, out: Path) -> None:
    run(sale, out)
    assert run(sale, out, program="another").asked == ALL


def test_where_templates_lie_makes_nothing_anew(sale: Path, out: Path) -> None:
    orders = [Order(("listing",), ("pdf",), templates=Templates(Path(folder), (("extra.css", ""),))) for folder in "ab"]
    run(sale, out, orders[0])
    assert run(sale, out, orders[1]).asked == []


def test_a_sale_that_was_moved_with_its_results_stands(sale: Path, out: Path, tmp_path: Path) -> None:
    run(sale, out)
    moved = sale.rename(tmp_path / "moved")
    assert run(moved, out.rename(tmp_path / "results")).asked == []


@pytest.mark.parametrize("content", [None, b"mine", b""])
def test_a_document_that_is_gone_or_altered_is_made_anew(sale: Path, out: Path, content: bytes | None) -> None:
    run(sale, out)
    before = tree(out)
    document = out / "OXB-3-r0-listing.pdf"
    document.unlink() if content is None else document.write_bytes(content)
    assert run(sale, out).asked == ["lot-3"]
    assert tree(out) == before


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b'{"tracksworn": "batch note 2"}', b"\xff", b"[" * 100_000])
def test_a_note_that_does_not_read_makes_its_lot_anew(sale: Path, out: Path, content: bytes) -> None:
    run(sale, out)
    note = sorted((out / ".batch" / "lots").iterdir())[0]
    note.write_bytes(content)
    assert len(run(sale, out).asked) == 1


def test_a_fault_in_one_lot_keeps_no_other(sale: Path, out: Path) -> None:
    path = write_lot(sale, 2, worn="many")
    done = run(sale, out)
    assert done.outcomes == ["made", "faulty", "made", "made"]
    assert done.told[0].startswith(f"{path}:10:")
    assert done.taken[1].lot.read is None
    assert sorted(tree(out)) == ["OXB-1-r0-listing.pdf", "OXB-3-r0-listing.pdf", "OXB-4-r0-listing.pdf"]
    write_lot(sale, 2)
    mended = run(sale, out)
    assert mended.asked == ["lot-2"]
    assert mended.outcomes == ["unchanged", "made", "unchanged", "unchanged"]


def test_a_name_that_is_not_utf8_keeps_no_other_lot(sale: Path, out: Path) -> None:
    (sale / "lot-2").rename(os.fsdecode(os.fsencode(sale) + b"/l\xf6t"))
    done = run(sale, out)
    assert done.outcomes == ["made", "made", "made", "faulty"]
    assert done.told[0].endswith("is not UTF-8; rename that folder")
    assert json.dumps(as_json(done.taken[3].lot), ensure_ascii=False).encode()


def test_strict_stops_at_the_first_in_the_order_of_the_list(sale: Path, out: Path) -> None:
    write_lot(sale, 2, worn="many")
    done = run(sale, out, strict=True)
    assert done.outcomes == ["made", "faulty"]
    assert list(tree(out)) == ["OXB-1-r0-listing.pdf"]


def test_of_two_lots_with_one_number_the_first_in_the_list_wins(sale: Path, out: Path) -> None:
    path = write_lot(sale, 3, number="OXB-1")
    done = run(sale, out)
    assert done.outcomes == ["made", "made", "faulty", "made"]
    assert done.told == [f"{path}:1:1: OXB-1-r0-listing.pdf is that of lot-1/inspection.yaml already: {_TWICE}"]
    before = tree(out)
    assert run(sale, out).outcomes == ["unchanged", "unchanged", "faulty", "unchanged"]
    assert tree(out) == before


def test_a_record_is_one_lot_whichever_documents_it_has(sale: Path, out: Path) -> None:
    write_lot(sale, 2, number="OXB-1")
    listed = sale / "lots.csv"
    listed.write_text("inspection,documents\nlot-1,listing\nlot-2,full\n")
    done = run(listed, out)
    assert done.outcomes == ["made", "faulty"]
    assert "OXB-1-r0 is that of lot-1 already" in done.told[0]
    assert done.taken[1].lot.looks == (Look.UNMADE,)


def test_the_first_wins_also_where_the_other_stood_before(sale: Path, out: Path, tmp_path: Path) -> None:
    write_lot(sale, 1, worn="many")
    write_lot(sale, 3, number="OXB-1")
    assert run(sale, out).outcomes == ["faulty", "made", "made", "made"]
    write_lot(sale, 1)
    assert run(sale, out).outcomes == ["made", "unchanged", "faulty", "unchanged"]
    run(sale, tmp_path / "undisturbed")
    assert tree(out) == tree(tmp_path / "undisturbed")


def test_a_lot_that_cannot_be_read_keeps_what_it_stands_under(sale: Path, out: Path) -> None:
    run(sale, out)
    before = tree(out)
    write_lot(sale, 1, worn="many")
    path = write_lot(sale, 3, number="OXB-1")
    done = run(sale, out)
    assert done.outcomes == ["faulty", "unchanged", "faulty", "unchanged"]
    assert done.told[1] == f"{path}:1:1: OXB-1-r0-listing.pdf is that of lot-1/inspection.yaml already: {_TWICE}"
    assert done.left_over == ("OXB-1-r0-listing.pdf", "OXB-3-r0-listing.pdf")
    assert tree(out) == before


def test_what_lots_have_left_behind_is_told_and_stays(sale: Path, out: Path) -> None:
    run(sale, out)
    (sale / "lot-4" / "inspection.yaml").unlink()
    write_lot(sale, 1, number="OXB-9")
    done = run(sale, out)
    assert done.left_over == ("OXB-1-r0-listing.pdf", "OXB-4-r0-listing.pdf")
    assert set(done.left_over) < set(tree(out))
    (out / "OXB-1-r0-listing.pdf").unlink()
    assert run(sale, out).left_over == ("OXB-4-r0-listing.pdf",)


def test_a_list_gives_lots_their_numbers_and_documents(sale: Path, out: Path) -> None:
    listing = sale / "lots.csv"
    listing.write_text("lot,inspection,documents\n17,lot-3,\n,lot-1/inspection.yaml,full listing\n")
    done = run(listing, out)
    assert [one.lot.lot for one in done.taken] == ["17", "1"]
    assert sorted(tree(out)) == ["OXB-1-r0-full.pdf", "OXB-1-r0-listing.pdf", "OXB-3-r0-listing.pdf"]
    assert run(listing, out).asked == []
    listing.write_text("lot,inspection,documents\n18,lot-3,\n,lot-1/inspection.yaml,full listing\n")
    assert run(listing, out).asked == ["lot-3"]


def test_a_line_that_becomes_faulty_is_told_though_its_documents_stand(sale: Path, out: Path) -> None:
    listing = sale / "lots.csv"
    listing.write_text("inspection,documents\nlot-1,\n")
    run(listing, out)
    listing.write_text("inspection,documents\nlot-1,lising\n")
    done = run(listing, out)
    assert done.outcomes == ["faulty"]
    assert done.left_over == ("OXB-1-r0-listing.pdf",)


def test_a_list_in_another_order_makes_nothing_anew(sale: Path, out: Path) -> None:
    listing = sale / "lots.csv"
    listing.write_text("inspection\nlot-1\nlot-2\n")
    run(listing, out)
    listing.write_text("inspection\nlot-2\nlot-1\n")
    done = run(listing, out)
    assert done.outcomes == ["unchanged", "unchanged"]
    assert [(one.lot.entry.place, one.lot.entry.inspection) for one in done.taken] == [(1, "lot-2"), (2, "lot-1")]


def test_a_machine_that_fails_a_lot_is_told_apart_from_a_fault(sale: Path, out: Path) -> None:
    def make(listed: Listed, order: Order) -> Made:
        return failed(listed, "no memory left") if "lot-2" in listed.name else AtOnce().make(listed, order)

    done = run(sale, out, make=make)
    assert done.outcomes == ["made", "failed", "made", "made"]
    assert done.told == [f"{sale / 'lot-2' / 'inspection.yaml'}: no memory left"]


def test_a_full_disk_ends_the_run_and_leaves_what_stands_whole(
    sale: Path, out: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    genuine, left = os.fsync, iter(range(4))  # of two lots, each with its folder

    def full(handle: int) -> None:
        if next(left, None) is None:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        genuine(handle)

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(Failed, match=f"^cannot write to {out}: No space left on device$"):
        run(sale, out)
    monkeypatch.undo()
    assert sorted(tree(out)) == ["OXB-1-r0-listing.pdf", "OXB-2-r0-listing.pdf"]
    run(sale, tmp_path / "undisturbed")
    assert run(sale, out).asked == ["lot-3", "lot-4"]
    assert tree(out) == tree(tmp_path / "undisturbed")


@pytest.mark.parametrize("before", [True, False])
def test_a_stray_folder_with_a_documents_name_fails_that_lot_alone(sale: Path, out: Path, before: bool) -> None:
    if before:
        run(sale, out)
        (out / "OXB-2-r0-listing.pdf").unlink()
    (out / "OXB-2-r0-listing.pdf" / "mine").mkdir(parents=True)
    done = run(sale, out)
    assert done.outcomes == (
        ["unchanged", "failed", "unchanged", "unchanged"] if before else ["made", "failed"] + ["made"] * 2
    )
    refused = f"cannot write to {out}: OXB-2-r0-listing.pdf there is a folder; move it away"
    assert done.told == [f"{sale / 'lot-2' / 'inspection.yaml'}: {refused}"]
    shutil.rmtree(out / "OXB-2-r0-listing.pdf")
    assert run(sale, out).asked == ["lot-2"]


def test_an_object_that_must_not_be_replaced_fails_its_lot_alone(sale: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = place_of("memory://yard/kept")
    assert isinstance(place, Elsewhere)
    put = place._system.pipe_file

    def retained(path: str, content: bytes) -> None:
        if path.endswith("OXB-2-r0-listing.pdf"):
            raise PermissionError("under retention")
        put(path, content)

    monkeypatch.setattr(place._system, "pipe_file", retained)
    done = run(sale, place)
    assert done.outcomes == ["made", "failed", "made", "made"]
    assert done.told[0].endswith("memory://yard/kept refuses OXB-2-r0-listing.pdf: PermissionError: under retention")
    place._system.store.clear()


def test_a_place_that_takes_nothing_any_more_ends_the_run(
    sale: Path, out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone(*_: object) -> None:
        raise Failed("it is gone")

    monkeypatch.setattr(Folder, "_take_another", gone)
    (out / "OXB-1-r0-listing.pdf").mkdir(parents=True)
    with pytest.raises(Failed, match="it is gone"):
        run(sale, out)


def test_lots_that_stand_come_without_any_worker(sale: Path, out: Path) -> None:
    run(sale, out)
    write_lot(sale, 3, worn=70)
    workers = AtOnce()
    lots = iter(Batch(read_sale(sale).lots, Journal(Folder(out), sale, ORDER, "this one"), workers))
    assert [next(lots).outcome, next(lots).outcome, workers.asked] == ["unchanged", "unchanged", []]
    assert [one.outcome for one in lots] == ["made", "unchanged"]


def test_no_more_than_so_many_that_stand_wait_for_one_that_is_made(
    sale: Path, out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    class AllAtOnce(AtOnce):
        def made(self, lots: object, order: Order) -> Iterator[Made]:
            yield from [made_at_once(listed, order) for listed in lots]  # type: ignore[attr-defined]

    monkeypatch.setattr(running, "MOST_STANDING", 2)
    seen: list[str] = []

    class Seen(Journal):
        def note_of(self, listed: Listed) -> Note | None:
            seen.append(listed.name)
            return super().note_of(listed)

    for place in range(5, 10):
        write_lot(sale, place)
    run(sale, out)
    for place in (1, 6):
        write_lot(sale, place, worn=70)
    lots = iter(Batch(read_sale(sale).lots, Seen(Folder(out), sale, ORDER, "this one"), AllAtOnce()))
    assert next(lots).outcome == "made"
    assert len(set(seen)) == 3
    done = [one.outcome for one in lots]
    assert done == ["unchanged"] * 4 + ["made"] + ["unchanged"] * 3


def test_two_batches_at_once_into_one_folder_the_second_is_refused(sale: Path, out: Path) -> None:
    words = f"^another batch is writing to {out}; wait until it has ended, or name another folder$"
    with Folder(out).held(), pytest.raises(Failed, match=words):
        run(sale, out)
    assert run(sale, out).outcomes == ["made"] * 4


def test_what_a_killed_run_has_left_beside_is_cleared(sale: Path, out: Path) -> None:
    left = out / ".tracksworn-writing-abcdef"
    left.mkdir(parents=True)
    (left / "half.pdf").write_bytes(b"half")
    run(sale, out)
    assert not left.exists()


def test_a_file_in_the_place_of_the_folder_is_told(sale: Path, out: Path) -> None:
    out.write_text("mine")
    with pytest.raises(Failed, match="what stands there is no folder"):
        run(sale, out)


def test_notes_are_the_same_but_for_times_whatever_came_between(sale: Path, out: Path, tmp_path: Path) -> None:
    run(sale, tmp_path / "undisturbed", ORDER)
    write_lot(sale, 2, worn="many")
    run(sale, out)
    write_lot(sale, 2)
    run(sale, out)
    names = [
        sorted(path.name for path in (one / ".batch" / "lots").iterdir()) for one in (out, tmp_path / "undisturbed")
    ]
    assert names[0] == names[1]


def test_an_index_tells_of_faults_by_paths_from_the_list(
    sale: Path, out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    chart = sale / "shared" / "chart.yaml"
    chart.write_text(chart.read_text().replace("90.0 mm", "many"))
    (sale / "lots.csv").write_text("inspection,documents\nlot-1,\nlot-2,lising\n,full\n")
    monkeypatch.chdir(sale.parent)
    paths = ["shared/chart.yaml", "lots.csv", "lots.csv"]
    for listing in (Path("sale/lots.csv"), sale / "lots.csv"):
        done = run(listing, out)
        assert done.told[0].startswith(f"{listing.parent}/")
        assert [one.lot.faults[0].split(":")[0] for one in done.taken] == paths
        assert str(sale.parent) not in repr([one.lot for one in done.taken])
    monkeypatch.chdir(sale)
    done = run(Path("lots.csv"), out)
    assert [one.lot.faults[0].split(":")[0] for one in done.taken] == paths


def test_what_a_lot_failed_of_stands_on_no_page(sale: Path, out: Path) -> None:
    def make(listed: Listed, order: Order) -> Made:
        return failed(listed, f"cannot read {listed.inspection.parent}/a.jpg")

    taken = run(sale, out, make=make).taken[0]
    assert taken.told == (f"{sale / 'lot-1' / 'inspection.yaml'}: cannot read {sale / 'lot-1'}/a.jpg",)
    assert (taken.lot.faults, taken.lot.looks) == ((), (Look.UNMADE,))
