"""All rounding of the program: how fine a figure is told, and which way it is rounded.

The rules are those of JCGM 100:2008, 7.2.6: an uncertainty keeps at most two figures and is rounded up, and a figure is
not given finer than it is known. Percents are whole; a tenth is shown where a whole number would cross a stage or a
limit. An interval is rounded outwards, so that it never looks narrower than it is.
"""

import math
from decimal import ROUND_HALF_EVEN, Decimal
from typing import Final

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.boundaries import TIE, reaches
from tracksworn.assessment.stages import BEGINS
from tracksworn.inspection.values import Sizes
from tracksworn.inspection.vocabulary import MILLIMETRES_PER, Unit

LEAST_DELTA: Final = Decimal(str(Assumptions().least_difference))
"""The least delta that may count as a difference, in points; no firm sets it."""
FINEST: Final = 4
"""Decimals beyond which no size is printed."""
FARTHEST_END: Final = 10_000.0
"""Hours from which an upper end of hours left tells nothing. Judgement, as the three that follow."""
FARTHEST_OF_LOW: Final = 10.0
"""How many times the low end an upper end may be and still tell something."""
NEAR_END: Final = 1_000.0
"""Hours up to which an upper end is told whatever the low end is."""
WEEKS: Final = 10 * 365.25 / 7
"""Ten years of them, beyond which no upper end is told."""


def deserved(mm: tuple[float, ...]) -> int:
    """The decimals in mm that lengths deserve as they were read: as written, up to two; one where not written in mm."""
    for decimals in (0, 1, 2):
        if all(abs(size - round(size, decimals)) < 1e-7 for size in mm):
            return decimals
    return 1


def as_written(sizes: Sizes) -> int:
    """The decimals, in their own unit, with which sizes were written; FINEST where that takes more than three."""
    read = [size / MILLIMETRES_PER[sizes.unit] for size in sizes.measured]
    return next((n for n in range(FINEST) if all(abs(one - round(one, n)) < 1e-7 for one in read)), FINEST)


def in_fractions(sizes: Sizes) -> bool:
    """Whether sixty-fourths of an inch or foot say every size wholly."""
    read = (size / MILLIMETRES_PER[sizes.unit] for size in sizes.measured)
    return sizes.unit in (Unit.INCH, Unit.FOOT) and all(map(in_sixty_fourths, read))


def in_sixty_fourths(value: float) -> bool:
    """Whether sixty-fourths say a number wholly."""
    return abs(value * 64 - round(value * 64)) < 1e-6


def step_of(decimals: int) -> str:
    """The step of so many decimals: `0.01` for two."""
    return "1" if decimals == 0 else "0." + "0" * (decimals - 1) + "1"


def rounded(value: float, step: str, rounding: str) -> Decimal:
    """To the step, once the noise of binary arithmetic is gone; never a minus before nought."""
    return Decimal(repr(round(value, 9))).quantize(Decimal(step), rounding=rounding) + 0


def within_stage(value: float, rounding: str) -> Decimal:
    """Whole, or a tenth where a whole number would lie in another stage; the tenth stays on its side too."""
    whole = rounded(value, "1", rounding)
    reached = float(whole)
    crossed = next((edge for edge in BEGINS.values() if reached >= edge and not reaches(value, edge)), None)
    if crossed is None:
        return whole
    return min(rounded(value, "0.1", rounding), Decimal(crossed) - Decimal("0.1"))


def upper_end(low: float, high: float | None, per_week: float | None = None) -> float | None:
    """The upper end of hours left that a reader may count on: None where there is none, or where it tells nothing.

    It tells nothing beyond 10 000 hours, ten times the low end, or ten years at so many hours a week. One that is near
    is told however low the other lies: the part may last no longer.
    """
    if high is None or (high > NEAR_END and high > FARTHEST_OF_LOW * low) or high > FARTHEST_END:
        return None
    return None if per_week and high > WEEKS * per_week else high


def step_of_hours(extent: float) -> int:
    """How finely hours are told of which the interval, or the one end, is so long: no forecast knows single hours."""
    return 1 if extent < 50 else 10 if extent < 10_000 else 100


def three_figures(amount: float) -> Decimal:
    """A sum of money as far as an estimate knows it; one of fewer figures whole."""
    return outwards(amount, int(10 ** max(len(str(int(abs(amount)))) - 3, 0)), ROUND_HALF_EVEN)


def outwards(hours: float, step: int, rounding: str) -> Decimal:
    """Hours to a step of whole hours, by the rounding that leads away from the middle."""
    return rounded(hours / step, "1", rounding) * step


def half_width(within: float) -> int:
    """Whole points, and tens of them from a hundred on, rounded up."""
    whole = math.ceil(within - TIE)
    step = int(10 ** max(len(str(whole)) - 2, 0))
    return math.ceil(whole / step) * step


def below_least_delta(points: float) -> Decimal:
    """Whole points; a tenth where a whole number would look like a difference that counts."""
    whole = rounded(points, "1", ROUND_HALF_EVEN)
    if not reaches(abs(points), float(LEAST_DELTA)) and abs(whole) >= LEAST_DELTA:
        tenth = min(abs(rounded(points, "0.1", ROUND_HALF_EVEN)), LEAST_DELTA - Decimal("0.1"))
        return tenth.copy_sign(whole)
    return whole
