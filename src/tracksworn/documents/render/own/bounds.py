"""A firm's templates are run in a process of their own that may take so much memory and time and no more.

A template, or the layout of what it makes, could otherwise run for ever or take all memory: nothing that Python runs
within a process can bound that.
"""

import os
import pickle
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
"""What it may take and make."""
_TAKEN: Final = Path("/proc/self/statm")


class _TooMuch(Exception):  # noqa: N818
    """What a document took or made more of than it may."""


def within_bounds(make: Callable[[], T], folder: Path, *, seconds: float = SECONDS, memory: int = MEMORY) -> T:
    """What `make` returns, made in a child process; what it raises on purpose is raised here.

    Raises Faulty where it took more than the seconds of a clock, or more memory, or made more than a document needs;
    Refused where it stumbled; and Failed where the process died, or where the system cannot bound one.
    """
    if not (hasattr(os, "fork") and _TAKEN.exists()):
        raise Failed("templates of one's own need a system that can bound them in memory and time, as Linux can")
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        _run(make, writing, memory, seconds)  # never comes back
    os.close(writing)
    try:
        try:
            said = _heard(reading, time.monotonic() + seconds)
        finally:
            os.close(reading)
            ended = _end(child)
        answer: T = _answer(said, ended)
    except TimeoutError:
        raise _faulty(folder, f"took longer than {seconds:g} seconds") from None
    except MemoryError:
        raise _faulty(folder, f"took more than {memory >> 20} MB") from None
    except _TooMuch:
        raise _faulty(folder, f"came to more than {MOST_BYTES / 1e6:g} MB") from None
    return answer


def _faulty(folder: Path, what: str) -> Faulty:
    return Faulty([Fault(folder, 1, 1, f"a document {what} with these templates")])


def _run(make: Callable[[], object], writing: int, memory: int, seconds: float) -> None:
    """Say what came of it and die, whatever it is: nothing after the fork may run in the child."""
    try:
        try:
            _limit(memory, seconds)
            said = _made(make)
        except MemoryError:
            said = pickle.dumps(("memory", ""))
        except Exception as error:  # noqa: BLE001 - told by the parent as a fault of the program
            said = pickle.dumps(("broken", f"{type(error).__name__}: {error}"))
        with os.fdopen(writing, "wb") as out:
            out.write(said)
        os._exit(0)
    finally:
        os._exit(1)


def _made(make: Callable[[], object]) -> bytes:
    try:
        answer: tuple[str, object] = ("made", make())
    except Faulty as error:
        answer = ("faults", error.faults)
    except TrackswornError as error:
        answer = ("raised", error)
    return pickle.dumps(answer)


def _limit(memory: int, seconds: float) -> None:
    import resource  # noqa: PLC0415 - not every system has it

    has = int(_TAKEN.read_text(encoding="ascii").split()[0]) * resource.getpagesize()
    resource.setrlimit(resource.RLIMIT_AS, (has + memory, has + memory))
    resource.setrlimit(resource.RLIMIT_CPU, (int(seconds) + 1, int(seconds) + 2))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _heard(reading: int, until: float) -> bytes:
    """All that the child says. Raises TimeoutError where that has no end in time, _TooMuch where it is too long."""
    parts: list[bytes] = []
    size = 0
    while True:
        ready, _, _ = select.select([reading], [], [], max(until - time.monotonic(), 0.0))
        if not ready:
            raise TimeoutError
        part = os.read(reading, 1 << 20)
        if not part:
            return b"".join(parts)
        parts.append(part)
        size += len(part)
        if size > MOST_BYTES:
            raise _TooMuch


def _end(child: int) -> int:
    """How it ended, as an exit status, or as a signal below 0; what ends already is not killed by this."""
    os.kill(child, signal.SIGKILL)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def _answer(said: bytes, ended: int) -> Any:
    kind: str
    value: Any
    if not said:
        raise _death(ended)
    kind, value = pickle.loads(said)  # noqa: S301 - our own child wrote it
    if kind == "made":
        return value
    if kind == "faults":
        raise Faulty(value)
    if kind == "raised":
        raise value
    if kind == "memory":
        raise MemoryError
    raise Refused(f"the document is not handed over: its templates made the program stumble ({value})")


def _death(ended: int) -> Exception:
    if ended == -signal.SIGXCPU:
        return TimeoutError()
    how = f"by {signal.Signals(-ended).name}" if ended < 0 else f"with exit status {ended}"
    return Failed(f"the process in which a firm's own templates run died {how}; nothing was handed over")
