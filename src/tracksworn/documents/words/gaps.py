"""Differences between machines, and agreement of inspections, as text: rounding never turns a verdict round."""

import math
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from typing import Final

from tracksworn.assessment.comparing.model import Gap
from tracksworn.documents.words.figures import DASH, MINUS, NO_BREAK, Figures

_STEPS: Final = ("1", "0.1")
"""Whole points, or tenths where whole ones would say the opposite of the verdict."""
_TEN: Final = 10


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


def rate_between(gap: Gap, hours: float, figures: Figures) -> str:
    """A difference as points in 100 of the hours in which it came about, with its uncertainty: `2.5 ± 0.5`.

    The uncertainty is rounded up to one figure, the rate to as many decimals (JCGM 100:2008, 7.2.6). The hours are
    read from one meter and add nothing.
    """
    points, within = 100 * gap.points / hours, 100 * gap.uncertainty / hours
    decimals = min(max(-math.floor(math.log10(within)), 0), 2) if within > 0.0 else 1
    step = f"{10**-decimals:.{decimals}f}"
    rate, doubt = _to(points, step, ROUND_HALF_EVEN), _to(within, step, ROUND_CEILING)
    return f"{figures.number(float(rate), decimals)}{NO_BREAK}±{NO_BREAK}{figures.number(float(doubt), decimals)}"


def e_n(value: float, figures: Figures) -> str:
    """A measure of agreement to two decimals; what is above 1 never prints as 1."""
    rounding = ROUND_CEILING if value > 1.0 else ROUND_FLOOR
    return figures.number(float(Decimal(repr(round(value, 9))).quantize(Decimal("0.01"), rounding=rounding)), 2)


def looks_turned_round(gap: Gap) -> bool:
    """Whether the two figures as printed do not show what the verdict is, so that words must."""
    points, within, _ = _rounded(gap)
    return (points > within) is not gap.told_apart


def _rounded(gap: Gap) -> tuple[Decimal, Decimal, int]:
    """Points and uncertainty, the latter rounded up and never to more than two figures (JCGM 100:2008, 7.2.6).

    With a decimal only where whole points would turn the verdict round and the uncertainty has but one figure.
    """
    for decimals, step in enumerate(_STEPS):
        points = _to(abs(gap.points), step, ROUND_HALF_EVEN)
        within = _to(gap.uncertainty, step, ROUND_CEILING)
        if (points > within) is gap.told_apart and (decimals == 0 or within < _TEN):
            return points, within, decimals
    return _to(abs(gap.points), "1", ROUND_HALF_EVEN), _to(gap.uncertainty, "1", ROUND_CEILING), 0


def _to(value: float, step: str, rounding: str) -> Decimal:
    return Decimal(repr(round(value, 9))).quantize(Decimal(step), rounding=rounding)


def _number(within: Decimal, decimals: int, figures: Figures) -> str:
    return figures.half_width(float(within)) if decimals == 0 else figures.number(float(within), decimals)
