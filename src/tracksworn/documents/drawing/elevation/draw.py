"""Draws one side: scale, gauges, figures, and the observations pinned to their places."""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.elevation.anchors import anchors
from tracksworn.documents.drawing.elevation.boxes import Box, Room, crossed, text_box
from tracksworn.documents.drawing.elevation.canvas import Canvas, Layer
from tracksworn.documents.drawing.elevation.corner import Corner, corner, draw_corner
from tracksworn.documents.drawing.elevation.figures import beside_parts, hub_texts, under_ground
from tracksworn.documents.drawing.elevation.fit import BESIDE, CLEAR, extent, fit
from tracksworn.documents.drawing.elevation.frame import bracket, draw_frame, frame, travel_box
from tracksworn.documents.drawing.elevation.label import DISC, SMALL_DISC, Label, Sizes, Wanted
from tracksworn.documents.drawing.elevation.parts import draw_rounds, gauge_of, rounds
from tracksworn.documents.drawing.elevation.placing import FIGURE_AIR, place_labels
from tracksworn.documents.drawing.elevation.sides import ElevationResult, Pin, SideElevation
from tracksworn.documents.drawing.elevation.track import draw_track, loop
from tracksworn.documents.drawing.elevation.typical import FLANGE
from tracksworn.documents.drawing.elevation.undercarriage import Fitted, undercarriage
from tracksworn.documents.drawing.elevation.view import View
from tracksworn.documents.drawing.elevation.walk import Chain, chain
from tracksworn.documents.drawing.elevation.wheels import top_roller_centres
from tracksworn.documents.drawing.inks import INK, PAPER
from tracksworn.documents.drawing.outline import disc
from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Path, Point, Stroke, Text
from tracksworn.inspection.vocabulary import Suspension

_GROUND: Final = Stroke(0.5, INK)
_LEADER: Final = Stroke(0.16, INK)
_LEADER_HALO: Final = Stroke(0.9, PAPER)
_DOT: Final = 0.38
_HEAD: Final = 0.4  # mm of air at the head of the sheet
_STEP_UP: Final = 0.5


def draw_elevation(side: SideElevation) -> ElevationResult:
    """The side elevation with what a page says beside it. Pure; the geometry is kept for machines of one kind."""
    track = chain(undercarriage(_fitted(side)))
    heading = corner(side)
    view = fit(side, track, heading)
    labels, texts = _type(side, track, view, heading)
    up = _unused(track, view, heading, labels)
    view = view.moved(-up)
    labels = tuple(label.moved(0, -up) for label in labels)
    texts = tuple(replace(text, at=(text.at[0], text.at[1] - up)) for text in texts)
    canvas = Canvas()
    draw_frame(canvas, view, track, None if side.small else side.adjuster)
    draw_rounds(canvas, view, track, side)
    draw_track(canvas, view, track, side.worn)
    _draw_ground(canvas, view, track)
    draw_corner(canvas, heading)
    _draw_leaders(canvas, labels)
    marks: tuple[Path | Text, ...] = (*canvas.paths(), *texts, *heading.texts, *_label_texts(labels))
    drawing = Drawing(side.width, round(side.height - up, 2), marks, side.alternative)
    return _result(drawing, labels, track, view)


def draw_sides(left: SideElevation, right: SideElevation) -> tuple[ElevationResult, ElevationResult]:
    """Both sides at one scale, the smaller of the two that fit."""
    results = draw_elevation(left), draw_elevation(right)
    most = max(result.denominator for result in results)
    drawn = [
        result if result.denominator == most else draw_elevation(replace(side, denominator=most))
        for side, result in zip((left, right), results, strict=True)
    ]
    return drawn[0], drawn[1]


def _fitted(side: SideElevation) -> Fitted:
    suspended = side.suspension is Suspension.SUSPENDED
    counts = len(side.bottom_rollers), len(side.top_rollers)
    return Fitted(side.layout, suspended, side.geometry, *counts, side.links, side.shoe)


def _result(drawing: Drawing, labels: Sequence[Label], track: Chain, view: View) -> ElevationResult:
    it = track.undercarriage
    return ElevationResult(
        drawing,
        placed=tuple(label.pin.number for label in labels if label.named),
        bare=tuple(label.pin.number for label in labels if not label.named),
        denominator=round(view.denominator),
        to_scale=it.to_scale,
        typical=it.typical,
        links=len(track.pins) or None,
    )


def _type(side: SideElevation, track: Chain, view: View, heading: Corner) -> tuple[tuple[Label, ...], tuple[Text, ...]]:
    """All type that stands at parts: figures and names first, then the observations in the room that is left."""
    room = Room(side.width, view.ground, _taken(track, view))
    for box in heading.boxes:
        room.take(box.grown(1))
    hubs = [
        text
        for part in rounds(track)
        if not part.roller
        for text in hub_texts(part, gauge_of(side, part), view, side.words)
    ]
    texts = (*hubs, *under_ground(side, track, view), *beside_parts(side, track, view, room))
    for text in texts:
        room.take(text_box(text).grown(FIGURE_AIR))
    hidden = frozenset(index + 1 for index, gauge in enumerate(side.bottom_rollers) if not gauge.seen)
    wanted = [
        _wanted(pin, view.points(places), side, track, view)
        for pin in side.pins
        if (places := anchors(pin.at, track, hidden))
    ]
    sizes = Sizes(6.6, 6.2) if side.small else Sizes()
    standing: list[Box] = [*heading.boxes, *map(text_box, texts), *_hubs(track, view)]
    labels = place_labels(wanted, room, standing, sizes) if wanted else ()
    return labels, texts


