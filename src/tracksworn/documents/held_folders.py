"""Folders that stand as long as the process that made them; what a killed one has left is told apart by its lock."""

import fcntl
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path


@contextmanager
def held_folder(place: Path, prefix: str) -> Iterator[Path]:
    """A new folder in a place, locked as long as its process lives, and gone afterwards.

    The prefix is one by which nobody else names a folder, since any that is not locked may be cleared away.
    """
    folder, handle = _locked(place, prefix)
    try:
        yield folder
    finally:
        os.close(handle)
        shutil.rmtree(folder, ignore_errors=True)


def _locked(place: Path, prefix: str) -> tuple[Path, int]:
    """A new folder and its lock; of which somebody who clears up may take one away before it is locked."""
    while True:
        folder = Path(tempfile.mkdtemp(prefix=prefix, dir=place))
        with suppress(FileNotFoundError):
            handle = os.open(folder, os.O_RDONLY)
            with suppress(OSError):  # some disks of a network know no locks; nothing is cleared there
                fcntl.flock(handle, fcntl.LOCK_EX)
            if folder.is_dir():
                return folder, handle
            os.close(handle)


def clear_dead(place: Path, prefix: str) -> None:
    """Take away what killed processes have left in a place under that prefix."""
    for left in place.glob(f"{prefix}*"):
        with suppress(OSError):
            handle = os.open(left, os.O_RDONLY | os.O_DIRECTORY | os.O_NOFOLLOW)
            try:
                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
                shutil.rmtree(left, ignore_errors=True)
            finally:
                os.close(handle)
