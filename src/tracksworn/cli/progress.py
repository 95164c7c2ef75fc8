"""Progress, where there is something to wait for and somebody to see it."""

import sys
from collections.abc import Iterator, Sequence
from typing import TypeVar

T = TypeVar("T")


def each(things: Sequence[T], name: str) -> Iterator[T]:
    """The things one by one, with a bar on standard error if that is a terminal and there are several."""
    if len(things) < 2 or not sys.stderr.isatty():
        yield from things
        return
    from rich.console import Console
    from rich.progress import track

    yield from track(things, description=name, console=Console(stderr=True), transient=True)
