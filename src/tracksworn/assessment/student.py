"""Student's t and the normal distribution, to about 12 digits, from elementary functions alone.

So no figure hangs on the version of a library, and no command waits for one to be loaded. Formulas of the NIST Digital
Library of Mathematical Functions (DLMF) and of Abramowitz and Stegun, Handbook of Mathematical Functions (A&S).
"""

import math
from statistics import NormalDist
from typing import Final

_NORMAL: Final = NormalDist()
_BY_GAMMA: Final = 100.0  # up to where the ratio of two gamma functions is taken of these themselves
_BY_SERIES: Final = 1e5  # degrees of freedom from which three terms in 1/ν say all that a double holds
_SMALL: Final = 1e-300
_CLOSE: Final = 3e-16
_MOST_TERMS: Final = 5_000
_STEPS: Final = 60
_SETTLED: Final = 1e-9  # after a step so small the next would be beyond what a double holds


def normal(x: float) -> float:
    """The normal distribution function Φ(x) (DLMF 7.2.2)."""
    return 0.5 * math.erfc(-x / math.sqrt(2.0))


def normal_quantile(share: float) -> float:
    """x at which Φ(x) = share, 0 < share < 1 (Wichura, Algorithm AS 241, Applied Statistics 37, 1988)."""
    return _NORMAL.inv_cdf(share)


def student(dof: float, t: float) -> float:
    """The distribution function of Student's t at `dof` degrees of freedom, above 0, whole or not."""
    tail = _tail(dof, abs(t))
    return tail if t < 0.0 else 1.0 - tail


def student_quantile(dof: float, share: float) -> float:
    """t at which the distribution function is `share`, 0 < share < 1.

    By Newton's steps where tail and t are both taken by their logarithms: that line is concave and nearly straight.
    """
    above = min(share, 1.0 - share)
    if above == 0.5:
        return 0.0
    t = _about(dof, -normal_quantile(above))
    for _ in range(_STEPS):
        tail = _tail(dof, t)
        step = math.log(tail / above) * tail / (t * _density(dof, t))
        t *= math.exp(step)
        if abs(step) < _SETTLED:
            break
    return t if share > 0.5 else -t


def _about(dof: float, z: float) -> float:
    """About the t of a normal quantile z > 0, never less than that (A&S 26.7.5)."""
    square = z * z
    first = (square + 1.0) / 4.0
    second = ((5.0 * square + 16.0) * square + 3.0) / 96.0
    return z * (1.0 + (first + second / dof) / dof)


def _density(dof: float, t: float) -> float:
    shape = math.exp(-0.5 * (dof + 1.0) * math.log1p(t * t / dof))
    return _half_step(0.5 * dof) / math.sqrt(math.pi * dof) * shape


def _half_step(a: float) -> float:
    """Γ(a + ½) / Γ(a); for large a by its asymptotic series (DLMF 5.11.13)."""
    if a < _BY_GAMMA:
        return math.gamma(a + 0.5) / math.gamma(a)
    x = 1.0 / a
    series = -1 / 8 + x * (1 / 128 + x * (5 / 1024 + x * (-21 / 32768 + x * (-399 / 262144 + x * 869 / 4194304))))
    return math.sqrt(a) * (1.0 + x * series)


def _tail(dof: float, t: float) -> float:
    """The share beyond t ≥ 0: half the regularized incomplete beta function I_x(ν/2, ½), x = ν/(ν + t²)."""
    if dof >= _BY_SERIES:
        return _tail_of_many(dof, t)
    square = t * t
    x, rest = dof / (dof + square), square / (dof + square)
    edge = t * _density(dof, t)  # x^a (1 − x)^b / B(a, b), which is the same from either end
    if square * (dof + 2.0) > 3.0 * dof:
        return edge / dof * _fraction(0.5 * dof, 0.5, x)
    return 0.5 - edge * _fraction(0.5, 0.5 * dof, rest)


def _tail_of_many(dof: float, t: float) -> float:
    """The normal tail with the first three terms in 1/ν (R. A. Fisher, Metron 5, 1925, from memory)."""
    square = t * t
    first = (square + 1.0) / 4.0
    second = (((3.0 * square - 7.0) * square - 5.0) * square - 3.0) / 96.0
    third = (((((square - 11.0) * square + 14.0) * square + 6.0) * square - 3.0) * square - 15.0) / 384.0
    density = math.exp(-0.5 * square) / math.sqrt(2.0 * math.pi)
    return normal(-t) + density * t * (first + (second + third / dof) / dof) / dof


def _fraction(a: float, b: float, x: float) -> float:
    """1 over the continued fraction of I_x(a, b) (DLMF 8.17.22), by Lentz's method as modified by Thompson."""
    numerator, denominator = 1.0, 1.0 / (1.0 - (a + b) * x / (a + 1.0))
    found = denominator
    for m in range(1, _MOST_TERMS):
        for term in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            denominator = 1.0 / (1.0 + term * denominator or _SMALL)
            numerator = 1.0 + term / numerator or _SMALL
            change = numerator * denominator
            found *= change
        if abs(change - 1.0) <= _CLOSE:
            break
    return found
