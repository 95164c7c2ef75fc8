"""Folders for what is needed for a moment, where the machine keeps such: TMPDIR, else the system's own."""

import errno
import os
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from tempfile import gettempdir
from typing import Final

from tracksworn.documents.held_folders import clear_dead, held_folder
from tracksworn.inspection.faults import Failed, printable

_PREFIX: Final = ".tracksworn-scratch-"
_FULL: Final = (errno.ENOSPC, errno.EDQUOT)


@contextmanager
def scratch(room: int = 0) -> Iterator[Path]:
    """A folder that is gone afterwards, in which that many bytes are free at first.

    What killed processes have left of such is taken away before the first one of a process.

    Raises Failed where it has no room for what is written into it: in one sentence, which says what would be right.
    """
    place = Path(gettempdir())
    _clear_once(place)
    with held_folder(place, _PREFIX) as folder:
        try:
            if room:
                _try_room(folder / "room", room)
            yield folder
        except OSError as error:
            if error.errno not in _FULL or not str(error.filename or folder).startswith(str(folder)):
                raise
            raise Failed(
                f"no room is left in {printable(place)}, where files lie that are needed for a moment; make "
                "some, or name another folder by TMPDIR"
            ) from error


@cache
def _clear_once(place: Path) -> None:
    clear_dead(place, _PREFIX)


def _try_room(file: Path, room: int) -> None:
    handle = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL)
    try:
        os.posix_fallocate(handle, 0, room)
    finally:
        os.close(handle)
        file.unlink()
