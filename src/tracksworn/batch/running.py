"""Lots made by several processes of this machine, one for each core that this one may use.

Each process imports the engine once and heeds no interrupt: it ends when the one that started it lets go of a pipe, be
it killed. Results come in the order of the lots, which are taken a few ahead, so that memory stays bounded.
"""

import gc
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool
from contextlib import AbstractContextManager, suppress
from functools import partial
from itertools import islice
from typing import Final

from tracksworn.batch.order import Made, Order, failed
from tracksworn.inspection.sale_list import Listed
from tracksworn.records.processes import Pool, cores, processes, submitted

AHEAD: Final = 3
"""Lots a process that are under way or done and not yet taken."""
TRIES: Final = 2
"""How often a lot may end a process that makes it alone."""

Make = Callable[[Listed, Order], Made]
_UnderWay = tuple[Listed, "Future[Made]"]


class Processes:
    """Makes lots in so many processes, begun with the first lot. `make` is found there by its name; else `make_lot`."""

    def __init__(self, count: int | None = None, make: Make | None = None) -> None:
        self.count = count or cores()
        self._make = partial(_make, make)
        self._begin = _warm_up if make is None else None

    def made(self, lots: Iterable[Listed], order: Order) -> Iterator[Made]:
        """Every lot in order. What was under way when a process died is made once more, each alone."""
        coming = iter(lots)
        while first := next(coming, None):
            under_way: list[_UnderWay] = []
            with self._pool(self.count) as pool:
                yield from self._through(pool, _before(first, coming), order, under_way)
            yield from self._once_more(under_way, order)

    def _through(self, pool: Pool, lots: Iterator[Listed], order: Order, broken: list[_UnderWay]) -> Iterator[Made]:
        """Lots through a pool until there are none, or until it breaks: then `broken` has those that were under way."""
        waiting: deque[_UnderWay] = deque()
        while True:
            for listed in islice(lots, self.count * AHEAD - len(waiting)):
                waiting.append((listed, submitted(pool, self._make, listed, order)))
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

    def _pool(self, count: int) -> AbstractContextManager[Pool]:
        return processes(count, self._begin, method="spawn")

    def _once_more(self, under_way: Iterable[_UnderWay], order: Order) -> Iterator[Made]:
        """Those that were under way, one at a time; which of them a process died of shows only so.

        One process makes them, another only where it dies.
        """
        waiting, deaths = deque(under_way), 0
        while waiting:
            with self._pool(1) as pool, suppress(BrokenProcessPool):
                while waiting:
                    made = self._alone(pool, *waiting[0], order)
                    waiting.popleft()
                    deaths = 0
                    yield made
                return
            deaths += 1
            if deaths == TRIES:
                yield _deadly(waiting.popleft()[0])
                deaths = 0

    def _alone(self, pool: Pool, listed: Listed, future: "Future[Made]", order: Order) -> Made:
        if future.done() and future.exception() is None:
            return future.result()
        return submitted(pool, self._make, listed, order).result()


def _deadly(listed: Listed) -> Made:
    what = f"the process that made its documents died of it, {TRIES} times (had the machine no memory left?)"
    return failed(listed, what)


def _before(first: Listed, others: Iterator[Listed]) -> Iterator[Listed]:
    yield first
    yield from others


def _warm_up() -> None:
    """Import the engine; what is wrong with it shows again when a lot is made, and is told then."""
    with suppress(Exception):
        from tracksworn.batch.warming import warm_up  # noqa: PLC0415 - only in these processes

        warm_up()


def _make(make: Make | None, listed: Listed, order: Order) -> Made:
    """One lot; what it leaves is collected between lots, not while one is made."""
    gc.disable()
    made = (make or _maker())(listed, order)
    gc.collect()
    return made


def _maker() -> Make:
    from tracksworn.batch.work import make_lot  # noqa: PLC0415 - it imports the engine

    return make_lot
