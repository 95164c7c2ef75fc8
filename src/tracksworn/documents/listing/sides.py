"""Both sides in elevation, small, beside each other and to one scale."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from typing import Final

from tracksworn.documents.drawing.elevation.draw import draw_sides
from tracksworn.documents.drawing.elevation.sides import ElevationResult, SideElevation
from tracksworn.documents.drawing.type import width_mm
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.elevations import side_elevation, side_view
from tracksworn.documents.full.view import SideView
from tracksworn.documents.words.language import N_
from tracksworn.inspection.vocabulary import Side

WIDTH: Final = 89.0
FIGURE: Final = 7.6  # pt
AIR: Final = 0.8  # mm between two figures
ROW: Final = 66.0
"""About how long a row of figures may be under a machine of that width, mm."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """Both sides, how they are drawn, and which observations are pinned to them with their words and without."""

    sides: tuple[SideView, ...]
    how: str
    named: tuple[str, ...]
    bare: tuple[str, ...]


def sides(context: Context, height: float, pinned: Collection[str] | None = None) -> Drawn:
    """Left and right, each at most so many mm high, at the larger scale at which both fit.

    `pinned` are the observations that alone have a pin; None for all.
    """
    found = [_small(side_elevation(side, height, context, pinned)) for side in Side]
    drawn = draw_sides(*found)
    views = tuple(side_view(side, one, context) for side, one in zip(found, drawn, strict=True))
    return Drawn(
        sides=views,
        how=_how(drawn[0], context),
        named=tuple(str(number) for one in drawn for number in one.placed),
        bare=tuple(str(number) for one in drawn for number in one.bare),
    )


def _small(side: SideElevation) -> SideElevation:
    """Without figures at rollers that are too many for a row of them: the rules have the worst."""
    rollers = side.bottom_rollers
    if sum(width_mm(one.figure, FIGURE, weight=600) + AIR for one in rollers) > ROW:
        rollers = tuple(replace(one, figure="") for one in rollers)
    words = replace(side.words, scale_bars=())
    return replace(side, width=WIDTH, small=True, words=words, bottom_rollers=rollers)


def _how(drawn: ElevationResult, context: Context) -> str:
    if drawn.scale is None:
        return context.say(N_("Sides drawn in proportions typical of the layout."))
    return context.say(N_("Sides drawn as new, {scale}; gauges not to scale."), scale=drawn.scale)
