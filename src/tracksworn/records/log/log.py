"""The log on disk: one entry a line, only ever added to, and a signed checkpoint that says how far it counts.

    acts.jsonl        every act, one JSON text a line, RFC 8785
    checkpoint.json   how many there are, the root over them, signed; acts count once it is replaced, whole
    public.pem        the key that checkpoints are held against
    key.pem           the key that signs them, if it is not kept elsewhere

What stands in `acts.jsonl` behind the checkpoint's length was never finished and does not count.
"""

import errno
import json
import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any, Final

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

from tracksworn.inspection.faults import WrongUse, printable
from tracksworn.records.disk import PRIVATE, Disk
from tracksworn.records.log.checkpoint import (
    Checkpoint,
    LogBroken,
    name_of,
    private_pem,
    public_pem,
    read_checkpoint,
    read_private,
    read_public,
    sign,
)
from tracksworn.records.log.tree import (
    Frontier,
    consistency_ranges,
    inclusion_ranges,
    is_consistent,
    is_included,
    leaf_hash,
    roots_over,
)

ACTS: Final = "acts.jsonl"
CHECKPOINT: Final = "checkpoint.json"
KEY: Final = "key.pem"
PUBLIC: Final = "public.pem"
_ALTERED: Final = "the log's acts are not those of its checkpoint; the log was altered"

Mark = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Entry:
    """One act of the log: which it is, from 0, where in the file it begins, and its bytes."""

    position: int
    offset: int
    content: bytes

    @property
    def end(self) -> int:
        """Where the next begins."""
        return self.offset + len(self.content) + 1

    def plain(self) -> dict[str, Any]:
        """The act. Raises LogBroken where it is no JSON object."""
        try:
            plain = json.loads(self.content)
        except (ValueError, RecursionError):
            plain = None
        if not isinstance(plain, dict):
            raise LogBroken(f"act {self.position} of the log is no act; the log was altered")
        return plain


