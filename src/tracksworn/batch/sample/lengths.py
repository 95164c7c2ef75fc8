"""Lengths as an inspector writes them: millimetres with as many decimals as the gauge shows, inches as fractions."""

from collections.abc import Iterable
from fractions import Fraction
from typing import Final

from tracksworn.inspection.vocabulary import MILLIMETRES_PER, Unit

INCH: Final = MILLIMETRES_PER[Unit.INCH]


def rounded(size: float, step: float) -> float:
    """A length at the nearest mark of a scale with that step, both in mm."""
    return round(size / step) * step


def number(size: float, step: float, unit: Unit) -> str:
    """A length in mm as text without its unit."""
    if unit is Unit.INCH:
        return _fraction(round(size / step) * Fraction(step / INCH).limit_denominator(64))
    decimals = 0 if step >= 1.0 else 1 if round(step * 10) >= 1 else 2
    return f"{rounded(size, step):.{decimals}f}"


def length(size: float, step: float, unit: Unit) -> str:
    """A length in mm as text."""
    return f"{number(size, step, unit)} {unit}"


def lengths(sizes: Iterable[float | None], step: float, unit: Unit) -> str:
    """Several with one unit at the end; what is None was not measured."""
    return f"{', '.join('-' if size is None else number(size, step, unit) for size in sizes)} {unit}"


def _fraction(inches: Fraction) -> str:
    whole, rest = divmod(inches, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)
