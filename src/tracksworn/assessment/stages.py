"""Stages of wear, and what it means to lie on a boundary."""

from collections.abc import Callable, Iterable
from typing import TypeVar

from tracksworn.assessment.model import Stage

T = TypeVar("T")

TIE = 1e-9
"""A figure this near a boundary lies on it, and figures this near each other are equal; points, or mm."""

_FROM = ((100.0, Stage.PAST_LIMIT), (80.0, Stage.NEAR_LIMIT), (50.0, Stage.SECOND_HALF))


def reaches(figure: float, boundary: float) -> bool:
    """Whether a figure is at a boundary or above it."""
    return figure >= boundary - TIE


def exceeds(figure: float, boundary: float) -> bool:
    """Whether a figure is above a boundary, not on it."""
    return figure > boundary + TIE


def stage(percent_worn: float) -> Stage:
    """The stage that a percent worn belongs to."""
    return next((name for start, name in _FROM if reaches(percent_worn, start)), Stage.FIRST_HALF)


def first_highest(items: Iterable[T], figure: Callable[[T], float]) -> T | None:
    """The item with the highest figure, of equals the first; None of nothing."""
    best: T | None = None
    for item in items:
        if best is None or exceeds(figure(item), figure(best)):
            best = item
    return best
