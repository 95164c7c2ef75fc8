"""The archive's folder: what lies where, how it is begun, and who may change it.

README.txt      what this is, for whoever finds it without the program
archive.json    that it is an archive, and of which kind
records/        the documents, as OCFL 1.1 has them
log/            every act, and its signed checkpoint
staging/        changes that are being made; else empty
index.sqlite    what makes records quick to find; made anew from the rest whenever it is lost
lock            held by whoever makes a change
"""

import errno
import fcntl
import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path, PurePosixPath
from typing import Final

from tracksworn.inspection.faults import Failed, WrongUse, printable
from tracksworn.records.archive.changes import STAGING
from tracksworn.records.archive.ocfl import root_files
from tracksworn.records.disk import Disk
from tracksworn.records.log.log import Log

KIND: Final = "archive 1"
MARK: Final = "archive.json"
README: Final = "README.txt"
RECORDS: Final = "records"
LOG: Final = "log"
INDEX: Final = "index.sqlite"
LOCK: Final = "lock"
OURS: Final = frozenset((README, f"{README}.new", MARK, f"{MARK}.new", RECORDS, LOG, STAGING, INDEX, LOCK))

EXPLANATION: Final = """\
An archive of condition reports on the undercarriages of crawler machines.

Every record is a folder below records/, as the Oxford Common File Layout 1.1 has it (https://ocfl.io/1.1/spec/). Its
path follows from the record's number: the first nine hexadecimal digits of the SHA-256 of the number, as three folders
of three, then the number itself. In v1/content, v2/content and so on lies what came at one time: a document as PDF,
with the data that it was computed from attached, and beside it what it is about, as JSON. A revision may have several
documents; inventory.json in the record's folder says which belong together, and names every file by its SHA-512. What
was signed or timestamped after it had come lies there once more, in a later version under the same name.

A record that was removed by a rule of retention, here or in an archive that handed its records on to this one, holds
tombstone.json alone, which says what was there and why it went.

log/acts.jsonl holds everything that was ever done here, one act a line. log/checkpoint.json says how many acts there
are and gives the root of the tree of hashes over them (RFC 9162, SHA-256), signed with the key of log/public.pem
(Ed25519, RFC 8032; the signed bytes are the RFC 8785 form of the checkpoint without its signature). log/key.pem is
the key that signs; its keeper may have put it elsewhere.

index.sqlite only makes finding quick; nothing is lost with it. Change nothing in here by hand.
"""


class NoLocks(Failed):
    """A disk does not keep two processes apart."""


def begin(folder: Path, disk: Disk, at: str, log_key: Path | None = None) -> None:
    """Make an archive in a folder that is empty or not there; what an earlier try left is made whole.

    The log's key lies with the log, or where it is to be kept instead.

    Raises WrongUse where other files lie there.
    """
    others = sorted(path.name for path in folder.iterdir() if path.name not in OURS) if folder.is_dir() else []
    if others:
        raise WrongUse(
            f"{printable(folder)} is no archive and holds other files ({others[0]}); name an empty folder, or one "
            "that is not there yet"
        )
    log = Log(folder / LOG, disk, log_key)
    if log_key is not None:
        log.check_place_of_key()  # first, so that no folder is left where it does not do
    made = [each for each in (folder, *folder.parents) if not each.exists()]
    disk.make_folders(folder)
    try:
        with locked(folder):
            _fill(folder, disk, log, at)
    except NoLocks:
        (folder / LOCK).unlink()
        for each in made:
            each.rmdir()
        raise


def _fill(folder: Path, disk: Disk, log: Log, at: str) -> None:
    for name, content in root_files().items():
        _put(disk, folder / RECORDS / name, content)
    log.begin(at)
    disk.make_folders(folder / STAGING)
    _put(disk, folder / README, EXPLANATION.encode("utf-8"))
    _put(disk, folder / MARK, json.dumps({"tracksworn": KIND}).encode("utf-8") + b"\n")


def is_archive(folder: Path) -> bool:
    """Whether there is an archive. Raises WrongUse for one that a later program has made."""
    try:
        said = json.loads((folder / MARK).read_bytes())["tracksworn"]
    except (FileNotFoundError, NotADirectoryError):
        return False
    except (ValueError, KeyError, TypeError):
        said = None
    if said != KIND:
        raise WrongUse(f"{printable(folder / MARK)} does not say `{KIND}`; this program knows no other kind of archive")
    return True


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """Keep all others from making changes meanwhile; waits until nobody else does. A lock ends with its process.

    Raises NoLocks where the disk has none.
    """
    with (folder / LOCK).open("a") as file:
        try:
            fcntl.flock(file, fcntl.LOCK_EX)
        except OSError as error:
            if error.errno not in (errno.ENOLCK, errno.ENOTSUP, errno.ENOSYS):
                raise
            raise NoLocks(
                f"the disk of {printable(folder)} knows no locks, and without them two could change the archive at "
                "once; put it on another disk"
            ) from error
        yield


def _put(disk: Disk, path: Path, content: bytes) -> None:
    if not path.exists():
        disk.make_folders(path.parent)
        disk.replace(path, content)


def records_path(path: PurePosixPath) -> PurePosixPath:
    """A path within the storage root, from the archive's folder."""
    return PurePosixPath(RECORDS) / path
