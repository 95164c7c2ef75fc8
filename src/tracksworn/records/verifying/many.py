"""Many files verified side by side, each in a process that may die of it without harm to the others."""

from collections import deque
from collections.abc import Generator, Iterable, Iterator, Sequence
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool
from contextlib import closing
from dataclasses import dataclass, replace
from datetime import datetime
from functools import partial
from importlib import import_module
from itertools import islice
from pathlib import Path
from typing import Final

from tracksworn.inspection.faults import Failed, TrackswornError, failure, printable
from tracksworn.inspection.folders import read_at_most
from tracksworn.records.processes import Pool, cores, processes, submitted
from tracksworn.records.verifying.kept import with_archive
from tracksworn.records.verifying.trust import Trust
from tracksworn.records.verifying.verdict import Answer, Archive, Name, State, Verdict

LARGEST: Final = 500_000_000  # bytes
AHEAD: Final = 4  # files that wait for each process


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of every file: whom to trust, and at which moment."""

    trust: Trust
    at: datetime


@dataclass(frozen=True, slots=True)
class Found:
    """A file as it was named, and its verdict; or, where the machine refuses, why."""

    file: str
    verdict: Verdict | None
    failure: str = ""


def verify_all(
    files: Sequence[str], asked: Asked, archive: Archive | None = None, workers: int | None = None
) -> Iterator[Found]:
    """Verify files in their order, as many at a time as there are processors; one alone in this process.

    The archive is asked by this process, of one file after the other, whoever reads the files.
    """
    count = min(len(files), workers or cores())
    found = (verify_file(file, asked) for file in files) if len(files) == 1 else _side_by_side(files, asked, count)
    with closing(found):
        for one in found:
            yield one if archive is None else _asked_of(archive, one)


def _asked_of(archive: Archive, found: Found) -> Found:
    if found.verdict is None:
        return found
    return replace(found, verdict=with_archive(found.verdict, archive, partial(_beginning, Path(found.file))))


def _beginning(file: Path, size: int) -> bytes:
    return read_at_most(file, size)[:size]


def verify_file(file: str, asked: Asked) -> Found:
    """Verify one file; whatever goes wrong is told, and none of it passes."""
    from tracksworn.records.verifying.verify import verify  # noqa: PLC0415 - takes a second

    try:
        content = read_at_most(Path(file), LARGEST)
        if len(content) > LARGEST:
            raise Failed(f"{printable(Path(file))} is larger than {LARGEST // 1_000_000} MB")
        return Found(file, verify(content, at=asked.at, trust=asked.trust))
    except TrackswornError as error:
        return Found(file, None, failure(error))
    except Exception as error:  # noqa: BLE001 - one file must not keep the others from being verified
        return Found(file, None, f"{printable(Path(file))}: {failure(error)}")


def _side_by_side(files: Iterable[str], asked: Asked, count: int) -> Generator[Found]:
    """Each in one of so many processes. Those that die of a file are made anew for the files that come after it."""
    import_module("tracksworn.records.verifying.verify")  # once, rather than in every process
    rest = iter(files)
    waiting: deque[tuple[str, Future[Found]]] = deque()
    while True:
        with processes(count) as pool:
            while _fill(waiting, pool, rest, asked, AHEAD * count):
                file, future = waiting.popleft()
                try:
                    yield future.result()
                except BrokenProcessPool:
                    waiting.appendleft((file, future))
                    break
            else:
                return
        for file, future in waiting:  # one of these did it; which, they show alone
            yield _alone(file, future, asked)
        waiting.clear()


def _fill(
    waiting: "deque[tuple[str, Future[Found]]]", pool: Pool, rest: Iterator[str], asked: Asked, most: int
) -> bool:
    """Have so many files wait, as far as there are more; whether any wait."""
    for file in islice(rest, most - len(waiting)):
        waiting.append((file, submitted(pool, verify_file, file, asked)))
    return bool(waiting)


def _alone(file: str, future: "Future[Found]", asked: Asked) -> Found:
    """What was found of a file, else what is found by a process that has nothing else to do."""
    if future.done() and not future.cancelled() and future.exception() is None:
        return future.result()
    with processes(1) as pool:
        try:
            return submitted(pool, verify_file, file, asked).result()
        except BrokenProcessPool:
            because = "the process that read it died of it"
            return Found(file, Verdict(tuple(Answer(name, State.CANNOT_TELL, because) for name in Name)))
