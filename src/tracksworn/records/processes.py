"""Processes that heed no interrupt, and end with the one that began them, be it killed or cut off from its reader.

What they make comes back in files, of which only the names go through the pool's own pipe. That pipe has many writers
and so no end: of one that dies halfway, the rest would be waited for without end. A name is written at once or not at
all (POSIX, `write` of no more than PIPE_BUF bytes).
"""

import multiprocessing
import os
import pickle
import signal
import tempfile
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any, ParamSpec, TypeVar

from tracksworn.documents.scratch import scratch

P = ParamSpec("P")
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Pool:
    """Processes that wait for work, and the folder for what they make."""

    executor: ProcessPoolExecutor
    folder: Path


def cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@contextmanager
def processes(count: int, begin: Callable[[], object] | None = None, *, method: str | None = None) -> Iterator[Pool]:
    """So many of them; all end at once when this is left.

    `begin` is what each does before all else; `method` is how it is started, by a name of multiprocessing.
    """
    context = multiprocessing.get_context(method)
    heard, held = context.Pipe(duplex=False)
    executor = ProcessPoolExecutor(count, mp_context=context, initializer=_begin, initargs=(heard, held, begin))
    with scratch() as folder:
        try:
            yield Pool(executor, folder)
        finally:
            held.close()
            executor.shutdown(cancel_futures=True)
            heard.close()


def submitted(pool: Pool, work: Callable[P, T], *args: P.args, **words: P.kwargs) -> "Future[T]":
    """What comes of work; of a pool that is broken by now, that is told when the result is asked for.

    Processes and threads that this starts are born without heeding an interrupt, or that a pipe has no reader: a thread
    that feeds a process which has died is to get an error, where a command's default is to end.
    """
    whole: Future[T] = Future()
    try:
        with held_back(signal.SIGINT, signal.SIGPIPE):
            file = pool.executor.submit(_into_a_file, pool.folder, partial(work, *args, **words))
    except BrokenProcessPool as error:
        whole.set_exception(error)
    else:
        file.add_done_callback(partial(_hand_on, whole))
    return whole


def _into_a_file(folder: Path, work: Callable[[], Any]) -> str:
    """Do the work; the name of the file that has what came of it, or what went wrong."""
    try:
        result, error = work(), None
    except Exception as wrong:  # noqa: BLE001 - raised where the result is asked for
        result, error = None, wrong
    with tempfile.NamedTemporaryFile(dir=folder, delete=False) as file:
        pickle.dump((result, error), file, pickle.HIGHEST_PROTOCOL)
    return file.name


def _hand_on(whole: "Future[Any]", made: "Future[str]") -> None:
    if made.cancelled():
        whole.cancel()
        return
    result, error = (None, failed) if (failed := made.exception()) else _out_of_its_file(Path(made.result()))
    if error is None:
        whole.set_result(result)
    else:
        whole.set_exception(error)


def _out_of_its_file(path: Path) -> tuple[Any, BaseException | None]:
    try:
        made: tuple[Any, BaseException | None] = pickle.loads(path.read_bytes())  # noqa: S301 - a process of ours wrote it
        path.unlink()
    except Exception as wrong:  # noqa: BLE001 - raised where the result is asked for
        return None, wrong.with_traceback(None)
    return made


@contextmanager
def held_back(*signals: signal.Signals) -> Iterator[None]:
    """Put signals off to the end; threads and processes that are started meanwhile have them held back for good."""
    before = signal.pthread_sigmask(signal.SIG_BLOCK, signals)
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _begin(heard: Connection, held: Connection, begin: Callable[[], object] | None) -> None:
    """What each process does first; it lets go of the end of the pipe that tells by its closing who still lives."""
    held.close()
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    threading.Thread(target=_end_with, args=(heard,), daemon=True).start()
    if begin is not None:
        begin()


def _end_with(heard: Connection) -> None:
    """End this process when the other end of the pipe is closed."""
    heard.poll(None)
    os._exit(0)
