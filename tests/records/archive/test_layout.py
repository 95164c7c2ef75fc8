"""The archive's files, judged by other programs: by the OCFL validator, by hashlib, and by a plain reader."""

import json
import re
import shutil
import subprocess
import sys
from datetime import date
from hashlib import sha256, sha512
from pathlib import Path

import bagit
import ocfl
import pytest
from archived import Clock, NotWaiting, document

from tracksworn.inspection.faults import TrackswornError, WrongUse
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.bags import HOW_TO_CHECK, export, take_in
from tracksworn.records.archive.held import Held, Hold, NotTaken, Sought, TakenHold, TakenTombstone
from tracksworn.records.archive.ocfl import object_path

SCRIPT = re.sub(r"^ {4}", "", "\n".join(re.findall(r"^ {4}.*$", HOW_TO_CHECK, re.MULTILINE)), flags=re.MULTILINE)


@pytest.mark.parametrize(
    ("number", "path"),
    [
        # OCFL community extension 0003, its examples for SHA-256 with three tuples of three, from memory.
        ("object-01", "3c0/ff4/240/object-01"),
        ("..hor/rib:le-$id", "487/326/d8c/%2e%2ehor%2frib%3ale-%24id"),
    ],
)
def test_where_a_record_lies_is_as_the_extension_has_it(number: str, path: str) -> None:
    assert str(object_path(number)) == path


def test_a_long_name_is_cut_and_keeps_its_digest() -> None:
    number = "A" + "." * 63
    name = object_path(number).name
    assert name == ("A" + "%2e" * 63)[:100] + "-" + sha256(number.encode()).hexdigest()


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> Archive:
    """An archive with revisions, a hold, a number of odd signs, and a tombstone."""
    archive = Archive.open(tmp_path_factory.mktemp("full") / "archive", new=True, disk=NotWaiting(), clock=Clock())
    for revision in range(3):
        archive.add(document(revision=revision))
    archive.add(document("A.b_c-D"))
    archive.add(document("A.B_C-D"))
    archive.add(document("OLD-1", inspected="2020-01-01", issued="2020-01-01"))
    for revision, kind in ((0, "full"), (0, "listing"), (1, "full"), (0, "certificate")):
        archive.add(document("SEV-1", revision=revision, kind=kind))
    archive.hold("OXB-0231", "claim")
    list(archive.expire("5y", date(2031, 5, 4)))
    return archive


def test_the_records_are_valid_ocfl(full: Archive) -> None:
    root = ocfl.StorageRoot(root=str(full.place / "records"))
    assert root.validate(validate_objects=True, check_digests=True)
    assert (root.num_objects, root.good_objects, root.errors) == (5, 5, [])  # it validates, whatever the objects
    assert sorted(path.name for path in (full.place / "records").iterdir() if path.is_file()) == [
        "0=ocfl_1.1",
        "ocfl_layout.json",
    ]


def test_the_validator_finds_a_changed_byte(full: Archive, tmp_path: Path) -> None:
    shutil.copytree(full.place / "records", tmp_path / "records")
    file = next((tmp_path / "records").rglob("OXB-0231-r1.pdf"))
    file.write_bytes(file.read_bytes()[:-1] + b"?")
    root = ocfl.StorageRoot(root=str(tmp_path / "records"))
    root.validate(validate_objects=True, check_digests=True)
    assert (root.num_objects, root.good_objects) == (5, 4)


def test_a_record_is_readable_without_us(full: Archive) -> None:
    digest = sha256(b"OXB-0231").hexdigest()
    folder = full.place / "records" / digest[:3] / digest[3:6] / digest[6:9] / "OXB-0231"
    inventory = json.loads((folder / "inventory.json").read_text(encoding="utf-8"))
    assert [version["message"] for version in inventory["versions"].values()] == [f"revision {n}" for n in range(3)]
    for sha, (path,) in inventory["manifest"].items():
        assert sha512((folder / path).read_bytes()).hexdigest() == sha
    assert (folder / "v2/content/OXB-0231-r1.pdf").read_bytes() == document(revision=1)
    about = json.loads((folder / "v2/content/OXB-0231-r1.json").read_text(encoding="utf-8"))
    assert about["sha256"] == sha256(document(revision=1)).hexdigest()
    assert (about["serial"], about["firm"], about["stage"]) == ("20417", "Millrace Plant Survey", "near limit")
    assert "records/" in (full.place / "README.txt").read_text(encoding="utf-8")


def test_a_version_holds_all_documents_of_its_revision(full: Archive) -> None:
    plain = json.loads((full.files.folder("SEV-1") / "inventory.json").read_text(encoding="utf-8"))
    held = {
        version["message"]: sorted(name for names in version["state"].values() for name in names)
        for version in plain["versions"].values()
    }
    assert {message: [name for name in names if name.endswith(".pdf")] for message, names in held.items()} == {
        "revision 0, full": ["SEV-1-r0-full.pdf"],
        "revision 0, listing": ["SEV-1-r0-full.pdf", "SEV-1-r0-listing.pdf"],
        "revision 1, full": ["SEV-1-r1-full.pdf"],
        "revision 0, certificate": ["SEV-1-r0-certificate.pdf", "SEV-1-r0-full.pdf", "SEV-1-r0-listing.pdf"],
    }
    assert full.content(full.known("SEV-1").choose_one(0, "full")) == document("SEV-1", kind="full")


