"""Whether everything is still as it was put: the log, the files that it names, and the index beside them.

However many records there are, no more than some thousand of them are in memory at a time.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import islice, zip_longest
from pathlib import PurePosixPath
from random import Random
from typing import Final
from urllib.parse import unquote

from tracksworn.records.archive.acts import Act, Deed, read_act
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.files import object_folders
from tracksworn.records.archive.fixity import check_object
from tracksworn.records.archive.held import Damage, Form, Held, facts_name, file_name
from tracksworn.records.archive.index.reading import Logged, Reading
from tracksworn.records.archive.ocfl import (
    INVENTORY,
    LONGEST_NAME,
    Inventory,
    NoObject,
    object_path,
)
from tracksworn.records.archive.place import INDEX, LOG, RECORDS
from tracksworn.records.archive.tombstones import TOMBSTONE
from tracksworn.records.log.checkpoint import LogBroken
from tracksworn.records.log.log import ACTS, CHECKPOINT

IN_FILES: Final = (Deed.ADD, Deed.RENEW, Deed.EXPIRE, Deed.TOMBSTONE)
TOGETHER: Final = 10_000  # records whose acts are looked for in one reading of the log


def count_records(archive: Archive) -> int:
    """How many records were ever added."""
    with archive.reading() as reading:
        return reading.count()


def numbers_to_check(archive: Archive, sample: int | None, seed: int) -> Iterator[str]:
    """The records of which the files are to be read: all that were ever added, or that many, drawn by the seed."""
    count = count_records(archive)
    drawn = None if sample is None or sample >= count else set(Random(seed).sample(range(count), sample))  # noqa: S311
    with archive.reading() as reading:
        for place, number in enumerate(reading.numbers()):
            if drawn is None or place in drawn:
                yield number


def check_log(archive: Archive) -> Iterator[Damage]:
    """What is wrong with the log as a whole."""
    try:
        _, wrong = archive.log.check()
    except LogBroken as error:
        yield Damage(f"{LOG}/{CHECKPOINT}", None, str(error))
        return
    except OSError as error:
        yield Damage(f"{LOG}/{ACTS}", None, f"cannot be read: {error.strerror}")
        return
    if wrong:
        yield Damage(f"{LOG}/{ACTS}", None, wrong)


def check_index(archive: Archive) -> Iterator[Damage]:
    """What the index says that the log does not."""
    with archive.index.reading() as reading:
        fault = reading.fault()
    if fault:
        yield Damage(
            _index(archive), None, f"the index is damaged ({fault}); `tracksworn archive rebuild` makes it anew"
        )
        return
    with archive.reading() as reading:
        for one in _differing(_added(archive), reading.logged()):
            name = file_name(one.number, one.revision, one.document)
            what = f"index and log differ about {name}; `tracksworn archive rebuild` makes the index anew"
            yield Damage(_index(archive), one.number, what)


def _index(archive: Archive) -> str:
    return INDEX if archive.index.in_sqlite else "the database"


def _added(archive: Archive) -> Iterator[Logged]:
    for position, act in _acts(archive):
        if act.deed in (Deed.ADD, Deed.RENEW):
            yield Logged(position, act.number, act.revision or 0, act.document or "", act.sha256 or "")
        elif act.deed is Deed.TOMBSTONE and (record := archive.files.tombstone(act.number, position)):
            forms: tuple[Held | Form, ...] = (*record.documents, *record.former)
            yield from sorted(Logged(position, one.number, one.revision, one.document, one.sha256) for one in forms)


def _differing(log: Iterator[Logged], index: Iterator[Logged]) -> Iterator[Logged]:
    """What only one of them has, or has otherwise; both are in the order of the acts."""
    ours, theirs = next(log, None), next(index, None)
    while ours or theirs:
        if ours == theirs:
            ours, theirs = next(log, None), next(index, None)
        elif theirs is None or (ours and ours.act <= theirs.act):
            assert ours is not None
            yield ours
            theirs = next(index, None) if theirs and theirs.act == ours.act else theirs
            ours = next(log, None)
        else:
            yield theirs
            theirs = next(index, None)


def check_strays(archive: Archive) -> Iterator[Damage]:
    """What lies among the records but was never put there."""
    with archive.reading() as reading:
        for path in object_folders(archive.files.root):
            if not any(object_path(number) == path for number in _may_lie_there(path, reading)):
                yield Damage(f"{RECORDS}/{path}", None, "is no record that the log knows")


def _may_lie_there(path: PurePosixPath, reading: Reading) -> Iterator[str]:
    """The record that a folder is named for, if it is known; any, where its name was too long to be written whole."""
    if len(path.name) > LONGEST_NAME:
        yield from reading.numbers()
    elif reading.knows(number := unquote(path.name)):
        yield number


def check_records(archive: Archive, numbers: Iterable[str]) -> Iterator[tuple[str, tuple[Damage, ...]]]:
    """Record by record, what is wrong with its files; every byte of them is read."""
    rest = iter(numbers)
    while wanted := {number: list[Act]() for number in islice(rest, TOGETHER)}:
        for _, act in _acts(archive):
            if act.number in wanted and act.deed in IN_FILES:
                wanted[act.number].append(act)
        for number, acts in wanted.items():
            yield number, tuple(_check_record(archive, number, acts))


def _acts(archive: Archive) -> Iterator[tuple[int, Act]]:
    return ((entry.position, read_act(entry.plain())) for entry in archive.log.entries())


def _check_record(archive: Archive, number: str, acts: Sequence[Act]) -> Iterator[Damage]:
    folder, shown = archive.files.folder(number), f"{RECORDS}/{object_path(number)}"
    try:
        inventory = archive.files.inventory(number)
    except (NoObject, OSError) as error:
        yield Damage(f"{shown}/{INVENTORY}", number, f"the record is damaged: {error}")
        return
    if inventory is None:
        yield Damage(shown, number, "the record is missing")
        return
    try:
        yield from (Damage(f"{shown}/{path}", number, what) for path, what in check_object(folder, inventory))
        for name, digests in _logged(acts).items():
            yield from (
                Damage(f"{shown}/{path}", number, what) for path, what in _check_forms(inventory, name, digests)
            )
    except (KeyError, TypeError, AttributeError, IndexError):
        yield Damage(f"{shown}/{INVENTORY}", number, "the record is damaged: the inventory is no inventory")


def _check_forms(inventory: Inventory, name: str, logged: Sequence[str | None]) -> Iterator[tuple[str, str]]:
    """A file has had the forms that the log has, in their order; what of them is wrong, by their path."""
    for held, digest in zip_longest(inventory.forms(name).items(), logged):
        if held is None:
            yield name, "is missing, and the log has it"
        elif held[1] != digest:
            yield held[0], "is another file than the log has"


def _logged(acts: Sequence[Act]) -> Mapping[str, Sequence[str | None]]:
    """The files that the log says a record has, with the SHA-256 of every form of theirs, the oldest first."""
    if acts and acts[-1].deed in (Deed.EXPIRE, Deed.TOMBSTONE):
        return {TOMBSTONE: [acts[-1].beside]}
    files: dict[str, list[str | None]] = {}
    for act in acts:
        key = (act.number, act.revision or 0, act.document or "")
        files.setdefault(file_name(*key), []).append(act.sha256)
        files.setdefault(facts_name(*key), []).append(act.beside)
    return files
