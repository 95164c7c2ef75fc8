"""Documents sealed on their way from the workers to the place, on an event loop of this process.

While some wait for an authority another is sealed, and never two at the same moment: pyHanko and asn1crypto read a
certificate piece by piece as it is asked for, and two threads that do so at once find it in pieces. The key never
leaves this process. One timestamp is asked for a document (two at level lta), and one more a run, to learn how long an
answer is. An authority that gives none is asked again, up to four times in all, after 1, 2 and 4 seconds; where three
lots in a row have had none after all that, the next are tried but once, until one succeeds.
"""

import asyncio
from collections import deque
from collections.abc import Awaitable, Callable, Iterable, Iterator
from concurrent.futures import Future
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from hashlib import sha256
from threading import Event, Thread, main_thread
from typing import Any, Final

from asn1crypto import cms
from pyhanko.sign.timestamps import TimeStamper
from pyhanko.sign.timestamps.common_utils import TimestampRequestError

from tracksworn.batch.order import Made, failed
from tracksworn.batch.run import PDF, Coming, Unchanged
from tracksworn.inspection.faults import Failed, failure
from tracksworn.records.asn1 import make_ready
from tracksworn.records.sealing.authority import Authority
from tracksworn.records.sealing.seal import Manner, sealed
from tracksworn.records.sealing.signer import Signer, UnusableKey

PAUSES: Final = (1.0, 2.0, 4.0)
"""Seconds before an authority is asked again."""
IN_A_ROW: Final = 3
"""Lots in vain, after which an authority is no more waited for."""
AT_ONCE: Final = 4
"""Documents under way, of which all but one wait for an authority."""
LOOKS: Final = 0.05
"""Seconds between two looks whether all is done."""
_AGAIN: Final = ContextVar("whether a document's authority has failed it before", default=False)
WINDOW: Final = 8
"""Lots that are being sealed or wait to be taken."""


@dataclass
class Tally:
    """What sealing came to: documents, timestamps asked for, how many of these again, and lots that are not sealed.

    `written` are those of `sealed` that stand sealed.
    """

    sealed: int = 0
    written: int = 0
    asked: int = 0
    again: int = 0
    failed: int = 0
    in_vain: int = 0  # lots in a row without a timestamp

    def __str__(self) -> str:
        vain = f", {self.sealed - self.written} more in vain" if self.sealed > self.written else ""
        again = f", {self.again} of them again" if self.again else ""
        asked = f", {_counted(self.asked, 'timestamp')} asked for{again}" if self.asked else ""
        lots = f", {_counted(self.failed, 'lot')} not sealed" if self.failed else ""
        return f"{_counted(self.written, 'document')} sealed{vain}{asked}{lots}"


def now() -> datetime:
    """The time, in whole seconds."""
    return datetime.now(UTC).replace(microsecond=0)


