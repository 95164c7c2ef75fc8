"""Typical proportions of each layout, for what a chart's geometry leaves out.

Every number here is assumed: judged so that the drawing looks like a machine of its layout, with no source. A page
that shows a drawing made with any of them says so; `ElevationResult.typical` names them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from tracksworn.inspection.vocabulary import Layout, ShoeKind


@dataclass(frozen=True, slots=True)
class Proportions:
    """One layout's lengths in mm at its own pitch, by the names of the chart's geometry."""

    pitch: float
    idler_centres: float  # to the rear idler, or to the sprocket where there is none
    sprocket_back: float
    sprocket_height: float
    front_idler: float
    rear_idler: float
    teeth: int
    bottom_roller: float
    top_roller: float
    lift: float  # of the front idler's tread above the rollers' line
    shoe: ShoeKind


TYPICAL: Final[Mapping[Layout, Proportions]] = {
    Layout.ELEVATED_SPROCKET: Proportions(
        216, 3280, 2540, 830, 720, 720, 23, 256, 190, lift=0, shoe=ShoeKind.SINGLE_GROUSER
    ),
    Layout.OVAL: Proportions(190, 2630, 2630, 40, 600, 600, 25, 205, 150, lift=12, shoe=ShoeKind.SINGLE_GROUSER),
    Layout.EXCAVATOR: Proportions(190, 3640, 3640, 10, 520, 520, 21, 165, 125, lift=45, shoe=ShoeKind.TRIPLE_GROUSER),
    Layout.TRACK_LOADER: Proportions(
        171, 2350, 2350, 25, 500, 500, 23, 178, 120, lift=10, shoe=ShoeKind.DOUBLE_GROUSER
    ),
    Layout.RUBBER: Proportions(86, 1470, 1470, 12, 370, 370, 15, 170, 95, lift=25, shoe=ShoeKind.PAD),
}


@dataclass(frozen=True, slots=True)
class Section:
    """The chain or the rubber track from its pin line or cords to its faces, in pitches."""

    rail: float  # inwards to the rail top, or to the inner face of the rubber
    face: float  # outwards to the shoe face, or to the foot of the lugs
    plate: float  # thickness of the shoe plate
    rail_depth: float  # of the rail's gauge, which is not to scale


STEEL: Final = Section(rail=0.33, face=0.33, plate=0.08, rail_depth=0.18)
RUBBER: Final = Section(rail=0.27, face=0.27, plate=0.0, rail_depth=0.0)

DRIVE_LUG: Final = 0.40
LUG: Final = 0.34
GROUSERS: Final[Mapping[ShoeKind, float]] = {
    ShoeKind.SINGLE_GROUSER: 0.30,
    ShoeKind.DOUBLE_GROUSER: 0.20,
    ShoeKind.TRIPLE_GROUSER: 0.14,
    ShoeKind.SWAMP: 0.28,
    ShoeKind.PAD: 0.16,
}
"""Heights above the shoe plate, in pitches."""

SAG_OF_UPPER_RUN: Final = 0.012  # of each span between supports
SAG_OF_REAR_RUN: Final = 0.004  # from a raised sprocket down to the rear idler
RISE_OF_TOP_ROLLERS: Final = 0.10  # pitches above the straight line, so that the chain lies on them
MOST_OF_THE_ROOM: Final = 0.86  # of the space from roller to roller that a tread may fill
INSET_OF_ROLLERS: Final = 0.17  # of the centres' distance, from either end to the first roller
USUAL_STEP_OF_ROLLERS: Final = 1.24  # treads from one roller to the next
FLANGE: Final = 0.10  # of a tread's radius, beyond it
