"""Lots made by the workers of a Dask scheduler, instead of by processes of this machine.

Workers read inspections from the same paths as this process and hand their documents back through the scheduler; this
process alone writes. A worker that is lost loses nothing: the scheduler has its lots made by others, and each comes
back once, in the order of the list. Whoever reaches a scheduler can run what they like on its workers: keep it in a
network that you trust, or use an address that begins with tls://.
"""

import asyncio
import logging
import time
import warnings
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future as Fetching
from concurrent.futures import wait
from contextlib import contextmanager
from functools import partial
from itertools import chain, islice
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, cast
from uuid import uuid4

from tracksworn.batch.on_worker import Answer, Make, Program, answer, program
from tracksworn.batch.order import Made, Order, failed
from tracksworn.batch.running import AHEAD
from tracksworn.inspection.faults import Failed, WrongUse
from tracksworn.inspection.sale_list import Listed

if TYPE_CHECKING:
    from distributed import Client, Future

PATIENCE: Final = 60.0
"""Seconds without any worker after which there is no more waiting."""
_LOOK: Final = 1.0
"""Seconds between two looks at who is there."""
_AT_ONCE: Final = 64
"""Results that are fetched together."""
_BY_TLS: Final = frozenset({"tls", "wss"})

_UNDER_WAY: Final = ("pending", "lost")
"""Of a lot that is not made yet, or anew, since the worker that had made it is gone."""

_UnderWay = tuple[Listed, "Future[Answer]"]


class Cluster:
    """Makes lots on the workers of a scheduler, such as tcp://10.0.0.5:8786.

    `make` is what a worker does with a lot; it is found there by its name. `wanted` is what workers must run, else what
    this process runs.
    """

    def __init__(
        self, address: str, *, patience: float = PATIENCE, make: Make | None = None, wanted: Program | None = None
    ) -> None:
        self.address = address
        self._patience = patience
        self._make = make
        self._wanted = wanted

    def made(self, lots: Iterable[Listed], order: Order) -> Iterator[Made]:
        """Every lot in order. Raises Failed where the cluster does not answer, or is not fit to make what is asked."""
        coming = iter(lots)
        if (first := next(coming, None)) is None:
            return
        with _connected(self.address) as client:
            run = _Run(client, self.address, order, self._wanted or program(), self._patience, self._make)
            run.refuse_unfit()
            yield from run.through(chain((first,), coming))


class _Run:
    """One list of lots on its way through a cluster."""

    def __init__(
        self, client: "Client", address: str, order: Order, wanted: Program, patience: float, make: Make | None
    ) -> None:
        self._client, self._address, self._order, self._make = client, address, order, make
        self._patience, self._name = patience, uuid4().hex
        self._program, self._folder = wanted, Path.cwd()
        self._waiting: deque[_UnderWay] = deque()
        self._workers, self._looked, self._seen = 0, 0.0, time.monotonic()

    def refuse_unfit(self) -> None:
        """Raise Failed where no worker joins in time, or one of them could not make the same documents."""
        while not self._count():
            time.sleep(_LOOK / 10.0)
        for worker, threads in self._answer(self._client.nthreads).items():
            if threads > 1:
                raise Failed(
                    f"the worker {worker} has {threads} threads, of which one alone could work; start one for each "
                    f"core instead: `dask worker {self._address} --nthreads 1 --nworkers {threads}`"
                )
        for worker, found in self._answer(partial(self._client.run, program, on_error="return")).items():
            if not isinstance(found, OSError):  # of one that is gone: every worker is asked again with each lot
                self._refuse_other(worker, found)

    def through(self, lots: Iterator[Listed]) -> Iterator[Made]:
        """A bounded number of lots ahead; what is done is fetched together and yielded in order."""
        waiting = self._waiting
        try:
            while True:
                waiting.extend((listed, self._submit(listed)) for listed in islice(lots, self._room()))
                if not waiting:
                    return
                self._wait(waiting[0][1])
                if (status := waiting[0][1].status) == "finished":
                    yield from self._fetched()
                elif status not in _UNDER_WAY:
                    yield self._stumbled(*waiting.popleft())
        finally:
            self._client.cancel([future for _, future in waiting])

    def _room(self) -> int:
        return max(0, AHEAD * self._count() - len(self._waiting))

    def _submit(self, listed: Listed, again: str = "") -> "Future[Answer]":
        return self._client.submit(
            answer,
            listed,
            self._order,
            self._program,
            self._folder,
            self._make,
            key=f"lot-{listed.place}{again}-{self._name}",
            pure=False,
        )

    def _fetched(self) -> Iterator[Made]:
        """The first of all, and what else is done behind it; none where the worker that had them is lost meanwhile."""
        ready: list[_UnderWay] = []
        while self._waiting and len(ready) < _AT_ONCE and self._waiting[0][1].status == "finished":
            ready.append(self._waiting.popleft())
        try:
            answers = self._gathered([future for _, future in ready])
        except Failed:
            raise
        except Exception as error:  # whatever Dask raises
            if all(future.status == "finished" for _, future in ready):
                raise Failed(self._gone()) from error
            self._waiting.extendleft(reversed(ready))
            return
        for (listed, _), each in zip(ready, answers, strict=True):
            yield self._taken(listed, each)

    def _gathered(self, futures: "list[Future[Answer]]") -> list[Answer]:
        """What workers have made, or make anew where they are lost; raises Failed where nobody is there to do it."""
        asked, loop = self._client.gather(futures, asynchronous=True), cast("Any", self._client.loop).asyncio_loop
        fetching: Fetching[list[Answer]] = asyncio.run_coroutine_threadsafe(asked, loop)
        try:
            while not wait([fetching], _LOOK).done:
                self._count()
            return fetching.result()
        finally:
            fetching.cancel()

    def _taken(self, listed: Listed, given: Answer) -> Made:
        if given.made is None:
            raise Failed(given.refused)
        if not given.sees and listed.inspection.exists():
            raise Failed(
                f"the worker {given.worker} does not see {listed.inspection}, which is here; every worker must reach "
                f"the sale's files under the same path, {self._folder.joinpath(listed.inspection).parent}"
            )
        return given.made

    def _stumbled(self, listed: Listed, future: "Future[Answer]") -> Made:
        """A lot whose workers died is made once more when nothing else is under way that could have been the cause."""
        from distributed import KilledWorker  # noqa: PLC0415

        if isinstance(self._error(future), KilledWorker):
            for _, other in self._waiting:
                self._wait(other)
            future = self._submit(listed, again="-again")
            try:
                return self._taken(listed, self._gathered([future])[0])
            except KilledWorker:
                return _deadly(listed)
            except Failed:
                raise
            except Exception as error:  # whatever Dask raises
                raise self._cannot(listed, future) from error
        raise self._cannot(listed, future)

    def _cannot(self, listed: Listed, future: "Future[Answer]") -> Failed:
        return Failed(f"the cluster at {self._address} cannot make {listed.name}: {self._error(future)}")

    def _error(self, future: "Future[Answer]") -> BaseException:
        if future.status != "error":
            raise Failed(self._gone())
        error = future.exception()
        if isinstance(error, ModuleNotFoundError | AttributeError):  # what was sent could not even be read there
            raise Failed(_not_installed("a worker", error))
        return error  # type: ignore[no-any-return]

    def _wait(self, future: "Future[Answer]") -> None:
        """Until it is done; raises Failed where nobody is there to do it."""
        while not future.done():
            try:
                future.exception(timeout=_LOOK)
            except TimeoutError:
                self._count()
            except Exception as error:
                raise Failed(self._gone()) from error
        if future.status == "cancelled":
            raise Failed(self._gone())

    def _count(self) -> int:
        """How many workers there are, as of a moment ago."""
        now = time.monotonic()
        if now - self._looked < _LOOK and self._workers:
            return self._workers
        self._workers = len(self._answer(self._client.nthreads))
        self._looked = now
        if self._workers:
            self._seen = now
        elif now - self._seen > self._patience:
            raise Failed(
                f"the scheduler at {self._address} has had no worker for {self._patience:.0f} seconds; start some with "
                f"`dask worker {self._address} --nthreads 1`"
            )
        return self._workers

    def _answer(self, ask: Callable[[], dict[str, Any]]) -> dict[str, Any]:
        """What the scheduler says, by worker."""
        try:
            return ask()
        except Exception as error:  # whatever Dask raises where its scheduler is gone
            raise Failed(self._gone()) from error

    def _gone(self) -> str:
        return (
            f"the scheduler at {self._address} no longer answers; what is written so far is whole, and the same "
            "command goes on from there"
        )

    def _refuse_other(self, worker: str, found: "Program | BaseException") -> None:
        if isinstance(found, BaseException):
            raise Failed(_not_installed(f"the worker {worker}", found))
        if differs := self._program.apart_from(found):
            raise Failed(f"the worker {worker} would make other documents: {differs}")


