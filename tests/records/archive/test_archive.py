"""What goes into the archive, what comes back, and what it refuses."""

import json
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from archived import Clock, document

from tracksworn.assessment.model import Stage
from tracksworn.inspection.faults import WrongUse
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.held import NotTaken, Sought
from tracksworn.records.verifying.verdict import Standing

Opened = Callable[[], Archive]


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
    assert [one.sha256 for one in record.revisions] == [held.sha256]
    facts = record.revisions[0].facts
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
    assert [one.revision for one in record.revisions] == [0, 1]
    assert archive.content(older) == document()
    assert archive.content(newer) == document(revision=1)


def test_revisions_may_come_in_any_order(archive: Archive) -> None:
    for revision in (2, 0, 1):
        assert archive.add(document(revision=revision)).new
    record = archive.show("OXB-0231")
    assert record is not None
    assert [one.revision for one in record.revisions] == [0, 1, 2]
    assert [archive.content(one) for one in record.revisions] == [document(revision=number) for number in range(3)]


def test_how_a_file_stands(archive: Archive) -> None:
    old, new = archive.add(document()), archive.add(document(revision=1))
    assert archive.standing("OXB-0231", 0, old.sha256) == Standing(same=True, other=False, newest=1)
    assert archive.standing("OXB-0231", 1, old.sha256) == Standing(same=False, other=True, newest=1)
    assert archive.standing("OXB-0231", 2, new.sha256) == Standing(same=False, other=False, newest=1)
    assert archive.standing("OXB-0232", 0, new.sha256) == Standing(same=False, other=False, newest=None)


@pytest.fixture
def three(archive: Archive) -> Archive:
    archive.add(
        document("A-1", serial="HLN 640-E", firm="Oxbow Sale Yard", inspected="2030-01-31", issued="2030-02-01")
    )
    archive.add(document("B-2", serial="hln640e", note="Weeping at the inner seal", inspected="2031-01-01"))
    archive.add(document("C-3", serial="HLN640E9"))
    return archive


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
def test_records_are_found(three: Archive, sought: dict[str, object], found: list[str]) -> None:
    assert numbers(three, **sought) == found


def test_the_history_of_a_machine_is_in_the_order_of_its_inspections(three: Archive) -> None:
    assert [held.number for held in three.history("HLN640E")] == ["A-1", "B-2"]


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


@pytest.mark.parametrize("said", ["{", "[]", '{"tracksworn": "archive 9"}'])
def test_another_kind_of_archive_is_left_alone(archive: Archive, said: str) -> None:
    (archive.place / "archive.json").write_text(said, encoding="utf-8")
    with pytest.raises(WrongUse, match="does not say `archive 1`"):
        Archive.open(archive.place)


def test_an_archive_opens_again(archive: Archive) -> None:
    archive.add(document())
    assert numbers(Archive.open(archive.place)) == ["OXB-0231-r0"]
    assert Archive.open(archive.place, new=True).log.name == archive.log.name


def test_the_index_is_made_anew_from_the_files(three: Archive) -> None:
    three.hold("B-2", "claim")
    list(three.expire("1y", date(2031, 5, 4)))
    before = (list(three.find(Sought())), three.show("B-2"), numbers(three, text="weeping seal"))
    for file in three.place.glob("index.sqlite*"):
        file.unlink()
    anew = Archive.open(three.place)
    gone = [held for held in before[0] if held.expired]
    assert len(gone) == 1
    assert (list(anew.find(Sought())), anew.show("B-2"), numbers(anew, text="weeping seal")) == before
    anew.rebuild()
    assert (list(anew.find(Sought())), anew.show("B-2"), numbers(anew, text="weeping seal")) == before


def test_a_damaged_index_says_how_it_is_mended(three: Archive) -> None:
    for file in three.place.glob("index.sqlite*"):
        file.unlink()
    (three.place / "index.sqlite").write_bytes(b"nothing of the kind" * 500)
    with pytest.raises(Exception, match="`tracksworn archive rebuild` makes the index anew"):
        numbers(three)


def test_an_index_that_is_ahead_of_the_log_is_told(three: Archive, tmp_path: Path) -> None:
    import shutil

    three.hold("A-1", "claim")
    older = tmp_path / "older"
    shutil.copytree(three.place, older)
    for file in older.glob("index.sqlite*"):
        file.unlink()
    three.hold("B-2", "claim")
    for file in three.place.glob("index.sqlite*"):
        shutil.copy(file, older)
    put_back = Archive.open(older)
    with pytest.raises(Exception, match="the index knows 5 acts, the log 4: an older copy"):
        numbers(put_back)
    put_back.rebuild()
    assert numbers(put_back) == ["A-1-r0", "B-2-r0", "C-3-r0"]


def test_the_clock_is_only_that_of_who_opens(tmp_path: Path) -> None:
    cest = datetime(2031, 5, 4, 11, 30, tzinfo=UTC) + timedelta(seconds=0.5)
    assert Archive.open(tmp_path, new=True, clock=Clock(cest)).add(document()).added == "2031-05-04T11:30:00Z"
