"""Many files verified side by side, each in a process that may die of it without harm to the others."""

import os
import signal
from collections.abc import Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final

from tracksworn.inspection.faults import Failed, TrackswornError, printable
from tracksworn.inspection.folders import read_at_most
from tracksworn.records.verifying.trust import Trust
from tracksworn.records.verifying.verdict import Answer, Archive, Name, State, Verdict

LARGEST: Final = 500_000_000  # bytes


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of every file: whom to trust, at which moment, and which archive to ask."""

    trust: Trust
    at: datetime
    archive: Path | None = None


@dataclass(frozen=True, slots=True)
class Found:
    """A file as it was named, and its verdict; or, where the machine refuses, why."""

    file: str
    verdict: Verdict | None
    failure: str = ""


def verify_all(files: Sequence[str], asked: Asked, workers: int | None = None) -> Iterator[Found]:
    """Verify files in their order, as many at a time as there are processors; one alone in this process."""
    if len(files) == 1:
        yield verify_file(files[0], asked)
        return
    count = min(len(files), workers or os.cpu_count() or 1)
    with ProcessPoolExecutor(count, initializer=_heed_nothing) as pool:
        waiting = [(file, pool.submit(verify_file, file, asked)) for file in files]
        try:
            for file, future in waiting:
                yield _result(file, future, asked)
        except BaseException:
            pool.shutdown(wait=False, cancel_futures=True)
            raise


def verify_file(file: str, asked: Asked) -> Found:
    """Verify one file; whatever goes wrong is told, and none of it passes."""
    from tracksworn.records.verifying.verify import verify  # noqa: PLC0415 - takes a second

    try:
        content = read_at_most(Path(file), LARGEST)
        if len(content) > LARGEST:
            raise Failed(f"{printable(Path(file))} is larger than {LARGEST // 1_000_000} MB")
        return Found(file, verify(content, at=asked.at, trust=asked.trust, archive=_archive(asked.archive)))
    except TrackswornError as error:
        return Found(file, None, str(error))
    except Exception as error:  # noqa: BLE001 - one file must not keep the others from being verified
        fault = f"tracksworn itself has a fault ({type(error).__name__}: {error})"
        return Found(file, None, f"{printable(Path(file))}: {fault}")


def _archive(place: Path | None) -> Archive | None:
    if place is None:
        return None
    from tracksworn.records.archive.archive import Archive as Kept  # noqa: PLC0415 - only where one is asked

    return Kept.open(place)


def _result(file: str, future: "Future[Found]", asked: Asked) -> Found:
    """What a process found; a file that it died of, or that died with it, is tried once more, alone."""
    try:
        return future.result()
    except BrokenProcessPool:
        with ProcessPoolExecutor(1, initializer=_heed_nothing) as alone:
            try:
                return alone.submit(verify_file, file, asked).result()
            except BrokenProcessPool:
                return Found(file, _died())


def _died() -> Verdict:
    because = "the process that read it died of it"
    return Verdict(tuple(Answer(name, State.CANNOT_TELL, because) for name in Name))


def _heed_nothing() -> None:
    """An interrupt is for the process that started this one."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
