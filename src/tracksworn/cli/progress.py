"""Progress, where there is something to wait for and somebody to see it."""

import sys
from collections.abc import Iterable, Iterator, Sequence
from typing import TypeVar

T = TypeVar("T")


def each(things: Sequence[T], name: str) -> Iterator[T]:
    """The things one by one, with a bar on standard error if that is a terminal."""
    yield from each_of(things, len(things), name)


def each_of(things: Iterable[T], count: int, name: str) -> Iterator[T]:
    """So many things as they come, with a bar likewise."""
    if sys.stderr is None or not sys.stderr.isatty():
        yield from things
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn

    columns = (TextColumn(name), BarColumn(), MofNCompleteColumn(), TimeElapsedColumn())
    alike = sys.stdout is not None and sys.stdout.isatty()  # else results would be taken along to standard error
    with Progress(*columns, console=Console(stderr=True), transient=True, redirect_stdout=alike) as bar:
        yield from bar.track(things, total=count)
