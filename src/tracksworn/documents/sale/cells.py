"""What stands in a cell of a table of lots, by the names on the way to it."""

from collections.abc import Callable
from datetime import date
from typing import Any

from tracksworn.documents.sale.lot import SaleLot

Cell = str | int | float | bool | date | None


def known(way: str) -> Callable[[SaleLot], Any]:
    """Gets a value of a lot, as `read.whole.low`; None where something on the way there is."""
    names = way.split(".")

    def got(lot: SaleLot) -> Any:
        value: Any = lot
        for name in names:
            value = None if value is None else getattr(value, name)
        return value

    return got
