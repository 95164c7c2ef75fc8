"""Bit rot and foreign hands are found, and named by file."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from archived import Clock, document

from tracksworn.records.archive import checking
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.checking import check_index, check_log, check_records, check_strays, numbers_to_check
from tracksworn.records.archive.held import NotTaken


@pytest.fixture
def kept(archive: Archive) -> Archive:
    archive.add(document())
    archive.add(document(revision=1))
    archive.add(document("OLD-1", inspected="2020-01-01", issued="2020-01-01"))
    list(archive.expire("5y", date(2031, 5, 4)))
    return archive


def found(archive: Archive) -> list[str]:
    checked = check_records(archive, numbers_to_check(archive, None, 0))
    named = [damage for _, some in checked for damage in some]
    return [str(one) for one in (*check_log(archive), *check_strays(archive), *named)]


def change(path: Path) -> None:
    content = path.read_bytes()
    path.write_bytes(content[:-3] + bytes([content[-3] ^ 1]) + content[-2:])


def test_nothing_is_found_where_nothing_is_wrong(kept: Archive) -> None:
    assert found(kept) == []
    assert list(check_index(kept)) == []


ROT = "has changed since it was put there (bit rot, or somebody's hand)"


@pytest.mark.parametrize(
    ("name", "what"),
    [
        ("v1/content/OXB-0231-r0.pdf", f"OXB-0231/v1/content/OXB-0231-r0.pdf: {ROT}"),
        ("v2/content/OXB-0231-r1.json", f"OXB-0231/v2/content/OXB-0231-r1.json: {ROT}"),
        ("v1/inventory.json", "OXB-0231/v1/inventory.json: is not the file that v1/inventory.json.sha512 names"),
        ("inventory.json", "OXB-0231/inventory.json: the record is damaged: inventory.json is not the file that"),
        ("inventory.json.sha512", "OXB-0231/inventory.json: the record is damaged: inventory.json is not the file"),
        ("0=ocfl_object_1.1", "OXB-0231/0=ocfl_object_1.1: has changed"),
    ],
)
def test_one_changed_byte_is_named(kept: Archive, name: str, what: str) -> None:
    change(kept.files.folder("OXB-0231") / name)
    assert any(what in said for said in found(kept)), found(kept)


def remove_file(folder: Path) -> None:
    (folder / "v1/content/OXB-0231-r0.pdf").unlink()


def remove_inventory(folder: Path) -> None:
    (folder / "inventory.json").unlink()


def remove_all(folder: Path) -> None:
    folder.rename(folder.parents[5] / "elsewhere")


def put_beside(folder: Path) -> None:
    (folder / "v1/content/OXB-0231-r9.pdf").write_bytes(b"stray")


@pytest.mark.parametrize(
    ("hand", "what"),
    [
        (remove_file, "OXB-0231/v1/content/OXB-0231-r0.pdf: is missing"),
        (remove_inventory, "OXB-0231/inventory.json: the record is damaged: its inventory is missing"),
        (remove_all, "OXB-0231: the record is missing"),
        (put_beside, "OXB-0231/v1/content/OXB-0231-r9.pdf: was never put there"),
    ],
)
def test_what_is_missing_or_new_is_named(kept: Archive, hand: Callable[[Path], None], what: str) -> None:
    hand(kept.files.folder("OXB-0231"))
    (said,) = found(kept)
    assert said.endswith(what)


def test_a_record_that_was_swapped_whole_is_found(kept: Archive, tmp_path: Path) -> None:
    with Archive.open(tmp_path / "forged", new=True, clock=Clock()) as forged:
        forged.add(document(mark="forged"))
        forged.add(document(revision=1))
        target = kept.files.folder("OXB-0231")
        target.rename(tmp_path / "old")
        forged.files.folder("OXB-0231").rename(target)
    document_, facts = found(kept)
    assert document_.endswith("OXB-0231/v1/content/OXB-0231-r0.pdf: is another file than the log has")
    assert facts.endswith("OXB-0231/v1/content/OXB-0231-r0.json: is another file than the log has")


def test_a_record_that_nobody_added_is_found(kept: Archive, tmp_path: Path) -> None:
    with Archive.open(tmp_path / "other", new=True) as other:
        other.add(document("STRAY-1"))
        target = kept.files.folder("STRAY-1")
        target.parent.mkdir(parents=True)
        other.files.folder("STRAY-1").rename(target)
    (said,) = found(kept)
    assert said.endswith("STRAY-1: is no record that the log knows")


def test_a_tombstone_that_was_altered_is_found(kept: Archive) -> None:
    change(next(kept.files.folder("OLD-1").rglob("tombstone.json")))
    assert found(kept)[0].endswith(f"OLD-1/v1/content/tombstone.json: {ROT}")


def test_an_altered_log_is_found(kept: Archive) -> None:
    content = kept.log.acts.read_bytes()
    kept.log.acts.write_bytes(content.replace(b'"revision":1', b'"revision":3'))
    assert "log/acts.jsonl: the log's acts are not those of its checkpoint; the log was altered" in found(kept)


def test_an_index_that_says_otherwise_is_found(kept: Archive) -> None:
    with kept.index.writing() as writing:
        writing.connection.exec_driver_sql("UPDATE documents SET sha256 = 'ab' WHERE revision = 1")
    (said,) = check_index(kept)
    assert said.file == ("index.sqlite" if kept.index.in_sqlite else "the database")
    assert said.what.startswith("index and log differ about OXB-0231-r1.pdf; `tracksworn archive rebuild`")
    kept.rebuild()
    assert list(check_index(kept)) == []


def test_a_damaged_document_is_not_handed_out(kept: Archive) -> None:
    change(kept.files.folder("OXB-0231") / "v1/content/OXB-0231-r0.pdf")
    record = kept.show("OXB-0231")
    assert record is not None
    with pytest.raises(NotTaken, match=r"OXB-0231-r0\.pdf is damaged; `tracksworn archive verify` tells all of it"):
        kept.content(record.documents[0])


def test_nothing_is_added_to_a_damaged_record(kept: Archive) -> None:
    change(kept.files.folder("OXB-0231") / "inventory.json")
    with pytest.raises(NotTaken, match="record OXB-0231 is damaged"):
        kept.add(document(revision=2))


def test_an_index_is_made_anew_from_a_damaged_archive(kept: Archive) -> None:
    change(kept.files.folder("OXB-0231") / "inventory.json")
    kept.rebuild()
    record = kept.show("OXB-0231")
    assert record is not None
    assert [one.facts for one in record.documents] == [None, None]


def test_a_sample_is_drawn_by_its_seed(in_folder: Archive) -> None:
    for number in range(8):
        in_folder.add(document(f"S-{number}"))
    drawn = [tuple(numbers_to_check(in_folder, 3, seed)) for seed in range(8)]
    assert all(len(set(one)) == 3 for one in drawn)
    assert len(set(drawn)) > 1
    assert drawn[0] == tuple(numbers_to_check(in_folder, 3, 0))
    assert len(tuple(numbers_to_check(in_folder, 30, 0))) == 8


def test_what_the_index_lacks_or_has_beyond_the_log_is_named(kept: Archive) -> None:
    with kept.index.writing() as writing:
        writing.connection.exec_driver_sql("DELETE FROM documents WHERE revision = 1")
        writing.connection.exec_driver_sql("UPDATE documents SET act = 77 WHERE number = 'OLD-1'")
    assert [(one.number, one.what.split(";")[0]) for one in check_index(kept)] == [
        ("OXB-0231", "index and log differ about OXB-0231-r1.pdf"),
        ("OLD-1", "index and log differ about OLD-1-r0.pdf"),
        ("OLD-1", "index and log differ about OLD-1-r0.pdf"),
    ]


def test_the_log_is_read_once_for_many_records(in_folder: Archive, monkeypatch: pytest.MonkeyPatch) -> None:
    for number in range(5):
        in_folder.add(document(f"S-{number}"))
    change(in_folder.files.folder("S-4") / "v1/content/S-4-r0.pdf")
    monkeypatch.setattr(checking, "TOGETHER", 2)
    found_by_parts = list(check_records(in_folder, numbers_to_check(in_folder, None, 0)))
    assert [(number, len(some)) for number, some in found_by_parts] == [(f"S-{n}", int(n == 4)) for n in range(5)]
