"""What goes into the archive, what comes back, and what it refuses."""

import errno
import fcntl
import json
import os
import shutil
import stat
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from archived import Clock, document

from tracksworn.assessment.model import Stage
from tracksworn.inspection.faults import Failed, WrongUse
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.held import NotTaken, Sought
from tracksworn.records.log.checkpoint import LogBroken
from tracksworn.records.standing import Bytes, Claim, Standing


def numbers(archive: Archive, **sought: object) -> list[str]:
    return [f"{held.number}-r{held.revision}" for held in archive.find(Sought(**sought))]  # type: ignore[arg-type]


def test_a_document_comes_back_as_it_was(archive: Archive) -> None:
    held = archive.add(document())
    assert held.new
    assert (held.number, held.revision, held.name) == ("OXB-0231", 0, "OXB-0231-r0.pdf")
    assert held.added == "2031-05-04T09:30:00Z"
    assert archive.content(held) == document()
    record = archive.show("OXB-0231")
    assert record is not None
    assert [one.sha256 for one in record.documents] == [held.sha256]
    facts = record.documents[0].facts
    assert facts is not None
    assert (facts.maker, facts.model, facts.serial) == ("Merrow", "Tarn 22", "20417")
    assert (facts.firm, facts.inspector) == ("Millrace Plant Survey", "Ines Marlow")
    assert (facts.inspected, facts.issued, facts.stage) == (date(2031, 5, 2), date(2031, 5, 3), Stage.NEAR_LIMIT)


def test_the_same_bytes_again_change_nothing(archive: Archive) -> None:
    archive.add(document())
    before = archive.log.checkpoint()
    again = archive.add(document())
    assert not again.new
    assert archive.log.checkpoint() == before


def test_other_bytes_under_a_known_number_and_revision_are_refused_by_name(archive: Archive) -> None:
    archive.add(document())
    with pytest.raises(NotTaken, match=r"^OXB-0231-r0\.pdf is held already with other bytes \(SHA-256 .+needs a rev"):
        archive.add(document(mark="another"))
    assert archive.content(archive.add(document())) == document()


def test_a_revision_stands_beside_the_older_one(archive: Archive) -> None:
    older, newer = archive.add(document()), archive.add(document(revision=1))
    record = archive.show("OXB-0231")
    assert record is not None
    assert [one.revision for one in record.documents] == [0, 1]
    assert archive.content(older) == document()
    assert archive.content(newer) == document(revision=1)


def test_revisions_may_come_in_any_order(archive: Archive) -> None:
    for revision in (2, 0, 1):
        assert archive.add(document(revision=revision)).new
    record = archive.show("OXB-0231")
    assert record is not None
    assert [one.revision for one in record.documents] == [0, 1, 2]
    assert [archive.content(one) for one in record.documents] == [document(revision=number) for number in range(3)]


KINDS = ("full", "listing", "certificate")


def test_a_revision_may_have_several_documents(archive: Archive) -> None:
    held = [archive.add(document(kind=kind)) for kind in KINDS]
    assert [one.name for one in held] == [f"OXB-0231-r0-{kind}.pdf" for kind in KINDS]
    assert all(one.new for one in held)
    archive.add(document(revision=1, kind="full"))
    late = archive.add(document(kind=""))
    record = archive.known("OXB-0231")
    assert [(one.revision, one.document) for one in record.documents] == [
        (0, ""), (0, "certificate"), (0, "full"), (0, "listing"), (1, "full"),
    ]  # fmt: skip
    assert [archive.content(one) for one in (*held, late)] == [document(kind=kind) for kind in (*KINDS, "")]
    assert {one.facts and one.facts.document for one in record.documents} == {"", *KINDS}
    assert len(archive.history("20417")) == 5
    assert not archive.add(document(kind="listing")).new
    with pytest.raises(NotTaken, match=r"^OXB-0231-r0-listing\.pdf is held already with other bytes"):
        archive.add(document(kind="listing", mark="another"))
    before = list(archive.find(Sought()))
    archive.rebuild()
    assert list(archive.find(Sought())) == before


def test_one_of_several_documents_is_named(archive: Archive) -> None:
    for kind in KINDS:
        archive.add(document(kind=kind))
    archive.add(document(revision=1, kind="full"))
    record = archive.known("OXB-0231")
    assert record.choose_one(None, None).name == "OXB-0231-r1-full.pdf"
    assert record.choose_one(0, "listing").name == "OXB-0231-r0-listing.pdf"
    with pytest.raises(NotTaken, match="revision 0, has several documents: certificate, full, listing; name one"):
        record.choose_one(0, None)
    with pytest.raises(NotTaken, match="record OXB-0231 has no revision 1, or no listing of it, here"):
        record.choose_one(None, "listing")
    assert json.loads(archive.proof("OXB-0231", 0, "listing")["act"])["document"] == "listing"


