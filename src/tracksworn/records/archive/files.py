"""The records' files: what is held of a record, and what is to be written where it changes."""

import hashlib
from collections.abc import Iterator, Sequence
from pathlib import Path, PurePosixPath

from tracksworn.records.archive.changes import Piece
from tracksworn.records.archive.facts import facts_of
from tracksworn.records.archive.held import Facts, NotTaken, Record, facts_name, file_name, stem
from tracksworn.records.archive.ocfl import (
    Inventory,
    NoObject,
    empty_inventory,
    object_files,
    object_path,
    read_inventory,
    version_files,
)
from tracksworn.records.archive.place import RECORDS, records_path
from tracksworn.records.archive.tombstones import TOMBSTONE, read_tombstone


class Files:
    """The records in an archive's folder. Only reads; changes are pieces for `Changes`."""

    def __init__(self, folder: Path) -> None:
        self.root = folder / RECORDS

    def folder(self, number: str) -> Path:
        """Where a record lies, whether it is there or not."""
        return self.root / object_path(number)

    def inventory(self, number: str) -> Inventory | None:
        """What is held of a record; None where nothing is. Raises NoObject where that cannot be told."""
        try:
            return read_inventory(self.folder(number))
        except FileNotFoundError:
            if self.folder(number).is_dir():
                raise NoObject("its inventory is missing") from None
            return None

    def sound_inventory(self, number: str) -> Inventory | None:
        """As `inventory`, for a change. Raises NotTaken for a record that is damaged or has expired."""
        try:
            inventory = self.inventory(number)
        except NoObject as error:
            raise NotTaken(
                f"record {number} is damaged ({error}); `tracksworn archive verify` tells all of it"
            ) from None
        if inventory is not None and inventory.content_path(TOMBSTONE):
            raise NotTaken(f"record {number} has expired and its files were removed; a new record needs a new number")
        return inventory

    def content(self, number: str, name: str) -> bytes | None:
        """A file of a record as it is on disk; None where it cannot be had."""
        try:
            inventory = self.inventory(number)
            path = inventory.content_path(name) if inventory else None
            return (self.folder(number) / path).read_bytes() if path else None
        except (OSError, NoObject):
            return None

    def facts(self, number: str, revision: int, document: str) -> Facts | None:
        """What a document is about, or of what is left of it when it has expired."""
        written = self.content(number, facts_name(number, revision, document))
        if written is not None:
            return facts_of(written)
        record = self.tombstone(number, 0)
        of = record.documents if record else ()
        return next((held.facts for held in of if (held.revision, held.document) == (revision, document)), None)

    def tombstone(self, number: str, act: int) -> Record | None:
        """What is left of a record by its tombstone, which came by that act; None where that cannot be had."""
        try:
            record = read_tombstone(self.content(number, TOMBSTONE) or b"", act)
        except NotTaken:
            return None
        return record if record.number == number else None


def pieces_to_add(inventory: Inventory | None, facts: Facts, content: bytes, beside: bytes, at: str) -> Sequence[Piece]:
    """What is written where a document is added to what is held of its record.

    A version holds all that there is of the revision: the document that came, and those that were there before. What
    is renewed keeps its name; its earlier form stays in the version in which it came.
    """
    number, revision = facts.number, facts.revision
    key = (number, revision, facts.document)
    files = {file_name(*key): content, facts_name(*key): beside}
    place = records_path(object_path(number))
    before = inventory or empty_inventory(number)
    beginnings = tuple(f"{stem(number, revision)}{sign}" for sign in ".-")
    keeping = [name for name in before.names() if name.startswith(beginnings) and name not in files]
    renewed = file_name(*key) in before.names()
    message = f"revision {revision}{facts.document and f', {facts.document}'}{', renewed' if renewed else ''}"
    changed = before.extended(files, at, message, keeping)
    if inventory is None:
        return (Piece(place, object_files(changed, files)),)
    version = Piece(place / f"v{changed.head}", version_files(changed, files))
    return (version, *(Piece(place / name, said) for name, said in changed.files().items()))


def pieces_to_expire(number: str, tombstone: bytes, at: str) -> Sequence[Piece]:
    """What is written in a record's place where it expires, or where it has expired elsewhere."""
    files = {TOMBSTONE: tombstone}
    inventory = empty_inventory(number).extended(files, at, "expired")
    return (Piece(records_path(object_path(number)), object_files(inventory, files)),)


def sha256(content: bytes) -> str:
    """The SHA-256 in hexadecimal."""
    return hashlib.sha256(content).hexdigest()


def object_folders(root: Path) -> Iterator[PurePosixPath]:
    """Where objects lie within the storage root."""
    for top in sorted(root.glob("???")):
        yield from (PurePosixPath(path.relative_to(root)) for path in sorted(top.glob("???/???/*")))
