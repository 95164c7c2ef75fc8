"""Records on their way to somebody else: bags as RFC 8493 has them, with what proves that each is in the log."""

import json
import shutil
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final

import bagit

from tracksworn.inspection.faults import Faulty, TrackswornError, WrongUse, printable
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.held import Form, Held, NotTaken, TakenHold, TakenTombstone, facts_name, stem
from tracksworn.records.archive.holds import HOLDS, holds_json, read_holds
from tracksworn.records.archive.tombstones import TOMBSTONE
from tracksworn.records.log.log import ACTS, CHECKPOINT, PUBLIC

DIGESTS: Final = ("sha256", "sha512")
HOW_TO_CHECK: Final = """\
Each folder holds one record: of every revision its documents as PDF, with the data that they were computed from
attached, and what each is about, as JSON. Where records were chosen, a proof that it was put into the archive's log
lies beside each, under its name with .proof.json; a bag of the whole archive holds the log itself instead. Of a
document that was signed or timestamped further since, the proof of each earlier form is there too, with the number of
its act in its name. The document begins with that form: `head -c BYTES FILE.pdf | sha256sum`, BYTES as the act has it.

A record that may not be destroyed, for a dispute above all, has holds.json, with every reason and since when (UTC);
whoever takes it over is to keep it likewise. Of a record that was destroyed by a rule of retention there is
tombstone.json alone: by which rule, when, and the SHA-256 of what was there.

A proof is checked with Python and nothing else; it prints `holds` where the act that the proof names is in the log:

    import hashlib, json, sys
    proof, sha256 = json.load(open(sys.argv[1])), lambda content: hashlib.sha256(content).digest()
    node, index, last = sha256(b"\\0" + proof["act"].encode()), proof["position"], proof["size"] - 1
    for beside in map(bytes.fromhex, proof["path"]):
        right = index % 2 or index == last
        node = sha256(b"\\1" + beside + node) if right else sha256(b"\\1" + node + beside)
        while right and index and index % 2 == 0:
            index, last = index // 2, last // 2
        index, last = index // 2, last // 2
    print("holds" if last == 0 and node.hex() == proof["root"] else "DOES NOT HOLD")

The act names the document by its SHA-256 (`sha256sum FILE.pdf`). The root is signed: the checkpoint in the proof is
the log's, and log/public.pem the key that it is held against (Ed25519 over the RFC 8785 form without `signature`).
What that key is worth depends on who gave it to you, and how.
"""


Became = Held | TakenTombstone | TakenHold | TrackswornError


def export(archive: Archive, numbers: Sequence[str] | None, to: Path) -> int:
    """Write a bag of these records, or of all with the whole log; how many documents it holds.

    Raises WrongUse where something is there already, NotTaken where a record is not held or is damaged; then nothing
    is written.
    """
    if to.exists():
        raise WrongUse(f"{printable(to)} is there already; name a folder that is not")
    beside = to.with_name(f".{to.name}.new")
    shutil.rmtree(beside, ignore_errors=True)
    to.parent.mkdir(parents=True, exist_ok=True)
    beside.mkdir()
    whole = numbers is None
    try:
        count = sum(_write(archive, number, beside, proven=not whole) for number in _numbers(archive, numbers))
        _write_log(archive, beside, whole=whole)
        (beside / "HOW-TO-CHECK.txt").write_text(HOW_TO_CHECK, encoding="utf-8")
        day = archive.log.checkpoint().at[:10]
        bagit.make_bag(str(beside), {"Bagging-Date": day, "External-Identifier": archive.log.name}, checksums=DIGESTS)
        beside.rename(to)
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    return count


def take_in(archive: Archive, bag: Path) -> Iterator[tuple[str, Became]]:
    """Take over a bag, once all of it is found unaltered: each file's name, and what became of it.

    Documents are added first, then what expired elsewhere is known as expired, then what is held there is held here.

    Raises NotTaken for what is no bag, or is not as it was packed; then nothing is added.
    """
    try:
        opened = bagit.Bag(str(bag))
        opened.validate()
    except bagit.BagError as error:
        raise NotTaken(f"{printable(bag)} is no bag, or is not as it was packed: {error}") from None
    names = sorted(opened.payload_entries())
    for ending, taken in _TAKEN.items():
        for name in names:
            if name.lower().endswith(ending):
                yield from ((name, became) for became in _told(taken(archive, (bag / name).read_bytes())))


def _documents(archive: Archive, content: bytes) -> Iterator[Became]:
    yield archive.add(content)


def _tombstones(archive: Archive, content: bytes) -> Iterator[Became]:
    yield archive.take_tombstone(content)


def _holds(archive: Archive, content: bytes) -> Iterator[Became]:
    number, holds = read_holds(content)
    yield from (archive.take_hold(number, hold) for hold in holds)


_TAKEN: Final = {".pdf": _documents, f"/{TOMBSTONE}": _tombstones, f"/{HOLDS}": _holds}


def _told(became: Iterator[Became]) -> Iterator[Became]:
    """What is refused is told, and does not keep the rest."""
    try:
        yield from became
    except (NotTaken, Faulty) as error:
        yield error


def _numbers(archive: Archive, numbers: Sequence[str] | None) -> Iterator[str]:
    if numbers is not None:
        yield from dict.fromkeys(numbers)
        return
    with archive.reading() as reading:
        yield from reading.numbers()


def _write(archive: Archive, number: str, folder: Path, *, proven: bool) -> int:
    record = archive.known(number)
    own = folder / number
    own.mkdir()
    if record.expired:
        (own / TOMBSTONE).write_bytes(_beside(archive, number, TOMBSTONE))
        return 0
    for held in record.documents:
        key = (number, held.revision, held.document)
        (own / held.name).write_bytes(archive.content(held))
        (own / facts_name(*key)).write_bytes(_beside(archive, number, facts_name(*key)))
        if proven:
            _write_proof(archive, held, own / f"{stem(*key)}.proof.json")
    if record.holds:
        (own / HOLDS).write_bytes(holds_json(number, record.holds))
    for form in record.former if proven else ():
        name = stem(form.number, form.revision, form.document)
        _write_proof(archive, form, own / f"{name}.act-{form.act}.proof.json")
    return len(record.documents)


def _beside(archive: Archive, number: str, name: str) -> bytes:
    content = archive.files.content(number, name)
    if content is None:
        raise NotTaken(f"{name} of record {number} is damaged; `tracksworn archive verify` tells all of it")
    return content


def _write_proof(archive: Archive, held: Held | Form, to: Path) -> None:
    to.write_text(json.dumps(archive.proof_of(held), indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


def _write_log(archive: Archive, folder: Path, *, whole: bool) -> None:
    own = folder / "log"
    own.mkdir()
    for name in (CHECKPOINT, PUBLIC, *((ACTS,) if whole else ())):
        shutil.copyfile(archive.log.folder / name, own / name)
