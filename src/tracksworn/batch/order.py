"""What is asked of every lot, what a lot becomes, and who makes it. All of it can be sent to another process."""

import os
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Protocol

from tracksworn.documents.sale.lot import Entry, SaleLot, faulty_lot, unmade_lot
from tracksworn.inspection.faults import Fault, Weight, printable
from tracksworn.inspection.inputs import Input
from tracksworn.inspection.sale_list import Listed


@dataclass(frozen=True, slots=True)
class Templates:
    """A firm's own templates as they were read once for the whole run; `folder` is named in faults."""

    folder: Path
    texts: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Order:
    """What is asked of every lot. `sealed`: PDFs are made to be sealed, and say so on their pages."""

    documents: tuple[str, ...]  # values of Sheet
    formats: tuple[str, ...]  # values of Format
    language: str | None = None
    units: str | None = None
    paper: str | None = None
    templates: Templates | None = None
    sealed: bool = False

    def documents_of(self, listed: Listed) -> tuple[str, ...]:
        """Which documents a lot gets."""
        return listed.documents or self.documents


@dataclass(frozen=True, slots=True)
class Made:
    """What became of a lot: finished files by name and its line in the index, or why there are none.

    `faults` are of the lot itself (exit status 1), `failures` of the machine (3); with either there are no files.
    `finished` are files that are written as they are, and not sealed: an archive has them already.
    """

    listed: Listed
    lot: SaleLot
    files: Mapping[str, bytes] = field(default_factory=dict)
    inputs: tuple[Input, ...] = ()
    faults: tuple[str, ...] = ()
    failures: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    finished: Mapping[str, bytes] = field(default_factory=dict)

    @property
    def bad(self) -> bool:
        """Whether there is anything wrong with it."""
        return bool(self.faults or self.failures)


class Workers(Protocol):
    """Who makes lots: processes on this machine, or a cluster."""

    def made(self, lots: Iterable[Listed], order: Order) -> Iterator[Made]:
        """Every lot made by `make_lot`, in the order given; lots are taken a bounded number ahead of what is yielded.

        A lot that ends its process is tried once more, then has failed. Leaving the iterator early cancels what is
        under way.
        """
        ...


def faulty(listed: Listed, told: Iterable[Fault]) -> Made:
    """A lot whose own files are at fault."""
    told = tuple(told)
    faults = tuple(str(fault) for fault in told if fault.weight is Weight.FAULT)
    warnings = tuple(str(fault) for fault in told if fault.weight is Weight.WARNING)
    lot = faulty_lot(entry_of(listed), _from_the_list(listed, faults))
    return Made(listed, lot, faults=faults, warnings=warnings)


def refused(listed: Listed, told: Iterable[str]) -> Made:
    """A lot of which the files are sound, but not as this list or this archive has them; why, without a path."""
    told = tuple(told)
    faults = tuple(str(Fault(listed.inspection, 1, 1, one)) for one in told)
    return Made(listed, unmade_lot(entry_of(listed), told), faults=faults)


def failed(listed: Listed, why: str) -> Made:
    """A lot that could not be made for no fault of its own; why is told to who made it, and stands on no page."""
    said = why if why.startswith(printable(listed.inspection)) else f"{printable(listed.inspection)}: {why}"
    return Made(listed, unmade_lot(entry_of(listed)), failures=(said,))


def entry_of(listed: Listed) -> Entry:
    """A lot as the index names it."""
    return Entry(listed.place, listed.name, listed.lot)


def _from_the_list(listed: Listed, said: Iterable[str]) -> list[str]:
    """What is said with paths from the list's folder: where that lies is no matter of a reader's."""
    inspection = printable(listed.inspection)
    folder = inspection.removesuffix(printable(Path(listed.name))) if listed.name else f"{inspection}/"
    whole = f"{os.path.abspath(folder)}/"  # noqa: PTH100 - links are not followed
    within = "|".join(re.escape(one) for one in (folder, whole) if one.strip("/"))
    return [re.sub(rf"(?<![\w./-])(?:{within})", "", one) if within else one for one in said]
