"""A sealed file that was countersigned or renewed after it was archived takes its place, and nothing else does."""

import json
import shutil
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from hashlib import sha256
from pathlib import Path

import ocfl
import pytest
from archived import Clock, NotWaiting, document
from records import grown
from records.archive.test_faults import damages
from records.verifying.attacks import appended, other_words
from records.verifying.recorded import NUMBER

from tracksworn.inspection.faults import Failed
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.bags import export, take_in
from tracksworn.records.archive.contents import read_facts
from tracksworn.records.archive.facts import facts_json
from tracksworn.records.archive.files import pieces_to_add
from tracksworn.records.archive.held import Form, Held, NotTaken, Sought
from tracksworn.records.standing import Bytes, Claim, Standing

KEY = (NUMBER, 0)


def digest(content: bytes) -> str:
    return sha256(content).hexdigest()


def claim(content: bytes) -> Claim:
    return Claim(*KEY, grown.DOCUMENT, digest(content), len(content))


def with_all(archive: Archive) -> Archive:
    """One that has held the document in each of its forms."""
    for content in (grown.sealed(), grown.countersigned(), grown.renewed()):
        archive.add(content)
    return archive


@pytest.fixture
def renewed(archive: Archive) -> Archive:
    return with_all(archive)


@pytest.fixture
def renewed_in_folder(in_folder: Archive) -> Archive:
    return with_all(in_folder)


def test_what_was_renewed_takes_the_place_of_what_it_begins_with(archive: Archive) -> None:
    first = archive.add(grown.sealed())
    assert (first.new, first.renewed) == (True, False)
    second = archive.add(grown.renewed())  # countersigned meanwhile, which the archive was not given
    assert (second.new, second.renewed, second.name) == (True, True, grown.NAME)
    (held,) = archive.known(NUMBER).documents
    assert (held.sha256, held.size, held.act) == (digest(grown.renewed()), len(grown.renewed()), 1)
    assert archive.content(held) == grown.renewed()
    assert archive.known(NUMBER).former == (
        Form(*KEY, grown.DOCUMENT, first.sha256, first.size, first.added, first.act),
    )
    assert list(archive.find(Sought(text="Oxbow"))) == [held]
    assert archive.history(held.facts.serial if held.facts else "") == (held,)
    assert damages(archive) == []


def test_the_act_has_both_digests(renewed_in_folder: Archive) -> None:
    acts = [entry.plain() for entry in renewed_in_folder.log.entries()]
    assert [(act["act"], act.get("former"), act["sha256"]) for act in acts] == [
        ("add", None, digest(grown.sealed())),
        ("renew", digest(grown.sealed()), digest(grown.countersigned())),
        ("renew", digest(grown.countersigned()), digest(grown.renewed())),
    ]
    proof = renewed_in_folder.proof(NUMBER)
    assert json.loads(proof["act"]) == acts[2]


def test_every_form_added_again_changes_nothing(renewed_in_folder: Archive) -> None:
    before = renewed_in_folder.log.checkpoint()
    for form in (grown.sealed, grown.countersigned, grown.renewed):
        again = renewed_in_folder.add(form())
        assert (again.new, again.renewed) == (False, form is not grown.renewed)
        assert again.sha256 == digest(grown.renewed())
    assert renewed_in_folder.log.checkpoint() == before


def test_how_each_form_stands(renewed: Archive) -> None:
    for content in (grown.sealed(), grown.countersigned(), grown.renewed()):
        assert renewed.standing(claim(content)) == Standing(
            same=True, other=False, newest=0, renewed=content != grown.renewed()
        )
    held = Bytes(len(grown.renewed()), digest(grown.renewed()))
    assert renewed.standing(claim(b"another")) == Standing(same=False, other=True, newest=0, held=held)
    assert renewed.standing(replace(claim(grown.sealed()), revision=1)) == Standing(False, False, newest=0)


def test_a_state_between_two_that_are_held_is_told(archive: Archive) -> None:
    archive.add(grown.sealed())
    archive.add(grown.renewed())  # countersigned meanwhile, which the archive was not given
    held = Bytes(len(grown.renewed()), digest(grown.renewed()))
    earlier = Standing(same=False, other=True, newest=0, earlier=True, held=held)
    for some in (grown.countersigned(), grown.renewed()[:-1]):
        assert archive.standing(claim(some)) == earlier
    for other in (grown.countersigned() + b"\n", grown.countersigned()[:-1] + b"?", grown.renewed() + b"\n", b""):
        assert archive.standing(claim(other)) == replace(earlier, earlier=False)
    path = next(archive.files.folder(NUMBER).rglob(f"v2/content/{grown.NAME}"))
    path.write_bytes(grown.countersigned() + b"?")
    assert archive.standing(claim(grown.countersigned())) == replace(earlier, earlier=False)