def checked(proof: Path) -> str:
    """What the documented script says of a proof, run with hashlib and json alone."""
    done = subprocess.run(
        [sys.executable, "-I", "-S", "-c", SCRIPT, str(proof)], capture_output=True, text=True, check=False
    )
    return done.stdout.strip() + done.stderr


def test_a_proof_is_checked_by_ten_lines_that_anybody_can_read(full: Archive, tmp_path: Path) -> None:
    assert len(SCRIPT.splitlines()) == 10
    proof = full.proof("OXB-0231", 1)
    file = tmp_path / "proof.json"
    file.write_text(json.dumps(proof), encoding="utf-8")
    assert checked(file) == "holds"
    act = json.loads(proof["act"])
    assert act["sha256"] == sha256(document(revision=1)).hexdigest()
    for altered in ({"act": proof["act"].replace("OXB", "OXC")}, {"position": 0}, {"path": proof["path"][:-1]}):
        file.write_text(json.dumps(proof | altered), encoding="utf-8")
        assert checked(file) == "DOES NOT HOLD"


def test_there_is_no_proof_of_what_is_not_held(full: Archive) -> None:
    with pytest.raises(NotTaken, match="record OXB-0231 has no revision 7 here"):
        full.proof("OXB-0231", 7)


def test_a_claim_leaves_in_a_bag_that_others_accept(full: Archive, tmp_path: Path) -> None:
    to = tmp_path / "out" / "claim"
    assert export(full, ["OXB-0231"], to) == 3
    bag = bagit.Bag(str(to))
    assert bag.validate()
    assert bag.info["External-Identifier"] == full.log.name
    assert checked(to / "data/OXB-0231/OXB-0231-r2.proof.json") == "holds"
    assert (to / "data/OXB-0231/OXB-0231-r0.pdf").read_bytes() == document()
    assert sorted(path.name for path in (to / "data/log").iterdir()) == ["checkpoint.json", "public.pem"]
    assert list(to.parent.iterdir()) == [to]
    with pytest.raises(WrongUse, match="is there already"):
        export(full, ["OXB-0231"], to)


def test_a_whole_archive_moves_to_another(full: Archive, tmp_path: Path) -> None:
    assert export(full, None, tmp_path / "whole") == 9
    assert (tmp_path / "whole/data/log/acts.jsonl").read_bytes() == full.log.acts.read_bytes()
    assert (tmp_path / "whole/data/OLD-1/tombstone.json").is_file()
    other = Archive.open(tmp_path / "other", new=True, disk=NotWaiting())
    *added, gone, held = (became for _, became in take_in(other, tmp_path / "whole"))
    assert all(isinstance(became, Held) and became.new for became in added)
    assert gone == TakenTombstone("OLD-1", "2031-05-04T09:30:00Z", new=True)
    assert held == TakenHold("OXB-0231", Hold("claim", "2031-05-04T09:30:00Z", 10), new=True)
    kept = {one.name: (one.sha256, one.facts) for one in full.find(Sought()) if not one.expired}
    assert {one.name: (one.sha256, one.facts) for one in other.find(Sought()) if not one.expired} == kept
    assert len(kept) == 9
    again = list(take_in(other, tmp_path / "whole"))
    assert len(again) == 11
    assert not any(isinstance(became, TrackswornError) or became.new for _, became in again)
    assert other.log.checkpoint().size == 11


def test_a_bag_that_was_altered_is_not_taken_in(full: Archive, tmp_path: Path) -> None:
    export(full, ["A.b_c-D"], tmp_path / "bag")
    file = tmp_path / "bag/data/A.b_c-D/A.b_c-D-r0.pdf"
    file.write_bytes(file.read_bytes() + b" ")
    other = Archive.open(tmp_path / "other", new=True, disk=NotWaiting())
    with pytest.raises(NotTaken, match="is no bag, or is not as it was packed"):
        list(take_in(other, tmp_path / "bag"))
    assert other.log.checkpoint().size == 0


def test_what_is_in_a_bag_and_not_ours_is_told_and_the_rest_taken(full: Archive, tmp_path: Path) -> None:
    (tmp_path / "bag").mkdir()
    (tmp_path / "bag" / "a.pdf").write_bytes(document())
    (tmp_path / "bag" / "b.pdf").write_bytes(b"%PDF-1.7 not ours")
    bagit.make_bag(str(tmp_path / "bag"), checksums=["sha256"])
    other = Archive.open(tmp_path / "other", new=True, disk=NotWaiting())
    became = dict(take_in(other, tmp_path / "bag"))
    assert isinstance(became["data/a.pdf"], Held)
    assert isinstance(became["data/b.pdf"], NotTaken)


def test_nothing_is_left_of_a_bag_that_cannot_be_filled(full: Archive, tmp_path: Path) -> None:
    with pytest.raises(NotTaken, match="record X-1 is not held here"):
        export(full, ["OXB-0231", "X-1"], tmp_path / "bag")
    assert list(tmp_path.iterdir()) == []
