"""Rollers by position, both sides, as one meets them: left from the front, right counting backwards to it."""

from dataclasses import dataclass

from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.plain import Drawing


@dataclass(frozen=True, slots=True)
class StripPlace:
    """One roller. `flange` is the letter for single or double, where known."""

    number: str
    gauge: Gauge
    size: str = ""
    flange: str = ""


@dataclass(frozen=True, slots=True)
class Strip:
    """Both sides, each by position from the front."""

    left: tuple[StripPlace, ...]
    right: tuple[StripPlace, ...]
    left_text: str
    right_text: str
    front_text: str
    alternative: str
    width: float = 182.0


def draw_strip(strip: Strip) -> Drawing:
    """The upright rules of both sides, 182 × 25 mm."""
    return Drawing(strip.width, 25.0, (), strip.alternative)
