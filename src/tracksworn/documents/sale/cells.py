"""What stands in a cell of a table of lots, by the names on the way to it."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any

from tracksworn.documents.sale.lot import SaleLot

Cell = str | int | float | bool | date | None


@dataclass(frozen=True, slots=True)
class Hours:
    """Hours left until the next limit, None where they are not known; none are left where a part is past its limit."""

    low: float | None
    high: float | None


def hours_left(lot: SaleLot) -> Hours:
    """Those of a lot."""
    read = lot.read
    if read is not None and read.whole.past_limit:
        return Hours(0.0, 0.0)
    left = None if read is None else read.hours_left
    return Hours(None, None) if left is None else Hours(left.low, left.high)


def known(way: str) -> Callable[[SaleLot], Any]:
    """Gets a value of a lot, as `read.whole.low`; None where something on the way there is."""
    names = way.split(".")

    def got(lot: SaleLot) -> Any:
        value: Any = lot
        for name in names:
            value = None if value is None else getattr(value, name)
        return value

    return got
