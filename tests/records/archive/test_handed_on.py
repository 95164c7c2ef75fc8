"""Holds and tombstones go to another archive with the records, in files that anybody reads, and count there."""

import json
import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import bagit
import ocfl
import pytest
from archived import Clock, NotWaiting, document
from records import grown
from records.archive.test_faults import damages
from records.archive.test_growth import claim, with_all
from records.verifying.recorded import NUMBER

from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.bags import export, take_in
from tracksworn.records.archive.checking import check_records
from tracksworn.records.archive.held import Hold, NotTaken, Sought, TakenHold, TakenTombstone
from tracksworn.records.archive.holds import holds_json
from tracksworn.records.archive.tombstones import read_tombstone

YEARS_LATER = Clock(datetime(2038, 1, 2, 3, 4, 5, tzinfo=UTC))
HELD_SINCE = "2031-05-04T09:30:00Z"


@pytest.fixture
def giving(in_folder: Archive) -> Archive:
    """One with a record that two holds keep, one that expired, and one that expired in three forms."""
    in_folder.add(document("HELD-1"))
    in_folder.hold("HELD-1", "claim LM-77")
    in_folder.hold("HELD-1", "court order, Größe of the rim")
    in_folder.add(document("OLD-1", kind="full"))
    in_folder.add(document("OLD-1", kind="listing"))
    with_all(in_folder)
    list(in_folder.expire("5y", date(2041, 5, 4)))
    return in_folder


@pytest.fixture
def taking(tmp_path: Path) -> Iterator[Archive]:
    with Archive.open(tmp_path / "taking", new=True, disk=NotWaiting(), clock=YEARS_LATER) as opened:
        yield opened


def handed_on(giving: Archive, taking: Archive, *numbers: str) -> list[object]:
    bag = giving.place.with_name(f"bag-{giving.log.checkpoint().size}-{taking.log.checkpoint().size}")
    export(giving, numbers or None, bag)
    return [became for _, became in take_in(taking, bag)]


def bag_with(folder: Path, files: dict[str, bytes]) -> Path:
    for name, content in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)
    bagit.make_bag(str(folder), checksums=["sha256"])
    return folder


def test_a_hold_is_written_so_that_a_stranger_understands(giving: Archive, tmp_path: Path) -> None:
    export(giving, ["HELD-1"], tmp_path / "bag")
    said = json.loads((tmp_path / "bag/data/HELD-1/holds.json").read_text(encoding="utf-8"))
    assert said == {
        "tracksworn": "holds 1",
        "number": "HELD-1",
        "holds": [
            {"reason": "claim LM-77", "since": HELD_SINCE, "act": 1},
            {"reason": "court order, Größe of the rim", "since": HELD_SINCE, "act": 2},
        ],
    }
    assert "holds.json, with every reason" in (tmp_path / "bag/data/HOW-TO-CHECK.txt").read_text(encoding="utf-8")
    giving.release("HELD-1", "settled", 1)
    giving.release("HELD-1", "settled", 2)
    export(giving, ["HELD-1"], tmp_path / "free")
    assert not (tmp_path / "free/data/HELD-1/holds.json").exists()


def test_what_is_held_is_held_there_too_for_the_same_reason(giving: Archive, taking: Archive) -> None:
    handed_on(giving, taking, "HELD-1")
    reasons = ["claim LM-77", "court order, Größe of the rim"]
    held = (Hold(reasons[0], HELD_SINCE, 1), Hold(reasons[1], HELD_SINCE, 2))
    assert taking.known("HELD-1").holds == held
    assert list(taking.expire("1y", date(2050, 1, 1))) == []
    acts = [entry.plain() for entry in taking.log.entries()][1:]
    assert [(act["act"], act["reason"], act["since"], act["at"]) for act in acts] == [
        ("hold", reason, HELD_SINCE, "2038-01-02T03:04:05Z") for reason in reasons
    ]
    taking.rebuild()
    assert taking.known("HELD-1").holds == held
    assert damages(taking) == []
    assert taking.release("HELD-1", "settled", 1) == held[0]