def test_several_documents_expire_together(archive: Archive) -> None:
    for kind in KINDS:
        archive.add(document(kind=kind))
    (gone,) = archive.expire("1y", date(2041, 5, 4))
    assert [one.document for one in gone.documents] == sorted(KINDS)
    left = json.loads(archive.files.content("OXB-0231", "tombstone.json") or b"")
    assert [one["document"] for one in left["revisions"]] == sorted(KINDS)
    archive.rebuild()
    kept = archive.known("OXB-0231").documents
    assert [one.document for one in kept] == sorted(KINDS)
    assert {one.facts and one.facts.serial for one in kept} == {"20417"}
    standing = archive.standing(Claim("OXB-0231", 0, "certificate", kept[0].sha256, 10**6))
    assert standing == Standing(same=True, other=False, newest=0, expired="2031-05-04T09:30:00Z")


def test_how_one_of_several_documents_stands(archive: Archive) -> None:
    full = archive.add(document(kind="full"))
    assert archive.standing(Claim("OXB-0231", 0, "full", full.sha256, 10**6)) == Standing(
        same=True, other=False, newest=0
    )
    held = Bytes(full.size, full.sha256)
    another = Claim("OXB-0231", 0, "full", "ab", 10**6)
    assert archive.standing(another) == Standing(same=False, other=True, newest=0, held=held)
    assert archive.standing(Claim("OXB-0231", 0, "listing", "ab", 10**6)) == Standing(same=False, other=False, newest=0)


def test_the_logs_key_may_be_kept_elsewhere(tmp_path: Path) -> None:
    place, key = tmp_path / "archive", tmp_path / "safe" / "log.pem"
    with Archive.open(place, new=True, log_key=key) as archive:
        archive.add(document())
    assert key.stat().st_mode & 0o777 == 0o600
    assert not (place / "log/key.pem").exists()
    with Archive.open(place) as archive:
        assert numbers(archive) == ["OXB-0231-r0"]
        with pytest.raises(WrongUse, match=r"log/key\.pem is not there, .+; name its file by --log-key"):
            archive.add(document("B-2"))
        assert not list((place / "staging").iterdir())
    with Archive.open(place, log_key=key) as archive:
        assert archive.add(document("B-2")).new


def test_a_key_of_another_log_changes_nothing(tmp_path: Path, in_folder: Archive) -> None:
    key = tmp_path / "log.pem"
    Archive.open(tmp_path / "other", new=True, log_key=key).close()
    with (
        Archive.open(in_folder.place, log_key=key) as archive,
        pytest.raises(LogBroken, match=r"log\.pem is the key of another log"),
    ):
        archive.add(document())


@pytest.mark.parametrize(
    ("key", "error", "said"),
    [
        ("letter.txt", LogBroken, r"letter\.txt: the log's key cannot be read; .+ name it by --log-key"),
        ("letter.txt/log.pem", OSError, "Not a directory|File exists"),
        (".", OSError, "Is a directory"),
    ],
)
def test_no_archive_is_begun_with_a_key_that_does_not_do(
    key: str, error: type[Exception], said: str, tmp_path: Path
) -> None:
    (tmp_path / "letter.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(error, match=said):
        Archive.open(tmp_path / "new" / "archive", new=True, log_key=tmp_path / key)
    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]


def test_how_a_file_stands(archive: Archive) -> None:
    old, new = archive.add(document()), archive.add(document(revision=1))
    assert archive.standing(Claim("OXB-0231", 0, "", old.sha256, 10**6)) == Standing(same=True, other=False, newest=1)
    held = Bytes(new.size, new.sha256)
    another = Claim("OXB-0231", 1, "", old.sha256, 10**6)
    assert archive.standing(another) == Standing(same=False, other=True, newest=1, held=held)
    assert archive.standing(Claim("OXB-0231", 2, "", new.sha256, 10**6)) == Standing(same=False, other=False, newest=1)
    assert archive.standing(Claim("OXB-0232", 0, "", new.sha256, 10**6)) == Standing(
        same=False, other=False, newest=None
    )


