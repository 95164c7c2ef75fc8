"""A scheduler and workers of Dask as processes of their own, as they would run on several machines."""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

TESTS = Path(__file__).parents[1]
_QUIET = {
    "DASK_DISTRIBUTED__LOGGING__DISTRIBUTED": "critical",
    "DASK_DISTRIBUTED__SCHEDULER__ALLOWED_FAILURES": "1",
    "DASK_DISTRIBUTED__WORKER__PROFILE__ENABLED": "False",
}


class Started:
    """A scheduler that listens on this machine alone, and those of its workers that were started here."""

    def __init__(self, folder: Path, protocol: str = "tcp", more: tuple[str, ...] = ()) -> None:
        self._folder = folder
        self._more = more
        self._all: list[subprocess.Popen[bytes]] = []
        note = folder / "scheduler.json"
        host = ("--host", f"{protocol}://127.0.0.1", "--port", "0")
        self.scheduler = self._start("scheduler", *host, "--scheduler-file", str(note))
        self.address = _address(note)

    def worker(self, threads: int = 1, nanny: bool = True) -> subprocess.Popen[bytes]:
        """One more worker; a nanny starts it anew where it dies."""
        kept = ("--nanny",) if nanny else ("--no-nanny",)
        place = ("--local-directory", str(self._folder))
        return self._start("worker", self.address, "--nthreads", str(threads), *kept, *place)

    def _start(self, what: str, *words: str) -> subprocess.Popen[bytes]:
        command = [sys.executable, "-m", f"distributed.cli.dask_{what}", "--no-dashboard", *self._more, *words]
        path = os.pathsep.join((str(TESTS), str(TESTS.parent / "src")))
        process = subprocess.Popen(
            command, cwd=self._folder, env={**os.environ, **_QUIET, "PYTHONPATH": path}, stderr=subprocess.DEVNULL
        )
        self._all.append(process)
        return process

    def end(self) -> None:
        """End all that was started here, workers first."""
        for process in reversed(self._all):
            process.send_signal(signal.SIGTERM)
            try:
                process.wait(20)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()


@contextmanager
def started(folder: Path, workers: int = 0, protocol: str = "tcp", more: tuple[str, ...] = ()) -> Iterator[Started]:
    """A scheduler with so many workers under nannies; `more` are words for the commands of both."""
    cluster = Started(folder, protocol, more)
    try:
        for _ in range(workers):
            cluster.worker()
        yield cluster
    finally:
        cluster.end()


def _address(note: Path) -> str:
    """Where the scheduler listens, as it writes that down itself."""
    until = time.monotonic() + 60.0
    while time.monotonic() < until:
        try:
            return str(json.loads(note.read_text())["address"])
        except (FileNotFoundError, ValueError):
            time.sleep(0.05)
    raise TimeoutError("the scheduler did not begin to listen")
