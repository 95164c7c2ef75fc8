"""What a worker of a cluster does with a lot, and what it says of itself. Dask is not needed to import this."""

import gc
import os
import platform
import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import tracksworn
from tracksworn.assessment.assess import METHOD
from tracksworn.batch.libraries import system_libraries
from tracksworn.batch.order import Made, Order
from tracksworn.batch.program import installed, program_digest
from tracksworn.inspection.sale_list import Listed

Make = Callable[[Listed, Order], Made]
_ALONE = threading.Lock()
"""Held while a lot is made: the folder that a process works in is one for all its threads."""


@dataclass(frozen=True, slots=True)
class Program:
    """What decides every byte of a document, and what two processes need in common to speak with each other.

    `below` are the system's libraries that set and draw, by name and version; `digest` has them, and all else, in it.
    """

    version: str
    method: int
    digest: str
    python: str
    dask: str
    below: tuple[tuple[str, str], ...] = ()

    def apart_from(self, other: "Program") -> str:
        """In words, how another differs and what would be right; nothing where it does not."""
        for name, here, there in (
            ("tracksworn", self.version, other.version),
            ("method", self.method, other.method),
            ("Python", self.python, other.python),
            ("distributed", self.dask, other.dask),
        ):
            if here != there:
                return f"it has {name} {there}, this machine {here}; install the same on both"
        below = dict(other.below)
        for name, mine in self.below:
            if mine != (found := below.get(name)):
                return f"it has {name} {found}, this machine {mine}; install the same release of the system on both"
        if self.digest != other.digest:
            digests = f"{other.digest[:12]}, here {self.digest[:12]}"
            return f"its program or the libraries below it differ ({digests}); install both by the same lock file"
        return ""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a worker made of a lot, or why it would not; `sees` is whether it found the inspection at all."""

    worker: str
    made: Made | None
    refused: str = ""
    sees: bool = True


@cache
def program() -> Program:
    """That of this process."""
    python, dask = platform.python_version(), installed("distributed")
    return Program(tracksworn.__version__, METHOD, program_digest(), python, dask, system_libraries())


def answer(listed: Listed, order: Order, wanted: Program, folder: Path, make: Make | None) -> Answer:
    """A lot as it would be made in `folder`, by a process that runs the program wanted; nothing is raised."""
    worker = f"{socket.gethostname()}, process {os.getpid()}"
    if differs := wanted.apart_from(program()):
        return Answer(worker, None, f"the worker {worker} would make other documents: {differs}")
    if not folder.is_dir():
        why = f"there is no folder {folder} there, and every worker must reach the sale's files under the same path"
        return Answer(worker, None, f"the worker {worker} cannot work: {why}")
    with _ALONE, _in(folder):
        sees = listed.inspection.exists()
        return Answer(worker, _made(listed, order, make), sees=sees)


def _made(listed: Listed, order: Order, make: Make | None) -> Made:
    """What a lot leaves is collected when it is done, as in the processes of one machine."""
    make = make or _warm_maker()
    gc.disable()
    try:
        return make(listed, order)
    finally:
        gc.enable()
        gc.collect()


@cache
def _warm_maker() -> Make:
    from tracksworn.batch.warming import warm_up  # noqa: PLC0415 - the engine, only on workers
    from tracksworn.batch.work import make_lot  # noqa: PLC0415

    warm_up()
    return make_lot


@contextmanager
def _in(folder: Path) -> Iterator[None]:
    """Paths and messages are then those of the machine that asked."""
    before = Path.cwd()
    os.chdir(folder)
    try:
        yield
    finally:
        os.chdir(before)
