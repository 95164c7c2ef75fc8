"""Both sides in elevation, drawn to one scale."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from typing import Final

from tracksworn.documents.drawing.elevation.draw import draw_sides
from tracksworn.documents.drawing.elevation.sides import (
    AdjusterTravel,
    Disc,
    ElevationResult,
    ElevationWords,
    Pin,
    SideElevation,
)
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.full import observed
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.gauges import alternative, gauge
from tracksworn.documents.full.parts import governing
from tracksworn.documents.full.sheet_one import LEAST, beyond_room
from tracksworn.documents.full.view import PinView, SideView
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import NO_BREAK, Units
from tracksworn.documents.words.language import N_
from tracksworn.inspection.vocabulary import Component, Grade, Layout, Side

FRONT = {Side.LEFT: N_("front of the machine at left"), Side.RIGHT: N_("front of the machine at right")}
BARS = (Component.LINK, Component.BUSHING, Component.PITCH, Component.SHOE, Component.LUG, Component.DRIVE_LUG)
SCALE_BARS: Final[Mapping[Units, tuple[tuple[float, int, str], ...]]] = {
    "mm": ((2000.0, 2, "m"), (1000.0, 1, "m"), (500.0, 500, "mm"), (200.0, 200, "mm")),
    "in": ((1828.8, 6, "ft"), (914.4, 3, "ft"), (304.8, 1, "ft")),
}
"""Lengths that a bar beside the drawing may have in the reader's units: mm of the machine, and what it is called."""
PERCENT_WORN = N_(
    "Percent worn: 0 is as new, 100 the limit, where a part is turned, rebuilt or replaced; it is not breakage."
)
WITHOUT_PITCH = N_("Without a pitch the chain is a plain band.")
RUBBER_GAUGES = N_("Rings and lugs are gauges from new to limit, not to scale.")
GAUGES = N_("Rings, rails and grousers are gauges from new to limit, not to scale.")
NAMED_PARTS = (Component.SPROCKET, Component.FRONT_IDLER, Component.REAR_IDLER, Component.TOP_ROLLER)


RANKS: Final = {Grade.NONE: 0, Grade.SLIGHT: 1, Grade.MARKED: 2, Grade.SEVERE: 3}
"""Which observation keeps its words where room on the drawing is short."""


def side_views(context: Context, height: float) -> tuple[tuple[SideView, ...], str]:
    """Left and right, each at most so many mm high, and the sentence that says how both are drawn.

    Both give way to words beneath them that are more than the sheet has room for.
    """
    views, said = _side_views(context, height)
    beyond = beyond_room([context.say(N_("; ")).join(one.unnamed) for one in views], said)
    if beyond and height > LEAST:
        return _side_views(context, max(height - beyond / 2, LEAST))
    return views, said


def _side_views(context: Context, height: float) -> tuple[tuple[SideView, ...], str]:
    left, right = (side_elevation(side, height, context) for side in Side)
    drawn = draw_sides(left, right)
    views = tuple(side_view(side, one, context) for side, one in zip((left, right), drawn, strict=True))
    return views, _how_drawn(drawn, context)


def side_view(side: SideElevation, drawn: ElevationResult, context: Context) -> SideView:
    """A drawn side with its words."""
    return SideView(
        side=side.side,
        heading=_heading(side.side, context),
        front=context.say(FRONT[side.side]),
        drawing=drawn.drawing,
        scale=drawn.scale or "",
        unnamed=tuple(_pin_words(pin) for pin in side.pins if pin.number not in drawn.placed),
        pins=tuple(map(_pin_view, drawn.discs)),
    )


def _pin_view(disc: Disc) -> PinView:
    left, top = (round(middle - disc.radius, 2) for middle in disc.centre)
    return PinView(str(disc.number), left, top, 2 * disc.radius)


def _heading(side: Side, context: Context) -> str:
    return labels.opening(context.say(labels.SIDES[side]))


def _pin_words(pin: Pin) -> str:
    return f"{pin.number} {pin.title}" + (f", {pin.subtitle}" if pin.subtitle else "")


def side_elevation(side: Side, height: float, context: Context, pinned: Collection[str] | None = None) -> SideElevation:
    """What one side is drawn from, as high as there is room for it; `pinned` are the observations that alone show."""
    pins = tuple(pin for pin in _pins(side, context) if pinned is None or str(pin.number) in pinned)
    machine, chart = context.inspection.machine, context.chart
    return SideElevation(
        side=side,
        layout=machine.layout,
        worn=_worn(side, context),
        bottom_rollers=_rollers(Component.BOTTOM_ROLLER, side, context),
        top_rollers=_rollers(Component.TOP_ROLLER, side, context),
        alternative=_alternative(side, pins, context),
        words=_words(side, context),
        height=height,
        suspension=machine.suspension,
        geometry=chart.geometry if chart is not None else None,
        links=machine.links[side],
        shoe=machine.shoe.kind,
        adjuster=_adjuster(side, context),
        pins=pins,
    )


