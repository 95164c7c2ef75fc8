"""Contrast of colours, by WCAG 2.2 (definitions of relative luminance and contrast ratio)."""

from collections.abc import Sequence
from typing import Final

LEAST_CONTRAST: Final = 4.5
"""Of text with what it stands on, success criterion 1.4.3."""


def light(signal: float) -> float:
    """How much light a signal of sRGB stands for, both from 0 to 1 (IEC 61966-2-1)."""
    return signal / 12.92 if signal <= 0.04045 else float(((signal + 0.055) / 1.055) ** 2.4)


def luminance(colour: Sequence[float]) -> float:
    """Relative luminance of red, green and blue, each from 0 to 1."""
    return sum(weight * light(signal) for weight, signal in zip((0.2126, 0.7152, 0.0722), colour, strict=True))


def ratio(one: float, other: float) -> float:
    """Contrast ratio, 1 to 21, of two relative luminances."""
    darker, lighter = sorted((one, other))
    return (lighter + 0.05) / (darker + 0.05)


def on_white(colour: str) -> float:
    """Contrast ratio, 1 to 21, of a colour `#rrggbb` on white."""
    return ratio(1.0, luminance([int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]))