def _wanted(pin: Pin, places: tuple[Point, ...], side: SideElevation, track: Chain, view: View) -> Wanted:
    """What is under the rollers' axis is labelled from below; no leader crosses a roller that is not spoken of, nor
    the adjuster's travel.
    """
    rollers = [(view.point(part.centre), view.length(part.tread) * 0.7) for part in rounds(track) if part.roller]
    avoid = [
        Box(x - half, y - half, x + half, y + half)
        for (x, y), half in rollers
        if all(math.dist((x, y), place) > 1.5 * half for place in places)
    ]
    travel = Box(*travel_box(view, frame(track)))
    if side.adjuster and not side.small and not any(travel.grown(1).meets(Box(x, y, x, y)) for x, y in places):
        avoid.append(travel)
    axis = view.point((0.0, track.undercarriage.bottom_height))[1]
    lower = not side.small and places[0][1] > axis + 0.5
    return Wanted(pin, places, tuple(avoid), view.ground if lower else None)


def _hubs(track: Chain, view: View) -> list[Box]:
    """The hubs that figures stand in: no leader passes through."""
    wheels = [(view.point(part.centre), part.hub(view) * 0.9) for part in rounds(track) if not part.roller]
    return [Box(x - half, y - half, x + half, y + half) for (x, y), half in wheels]


def _taken(track: Chain, view: View) -> BaseGeometry:
    """What no label may stand on: track, wheels, rollers, frame."""
    outside, inside = loop(track)
    wheels = [disc(part.centre, part.tread * (1 + FLANGE)) for part in rounds(track)]
    it = track.undercarriage
    sprocket = disc(it.sprocket_at, it.sprocket_radius + 0.15 * it.pitch)
    body = frame(track)
    brackets = [shapely.Polygon(bracket(it, body, at)) for at in top_roller_centres(it)]
    return view.area(shapely.union_all([outside.difference(inside), *wheels, *brackets, sprocket, body.outline]))


def _unused(track: Chain, view: View, heading: Corner, labels: Sequence[Label]) -> float:
    """How far all but the corner can move up, as nothing needs the room above it."""
    highest = min([view.ground - view.length(extent(track).height), *(label.box.top for label in labels)])
    if not heading.boxes:
        return max(highest - _HEAD, 0.0)
    outline = view.area(loop(track)[0]).buffer(CLEAR)
    up = 0.0
    while up + _STEP_UP <= highest - _HEAD and not _meets(heading, outline, labels, up + _STEP_UP):
        up += _STEP_UP
    return up


def _meets(heading: Corner, track: BaseGeometry, labels: Sequence[Label], up: float) -> bool:
    """Whether track or labels that much higher would run into the corner's type."""
    lower = [box.grown(1).moved(0, up) for box in heading.boxes]
    if any(track.intersects(shapely.box(box.left, box.top, box.right, box.bottom)) for box in lower):
        return True
    if not labels:
        return False
    leaders = np.asarray([label.leader for label in labels])
    sides = np.asarray([box.sides for box in lower])
    through = bool(crossed(sides[:, None], leaders[:, 0], leaders[:, 1]).any())
    return through or any(box.meets(label.box) for box in lower for label in labels)


def _draw_ground(canvas: Canvas, view: View, track: Chain) -> None:
    size = extent(track)
    ends = sorted(view.point((x, 0))[0] for x in (size.left, size.right))
    line = Line(((ends[0] - BESIDE, view.ground), (ends[1] + BESIDE, view.ground)))
    canvas.add(Layer.GROUND, [line], stroke=_GROUND)


def _draw_leaders(canvas: Canvas, labels: Sequence[Label]) -> None:
    lines = [Line(label.leader) for label in labels if not label.on_part]
    if lines:
        places = {label.place for label in labels if not label.on_part}
        canvas.add(Layer.LEADERS, lines, stroke=_LEADER_HALO)
        canvas.add(Layer.LEADERS, [Circle(place, _DOT + 0.25) for place in places], fill=PAPER)
        canvas.add(Layer.LEADERS, lines, stroke=_LEADER)
        canvas.add(Layer.LEADERS, [Circle(place, _DOT) for place in places], fill=INK)
    small = [Circle(label.disc, SMALL_DISC) for label in labels if label.on_part]
    if small:
        canvas.add(Layer.DISCS, [Circle(disc.centre, disc.radius + 0.25) for disc in small], fill=PAPER)
    if labels:
        discs = [Circle(label.disc, DISC) for label in labels if not label.on_part]
        canvas.add(Layer.DISCS, [*discs, *small], fill=INK)


def _label_texts(labels: Sequence[Label]) -> list[Text]:
    numbers = [
        Text(
            (label.disc[0], label.disc[1] + (0.77 if label.on_part else 0.88)),
            str(label.pin.number),
            6.2 if label.on_part else 7.1 if label.pin.number < 10 else 6.6,
            700,
            PAPER,
            "middle",
        )
        for label in labels
    ]
    return [*numbers, *(text for label in labels for text in label.texts)]
