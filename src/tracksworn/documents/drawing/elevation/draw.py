"""Draws one side: scale, gauges, figures, and the observations pinned to their places."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.elevation.anchors import anchors
from tracksworn.documents.drawing.elevation.boxes import Box, Room, around, text_box
from tracksworn.documents.drawing.elevation.canvas import Canvas, Layer
from tracksworn.documents.drawing.elevation.corner import Corner, corner, draw_corner
from tracksworn.documents.drawing.elevation.figures import beside_parts
from tracksworn.documents.drawing.elevation.fit import BESIDE, CLEAR, extent, fit
from tracksworn.documents.drawing.elevation.frame import brackets, draw_frame, frame, travel_box
from tracksworn.documents.drawing.elevation.gauges import FINE
from tracksworn.documents.drawing.elevation.ground import figures_end, under_ground
from tracksworn.documents.drawing.elevation.hubs import hub_texts
from tracksworn.documents.drawing.elevation.label import DISC, SMALL_DISC, Label, Wanted
from tracksworn.documents.drawing.elevation.parts import draw_rounds, gauge_of, hub, rounds, under_rounds
from tracksworn.documents.drawing.elevation.placing import UNDER, place_labels
from tracksworn.documents.drawing.elevation.rows import (
    LOWER_ROW,
    MOST,
    above,
    heights,
    lower,
    sizes,
    taken_above,
    under_figures,
)
from tracksworn.documents.drawing.elevation.scale_bar import scale_bar
from tracksworn.documents.drawing.elevation.sides import Disc, ElevationResult, Pin, SideElevation
from tracksworn.documents.drawing.elevation.track import draw_track, loop
from tracksworn.documents.drawing.elevation.undercarriage import Fitted, undercarriage
from tracksworn.documents.drawing.elevation.view import View
from tracksworn.documents.drawing.elevation.walk import Chain, chain
from tracksworn.documents.drawing.elevation.within import is_within, loop_line, room_within, through_chain
from tracksworn.documents.drawing.inks import INK, PAPER
from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Path, Point, Stroke, Text
from tracksworn.inspection.vocabulary import Component, Suspension

Rows = tuple[float, ...]
_GROUND: Final = Stroke(0.5, INK)
_LEADER: Final = Stroke(0.16, INK)
_LEADER_HALO: Final = Stroke(0.9, PAPER)
_DOT: Final = 0.38
_HEAD: Final = 0.4  # mm of air at the head of the sheet
_FAR: Final = 1e4


def draw_elevation(side: SideElevation) -> ElevationResult:
    """The side elevation with what a page says beside it. Pure; the geometry is kept for machines of one kind."""
    track = chain(undercarriage(fitted(side)))
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
    bar = scale_bar(side, track, view)
    if bar:
        canvas.add(Layer.GROUND, bar.lines, stroke=FINE)
    draw_corner(canvas, heading)
    _draw_leaders(canvas, labels)
    marks: tuple[Path | Text, ...] = (*canvas.paths(), *texts, *heading.texts, *_label_texts(labels))
    drawing = Drawing(side.width, round(side.height - up, 2), marks, side.alternative)
    return _result(drawing, labels, track, view)


def draw_sides(left: SideElevation, right: SideElevation) -> tuple[ElevationResult, ElevationResult]:
    """Both sides at one scale, the smaller of the two that fit; what one wants for labels the other may give."""
    more = (_for_labels(left) - _for_labels(right)) / 2
    left, right = replace(left, height=left.height + more), replace(right, height=right.height - more)
    most = max(side.denominator or _denominator(side) for side in (left, right))
    return draw_elevation(replace(left, denominator=most)), draw_elevation(replace(right, denominator=most))


def _for_labels(side: SideElevation) -> float:
    """The height that rows of labels take."""
    track = chain(undercarriage(fitted(side)))
    return taken_above(above(side, track)) + (LOWER_ROW if under_figures(side, track) else 0.0)


def _denominator(side: SideElevation) -> int:
    """Of the largest scale that fits."""
    return round(fit(side, chain(undercarriage(fitted(side))), corner(side)).denominator)


def fitted(side: SideElevation) -> Fitted:
    """What the undercarriage of a side is built from."""
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
        discs=tuple(Disc(one.pin.number, one.disc, SMALL_DISC if one.on_part else DISC) for one in labels),
    )


def _type(side: SideElevation, track: Chain, view: View, heading: Corner) -> tuple[tuple[Label, ...], tuple[Text, ...]]:
    """All type that stands at parts: figures and names first, then the observations in the room that is left.

    Where a leader would have to cross the chain for want of room between the wheels of a raised sprocket, labels there
    stand over the frame's edge, on a halo, or else the sprocket's name gives way.
    """
    labels, texts, through = _type_by(side, track, view, heading)
    if not (through and track.undercarriage.raised):
        return labels, texts
    names = {**side.words.parts, Component.SPROCKET: ""}
    for one in (side, replace(side, words=replace(side.words, parts=names))):
        others, other_texts, fewer = _type_by(one, track, view, heading, over_edge=True)
        if fewer < through:
            return _on_halo(others), other_texts
    return labels, texts


def _on_halo(labels: Sequence[Label]) -> tuple[Label, ...]:
    return tuple(replace(label, texts=tuple(replace(text, halo=True) for text in label.texts)) for label in labels)


def _type_by(
    side: SideElevation, track: Chain, view: View, heading: Corner, *, over_edge: bool = False
) -> tuple[tuple[Label, ...], tuple[Text, ...], int]:
    """The labels, the other type, and how many leaders cross the chain to what is inside."""
    room = _room(side, track, view)
    room.take(Box(0, view.ground - 0.5, side.width, view.ground + figures_end(side, track, view) - 1.0))
    for box in heading.boxes:
        room.take(box.grown(1))
    hubs = [
        text
        for part in rounds(track)
        if not part.roller
        for text in hub_texts(part, gauge_of(side, part), view, side.words)
    ]
    bar = scale_bar(side, track, view)
    texts = (*hubs, *under_ground(side, track, view))
    texts = (*texts, *beside_parts(side, track, view, room, texts), *((bar.text,) if bar else ()))
    for text in texts:
        room.take(text_box(text).grown(0.4))
    rows = _rows(side, track, view, heading)
    wanted = [_wanted(pin, view.points(places), side, track, view, rows) for pin, places in _pinned(side, track)]
    wanted = _with_room_within(wanted, side, track, view, texts, over_edge=over_edge)
    standing: list[Box] = [*heading.boxes, *map(text_box, texts), *_hubs(side, track, view)]
    standing += [bar.box] if bar else []
    labels = place_labels(wanted, room, standing, sizes(side)) if wanted else ()
    return labels, texts, through_chain(labels, wanted)


def _pinned(side: SideElevation, track: Chain) -> Iterator[tuple[Pin, tuple[Point, ...]]]:
    """The observations that have places on the drawing, in the machine's mm."""
    hidden = frozenset(index + 1 for index, gauge in enumerate(side.bottom_rollers) if not gauge.seen)
    for pin in side.pins:
        places = anchors(pin.at, track, hidden)
        if places:
            yield pin, places


