"""The largest scale at which a side fits its field, clear of the corner's type, and where it then stands."""

import math
from dataclasses import dataclass
from typing import Final

import shapely

from tracksworn.documents.drawing.elevation.corner import Corner
from tracksworn.documents.drawing.elevation.ground import foot
from tracksworn.documents.drawing.elevation.rows import above, taken_above
from tracksworn.documents.drawing.elevation.sides import SideElevation
from tracksworn.documents.drawing.elevation.track import loop
from tracksworn.documents.drawing.elevation.view import View
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.inspection.vocabulary import Side

BESIDE: Final = 2.4  # mm that the ground line goes beyond the track
_ABOVE: Final = 0.6
_SMALLEST: Final = 1.4  # times the denominator without labels
CLEAR: Final = 1.6  # from the corner's type to the track


@dataclass(frozen=True, slots=True)
class Extent:
    """What the track takes, in the machine's mm."""

    left: float
    right: float
    height: float


def extent(chain: Chain) -> Extent:
    """From the first to the last tip, and from the ground to the highest."""
    left, _, right, top = loop(chain)[0].bounds
    return Extent(left, right, top - chain.undercarriage.ground)


def fit(side: SideElevation, chain: Chain, corner: Corner) -> View:
    """The view at the largest scale that fits, 1 to a whole number, or at the side's own `denominator`.

    A flat track gives way to the rows of labels above it, as long as that leaves it large enough.
    """
    if side.denominator is not None:
        return _view(side, chain, side.denominator)
    largest = _denominator(side, chain, corner, 0)
    rows = (_denominator(side, chain, corner, count) for count in range(above(side, chain), 0, -1))
    denominator = next((one for one in rows if one <= _SMALLEST * largest), largest)
    return _view(side, chain, denominator)


def _denominator(side: SideElevation, chain: Chain, corner: Corner, rows: int) -> int:
    """The least at which the side fits with so many rows of labels above it."""
    size = extent(chain)
    free = side.height - _ABOVE - 5 - taken_above(rows)
    least = max((size.right - size.left) / (side.width - 2 * BESIDE), size.height / max(free, 5.0), 1)
    denominator = math.ceil(least)
    while not _fits(side, chain, corner, denominator, rows) and denominator < 3 * least + 3:
        denominator += 1
    return denominator


def _view(side: SideElevation, chain: Chain, denominator: float) -> View:
    """The machine in the middle of the width, its foot at the foot of the field."""
    mirrored = side.side is Side.RIGHT
    size = extent(chain)
    middle = (size.left + size.right) / 2 / denominator
    view = View(
        denominator, side.width / 2 + (middle if mirrored else -middle), 0.0, chain.undercarriage.ground, mirrored
    )
    return view.moved(side.height - foot(side, chain, view))


def _fits(side: SideElevation, chain: Chain, corner: Corner, denominator: float, rows: int) -> bool:
    view = _view(side, chain, denominator)
    highest = view.ground - view.length(extent(chain).height)
    if highest < _ABOVE or (rows and highest - taken_above(rows) < corner.bottom):
        return False
    if not corner.boxes or highest > corner.bottom + CLEAR:
        return True
    track = view.area(loop(chain)[0]).buffer(CLEAR)
    return not any(
        track.intersects(shapely.box(taken.left, taken.top, taken.right, taken.bottom)) for taken in corner.boxes
    )