Making = Callable[[], bytes]
REFUSED: list[tuple[Making, Making, str]] = [
    (
        grown.before_its_seal,
        grown.sealed,
        "not as a seal allows: what is held bears no seal; what is held stays as it is",
    ),
    (grown.sealed, lambda: grown.sealed() + b"\n", "not as a seal allows: "),
    (grown.sealed, lambda: grown.renewed() + grown.sealed()[-200:], "not as a seal allows: "),
    (grown.sealed, lambda: appended(grown.sealed(), other_words), "not as a seal allows: it was changed after it was"),
    (lambda: document(kind="listing"), lambda: document(kind="listing") + b"\n", "allows: it bears no signature"),
    (grown.sealed, lambda: document(kind="listing"), "held already with other bytes"),
    (grown.countersigned, lambda: appended(grown.sealed(), other_words), "held already with other bytes"),
    (grown.renewed, grown.sealed, "held already in a later form, which begins with this very file; nothing is to be"),
]


@pytest.mark.parametrize(("held", "brought", "because"), REFUSED)
def test_nothing_else_takes_its_place(in_folder: Archive, held: Making, brought: Making, because: str) -> None:
    first = in_folder.add(held())
    before = in_folder.log.checkpoint()
    with pytest.raises(NotTaken, match=rf"^{grown.NAME} is held already.+") as refused:
        in_folder.add_known(brought(), read_facts(held()))
    assert because in str(refused.value)
    assert in_folder.log.checkpoint() == before
    assert not list((in_folder.place / "staging").iterdir())
    assert in_folder.content(first) == held()
    assert in_folder.known(NUMBER).former == ()


def test_an_index_that_lies_lets_no_other_file_in(archive: Archive) -> None:
    """Whoever can write to the database alone cannot have their own sealed file taken for what was held."""
    archive.add(document(kind="listing"))
    mine = grown.sealed()
    with archive.index.writing() as writing:
        writing.connection.exec_driver_sql(f"UPDATE documents SET sha256 = '{digest(mine)}', size = {len(mine)}")
    with pytest.raises(NotTaken, match="held already with other bytes"):
        archive.add(grown.countersigned())


def test_the_index_is_made_anew_with_every_form(renewed: Archive) -> None:
    before = list(renewed.find(Sought())), renewed.known(NUMBER)
    renewed.rebuild()
    assert (list(renewed.find(Sought())), renewed.known(NUMBER)) == before
    assert damages(renewed) == []


def test_an_index_from_before_there_were_forms_is_made_anew(in_folder: Archive) -> None:
    in_folder.add(grown.sealed())
    with in_folder.index.writing() as writing:
        writing.connection.exec_driver_sql("DROP TABLE former")
    with pytest.raises(Failed, match=r"no such table: former\. .+`tracksworn archive rebuild` makes the index anew"):
        in_folder.add(grown.renewed())
    in_folder.rebuild()
    assert in_folder.known(NUMBER).documents[0].sha256 == digest(grown.renewed())
    assert damages(in_folder) == []


def test_every_form_stays_in_a_version_of_its_own(renewed_in_folder: Archive) -> None:
    renewed_in_folder.add(document(kind="certificate"))
    folder = renewed_in_folder.files.folder(NUMBER)
    contents = [(folder / f"v{number}/content/{grown.NAME}").read_bytes() for number in (1, 2, 3)]
    assert contents == [grown.sealed(), grown.countersigned(), grown.renewed()]
    versions = json.loads((folder / "inventory.json").read_text(encoding="utf-8"))["versions"]
    assert [version["message"].removeprefix("revision 0, ") for version in versions.values()] == [
        "listing", "listing, renewed", "listing, renewed", "certificate",
    ]  # fmt: skip
    names = [sorted(name for names in version["state"].values() for name in names) for version in versions.values()]
    assert names[0] == names[1] == names[2] == [grown.NAME.replace("pdf", "json"), grown.NAME]
    assert names[3][2:] == names[0]
    assert renewed_in_folder.content(renewed_in_folder.known(NUMBER).choose_one(0, "listing")) == grown.renewed()
    root = ocfl.StorageRoot(root=str(renewed_in_folder.place / "records"))
    assert root.validate(validate_objects=True, check_digests=True)
    assert (root.num_objects, root.good_objects, root.errors) == (1, 1, [])
    assert damages(renewed_in_folder) == []


