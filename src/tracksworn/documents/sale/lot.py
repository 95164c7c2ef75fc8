"""One lot of a sale: all that index and catalogue tell of it, as plain values.

Percents are points of percent worn, hours machine hours, shares fractions of 1. It holds no text of the pages but the
titles of findings, so that an index can be made anew without any inspection being read again.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Final

from tracksworn.assessment.decisions import Result
from tracksworn.assessment.fleet import Look, Standing
from tracksworn.assessment.model import Bound, Stage
from tracksworn.inspection.vocabulary import Component, Evidence, Layout, Side


@dataclass(frozen=True, slots=True)
class Entry:
    """A lot as the list has it: its place there, from 1, its inspection's path as listed, and its number if given."""

    place: int
    inspection: str
    lot: str | None = None


@dataclass(frozen=True, slots=True)
class Whole:
    """The whole undercarriage by shares of cost, never without what qualifies it."""

    percent_worn: float | None
    low: float | None
    high: float | None
    bound: Bound | None
    floor: float
    ceiling: float
    stage: Stage | None
    by_eye: bool  # whether nothing was measured
    seen_share: float
    unseen: int  # parts not seen
    past_limit: int
    near_limit: int


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a machine. `alone` where a side has only one of it, so that its position need not be named."""

    component: Component
    side: Side
    position: int | None
    alone: bool = False


@dataclass(frozen=True, slots=True)
class Worst:
    """The most worn part. By eye `low` and `high` are the range as said, one of them missing for a bound."""

    part: Part
    percent_worn: float
    low: float | None
    high: float | None
    by_eye: bool
    stage: Stage


@dataclass(frozen=True, slots=True)
class HoursLeft:
    """Hours until the next part reaches its limit, of those that are not past it."""

    part: Part
    low: float
    high: float | None  # None: no upper end that tells anything
    beaten: bool  # whether another part may well be sooner
    without_worst: bool  # whether the most worn part has no hours
    by_word: bool  # rest on what the owner told
    as_guide: bool  # by a chart that was made for another machine


IN_DOUBT: Final = "past-limit-in-doubt"
"""Past its limit by its figure, yet maybe short of it within its uncertainty."""


@dataclass(frozen=True, slots=True)
class Act:
    """A finding that asks for action: its code, and its title in the language of the lot's documents."""

    code: str
    title: str


@dataclass(frozen=True, slots=True)
class DocumentFile:
    """A file of the lot: which document, in which format, and its name in the folder."""

    document: str
    format: str
    name: str


@dataclass(frozen=True, slots=True)
class Read:
    """What was read of a lot without faults, and what follows from it."""

    number: str
    revision: int
    maker: str
    model: str
    year: int | None
    serial: str
    layout: Layout
    hours: float | None
    hours_from: Evidence | None
    inspected: date
    issued: date
    inspector: str
    place: str | None
    chart: str | None  # its title; None without one
    letterhead: str | None  # its path from the inspection's folder
    language: str  # of its documents, by BCP 47
    method: int
    fingerprint: str
    whole: Whole
    worst: Worst | None
    hours_left: HoursLeft | None
    acts: tuple[Act, ...]
    terms: str | None  # their title
    verdict: Result | None  # None without terms


@dataclass(frozen=True, slots=True)
class SaleLot:
    """One lot. `read` is None where it has no figures; why not then stands in `faults`, as `file:line:column: what`."""

    entry: Entry
    lot: str | None
    looks: tuple[Look, ...]
    read: Read | None = None
    faults: tuple[str, ...] = ()
    documents: tuple[DocumentFile, ...] = ()

    @property
    def standing(self) -> Standing:
        """This lot among many."""
        whole = self.read.whole if self.read is not None else None
        known = whole.percent_worn if whole is not None and whole.bound is None else None
        return Standing(known, self.read is None, self.looks)


def faulty_lot(entry: Entry, faults: Iterable[str]) -> SaleLot:
    """A lot of which the files have faults: no figures."""
    return SaleLot(entry=entry, lot=entry.lot, looks=(Look.FAULTS,), faults=tuple(faults))


def unmade_lot(entry: Entry, why: Iterable[str] = ()) -> SaleLot:
    """A lot that could not be made though its files have no faults: no figures either."""
    return SaleLot(entry=entry, lot=entry.lot, looks=(Look.UNMADE,), faults=tuple(why))
