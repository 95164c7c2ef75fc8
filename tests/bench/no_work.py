"""What workers of a cluster do where only the way there and back is measured; they find it here by name."""

from functools import cache
from random import Random

from tracksworn.batch.order import Made, Order, faulty
from tracksworn.inspection.sale_list import Listed

SIZE = 150_000
"""Bytes of a document, about those of a listing sheet."""


def no_work(listed: Listed, order: Order) -> Made:
    """A lot with a document of the usual size, that took no time to make."""
    return Made(listed, faulty(listed, ()).lot, {f"{listed.place}.pdf": _document()})


@cache
def _document() -> bytes:
    return Random(7).randbytes(SIZE)
