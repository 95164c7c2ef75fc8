"""Differences between machines, and agreement of inspections, as text: rounding never turns a verdict round."""

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from typing import Final

from tracksworn.assessment.comparing.model import Gap
from tracksworn.documents.words.figures import DASH, MINUS, NO_BREAK, Figures

_STEPS: Final = ("1", "0.1")
"""Whole points, or tenths where whole ones would say the opposite of the verdict."""


def signed(gap: Gap | None, figures: Figures) -> str:
    """First less second with its uncertainty: `+33 ± 5`; a dash where there is none."""
    if gap is None:
        return DASH
    points, within, decimals = _rounded(gap)
    sign = "" if points == 0 else "+" if gap.points > 0 else MINUS
    return f"{sign}{figures.number(float(points), decimals)}{NO_BREAK}±{NO_BREAK}{_number(within, decimals, figures)}"


def apart(gap: Gap, figures: Figures) -> tuple[str, str]:
    """How many points lie between two figures, and with what uncertainty: `4`, `8`."""
    points, within, decimals = _rounded(gap)
    return figures.number(float(points), decimals), _number(within, decimals, figures)


def e_n(value: float, figures: Figures) -> str:
    """A measure of agreement to two decimals; what is above 1 never prints as 1."""
    rounding = ROUND_CEILING if value > 1.0 else ROUND_FLOOR
    return figures.number(float(Decimal(repr(round(value, 9))).quantize(Decimal("0.01"), rounding=rounding)), 2)


def _rounded(gap: Gap) -> tuple[Decimal, Decimal, int]:
    """Points and uncertainty, the latter rounded up, with as many decimals as the verdict needs to be seen in them."""
    for decimals, step in enumerate(_STEPS):
        points = _to(abs(gap.points), step, ROUND_HALF_EVEN)
        within = _to(gap.uncertainty, step, ROUND_CEILING)
        if (points > within) is gap.told_apart:
            return points, within, decimals
    return points, within, decimals


def _to(value: float, step: str, rounding: str) -> Decimal:
    return Decimal(repr(round(value, 9))).quantize(Decimal(step), rounding=rounding)


def _number(within: Decimal, decimals: int, figures: Figures) -> str:
    return figures.half_width(float(within)) if decimals == 0 else figures.number(float(within), decimals)