def _with_room_within(
    wanted: Sequence[Wanted], side: SideElevation, track: Chain, view: View, texts: Sequence[Text], *, over_edge: bool
) -> list[Wanted]:
    """What is inside the loop has its label there by choice, clear of type and of the adjuster's travel."""
    inside = {pin.number for pin, places in _pinned(side, track) if is_within(track, places[0])}
    if not inside:
        return list(wanted)
    room = room_within(track, view, side.width, side.height, over_edge=over_edge)
    for text in texts:
        room.take(text_box(text).grown(0.4))
    if side.adjuster and not side.small:
        room.take(Box(*travel_box(view, frame(track))).grown(0.4))
    line = loop_line(track, view)
    return [replace(want, within=room, loop=line) if want.pin.number in inside else want for want in wanted]


def _rows(side: SideElevation, track: Chain, view: View, heading: Corner) -> Rows:
    """The rows of labels over a flat track, as many as find room under the corner's line."""
    if not above(side, track):
        return ()
    highest = view.ground - view.length(extent(track).height)
    fitting = [count for count in range(1, MOST + 1) if highest - taken_above(count) >= heading.bottom]
    return heights(highest, max(fitting, default=0))


def _wanted(pin: Pin, places: tuple[Point, ...], side: SideElevation, track: Chain, view: View, rows: Rows) -> Wanted:
    """What is under the rollers' axis is labelled from below; no leader crosses the adjuster's travel, nor, where it
    can be helped, a wheel that is not spoken of.
    """
    wheels = [(*view.point(part.centre), view.length(part.tread)) for part in rounds(track)]
    others = [(x, y, r) for x, y, r in wheels if all(math.dist((x, y), place) > 1.05 * r for place in places)]
    travel = Box(*travel_box(view, frame(track)))
    clear = not side.adjuster or side.small or any(travel.grown(1).meets(Box(x, y, x, y)) for x, y in places)
    wanted = Wanted(pin, places, () if clear else (travel,), np.asarray(others).reshape(-1, 3), ground=view.ground)
    end = figures_end(side, track, view)
    if side.small:
        return replace(wanted, lower=lower(pin, track) and end > UNDER + DISC)
    if lower(pin, track):
        row = view.ground + end + DISC + 0.5
        return replace(wanted, rows=(row,), lower=True)
    return replace(wanted, rows=rows)