class Sealer:
    """Seals the PDFs of lots. `at_once` is 1 for a token, which signs one thing after the other."""

    def __init__(
        self,
        signer: Signer,
        manner: Manner,
        *,
        countersign: bool = False,
        at_once: int = AT_ONCE,
        clock: Callable[[], datetime] = now,
        wait: Callable[[float], Awaitable[object]] = asyncio.sleep,
    ) -> None:
        self.tally = Tally()
        self._signer = signer
        self._manner = replace(manner, authority=_asked_often(manner.authority, self.tally))
        self._countersign = countersign
        self._at_once = at_once
        self._clock = clock
        self._wait = wait

    @property
    def identity(self) -> str:
        """What a seal follows from beside the document: another key or level seals anew."""
        parts = (sha256(self._signer.certificate).hexdigest(), self._manner.level, self._manner.authority)
        return " ".join(map(str, (*parts, "countersign" if self._countersign else "")))

    def through(self, coming: Iterator[Coming]) -> Iterator[Coming]:
        """The same lots in the same order, sealed; one that could not be is failed, and has no files.

        Raises UnusableKey where the key, or what it leads to, does not even do for the first.
        """
        waiting: deque[Unchanged | Future[Made]] = deque()
        free = asyncio.Semaphore(self._at_once)
        with _running_loop() as loop:
            for one in coming:
                waiting.append(
                    one if isinstance(one, Unchanged) else asyncio.run_coroutine_threadsafe(self._made(one, free), loop)
                )
                while waiting and (len(waiting) > WINDOW or _is_done(waiting[0])):
                    yield _result(waiting.popleft())
            while waiting:
                yield _result(waiting.popleft())

    def written(self, names: Iterable[str]) -> None:
        """Count what stands by now."""
        self.tally.written += sum(name.endswith(PDF) for name in names)

    async def _made(self, made: Made, free: asyncio.Semaphore) -> Made:
        if not any(name.endswith(PDF) for name in made.files):
            return made
        async with free:
            try:
                files = {name: await self._file(name, content) for name, content in made.files.items()}
            except Exception as error:
                if isinstance(error, UnusableKey) and not self.tally.sealed:
                    raise
                self.tally.failed += 1
                self.tally.in_vain += _is_without_timestamp(error)
                return replace(failed(made.listed, failure(error)), warnings=made.warnings)
            self.tally.in_vain = 0
        return replace(made, files=files)

    async def _file(self, name: str, content: bytes) -> bytes:
        if not name.endswith(PDF):
            return content
        pauses = PAUSES if self.tally.in_vain < IN_A_ROW else ()
        for pause in (*pauses, None):
            try:
                done = await sealed(
                    content, self._signer, at=self._clock(), manner=self._manner, countersign=self._countersign
                )
            except Failed as error:
                if pause is None or not _is_without_timestamp(error):
                    raise
                _AGAIN.set(True)
                await self._wait(pause)
            else:
                break
        _AGAIN.set(False)
        self.tally.sealed += 1
        return done


@contextmanager
def _running_loop() -> Iterator[asyncio.AbstractEventLoop]:
    """An event loop in a thread of its own; leaving ends what is under way on it."""
    make_ready()
    loop, ended = asyncio.new_event_loop(), Event()

    async def until_ended() -> None:
        while not ended.is_set() and main_thread().is_alive():  # a process may end with lots that nobody waits for
            await asyncio.sleep(LOOKS)

    def run() -> None:
        with asyncio.Runner(loop_factory=lambda: loop) as runner:
            runner.run(until_ended())

    thread = Thread(target=run)
    thread.start()
    try:
        yield loop
    finally:
        ended.set()
        thread.join()


def _is_without_timestamp(error: Exception) -> bool:
    return isinstance(error, Failed) and isinstance(error.__cause__, TimestampRequestError)


def _is_done(one: "Unchanged | Future[Made]") -> bool:
    return isinstance(one, Unchanged) or one.done()


def _result(one: "Unchanged | Future[Made]") -> Coming:
    return one if isinstance(one, Unchanged) else one.result()


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


class _Counting(TimeStamper):
    """Asks an authority for a whole run, so that it learns but once how long an answer is; counts."""

    def __init__(self, inner: TimeStamper, tally: Tally) -> None:
        super().__init__()  # type: ignore[no-untyped-call]
        self._inner, self._tally = inner, tally
        self._learning: asyncio.Future[cms.ContentInfo] | None = None

    async def async_dummy_response(self, md_algorithm: Any) -> cms.ContentInfo:
        """All that wait to learn it wait for one answer."""
        if self._learning is None or self._learning.done():
            self._learning = asyncio.ensure_future(super().async_dummy_response(md_algorithm))
        return await asyncio.shield(self._learning)

    async def async_timestamp(self, message_digest: Any, md_algorithm: Any) -> cms.ContentInfo:
        self._tally.asked += 1
        self._tally.again += _AGAIN.get()
        return await self._inner.async_timestamp(message_digest, md_algorithm)


@dataclass(frozen=True, slots=True)
class _Often(Authority):
    """An authority that one client asks."""

    client: Any = None

    def timestamper(self) -> Any:
        return self.client


def _asked_often(authority: Authority | None, tally: Tally) -> Authority | None:
    return None if authority is None else _Often(authority.url, _Counting(authority.timestamper(), tally))
