"""Rows of labels: above a flat track, and one under the figures for what is seen on the lower run."""

import math
from collections.abc import Sequence
from typing import Final

from tracksworn.documents.drawing.elevation.anchors import anchors
from tracksworn.documents.drawing.elevation.label import Sizes, in_a_row
from tracksworn.documents.drawing.elevation.sides import Pin, SideElevation
from tracksworn.documents.drawing.elevation.walk import Chain

ROW: Final = 6.4  # mm from one row to the next
LOWER_ROW: Final = 7.1  # mm that the row under the figures takes
ABOVE_TRACK: Final = 5.6  # mm from the middle of a disc to the tips of the track
_FULL: Final = 0.72  # of a row's width that labels can be expected to take
_APART: Final = 4.0  # mm from one label to the next
MOST: Final = 4


def sizes(side: SideElevation) -> Sizes:
    """Of the labels' type."""
    return Sizes(6.6, 6.2) if side.small else Sizes()


def lower(pin: Pin, chain: Chain) -> bool:
    """Whether an observation is of the lower run, which is labelled from under the ground line."""
    places = anchors(pin.at, chain)
    return bool(places) and places[0][1] < chain.undercarriage.bottom_height - 0.3 * chain.undercarriage.bottom_radius


def under_figures(side: SideElevation, chain: Chain) -> bool:
    """Whether a row of labels is wanted under the rollers' figures."""
    return not side.small and any(lower(pin, chain) for pin in side.pins)


def above(side: SideElevation, chain: Chain) -> int:
    """How many rows of labels a flat track wants above it; none where a raised sprocket leaves room beside the run."""
    if side.small or chain.undercarriage.raised:
        return 0
    pins = [pin for pin in side.pins if anchors(pin.at, chain) and not lower(pin, chain)]
    return min(math.ceil(_length(pins, sizes(side)) / (_FULL * side.width)), MOST)


def heights(highest: float, count: int) -> tuple[float, ...]:
    """Where the discs of rows above a track stand whose tips reach up to a height, the nearest first."""
    return tuple(highest - ABOVE_TRACK - ROW * row for row in range(count))


def taken_above(count: int) -> float:
    """How much room so many rows take above a track."""
    return ABOVE_TRACK + ROW * (count - 1) + 2.5 if count else 0.0


def _length(pins: Sequence[Pin], of: Sizes) -> float:
    boxes = [label.box for pin in pins for label in in_a_row(pin, of)[:1]]
    return sum(box.right - box.left + _APART for box in boxes)
