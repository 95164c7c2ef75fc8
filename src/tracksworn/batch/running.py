"""Lots made by several processes of this machine, one for each core that this one may use.

Each process imports the engine once and heeds no interrupt: it ends when the one that started it lets go of a pipe, be
it killed. Results come in the order of the lots, which are taken a few ahead, so that memory stays bounded.
"""

import gc
import multiprocessing
import os
import signal
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager, suppress
from functools import partial
from itertools import islice
from multiprocessing.connection import Connection
from typing import Final

from tracksworn.batch.order import Made, Order, faulty
from tracksworn.inspection.faults import Fault
from tracksworn.inspection.sale_list import Listed

AHEAD: Final = 3
"""Lots a process that are under way or done and not yet taken."""
TRIES: Final = 2
"""How often a lot may end a process that makes it alone."""


def cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


Make = Callable[[Listed, Order], Made]
_UnderWay = tuple[Listed, "Future[Made]"]


class Processes:
    """Makes lots in so many processes, begun with the first lot. `make` is found there by its name; else `make_lot`."""

    def __init__(self, count: int | None = None, make: Make | None = None) -> None:
        self.count = count or cores()
        self._make = partial(_make, make)
        self._warm = make is None

    def made(self, lots: Iterable[Listed], order: Order) -> Iterator[Made]:
        """Every lot in order. What was under way when a process died is made once more, each alone."""
        coming = iter(lots)
        while first := next(coming, None):
            under_way: list[_UnderWay] = []
            with _pool(self.count, self._warm) as pool:
                yield from self._through(pool, _before(first, coming), order, under_way)
            yield from self._once_more(under_way, order)

    def _through(
        self, pool: ProcessPoolExecutor, lots: Iterator[Listed], order: Order, broken: list[_UnderWay]
    ) -> Iterator[Made]:
        """Lots through a pool until there are none, or until it breaks: then `broken` has those that were under way."""
        waiting: deque[_UnderWay] = deque()
        while True:
            for listed in islice(lots, self.count * AHEAD - len(waiting)):
                waiting.append((listed, self._submit(pool, listed, order)))
            if not waiting:
                return
            listed, future = waiting[0]
            try:
                made = future.result()
            except BrokenProcessPool:
                broken.extend(waiting)
                return
            waiting.popleft()
            yield made

    def _submit(self, pool: ProcessPoolExecutor, listed: Listed, order: Order) -> "Future[Made]":
        """Also where the pool is broken by now: that is told when the result is asked for."""
        try:
            with held_back(signal.SIGINT, signal.SIGPIPE):  # what this starts is born heeding neither
                return pool.submit(self._make, listed, order)
        except BrokenProcessPool as error:
            failed: Future[Made] = Future()
            failed.set_exception(error)
            return failed

    def _once_more(self, under_way: Iterable[_UnderWay], order: Order) -> Iterator[Made]:
        """Those that were under way, one at a time; which of them a process died of shows only so."""
        for listed, future in under_way:
            if future.done() and future.exception() is None:
                yield future.result()
            else:
                yield self._alone(listed, order)

    def _alone(self, listed: Listed, order: Order) -> Made:
        for _ in range(TRIES):
            with _pool(1, self._warm) as pool, suppress(BrokenProcessPool):
                return self._submit(pool, listed, order).result()
        what = f"the process that made its documents died of it, {TRIES} times (had the machine no memory left?)"
        return faulty(listed, [Fault(listed.inspection, 1, 1, what)])


def _before(first: Listed, others: Iterator[Listed]) -> Iterator[Listed]:
    yield first
    yield from others


@contextmanager
def held_back(*signals: signal.Signals) -> Iterator[None]:
    """Put signals off to the end; threads and processes that are started meanwhile have them held back for good.

    So a thread that writes to a process that has died gets an error, where the default is to end all of this process.
    """
    before = signal.pthread_sigmask(signal.SIG_BLOCK, signals)
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


@contextmanager
def _pool(count: int, warm: bool) -> Iterator[ProcessPoolExecutor]:
    """Processes that end at once when this is left."""
    context = multiprocessing.get_context("spawn")
    heard, held = context.Pipe(duplex=False)
    pool = ProcessPoolExecutor(count, mp_context=context, initializer=_begin, initargs=(heard, warm))
    try:
        yield pool
    finally:
        held.close()
        pool.shutdown(cancel_futures=True)
        heard.close()


def _begin(heard: Connection, warm: bool) -> None:
    """What each process does first."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    threading.Thread(target=_end_with, args=(heard,), daemon=True).start()
    if warm:
        with suppress(Exception):  # shows again when a lot is made, and is told then
            from tracksworn.batch.warming import warm_up  # noqa: PLC0415 - the engine, only in these processes

            warm_up()


def _end_with(heard: Connection) -> None:
    """End this process when the other end of the pipe is closed."""
    heard.poll(None)
    os._exit(0)


def _make(make: Make | None, listed: Listed, order: Order) -> Made:
    """One lot; what it leaves is collected between lots, not while one is made."""
    gc.disable()
    made = (make or _maker())(listed, order)
    gc.collect()
    return made


def _maker() -> Make:
    from tracksworn.batch.work import make_lot  # noqa: PLC0415 - it imports the engine

    return make_lot