def test_a_rotten_earlier_form_is_named_and_does_not_keep_a_later_one_out(in_folder: Archive) -> None:
    in_folder.add(grown.sealed())
    file = in_folder.files.folder(NUMBER) / f"v1/content/{grown.NAME}"
    file.write_bytes(file.read_bytes()[:-1] + b"?")
    assert in_folder.content(in_folder.add(grown.renewed())) == grown.renewed()
    (said,) = damages(in_folder)
    assert f"v1/content/{grown.NAME}: has changed since it was put there" in said


def test_a_form_that_the_log_does_not_know_is_found(in_folder: Archive) -> None:
    """A version that somebody has put in by hand, sound by itself."""
    in_folder.add(grown.sealed())
    inventory, facts = in_folder.files.inventory(NUMBER), read_facts(grown.sealed())
    beside = facts_json(facts, digest(grown.renewed()))
    for piece in pieces_to_add(inventory, facts, grown.renewed(), beside, "2031-05-04T09:30:00Z"):
        files = {Path(): piece.files} if isinstance(piece.files, bytes) else piece.files
        for name, content in files.items():
            (in_folder.place / piece.target / name).parent.mkdir(parents=True, exist_ok=True)
            (in_folder.place / piece.target / name).write_bytes(content)
    found = damages(in_folder)
    assert [said.partition("/v2/")[2] for said in found] == [
        f"content/{grown.NAME}: is another file than the log has",
        f"content/{grown.NAME.replace('pdf', 'json')}: is another file than the log has",
    ]


def test_a_form_that_is_gone_is_found(renewed_in_folder: Archive) -> None:
    folder = renewed_in_folder.files.folder(NUMBER)
    for name in ("inventory.json", "inventory.json.sha512"):
        shutil.copyfile(folder / "v2" / name, folder / name)
    shutil.rmtree(folder / "v3")
    assert [said.rpartition("/")[2] for said in damages(renewed_in_folder)] == [
        f"{grown.NAME}: is missing, and the log has it",
        f"{grown.NAME.replace('pdf', 'json')}: is missing, and the log has it",
    ]


def test_a_bag_has_the_last_form_and_a_proof_of_each(renewed_in_folder: Archive, tmp_path: Path) -> None:
    assert export(renewed_in_folder, [NUMBER], tmp_path / "bag") == 1
    folder, stem = tmp_path / "bag/data" / NUMBER, grown.NAME.removesuffix(".pdf")
    assert (folder / grown.NAME).read_bytes() == grown.renewed()
    for name in (f"{stem}.act-0", f"{stem}.act-1", stem):
        act = json.loads(json.loads((folder / f"{name}.proof.json").read_text(encoding="utf-8"))["act"])
        assert digest(grown.renewed()[: act["bytes"]]) == act["sha256"]
    assert len(list(folder.iterdir())) == 5


def test_a_bag_renews_what_another_archive_holds(renewed_in_folder: Archive, tmp_path: Path) -> None:
    export(renewed_in_folder, [NUMBER], tmp_path / "bag")
    for number, (held, new, renewed) in enumerate(
        [(None, True, False), (grown.sealed(), True, True), (grown.renewed(), False, False)]
    ):
        other = Archive.open(tmp_path / f"other{number}", new=True, disk=NotWaiting(), clock=Clock())
        if held:
            other.add(held)
        ((_, became),) = take_in(other, tmp_path / "bag")
        assert isinstance(became, Held)
        assert (became.new, became.renewed) == (new, renewed)
        assert other.content(became) == grown.renewed()


def test_all_forms_expire_together_and_stay_known(renewed: Archive) -> None:
    former = renewed.known(NUMBER).former
    renewed.hold(NUMBER, "claim")
    assert list(renewed.expire("1y", date(2041, 5, 4))) == []
    renewed.release(NUMBER, "settled")
    (gone,) = renewed.expire("1y", date(2041, 5, 4))
    assert gone.former == former
    (left,) = json.loads(renewed.files.content(NUMBER, "tombstone.json") or b"")["revisions"]
    assert left["sha256"] == digest(grown.renewed())
    assert [form["sha256"] for form in left["former"]] == [digest(grown.sealed()), digest(grown.countersigned())]
    assert not list(renewed.files.folder(NUMBER).rglob("*.pdf"))
    renewed.rebuild()
    standing = renewed.standing(claim(grown.sealed()))
    assert standing == Standing(same=True, other=False, newest=0, expired="2031-05-04T09:30:00Z", renewed=True)
    assert damages(renewed) == []
    with pytest.raises(NotTaken, match="has expired and its files were removed"):
        renewed.add(grown.renewed())
