"""The same side of several machines beside each other: to one scale, or else equally wide."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from tracksworn.documents.drawing.elevation.corner import corner
from tracksworn.documents.drawing.elevation.draw import draw_elevation, fitted
from tracksworn.documents.drawing.elevation.fit import BESIDE, extent, fit
from tracksworn.documents.drawing.elevation.ground import levels
from tracksworn.documents.drawing.elevation.sides import ElevationResult, SideElevation
from tracksworn.documents.drawing.elevation.undercarriage import undercarriage
from tracksworn.documents.drawing.elevation.walk import Chain, chain

_AIR: Final = 1.4  # mm over and under a track
_FIGURES: Final = 6.0  # mm for figures under it, as far as there are any


@dataclass(frozen=True, slots=True)
class Alike:
    """The drawings, and whether all stand to one scale that may be stated."""

    results: tuple[ElevationResult, ...]
    one_scale: bool


def draw_alike(sides: Sequence[SideElevation], least: float) -> Alike:
    """To one scale where all have one and the shortest track is still `least` mm long; else all tracks equally long.

    Bottom rollers have their figures under them, or none where these would not find room in one row.
    """
    tracks = [chain(undercarriage(fitted(side))) for side in sides]
    lengths = [_length(track) for track in tracks]
    largest = [_largest(side, track) for side, track in zip(sides, tracks, strict=True)]
    denominators = [max(largest)] * len(sides)
    if min(lengths) < least * max(largest) or not _all_to_scale(tracks):
        shortest = min(length / denominator for length, denominator in zip(lengths, largest, strict=True))
        denominators = [math.ceil(length / shortest) for length in lengths]
    one_scale = _all_to_scale(tracks) and len(set(denominators)) == 1
    return Alike(tuple(map(_drawn, sides, tracks, denominators)), one_scale)


def _all_to_scale(tracks: Sequence[Chain]) -> bool:
    return all(track.undercarriage.to_scale for track in tracks)


def _length(track: Chain) -> float:
    size = extent(track)
    return size.right - size.left


def _largest(side: SideElevation, track: Chain) -> int:
    """The denominator of the largest scale at which the track alone fits: figures under it come on top."""
    return math.ceil(max(_length(track) / (side.width - 2 * BESIDE), extent(track).height / (side.height - _AIR)))


def _drawn(side: SideElevation, track: Chain, denominator: int) -> ElevationResult:
    scaled = replace(side, denominator=denominator, height=side.height + _FIGURES)
    crowded = levels(scaled, track, fit(scaled, track, corner(scaled))) > 1
    return draw_elevation(_bare(scaled) if crowded else scaled)


def _bare(side: SideElevation) -> SideElevation:
    """Without figures under the rollers."""
    return replace(side, bottom_rollers=tuple(replace(gauge, figure="") for gauge in side.bottom_rollers))
