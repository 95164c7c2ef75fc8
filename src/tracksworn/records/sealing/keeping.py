"""A new key on the disk: readable by its owner alone, and never in the place of another file."""

import os
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import Final

from tracksworn.inspection.faults import Failed, WrongUse, printable
from tracksworn.records.sealing.practice import PracticeKey

CERTIFICATE: Final = ".pem"
READABLE_BY_ALL: Final = 0o644
READABLE_BY_OWNER: Final = 0o600


def refuse_taken(place: Path) -> None:
    """Raise WrongUse where a key cannot go: something is there or beside it, or it is named as its certificate is."""
    if place.suffix == CERTIFICATE:
        raise WrongUse(f"{printable(place)} is what the certificate is named; name the key FILE.p12")
    for each in (place, place.with_suffix(CERTIFICATE)):
        if os.path.lexists(each):
            raise _taken(each)


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
    """Write beside the place, for the owner alone, then link into it, which fails where something is there."""
    handle, name = tempfile.mkstemp(prefix=".writing-", dir=place.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            os.fchmod(handle, mode)
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.link(name, place)
    except FileExistsError as error:
        raise _taken(place) from error
    finally:
        with suppress(OSError):
            Path(name).unlink()


def _sync(folder: Path) -> None:
    """Make the names durable that a folder holds."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
