"""What it means to lie on a boundary, and which of equals comes first."""

from collections.abc import Callable, Iterable
from typing import TypeVar

T = TypeVar("T")

TIE = 1e-9
"""A figure this near a boundary lies on it, and figures this near each other are equal, in whatever unit they are."""


def reaches(figure: float, boundary: float) -> bool:
    """Whether a figure is at a boundary or above it."""
    return figure >= boundary - TIE


def exceeds(figure: float, boundary: float) -> bool:
    """Whether a figure is above a boundary, not on it."""
    return figure > boundary + TIE


def first_highest(items: Iterable[T], figure: Callable[[T], float]) -> T | None:
    """The item with the highest figure, of equals the first; None of nothing."""
    best: T | None = None
    for item in items:
        if best is None or exceeds(figure(item), figure(best)):
            best = item
    return best
