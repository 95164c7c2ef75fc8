"""The place of every lot by each column that sorts, so that a page need not know how numbers and names are written."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, Final

from tracksworn.assessment.fleet import Look
from tracksworn.documents.sale.cells import hours_left, known
from tracksworn.documents.sale.lot import SaleLot
from tracksworn.documents.sale.named import machine, name, natural

UNKNOWN: Final = "-"


def _of_looks(lot: SaleLot) -> tuple[int, int]:
    """The weightiest reason first, as they are told in that order; of lots with the same the one with more."""
    return (len(Look) - list(Look).index(lot.looks[0]), len(lot.looks)) if lot.looks else (0, 0)


COLUMNS: Final[Mapping[str, Callable[[SaleLot], Any]]] = {
    "lot": lambda lot: natural(name(lot)),
    "machine": lambda lot: natural(machine(lot)) if lot.read is not None else None,
    "hours": known("read.hours"),
    "inspected": known("read.inspected"),
    "whole": known("read.whole.percent_worn"),
    "seen": known("read.whole.seen_share"),
    "worst": known("read.worst.percent_worn"),
    "left": lambda lot: hours_left(lot).low,
    "look": _of_looks,
}
"""Columns that sort, in their order, and by what; None where a lot has no such figure."""


def ranks(lots: Sequence[SaleLot]) -> tuple[str, ...]:
    """Of each lot its places from 0, a blank between; equals share a place, what is unknown has a dash."""
    by_column = [_places([key(lot) for lot in lots]) for key in COLUMNS.values()]
    return tuple(" ".join(column[index] for column in by_column) for index in range(len(lots)))


def _places(keys: Sequence[Any]) -> list[str]:
    order = {key: str(place) for place, key in enumerate(sorted({key for key in keys if key is not None}))}
    return [UNKNOWN if key is None else order[key] for key in keys]