def test_what_comes_again_is_held_once(giving: Archive, taking: Archive) -> None:
    first, again = handed_on(giving, taking, "HELD-1"), handed_on(giving, taking, "HELD-1")
    assert [one.new for one in first if isinstance(one, TakenHold)] == [True, True]
    assert [one.new for one in again if isinstance(one, TakenHold)] == [False, False]
    assert taking.log.checkpoint().size == 3
    giving.hold("HELD-1", "another claim")
    assert [one.new for one in handed_on(giving, taking, "HELD-1") if isinstance(one, TakenHold)] == [
        False,
        False,
        True,
    ]


def test_what_expired_is_known_as_expired_there(giving: Archive, taking: Archive) -> None:
    became = handed_on(giving, taking)
    gone = {one for one in became if isinstance(one, TakenTombstone)}
    assert gone == {TakenTombstone(number, HELD_SINCE, new=True) for number in ("OLD-1", NUMBER)}
    for number in ("OLD-1", NUMBER):
        ours, theirs = taking.known(number), giving.known(number)
        assert [one.name for one in ours.documents] == [one.name for one in theirs.documents]
        assert [one.sha256 for one in ours.former] == [one.sha256 for one in theirs.former]
        assert [one.facts and one.facts.serial for one in ours.documents] == [
            one.facts and one.facts.serial for one in theirs.documents
        ]
        assert {(one.expired, one.elsewhere) for one in ours.documents} == {(HELD_SINCE, True)}
        tombstone = giving.files.content(number, "tombstone.json")
        assert taking.files.content(number, "tombstone.json") == tombstone
    before = list(taking.find(Sought()))
    taking.rebuild()
    assert list(taking.find(Sought())) == before
    assert damages(taking) == []
    root = ocfl.StorageRoot(root=str(taking.place / "records"))
    assert root.validate(validate_objects=True, check_digests=True)
    assert (root.num_objects, root.good_objects) == (3, 3)
    assert not any(one.new for one in handed_on(giving, taking) if isinstance(one, TakenTombstone))


def test_what_expired_elsewhere_is_not_put_in_or_held_again(giving: Archive, taking: Archive) -> None:
    handed_on(giving, taking)
    with pytest.raises(NotTaken, match="record OLD-1 has expired and its files were removed"):
        taking.add(document("OLD-1", kind="full"))
    with pytest.raises(NotTaken, match="record OLD-1 expired on 2031-05-04"):
        taking.hold("OLD-1", "too late")
    with pytest.raises(NotTaken, match="expired on 2031-05-04 in another archive; its file never came here"):
        taking.content(taking.known("OLD-1").documents[0])
    assert list(taking.expire("1y", date(2060, 1, 1))) == []
    third = Archive.open(taking.place.with_name("third"), new=True, disk=NotWaiting(), clock=YEARS_LATER)
    assert TakenTombstone("OLD-1", HELD_SINCE, new=True) in handed_on(taking, third, "OLD-1")


def test_a_tombstone_of_others_lets_no_file_pass(giving: Archive, taking: Archive) -> None:
    """The bytes were never here: only that another archive said so is known."""
    handed_on(giving, taking)
    for content in (grown.sealed(), grown.renewed()):
        standing = taking.standing(claim(content))
        assert (standing.same, standing.expired, standing.elsewhere) == (True, HELD_SINCE, True)
        assert not giving.standing(claim(content)).elsewhere


def test_what_is_held_here_stays_though_it_expired_elsewhere(giving: Archive, taking: Archive) -> None:
    taking.add(document("OLD-1", kind="full"))
    refused = next(one for one in handed_on(giving, taking, "OLD-1"))
    assert str(refused) == (
        "record OLD-1 expired on 2031-05-04 in another archive, and is held in this one; it stays until `tracksworn "
        "archive expire` lets it go"
    )
    assert taking.content(taking.known("OLD-1").documents[0]) == document("OLD-1", kind="full")
    assert damages(taking) == []


