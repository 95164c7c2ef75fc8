"""A new key on the disk: readable by its owner alone, and never in the place of another file."""

import errno
import os
import stat
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import Final

from tracksworn.documents.writing import sync_folder
from tracksworn.inspection.faults import Failed, WrongUse, printable
from tracksworn.records.sealing.practice import PracticeKey

CERTIFICATE: Final = ".pem"
READABLE_BY_ALL: Final = 0o644
READABLE_BY_OWNER: Final = 0o600
_NO_LINKS: Final = (errno.EPERM, errno.ENOTSUP, errno.ENOSYS, errno.EMLINK)  # link(2), where a disk has none


def refuse_taken(place: Path) -> None:
    """Raise WrongUse where a key cannot go: something is there or beside it, or it is named as its certificate is."""
    if place.suffix == CERTIFICATE:
        raise WrongUse(f"{printable(place)} is what the certificate is named; name the key FILE.p12")
    for each in (place, place.with_suffix(CERTIFICATE)):
        if os.path.lexists(each):
            raise _taken(each)
    above = next((each for each in place.parents if os.path.lexists(each)), None)
    if above is not None and not above.is_dir():
        raise WrongUse(f"{printable(above)} is no folder, and no key can be put into it; name another place")


def keep(key: PracticeKey, place: Path) -> Path:
    """Write a key, and its certificate beside it, under the same name with `.pem`; the path of the certificate.

    Raises WrongUse where there is no place for them, Failed where the machine refuses; neither is written then.
    """
    refuse_taken(place)
    beside = place.with_suffix(CERTIFICATE)
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        _put(key.certificate, beside, READABLE_BY_ALL)
        try:
            _put(key.pkcs12, place)
        except BaseException:  # an interrupt too
            beside.unlink()
            raise
        _sync(place.parent)
    except OSError as error:
        raise Failed(f"cannot write to {printable(place.parent)}: {error.strerror or error}") from error
    return beside


def _taken(place: Path) -> WrongUse:
    return WrongUse(f"{printable(place)} is there already, and a key is never written over; name another file")


def _put(content: bytes, place: Path, mode: int = READABLE_BY_OWNER) -> None:
    """Write beside the place, for the owner alone, then move into it, which fails where something is there."""
    handle, name = tempfile.mkstemp(prefix=".writing-", dir=place.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            _permit(handle, mode, place)
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        _move(name, place)
    except FileExistsError as error:
        raise _taken(place) from error
    finally:
        with suppress(OSError):
            Path(name).unlink()


def _permit(handle: int, mode: int, place: Path) -> None:
    """Say who may read a file. Raises Failed where the disk lets others read what is its owner's alone."""
    with suppress(PermissionError):  # some disks have one answer for all their files
        os.fchmod(handle, mode)
    others = os.fstat(handle).st_mode & (stat.S_IRWXG | stat.S_IRWXO)
    if others and mode == READABLE_BY_OWNER:
        raise Failed(
            f"the disk of {printable(place.parent)} keeps no file to its owner alone, and a key needs that; name a "
            "place on another disk, or have this one mounted so that only you can read it"
        )


def _move(name: str, place: Path) -> None:
    """Move a file to a name that is free; FileExistsError where it is not. Whoever looks sees no part of it."""
    try:
        os.link(name, place)
    except OSError as error:
        if error.errno not in _NO_LINKS:
            raise
    else:
        return
    os.close(os.open(place, os.O_WRONLY | os.O_CREAT | os.O_EXCL, READABLE_BY_OWNER))  # takes the name, as a link does
    try:
        Path(name).replace(place)
    except BaseException:
        place.unlink()
        raise


def _sync(folder: Path) -> None:
    """Make the names durable that a folder holds."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        sync_folder(handle)
    finally:
        os.close(handle)
