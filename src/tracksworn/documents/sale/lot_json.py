"""A lot as JSON, which goes back unchanged: how it is noted between two runs, and how other programs get it."""

from collections.abc import Mapping
from typing import Any, Final

from pydantic import TypeAdapter

from tracksworn.documents.sale.lot import SaleLot

KIND: Final = "sale lot 1"
_LOT: Final = TypeAdapter(SaleLot)


def as_json(lot: SaleLot) -> dict[str, Any]:
    """Plain values for JSON, in the order of the published format; days by ISO 8601, what is not known is null."""
    return {"tracksworn": KIND, **_LOT.dump_python(lot, mode="json")}


def lot_of_json(said: Mapping[str, Any]) -> SaleLot:
    """The lot that `as_json` wrote. Raises ValueError for anything else."""
    lot = _LOT.validate_python(said)
    if as_json(lot) != said:
        raise ValueError(f"a lot as this program writes it begins with `{KIND}` and has nothing else in it")
    return lot