def test_a_tombstone_that_rots_is_named_and_the_index_made_anew(giving: Archive, taking: Archive) -> None:
    handed_on(giving, taking)
    path = next(taking.files.folder("OLD-1").rglob("tombstone.json"))
    path.write_bytes(path.read_bytes().replace(b'"OLD-1"', b'"HELD-1"'))
    taking.rebuild()
    ((_, (damage,)),) = check_records(taking, ["OLD-1"])
    assert str(damage).endswith("OLD-1/v1/content/tombstone.json: has changed since it was put there "
                                "(bit rot, or somebody's hand)")  # fmt: skip
    assert taking.known("HELD-1").documents[0].expired is None
    shutil.rmtree(taking.files.folder("OLD-1"))
    ((_, (damage,)),) = check_records(taking, ["OLD-1"])
    assert damage.what == "the record is missing"


WRONG = {
    "a/tombstone.json": (b"{}", "it is no tombstone of a record, or was altered"),
    "b/tombstone.json": (b"\xff", "it is no tombstone of a record, or was altered"),
    "c/tombstone.json": (b"[" * 100_000, "it is no tombstone of a record, or was altered"),
    "d/holds.json": (b'{"tracksworn": "holds 1"}', "it does not say why a record is held, or was altered"),
    "e/holds.json": (holds_json("HELD-1", [Hold(" ", HELD_SINCE, 1)]), "it does not say why a record is held, or"),
    "f/holds.json": (holds_json("HELD-1", [Hold("claim", "long ago", 1)]), "it does not say why a record is held,"),
    "g/holds.json": (holds_json("X-9", [Hold("claim", HELD_SINCE, 1)]), "record X-9 is not held here"),
}


def test_what_is_no_hold_or_tombstone_is_told_and_the_rest_taken(taking: Archive, tmp_path: Path) -> None:
    files = {name: content for name, (content, _) in WRONG.items()} | {"h/OXB.pdf": document()}
    became = dict(take_in(taking, bag_with(tmp_path / "bag", files)))
    for name, (_, because) in WRONG.items():
        assert isinstance(became[f"data/{name}"], NotTaken)
        assert str(became[f"data/{name}"]).startswith(because)
    assert taking.log.checkpoint().size == 1
    assert damages(taking) == []


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        (b'"number":"OLD-1"', b'"number":"../OLD-1"'),
        (b'"document":"full"', b'"document":"../full"'),
        (b'"document":"full"', b'"document":"listing"'),
        (b'"revision":0', b'"revision":"0"'),
        (b'"revision":0', b'"revision":1e9'),
        (b'"expired":"2031', b'"expired":"soon'),
        (b'"issued":"2031-05-03"', b'"issued":"2031-05-33"'),
        (b'"sha256":"', b'"sha256":"zz'),
        (b'"tracksworn":"tombstone 1"', b'"tracksworn":"tombstone 2"'),
    ],
)
def test_what_was_altered_in_a_tombstone_is_refused(giving: Archive, right: bytes, wrong: bytes) -> None:
    tombstone = giving.files.content("OLD-1", "tombstone.json") or b""
    assert read_tombstone(tombstone, 7).documents[0].act == 7
    assert right in tombstone
    with pytest.raises(NotTaken, match="tombstone"):
        read_tombstone(tombstone.replace(right, wrong), 7)


def test_a_tombstone_that_cannot_be_read_leaves_no_bag(giving: Archive, tmp_path: Path) -> None:
    next(giving.files.folder("OLD-1").rglob("tombstone.json")).unlink()
    with pytest.raises(NotTaken, match=r"tombstone\.json of record OLD-1 is damaged"):
        export(giving, None, tmp_path / "bag")
    assert not (tmp_path / "bag").exists()


def test_how_what_expired_here_stands(giving: Archive) -> None:
    standing = giving.standing(replace(claim(b"another"), number="OLD-1", document="full"))
    assert (standing.other, standing.expired, standing.elsewhere, standing.earlier) == (True, HELD_SINCE, False, False)
