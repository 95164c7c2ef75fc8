"""Documents sealed on their way from the workers to the place, by a few threads of this process.

The key never leaves it. One timestamp is asked for a document (two at level lta), and one more a run, to learn how long
an answer is. An authority that gives none is asked again, up to four times in all, after 1, 2 and 4 seconds; where
three lots in a row have had none after all that, the next are tried but once, until one succeeds.
"""

import threading
from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from hashlib import sha256
from typing import Any, Final

from asn1crypto import cms
from pyhanko.sign.timestamps import TimeStamper
from pyhanko.sign.timestamps.common_utils import TimestampRequestError

from tracksworn.batch.order import Made, failed
from tracksworn.batch.run import PDF, Coming, Unchanged
from tracksworn.inspection.faults import Failed, failure
from tracksworn.records.sealing.authority import Authority
from tracksworn.records.sealing.seal import Manner, seal
from tracksworn.records.sealing.signer import Signer

PAUSES: Final = (1.0, 2.0, 4.0)
"""Seconds before an authority is asked again."""
IN_A_ROW: Final = 3
"""Lots in vain, after which an authority is no more waited for."""
THREADS: Final = 4
WINDOW: Final = 8
"""Lots that are being sealed or wait to be taken."""


@dataclass
class Tally:
    """What sealing came to: documents, timestamps asked for, how many of these again, and lots that are not sealed."""

    sealed: int = 0
    asked: int = 0
    again: int = 0
    failed: int = 0
    in_vain: int = 0  # lots in a row
    lock: threading.Lock = field(default_factory=threading.Lock, repr=False)

    def add(self, **more: int) -> None:
        """Count, from any thread."""
        with self.lock:
            for name, count in more.items():
                setattr(self, name, getattr(self, name) + count)

    def succeeded(self, *, yes: bool) -> None:
        """Count a lot that is sealed, or that is not."""
        with self.lock:
            self.in_vain = 0 if yes else self.in_vain + 1
            self.failed += not yes

    def __str__(self) -> str:
        again = f", {self.again} of them again" if self.again else ""
        asked = f", {_counted(self.asked, 'timestamp')} asked for{again}" if self.asked else ""
        lots = f", {_counted(self.failed, 'lot')} not sealed" if self.failed else ""
        return f"{_counted(self.sealed, 'document')} sealed{asked}{lots}"


def now() -> datetime:
    """The time, in whole seconds."""
    return datetime.now(UTC).replace(microsecond=0)


class Sealer:
    """Seals the PDFs of lots. `threads` is 1 for a token, which signs one thing after the other."""

    def __init__(
        self,
        signer: Signer,
        manner: Manner,
        *,
        countersign: bool = False,
        threads: int = THREADS,
        clock: Callable[[], datetime] = now,
        wait: Callable[[float], object] | None = None,
    ) -> None:
        self.tally = Tally()
        self._signer = signer
        self._manner = replace(manner, authority=_asked_often(manner.authority, self.tally))
        self._countersign = countersign
        self._threads = threads
        self._clock = clock
        self._ended = threading.Event()
        self._wait = wait or self._ended.wait

    @property
    def identity(self) -> str:
        """What a seal follows from beside the document: another key or level seals anew."""
        parts = (sha256(self._signer.certificate).hexdigest(), self._manner.level, self._manner.authority)
        return " ".join(map(str, (*parts, "countersign" if self._countersign else "")))

    def through(self, coming: Iterator[Coming]) -> Iterator[Coming]:
        """The same lots in the same order, sealed; one that could not be is failed, and has no files."""
        waiting: deque[Unchanged | Future[Made]] = deque()
        pool = ThreadPoolExecutor(self._threads)
        try:
            for one in coming:
                waiting.append(one if isinstance(one, Unchanged) else pool.submit(self._sealed, one))
                while waiting and (len(waiting) > WINDOW or _is_done(waiting[0])):
                    yield _result(waiting.popleft())
            while waiting:
                yield _result(waiting.popleft())
        finally:
            self._ended.set()
            pool.shutdown(cancel_futures=True)

    def _sealed(self, made: Made) -> Made:
        if not made.files:
            return made
        try:
            files = {
                name: self._seal(content) if name.endswith(PDF) else content for name, content in made.files.items()
            }
        except Exception as error:  # noqa: BLE001 - one lot must not keep the others from being sealed
            self.tally.succeeded(yes=False)
            return failed(made.listed, failure(error))
        self.tally.succeeded(yes=True)
        return replace(made, files=files)

    def _seal(self, content: bytes) -> bytes:
        pauses = PAUSES if self.tally.in_vain < IN_A_ROW else ()
        for pause in (*pauses, None):
            try:
                sealed = seal(
                    content, self._signer, at=self._clock(), manner=self._manner, countersign=self._countersign
                )
            except Failed as error:
                if pause is None or self._ended.is_set() or not isinstance(error.__cause__, TimestampRequestError):
                    raise
                self.tally.add(again=1)
                self._wait(pause)
            else:
                break
        self.tally.add(sealed=1)
        return sealed


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

    async def async_timestamp(self, message_digest: Any, md_algorithm: Any) -> cms.ContentInfo:
        self._tally.add(asked=1)
        return await self._inner.async_timestamp(message_digest, md_algorithm)


@dataclass(frozen=True, slots=True)
class _Often(Authority):
    """An authority that one client asks."""

    client: Any = None

    def timestamper(self) -> Any:
        return self.client


def _asked_often(authority: Authority | None, tally: Tally) -> Authority | None:
    return None if authority is None else _Often(authority.url, _Counting(authority.timestamper(), tally))
