"""Processes that heed no interrupt, and end with the one that began them, be it killed or cut off from its reader."""

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from multiprocessing.connection import Connection
from typing import ParamSpec, TypeVar

P = ParamSpec("P")
T = TypeVar("T")


def cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@contextmanager
def processes(
    count: int, begin: Callable[[], object] | None = None, *, method: str | None = None
) -> Iterator[ProcessPoolExecutor]:
    """So many of them; all end at once when this is left.

    `begin` is what each does before all else; `method` is how it is started, by a name of multiprocessing.
    """
    context = multiprocessing.get_context(method)
    heard, held = context.Pipe(duplex=False)
    pool = ProcessPoolExecutor(count, mp_context=context, initializer=_begin, initargs=(heard, held, begin))
    try:
        yield pool
    finally:
        held.close()
        pool.shutdown(cancel_futures=True)
        heard.close()


def submitted(pool: ProcessPoolExecutor, work: Callable[P, T], *args: P.args, **words: P.kwargs) -> "Future[T]":
    """What comes of work; of a pool that is broken by now, that is told when the result is asked for.

    Processes and threads that this starts are born without heeding an interrupt, or that a pipe has no reader: a thread
    that feeds a process which has died is to get an error, where a command's default is to end.
    """
    try:
        with held_back(signal.SIGINT, signal.SIGPIPE):
            return pool.submit(work, *args, **words)
    except BrokenProcessPool as error:
        failed: Future[T] = Future()
        failed.set_exception(error)
        return failed


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