def with_three(archive: Archive) -> Archive:
    archive.add(
        document("A-1", serial="HLN 640-E", firm="Oxbow Sale Yard", inspected="2030-01-31", issued="2030-02-01")
    )
    archive.add(document("B-2", serial="hln640e", note="Weeping at the inner seal", inspected="2031-01-01"))
    archive.add(document("C-3", serial="HLN640E9"))
    return archive


@pytest.fixture
def three(archive: Archive) -> Archive:
    return with_three(archive)


@pytest.fixture
def three_in_folder(in_folder: Archive) -> Archive:
    return with_three(in_folder)


@pytest.fixture(scope="module", params=["sqlite", "postgresql"])
def same_three(tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest) -> Iterator[Archive]:
    """The same, for tests that only look."""
    url = request.getfixturevalue("postgresql")() if request.param == "postgresql" else None
    with Archive.open(tmp_path_factory.mktemp("same") / "archive", new=True, index=url, clock=Clock()) as archive:
        yield with_three(archive)


@pytest.mark.parametrize(
    ("sought", "found"),
    [
        ({}, ["A-1-r0", "B-2-r0", "C-3-r0"]),
        ({"serial": "hln-640 e"}, ["A-1-r0", "B-2-r0"]),
        ({"serial": "HLN640"}, []),
        ({"number": "C-3"}, ["C-3-r0"]),
        ({"machine": "tarn"}, ["A-1-r0", "B-2-r0", "C-3-r0"]),
        ({"machine": "TARN-22", "firm": "oxbow"}, ["A-1-r0"]),
        ({"machine": "%"}, ["A-1-r0", "B-2-r0", "C-3-r0"]),
        ({"firm": "millrace plant"}, ["B-2-r0", "C-3-r0"]),
        ({"since": date(2031, 1, 1)}, ["B-2-r0", "C-3-r0"]),
        ({"until": date(2031, 1, 1)}, ["A-1-r0", "B-2-r0"]),
        ({"since": date(2030, 2, 1), "until": date(2031, 1, 1)}, ["B-2-r0"]),
        ({"stage": Stage.NEAR_LIMIT}, ["A-1-r0", "B-2-r0", "C-3-r0"]),
        ({"stage": Stage.PAST_LIMIT}, []),
        ({"text": "seal WEEPING"}, ["B-2-r0"]),
        ({"text": "grosse"}, ["A-1-r0", "C-3-r0"]),
        ({"text": "größe rim"}, ["A-1-r0", "C-3-r0"]),
        ({"text": 'rim" OR "seal'}, []),
        ({"text": "near-limit"}, ["A-1-r0", "B-2-r0", "C-3-r0"]),
        ({"text": "Millrace"}, ["B-2-r0", "C-3-r0"]),
        ({"text": "!"}, []),
    ],
    ids=str,
)
def test_records_are_found(same_three: Archive, sought: dict[str, object], found: list[str]) -> None:
    assert numbers(same_three, **sought) == found


def test_the_history_of_a_machine_is_in_the_order_of_its_inspections(same_three: Archive) -> None:
    assert [held.number for held in same_three.history("HLN640E")] == ["A-1", "B-2"]


def test_what_is_held_does_not_expire(three: Archive) -> None:
    hold = three.hold("A-1", "claim  LM-77")
    assert (hold.reason, hold.since) == ("claim LM-77", "2031-05-04T09:30:00Z")
    assert three.due("1y", date(2031, 5, 4)) == ()
    assert list(three.expire("1y", date(2031, 5, 4))) == []
    three.release("A-1", "claim settled")
    assert [record.number for record in three.expire("1y", date(2031, 5, 4))] == ["A-1"]


def test_what_has_expired_leaves_a_tombstone(three: Archive) -> None:
    before = next(three.find(Sought(number="A-1")))
    (gone,) = three.expire("1y", date(2031, 5, 4))
    assert gone.number == "A-1"
    held = next(three.find(Sought(number="A-1")))
    assert (held.sha256, held.expired) == (before.sha256, "2031-05-04T09:30:00Z")
    assert [one.number for one in three.history("HLN640E")] == ["A-1", "B-2"]
    assert numbers(three, text="Oxbow") == []
    with pytest.raises(NotTaken, match=r"^A-1-r0\.pdf expired on 2031-05-04; its file was removed$"):
        three.content(held)
    with pytest.raises(NotTaken, match="record A-1 has expired"):
        three.add(document("A-1", revision=1))
    with pytest.raises(NotTaken, match="record A-1 expired on 2031-05-04"):
        three.hold("A-1", "too late")
    left = json.loads(three.files.content("A-1", "tombstone.json") or b"")
    assert left["rule"] == "issued more than 1y before 2031-05-04"
    assert left["revisions"][0]["sha256"] == before.sha256
    files = [path.name for path in three.files.folder("A-1").rglob("*") if path.is_file()]
    assert not any(name.endswith(".pdf") for name in files)


