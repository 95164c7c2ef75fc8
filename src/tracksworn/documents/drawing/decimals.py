"""Coordinates as text, many at once: Python's own formatting of them takes longer than all else of writing a path."""

from collections.abc import Sequence
from functools import cache
from typing import Final

import numpy as np

_MOST: Final = 22_000  # hundredths of a mm: as wide as the widest sheet
_SURE: Final = 0.4999  # of a hundredth: nearer to the middle between two, the exact value of the double decides


def decimals(values: Sequence[float]) -> list[str]:
    """Each to two decimals, as `%.2f` has it."""
    exact = np.asarray(values, dtype=float) * 100
    nearest = np.rint(exact)
    told = (np.abs(exact - nearest) < _SURE) & ~np.signbit(exact) & (nearest < _MOST)
    known = _known()
    texts = [known[hundredths] for hundredths in np.where(told, nearest, 0).astype(int).tolist()]
    for index in np.flatnonzero(~told).tolist():
        texts[index] = f"{values[index]:.2f}"
    return texts


@cache
def _known() -> tuple[str, ...]:
    return tuple([f"{hundredths / 100:.2f}" for hundredths in range(_MOST)])
