"""Folders for what is needed for a moment, where the machine keeps such: TMPDIR, else the system's own."""

import errno
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from tracksworn.inspection.faults import Failed, printable

_FULL: Final = (errno.ENOSPC, errno.EDQUOT)


@contextmanager
def scratch(room: int = 0) -> Iterator[Path]:
    """A folder that is gone afterwards, in which that many bytes are free at first.

    Raises Failed where it has no room for what is written into it: in one sentence, which says what would be right.
    """
    with TemporaryDirectory(prefix="tracksworn-", ignore_cleanup_errors=True) as name:
        folder = Path(name)
        try:
            if room:
                _try_room(folder / "room", room)
            yield folder
        except OSError as error:
            if error.errno not in _FULL or not str(error.filename or name).startswith(name):
                raise
            raise Failed(
                f"no room is left in {printable(folder.parent)}, where files lie that are needed for a moment; make "
                "some, or name another folder by TMPDIR"
            ) from error


def _try_room(file: Path, room: int) -> None:
    handle = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL)
    try:
        os.posix_fallocate(handle, 0, room)
    finally:
        os.close(handle)
        file.unlink()