def test_a_record_expires_by_its_newest_revision(archive: Archive) -> None:
    archive.add(document(issued="2020-01-01", inspected="2020-01-01"))
    archive.add(document(revision=1, issued="2030-12-01", inspected="2020-01-01"))
    assert archive.due("10y", date(2031, 5, 4)) == ()
    assert archive.due("5m", date(2031, 5, 4)) == ("OXB-0231",)


def test_a_day_is_not_yet_older(archive: Archive) -> None:
    archive.add(document(issued="2031-05-03"))
    assert archive.due("1y", date(2032, 5, 3)) == ()
    assert archive.due("1y", date(2032, 5, 4)) == ("OXB-0231",)


def test_of_several_holds_each_ends_by_itself(archive: Archive) -> None:
    archive.add(document())
    first, second = archive.hold("OXB-0231", "claim one"), archive.hold("OXB-0231", "claim two")
    with pytest.raises(NotTaken, match="name one of these: 1: claim one; 2: claim two"):
        archive.release("OXB-0231", "settled")
    assert archive.release("OXB-0231", "settled", first.act) == first
    record = archive.show("OXB-0231")
    assert record is not None
    assert record.holds == (second,)


def test_nothing_is_released_that_is_not_held(archive: Archive) -> None:
    archive.add(document())
    with pytest.raises(NotTaken, match="nothing holds record OXB-0231"):
        archive.release("OXB-0231", "settled")
    with pytest.raises(NotTaken, match="record X is not held here"):
        archive.hold("X", "claim")


@pytest.mark.parametrize("reason", ["", "  ", "x" * 2001])
def test_a_hold_has_its_reason(archive: Archive, reason: str) -> None:
    archive.add(document())
    with pytest.raises(WrongUse, match="a reason has 1 to 2000 characters"):
        archive.hold("OXB-0231", reason)


def test_the_log_has_every_act_and_no_names(three: Archive) -> None:
    three.hold("A-1", "claim")
    three.release("A-1", "settled")
    list(three.expire("1y", date(2031, 5, 4)))
    acts = [entry.plain() for entry in three.log.entries()]
    assert [act["act"] for act in acts] == ["add", "add", "add", "hold", "release", "expire"]
    assert "Marlow" not in str(acts)
    assert three.log.check()[1] is None


def test_there_is_no_archive_where_none_was_begun(tmp_path: Path) -> None:
    with pytest.raises(WrongUse, match=r"no archive is in .+ begins one"):
        Archive.open(tmp_path / "none")
    assert not (tmp_path / "none").exists()