def _hubs(side: SideElevation, track: Chain, view: View) -> list[Box]:
    """The hubs that figures stand in: no leader passes through."""
    big = [part for part in rounds(track) if not part.roller]
    wheels = [(view.point(part.centre), hub(part, gauge_of(side, part), view) * 0.9) for part in big]
    return [Box(x - half, y - half, x + half, y + half) for (x, y), half in wheels]


def _room(side: SideElevation, track: Chain, view: View) -> Room:
    """The sheet less what no label may stand on: track, wheels, rollers, frame."""
    room = Room(side.width, side.height)
    room.take_band(*map(view.area, loop(track)))
    room.take_discs(view.discs(under_rounds(track)))
    room.take_area(view.area(_beam(track)))
    return room


@lru_cache(maxsize=64)
def _beam(track: Chain) -> BaseGeometry:
    """The frame with its brackets, in the machine's mm."""
    body = frame(track)
    whole: BaseGeometry = shapely.union_all([*map(shapely.Polygon, brackets(track.undercarriage, body)), body.outline])
    return whole


def _unused(track: Chain, view: View, heading: Corner, labels: Sequence[Label]) -> float:
    """How far all but the corner can move up, as nothing needs the room above it."""
    highest = min([view.ground - view.length(extent(track).height), *(label.box.top for label in labels)])
    if not heading.boxes:
        return max(highest - _HEAD, 0.0)
    outline = view.area(loop(track)[0])
    return max(min(highest - _HEAD, *(_clear_of(box, outline, labels) for box in heading.boxes)), 0.0)


def _clear_of(box: Box, track: BaseGeometry, labels: Sequence[Label]) -> float:
    """How far track and labels can move up before they run into one box of the corner's type."""
    left, right = box.left - CLEAR, box.right + CLEAR
    beneath = shapely.clip_by_rect(track, left, -_FAR, right, _FAR)
    free = math.inf if beneath.is_empty else beneath.bounds[1] - box.bottom - CLEAR
    for label in labels:
        ends = [label.disc, label.place] if not label.on_part else []
        span = around([label.box, *(Box(x, y, x, y) for x, y in ends)])
        if span.left < box.right + 1 and box.left - 1 < span.right:
            free = min(free, span.top - box.bottom - 1)
    return free


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