def _not_installed(who: str, error: BaseException) -> str:
    return f"{who} of the cluster cannot run this program; install the same tracksworn there ({error})"


def _deadly(listed: Listed) -> Made:
    what = "the workers that made its documents died of it, again and again (had they no memory left?)"
    return failed(listed, what)


@contextmanager
def _connected(address: str) -> Iterator["Client"]:
    """A client, which says nothing of its own: what must be told is raised."""
    refuse_no_address(address)
    from distributed import Client  # noqa: PLC0415 - takes seconds, and need not be installed

    logging.getLogger("distributed").setLevel(logging.CRITICAL + 1)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of other releases, which `refuse_unfit` finds where they matter
            client = Client(address, timeout=10, set_as_default=False, name="tracksworn")
    except (OSError, TimeoutError) as error:
        raise Failed(f"no scheduler answers at {address}") from error
    try:
        yield client
    finally:
        client.close(timeout=5)


def refuse_no_address(address: str) -> None:
    """Raise WrongUse beforehand: a client that was begun for such an address waits, and says so in its own words.

    Raises it as well where what speaks to schedulers is not installed.
    """
    try:
        from distributed.comm.addressing import parse_address, parse_host_port  # noqa: PLC0415
        from distributed.comm.registry import get_backend  # noqa: PLC0415
        from distributed.security import Security  # noqa: PLC0415
    except ModuleNotFoundError:
        raise WrongUse(
            "a cluster needs the package `distributed`; install it with: pip install 'tracksworn[cluster]'"
        ) from None
    try:
        scheme, place = parse_address(address)
        get_backend(scheme)
        parse_host_port(place)
    except ValueError as error:
        raise WrongUse(f"{address!r} is no address of a scheduler, such as tcp://10.0.0.5:8786 ({error})") from error
    try:
        settings = Security().get_connection_args("client")
    except (OSError, ValueError) as error:  # as the ssl module tells of files that are not there, or no certificates
        raise WrongUse(f"the certificates that Dask's own settings name cannot be used: {error}") from error
    if scheme in _BY_TLS and settings["ssl_context"] is None:
        raise WrongUse(
            f"{address} asks for TLS; say in Dask's own settings which certificates to use, "
            "DASK_DISTRIBUTED__COMM__TLS__CA_FILE, …__CLIENT__CERT and …__CLIENT__KEY"
        )
    if scheme not in _BY_TLS and settings["require_encryption"]:
        raise WrongUse(f"Dask's own settings ask for encryption: use an address that begins with tls://, not {address}")
