"""The files that something was computed from, so that it can be told later whether any of them has changed."""

import os
import time
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Final

from tracksworn.inspection.faults import Failed, printable

SETTLED: Final = 2_000_000_000
"""Nanoseconds after which a further change of a file must show in its times: the coarsest clock of a disk."""


@dataclass(frozen=True, slots=True)
class Input:
    """A file as it was read: where it was looked for, where links led to, its state, and the SHA-256 of its bytes.

    `mtime_ns`, `ctime_ns` and `inode` are nought where the file was so new that they would not show a further change.
    """

    path: Path
    real: Path
    size: int
    mtime_ns: int
    ctime_ns: int
    inode: int
    sha256: str


def read_input(path: Path, real: Path, limit: int) -> tuple[bytes, Input]:
    """The bytes of `real`, and one more than the limit where it is larger, with its state before; raises Failed."""
    try:
        with real.open("rb") as stream:
            state = os.fstat(stream.fileno())
            content = stream.read(limit + 1)
    except OSError as error:
        raise Failed(f"{printable(path)} cannot be read: {error.strerror or error}") from error
    settled = time.time_ns() - max(state.st_mtime_ns, state.st_ctime_ns) > SETTLED
    times = (state.st_mtime_ns, state.st_ctime_ns, state.st_ino) if settled else (0, 0, 0)
    return content, Input(path, real, len(content), *times, sha256(content).hexdigest())