class Log:
    """A log in a folder. Whoever appends must see to it that nobody else does at the same time."""

    def __init__(self, folder: Path, disk: Disk, key: Path | None = None) -> None:
        self.folder = folder
        self.disk = disk
        self.acts = folder / ACTS
        self.key = key or folder / KEY
        self._paths = str(self.acts), str(folder / CHECKPOINT)
        self._read: tuple[bytes, Checkpoint] | None = None

    def check_place_of_key(self) -> None:
        """Whether a log can be begun with that key. Raises LogBroken or OSError; folders that it lacks are made."""
        if self.key.exists():
            self._private()
            return
        self.disk.make_folders(self.key.parent)
        if not os.access(self.key.parent, os.W_OK | os.X_OK):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(self.key.parent))

    def begin(self, at: str) -> None:
        """Make what a log needs, as far as it is not there yet."""
        self.disk.make_folders(self.folder)
        if not (self.folder / PUBLIC).exists():
            if not self.key.exists():
                self.disk.make_folders(self.key.parent)
                self.disk.replace(self.key, private_pem(Ed25519PrivateKey.generate()), PRIVATE)
            self.disk.replace(self.folder / PUBLIC, public_pem(self._private().public_key()))
        if not self.acts.exists():
            self.disk.write(self.acts, b"")
        if not (self.folder / CHECKPOINT).exists():
            self.disk.replace(self.folder / CHECKPOINT, sign(self.signing_key(), at, 0, Frontier()).json())

    def signing_key(self) -> Ed25519PrivateKey:
        """What signs checkpoints. Raises WrongUse where it is not there, LogBroken where it is another's."""
        try:
            key = self._private()
        except FileNotFoundError:
            raise WrongUse(
                f"{printable(self.key)} is not there, and without the log's key nothing can be changed; "
                "name its file by --log-key"
            ) from None
        if name_of(key.public_key()) != self.name:
            raise LogBroken(f"{printable(self.key)} is the key of another log")
        return key

    def _private(self) -> Ed25519PrivateKey:
        try:
            return read_private(self.key.read_bytes())
        except LogBroken as error:
            raise LogBroken(f"{printable(self.key)}: {error}; if it lies elsewhere, name it by --log-key") from error

    @property
    def name(self) -> str:
        """The log's name: the SHA-256 of its public key."""
        return name_of(self._public)

    @cached_property
    def _public(self) -> Ed25519PublicKey:
        return read_public((self.folder / PUBLIC).read_bytes())

    def checkpoint(self) -> Checkpoint:
        """How far the log counts. Raises LogBroken where the log's key has not signed that, or the log is shorter."""
        published = (self.folder / CHECKPOINT).read_bytes()
        if self._read is None or self._read[0] != published:
            self._read = published, read_checkpoint(published, self._public)
        found = self._read[1]
        if self.acts.stat().st_size < found.length:
            raise LogBroken(f"the log has lost acts: {self.acts.name} is shorter than its checkpoint says")
        return found

    def mark(self) -> Mark:
        """What differs after every act, had without reading anything."""
        acts, checkpoint = os.stat(self._paths[0]), os.stat(self._paths[1])  # noqa: PTH116 - called for every look-up
        return acts.st_size, checkpoint.st_ino, checkpoint.st_mtime_ns

    def append(self, entries: Sequence[bytes], at: str) -> Checkpoint:
        """These acts after all others, durable, all of them or none; `at` is when, RFC 3339 in UTC."""
        key, last = self.signing_key(), self.checkpoint()
        content = b"".join(entry + b"\n" for entry in entries)
        self.disk.append(self.acts, last.length, content)
        frontier = last.frontier.extended(map(leaf_hash, entries))
        signed = sign(key, at, last.length + len(content), frontier)
        self.disk.replace(self.folder / CHECKPOINT, signed.json())
        return signed

    def entries(self, position: int = 0, offset: int = 0, *, until: Checkpoint | None = None) -> Iterator[Entry]:
        """The acts from one on, which begins at `offset`, to the checkpoint's end. Raises LogBroken for half a line."""
        end = (until or self.checkpoint()).length
        with self.acts.open("rb") as file:
            file.seek(offset)
            while offset < end:
                line = file.readline()
                if not line.endswith(b"\n") or offset + len(line) > end:
                    raise LogBroken(f"act {position} of the log does not end where it did; the log was altered")
                entry = Entry(position, offset, line[:-1])
                yield entry
                position, offset = position + 1, entry.end

    def at(self, position: int, offset: int) -> Entry:
        """One act, of which the place is known."""
        return next(self.entries(position, offset))

    def check(self) -> tuple[Checkpoint, str | None]:
        """The checkpoint, and what is wrong with the acts that it stands for; all of them are read."""
        until = self.checkpoint()
        try:
            found = Frontier().extended(leaf_hash(entry.content) for entry in self.entries(until=until))
        except LogBroken as error:
            return until, str(error)
        if found != until.frontier:
            return until, _ALTERED
        return until, None

    def proof(self, entry: Entry) -> dict[str, Any]:
        """What shows to anybody that an act is in the log: the act, its path to the root, the signed checkpoint."""
        until = self.checkpoint()
        path = roots_over(self._leaves(until), inclusion_ranges(entry.position, until.size))
        if not is_included(leaf_hash(entry.content), entry.position, until.size, path, until.frontier.root()):
            raise LogBroken(_ALTERED)
        return {
            "tracksworn": "proof 1",
            "act": entry.content.decode("utf-8"),
            "position": entry.position,
            "path": [node.hex() for node in path],
            "size": until.size,
            "root": until.root,
            "checkpoint": json.loads(until.json()),
        }

    def growth(self, earlier: Checkpoint) -> dict[str, Any]:
        """What shows that the log of an earlier checkpoint only grew. Raises LogBroken where it did not."""
        until, wrong = self.check()
        if wrong:
            raise LogBroken(wrong)
        path: tuple[bytes, ...] = ()
        if 0 < earlier.size <= until.size:
            path = roots_over(self._leaves(until), consistency_ranges(earlier.size, until.size))
        first, second = earlier.frontier.root(), until.frontier.root()
        if earlier.size and not is_consistent(earlier.size, first, until.size, second, path):
            raise LogBroken("the log does not hold what that checkpoint stands for; acts were taken back or altered")
        return {
            "tracksworn": "growth 1",
            "from": {"size": earlier.size, "root": earlier.root},
            "to": {"size": until.size, "root": until.root},
            "path": [node.hex() for node in path],
        }

    def growth_since(self, published: bytes) -> dict[str, Any]:
        """As `growth`, from a checkpoint as it was published. Raises LogBroken where it is none of this log, too."""
        try:
            earlier = read_checkpoint(published, self._public)
        except LogBroken as error:
            raise LogBroken(
                "the older checkpoint is none of this log, or was altered; give one as `archive checkpoint` printed it"
            ) from error
        return self.growth(earlier)

    def _leaves(self, until: Checkpoint) -> Iterator[bytes]:
        return (leaf_hash(entry.content) for entry in self.entries(until=until))