def test_no_archive_is_begun_among_other_files(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(WrongUse, match=r"is no archive and holds other files \(letter\.txt\)"):
        Archive.open(tmp_path, new=True)


def test_a_disk_without_locks_holds_no_archive(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(_: object, how: int) -> None:
        raise OSError(errno.ENOLCK, os.strerror(errno.ENOLCK))

    monkeypatch.setattr(fcntl, "flock", refused)
    with pytest.raises(Failed, match=r"^the disk of .+/archive knows no locks, and without them two could change the"):
        Archive.open(tmp_path / "new" / "archive", new=True)
    assert list(tmp_path.iterdir()) == []


def test_a_disk_that_syncs_no_folders_holds_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    genuine, folders = os.fsync, []

    def without_folders(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            folders.append(handle)
            raise OSError(errno.EINVAL, os.strerror(errno.EINVAL))
        genuine(handle)

    monkeypatch.setattr(os, "fsync", without_folders)
    with Archive.open(tmp_path / "archive", new=True) as archive:
        assert archive.content(archive.add(document())) == document()
    assert folders


@pytest.mark.parametrize("said", ["{", "[]", '{"tracksworn": "archive 9"}'])
def test_another_kind_of_archive_is_left_alone(archive: Archive, said: str) -> None:
    (archive.place / "archive.json").write_text(said, encoding="utf-8")
    with pytest.raises(WrongUse, match="does not say `archive 1`"):
        Archive.open(archive.place)


def test_an_archive_opens_again(in_folder: Archive) -> None:
    in_folder.add(document())
    assert numbers(Archive.open(in_folder.place)) == ["OXB-0231-r0"]
    assert Archive.open(in_folder.place, new=True).log.name == in_folder.log.name


def test_the_index_is_made_anew_from_the_files(three_in_folder: Archive) -> None:
    three_in_folder.hold("B-2", "claim")
    list(three_in_folder.expire("1y", date(2031, 5, 4)))
    before = (
        list(three_in_folder.find(Sought())),
        three_in_folder.show("B-2"),
        numbers(three_in_folder, text="weeping seal"),
    )
    three_in_folder.close()
    for file in three_in_folder.place.glob("index.sqlite*"):
        file.unlink()
    anew = Archive.open(three_in_folder.place)
    gone = [held for held in before[0] if held.expired]
    assert len(gone) == 1
    assert (list(anew.find(Sought())), anew.show("B-2"), numbers(anew, text="weeping seal")) == before
    anew.rebuild()
    assert (list(anew.find(Sought())), anew.show("B-2"), numbers(anew, text="weeping seal")) == before


def test_a_damaged_index_says_how_it_is_mended(three_in_folder: Archive) -> None:
    three_in_folder.close()
    for file in three_in_folder.place.glob("index.sqlite*"):
        file.unlink()
    (three_in_folder.place / "index.sqlite").write_bytes(b"nothing of the kind" * 500)
    opened = Archive.open(three_in_folder.place)
    with pytest.raises(Failed, match="`tracksworn archive rebuild` makes the index anew"):
        numbers(opened)
    opened.rebuild()
    assert numbers(opened) == ["A-1-r0", "B-2-r0", "C-3-r0"]


def test_an_index_that_is_ahead_of_the_log_is_told(three_in_folder: Archive, tmp_path: Path) -> None:
    three_in_folder.hold("A-1", "claim")
    older = tmp_path / "older"
    shutil.copytree(three_in_folder.place, older)
    for file in older.glob("index.sqlite*"):
        file.unlink()
    three_in_folder.hold("B-2", "claim")
    three_in_folder.close()
    for file in three_in_folder.place.glob("index.sqlite*"):
        shutil.copy(file, older)
    put_back = Archive.open(older)
    with pytest.raises(Failed, match="the index knows 5 acts, the log 4: an older copy"):
        numbers(put_back)
    put_back.rebuild()
    assert numbers(put_back) == ["A-1-r0", "B-2-r0", "C-3-r0"]


def test_the_clock_is_only_that_of_who_opens(tmp_path: Path) -> None:
    cest = datetime(2031, 5, 4, 11, 30, tzinfo=UTC) + timedelta(seconds=0.5)
    assert Archive.open(tmp_path, new=True, clock=Clock(cest)).add(document()).added == "2031-05-04T11:30:00Z"


def test_the_index_may_move_to_another_database(three: Archive, postgresql: Callable[[], str]) -> None:
    three.hold("A-1", "claim")
    before = (list(three.find(Sought())), three.show("A-1"))
    with Archive.open(three.place, index=postgresql()) as moved:
        assert (list(moved.find(Sought())), moved.show("A-1")) == before
        moved.rebuild()
        assert (list(moved.find(Sought())), moved.show("A-1")) == before


def test_two_archives_do_not_share_a_database(tmp_path: Path, postgresql: Callable[[], str]) -> None:
    url = postgresql()
    with Archive.open(tmp_path / "one", new=True, index=url) as one:
        one.add(document())
    with (
        Archive.open(tmp_path / "two", new=True, index=url) as two,
        pytest.raises(Failed, match="the index belongs to another archive"),
    ):
        two.add(document())


@pytest.mark.parametrize("url", ["nonsense", "nodb://here", "postgresql+nodriver://x/y", "http://[x"])
def test_a_url_that_leads_nowhere_is_told_in_one_sentence(tmp_path: Path, url: str) -> None:
    with pytest.raises(WrongUse, match="leads to no database known here; right would be postgresql"):
        Archive.open(tmp_path / "a", new=True, index=url)


def test_a_server_that_is_not_there_is_told_in_one_sentence(tmp_path: Path) -> None:
    with (
        Archive.open(tmp_path / "a", new=True, index=f"postgresql+psycopg://u@/d?host={tmp_path}") as archive,
        pytest.raises(Failed, match=r"the archive's index does not answer: .+ The records themselves are in files"),
    ):
        archive.add(document())
