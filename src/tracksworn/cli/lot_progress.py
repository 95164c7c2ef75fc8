"""How far a batch has come: lots done, rate, time left, lots with faults. On a terminal a bar, else a line at times."""

import sys
import time
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from datetime import timedelta
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from tracksworn.batch.run import Taken

EVERY: Final = 10.0
"""Seconds from line to line."""
LOOKING_BACK: Final = 60.0
"""Seconds over which the rate is taken."""


class Pace:
    """How quickly lots are done with, by a clock in seconds."""

    def __init__(self, total: int, clock: Callable[[], float] = time.monotonic) -> None:
        self.total = total
        self.done = self.bad = 0
        self._clock = clock
        self._marks = deque([(clock(), 0)])

    def count(self, *, bad: bool) -> None:
        """One more is done with."""
        self.done += 1
        self.bad += bad
        now = self._clock()
        self._marks.append((now, self.done))
        while len(self._marks) > 2 and now - self._marks[1][0] > LOOKING_BACK:
            self._marks.popleft()

    @property
    def a_minute(self) -> float | None:
        """Lots a minute of late; None before it can be told."""
        (begun, before), (now, done) = self._marks[0], self._marks[-1]
        return 60 * (done - before) / (now - begun) if now > begun and done > before else None

    def __str__(self) -> str:
        parts = [f"{self.done} of {self.total} lots"]
        if rate := self.a_minute:
            left = timedelta(seconds=round(60 * (self.total - self.done) / rate))
            parts += [f"{rate:.0f} a minute", f"{left} left"]
        if self.bad:
            parts.append(f"{self.bad} with faults")
        return ", ".join(parts)


def told(lots: "Iterable[Taken]", pace: Pace) -> "Iterator[Taken]":
    """The lots as they come, with how far they have come on standard error."""
    shown = _with_bar(lots, pace) if sys.stderr is not None and sys.stderr.isatty() else _with_lines(lots, pace)
    yield from shown


def _with_lines(lots: "Iterable[Taken]", pace: Pace, clock: Callable[[], float] = time.monotonic) -> "Iterator[Taken]":
    from tracksworn.cli.exits import say

    last = clock()
    for lot in lots:
        pace.count(bad=lot.bad)
        if clock() - last >= EVERY:
            last = clock()
            say(str(pace))
        yield lot


def _with_bar(lots: "Iterable[Taken]", pace: Pace) -> "Iterator[Taken]":
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn

    alike = sys.stdout is not None and sys.stdout.isatty()
    columns = (BarColumn(), TextColumn("{task.description}"))
    with Progress(*columns, console=Console(stderr=True), transient=True, redirect_stdout=alike) as bar:
        task = bar.add_task(str(pace), total=pace.total)
        for lot in lots:
            pace.count(bad=lot.bad)
            bar.update(task, completed=pace.done, description=str(pace))
            yield lot
