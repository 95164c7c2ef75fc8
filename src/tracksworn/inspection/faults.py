"""What is wrong with a file, and where.

TrackswornError          everything that this program raises on purpose
├── Faulty               the input has faults: exit status 1
├── WrongUse             the command was used wrongly: 2
└── Failed               the machine or a service failed: 3
"""

import os
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path


def printable(path: Path) -> str:
    """A path as text: bytes that are no UTF-8, and what would act on a terminal, as escapes."""
    return visible(os.fsencode(path).decode("utf-8", "backslashreplace"))


def visible(text: str) -> str:
    """A text in which what would act on a terminal stands as an escape."""
    return "".join(sign if sign.isprintable() else sign.encode("unicode_escape").decode("ascii") for sign in text)


class TrackswornError(Exception):
    """The root of all errors that this program raises on purpose."""


class Weight(StrEnum):
    """A fault stops the work; a warning does not."""

    FAULT = "fault"
    WARNING = "warning"


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One thing that is wrong: `line` and `column` count from 1; `what` says what is wrong and what would be right."""

    file: Path
    line: int
    column: int
    what: str
    weight: Weight = Weight.FAULT

    def __str__(self) -> str:
        word = "warning: " if self.weight is Weight.WARNING else ""
        return f"{printable(self.file)}:{self.line}:{self.column}: {word}{self.what}"


class Faulty(TrackswornError):  # noqa: N818 - named for what it says of the input
    """An input has faults; all of them, in the order of file, line and column."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(faults))
        super().__init__("\n".join(map(str, self.faults)))


class WrongUse(TrackswornError):  # noqa: N818
    """A command was used wrongly."""


class Failed(TrackswornError):  # noqa: N818
    """The machine or a service failed: disk full, no permission, out of reach."""


def failure(error: BaseException) -> str:
    """In a sentence, what kept the program from its work: said on purpose, the machine, or a fault of its own."""
    if isinstance(error, TrackswornError):
        return str(error)
    if isinstance(error, OSError):
        where = f": {visible(str(error.filename))}" if error.filename else ""
        return f"the machine refuses: {error.strerror or error}{where}"
    if isinstance(error, MemoryError):
        return "the machine has no memory left for this"
    fault = visible(f"{type(error).__name__}: {error}")
    return f"tracksworn itself has a fault ({fault}). Nothing was half written. Please report it."
