"""A firm's templates are run in a process of their own that may take so much memory and time and no more.

A template, or the layout of what it makes, could otherwise run for ever or take all memory: nothing that Python runs
within a process can bound that.
"""

import os
import pickle
import resource
import select
import signal
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final, TypeVar

from tracksworn.documents.render.files import Refused
from tracksworn.inspection.faults import Failed, Fault, Faulty, TrackswornError

T = TypeVar("T")
MEMORY: Final = 1 << 30
"""What it may take beyond what this process has, bytes."""
SECONDS: Final = 90.0
MOST_BYTES: Final = 300_000_000


def within_bounds(make: Callable[[], T], folder: Path, *, seconds: float = SECONDS, memory: int = MEMORY) -> T:
    """What `make` returns, made in a child process; what it raises on purpose is raised here.

    Raises Faulty where it took more than the seconds of a clock, or more memory, and Failed where the process died.
    """
    if not hasattr(os, "fork"):
        raise Failed("templates of one's own need a system that can bound them in memory and time, as Linux can")
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        _run(make, writing, memory, seconds)  # never comes back
    os.close(writing)
    try:
        said = _heard(reading, time.monotonic() + seconds)
    finally:
        os.close(reading)
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
    if said is None:
        raise Faulty([Fault(folder, 1, 1, f"a document took longer than {seconds:g} seconds with these templates")])
    made: T = _answer(said, folder, memory)
    return made


def _run(make: Callable[[], object], writing: int, memory: int, seconds: float) -> None:
    try:
        _limit(memory, seconds)
        try:
            answer: tuple[str, object] = ("made", make())
        except Faulty as error:
            answer = ("faults", error.faults)
        except TrackswornError as error:
            answer = ("raised", error)
        except MemoryError:
            answer = ("memory", "")
        except Exception as error:  # noqa: BLE001 - told by the parent as a fault of the program
            answer = ("broken", f"{type(error).__name__}: {error}")
        with os.fdopen(writing, "wb") as out:
            pickle.dump(answer, out)
    finally:
        os._exit(0)


def _limit(memory: int, seconds: float) -> None:
    has = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0]) * resource.getpagesize()
    resource.setrlimit(resource.RLIMIT_AS, (has + memory, has + memory))
    resource.setrlimit(resource.RLIMIT_CPU, (int(seconds) + 1, int(seconds) + 2))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _heard(reading: int, until: float) -> bytes | None:
    """All that the child says; None where it says no end of it in time."""
    parts: list[bytes] = []
    size = 0
    while True:
        ready, _, _ = select.select([reading], [], [], max(until - time.monotonic(), 0.0))
        if not ready:
            return None
        part = os.read(reading, 1 << 20)
        if not part:
            return b"".join(parts)
        parts.append(part)
        size += len(part)
        if size > MOST_BYTES:
            return None


def _answer(said: bytes, folder: Path, memory: int) -> Any:
    kind: str
    value: Any
    kind, value = pickle.loads(said) if said else ("memory", "")  # noqa: S301 - our own child wrote it
    if kind == "made":
        return value
    if kind == "faults":
        raise Faulty(value)
    if kind == "raised":
        raise value
    if kind == "memory":
        raise Faulty([Fault(folder, 1, 1, f"a document took more than {memory >> 20} MB with these templates")])
    raise Refused(f"the document is not handed over: its templates made the program stumble ({value})")