def _worn(side: Side, context: Context) -> dict[Component, Gauge]:
    components = dict.fromkeys(row.component for row in context.assessment.components if row.position is None)
    rows = {component: governing(component, side, context) for component in components}
    return {component: gauge(row, context) for component, row in rows.items() if row is not None}


def _rollers(component: Component, side: Side, context: Context) -> tuple[Gauge, ...]:
    return tuple(gauge(row, context) for row in context.assessment.rows(component, side))


def _words(side: Side, context: Context) -> ElevationWords:
    language = context.language
    return ElevationWords(
        title=_heading(side, context),
        note=context.say(FRONT[side]),
        chain=context.say(N_("Track, percent worn") if _is_rubber(context) else N_("Chain, percent worn")),
        bars={component: labels.opening(labels.many(component, language)) for component in BARS},
        parts={component: labels.one(component, language) for component in NAMED_PARTS},
        by_eye=context.say(N_("by eye")),
        not_seen=context.say(N_("not seen")),
        as_new=context.say(N_("as new")),
        better_than_new=context.say(N_("better than new")),
        scale_bars=tuple(
            (mm, f"{number}{context.figures.symbol(unit)}") for mm, number, unit in SCALE_BARS[context.figures.units]
        ),
    )


def _adjuster(side: Side, context: Context) -> AdjusterTravel | None:
    found = [one for one in context.assessment.travel if one.component is Component.ADJUSTER and one.side is side]
    if not found or found[0].percent_used is None:
        return None
    used = context.figures.travel(found[0].percent_used) + NO_BREAK + "%"
    text = context.say(N_("adjuster, {percent} of travel used"), percent=used)
    return AdjusterTravel(text, found[0].percent_used)


def _pins(side: Side, context: Context) -> tuple[Pin, ...]:
    """What was seen on that side; what was looked for and not found is in the list alone."""
    return tuple(
        Pin(
            number=index + 1,
            title=observed.title(observation, context),
            subtitle=context.figures.part(replace(observation.at, side=None)),
            at=observation.at,
            rank=RANKS[observation.grade] if observation.grade else 0,
        )
        for index, observation in enumerate(context.inspection.observations)
        if observation.at.side is side and observation.grade is not Grade.NONE
    )


def _alternative(side: Side, pins: Sequence[Pin], context: Context) -> str:
    """All figures of a side, how far its adjuster is out, and what is pinned to it, as sentences."""
    heading = f"{_heading(side, context)}, {context.say(FRONT[side])}:"
    rows = [row for row in context.assessment.components if row.side is side]
    pinned = [
        context.say(
            N_("Observation {number}: {seen}, {part}."), number=str(pin.number), seen=pin.title, part=pin.subtitle
        )
        for pin in pins
    ]
    travel = _adjuster(side, context)
    out = [labels.opening(travel.text) + "."] if travel else []
    return " ".join([heading, *(alternative(row, context) for row in rows), *out, *pinned])


def _how_drawn(drawn: tuple[ElevationResult, ...], context: Context) -> str:
    say = context.say
    sentences = [say(PERCENT_WORN), _scale_words(drawn, context)]
    if drawn[0].scale is not None and drawn[0].typical:
        sentences.append(say(N_("What it leaves open is typical of the layout.")))
    if not all(one.links for one in drawn):
        plain = N_("The track is drawn as a plain band.") if _is_rubber(context) else WITHOUT_PITCH
        sentences.append(say(plain))
    sentences.append(say(RUBBER_GAUGES if _is_rubber(context) else GAUGES))
    if any(_adjuster(side, context) is not None for side in Side):
        sentences.append(say(N_("A line with a tick is the adjuster's travel, not wear.")))
    return " ".join(sentences)


def _is_rubber(context: Context) -> bool:
    return context.inspection.machine.layout is Layout.RUBBER


def _scale_words(drawn: tuple[ElevationResult, ...], context: Context) -> str:
    geometry = context.chart.geometry if context.chart is not None else None
    scale = drawn[0].scale
    if scale is None or geometry is None:
        return context.say(N_("Proportions are typical of the layout, not of this machine, and not to scale."))
    sizes = [context.say(N_("scale {scale}"), scale=scale)]
    if geometry.idler_centres is not None:
        centres = context.figures.length(geometry.idler_centres)
        sizes.append(context.say(N_("idler centres {size}"), size=centres))
    if geometry.pitch is not None and drawn[0].links:
        pitch = context.figures.length(geometry.pitch)
        pattern = N_("{n} lugs at {pitch}") if _is_rubber(context) else N_("{n} links of {pitch}")
        sizes.append(context.say(pattern, n=str(drawn[0].links), pitch=pitch))
    return context.say(N_("Drawn as new from the chart's geometry: {sizes}."), sizes=", ".join(sizes))
