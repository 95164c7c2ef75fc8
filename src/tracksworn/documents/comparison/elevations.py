"""The left sides of all machines, small: to one scale, or else equally long with the scale beneath each."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from tracksworn.documents.comparison.machine import Machine
from tracksworn.documents.comparison.measures import GUTTER
from tracksworn.documents.drawing.elevation.alike import draw_alike
from tracksworn.documents.drawing.elevation.sides import ElevationResult, ElevationWords, SideElevation
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.gauges import alternative, gauge
from tracksworn.documents.full.parts import governing
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_
from tracksworn.inspection.vocabulary import Component, Side

HEIGHT: Final = 21.0
"""Of a track at most, mm."""
LOW: Final = 14.0
"""The same where many rows, or machines, leave it less room on a sheet."""
LEAST: Final = 0.45
"""Of a column, how long the shortest track is at one scale: shorter ones could not be read."""


@dataclass(frozen=True, slots=True)
class Elevation:
    """A machine's left side, and what stands beneath it; empty where one scale holds for all."""

    drawing: Drawing
    drawn: str


@dataclass(frozen=True, slots=True)
class Elevations:
    """All of them, and what stands beside them."""

    each: tuple[Elevation, ...]
    label: str


def elevations(machines: Sequence[Machine], width: float, *, crowded: bool) -> Elevations:
    """The left side of every machine, lower where sheets are crowded; `width` of a column, mm."""
    say = machines[0].context.say
    height = LOW if crowded else HEIGHT
    sides = [_side(machine.context, width - GUTTER, height) for machine in machines]
    alike = draw_alike(sides, LEAST * width)
    if alike.one_scale:
        label = say(N_("Left sides, all {scale}"), scale=alike.results[0].scale or "")
        return Elevations(tuple(Elevation(result.drawing, "") for result in alike.results), label)
    each = (
        Elevation(result.drawing, _scale(result, machine.context))
        for machine, result in zip(machines, alike.results, strict=True)
    )
    return Elevations(tuple(each), say(N_("Left sides, drawn equally long")))


def _scale(result: ElevationResult, context: Context) -> str:
    return result.scale or context.say(N_("proportions typical of the layout"))


def _side(context: Context, width: float, height: float) -> SideElevation:
    machine, chart = context.inspection.machine, context.chart
    rows = [row for row in context.assessment.components if row.side is Side.LEFT]
    return SideElevation(
        side=Side.LEFT,
        layout=machine.layout,
        worn=_worn_left(context),
        bottom_rollers=_rollers(Component.BOTTOM_ROLLER, context),
        top_rollers=_rollers(Component.TOP_ROLLER, context),
        alternative=" ".join(
            [labels.opening(context.say(labels.SIDES[Side.LEFT])) + ":", *(alternative(row, context) for row in rows)]
        ),
        words=ElevationWords(),
        suspension=machine.suspension,
        geometry=chart.geometry if chart is not None else None,
        links=machine.links[Side.LEFT],
        shoe=machine.shoe.kind,
        width=width,
        height=height,
        small=True,
    )


def _worn_left(context: Context) -> dict[Component, Gauge]:
    components = dict.fromkeys(row.component for row in context.assessment.components if row.position is None)
    rows = {component: governing(component, Side.LEFT, context) for component in components}
    return {component: gauge(row, context) for component, row in rows.items() if row is not None}


def _rollers(component: Component, context: Context) -> tuple[Gauge, ...]:
    return tuple(gauge(row, context) for row in context.assessment.rows(component, Side.LEFT))
