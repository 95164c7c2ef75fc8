"""Both sides in elevation, small, beside each other and to one scale."""

from dataclasses import dataclass, replace
from typing import Final

from tracksworn.documents.drawing.elevation.draw import draw_sides
from tracksworn.documents.drawing.elevation.sides import ElevationResult, SideElevation
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.elevations import side_elevation, side_view
from tracksworn.documents.full.view import SideView
from tracksworn.documents.words.language import N_
from tracksworn.inspection.vocabulary import Side

WIDTH: Final = 89.0
HEIGHTS: Final = {"A4": 43.0, "letter": 38.0}


@dataclass(frozen=True, slots=True)
class Drawn:
    """Both sides, how they are drawn, and which observations have their words on them."""

    sides: tuple[SideView, ...]
    how: str
    named: tuple[int, ...]


def sides(context: Context, paper: str) -> Drawn:
    """Left and right at the larger scale at which both fit."""
    found = [_small(side_elevation(side, HEIGHTS[paper], context)) for side in Side]
    drawn = draw_sides(*found)
    views = tuple(side_view(side, one, context) for side, one in zip(found, drawn, strict=True))
    return Drawn(views, _how(drawn[0], context), tuple(number for one in drawn for number in one.placed))


def _small(side: SideElevation) -> SideElevation:
    return replace(side, width=WIDTH, small=True, words=replace(side.words, scale_bars=()))


def _how(drawn: ElevationResult, context: Context) -> str:
    if drawn.scale is None:
        return context.say(N_("Sides drawn in proportions typical of the layout."))
    return context.say(N_("Sides drawn as new, {scale}; gauges not to scale."), scale=drawn.scale)
