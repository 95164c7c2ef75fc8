"""The side elevation of one track: its chain walked link by link round its wheels, every part a gauge."""

from tracksworn.documents.drawing.elevation.draw import draw_elevation, draw_sides
from tracksworn.documents.drawing.elevation.sides import (
    AdjusterTravel,
    ElevationResult,
    ElevationWords,
    Pin,
    SideElevation,
)

__all__ = [
    "AdjusterTravel",
    "ElevationResult",
    "ElevationWords",
    "Pin",
    "SideElevation",
    "draw_elevation",
    "draw_sides",
]
