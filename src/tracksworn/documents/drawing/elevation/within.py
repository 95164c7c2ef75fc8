"""The room that the track encloses: between the wheels and on the frame's bare plate, where nothing is a gauge."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.elevation.boxes import Numbers, Room, cross
from tracksworn.documents.drawing.elevation.frame import bogies, brackets, frame, pivot_radius
from tracksworn.documents.drawing.elevation.label import Label, Wanted
from tracksworn.documents.drawing.elevation.parts import under_rounds
from tracksworn.documents.drawing.elevation.track import loop
from tracksworn.documents.drawing.elevation.view import View
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.documents.drawing.outline import disc
from tracksworn.documents.drawing.plain import Point

_COARSE: Final = 0.4  # mm on the sheet by which the loop may be drawn straighter to see what crosses it


def room_within(track: Chain, view: View, width: float, height: float, *, over_edge: bool) -> Room:
    """What is free inside the loop; all else is taken, also the frame's edge where no label may stand over it."""
    room = Room.only(width, height, view.area(loop(track)[1]))
    room.take_discs(view.discs(under_rounds(track)))
    room.take_area(view.area(_fittings(track)))
    if not over_edge:
        room.take_area(view.area(frame(track).outline).boundary)
    return room


@lru_cache(maxsize=64)
def _fittings(track: Chain) -> BaseGeometry:
    """Brackets, bogies and pivot, in the machine's mm."""
    it, body = track.undercarriage, frame(track)
    there = [*map(shapely.Polygon, brackets(it, body))]
    there += [shapely.Polygon(corners).convex_hull for corners in bogies(it, body)]
    there += [disc(body.pivot, pivot_radius(it, body))] if body.pivot else []
    whole: BaseGeometry = shapely.union_all(there)
    return whole


def is_within(track: Chain, place: Point) -> bool:
    """Whether a place of the machine lies inside the loop."""
    return bool(shapely.contains_xy(loop(track)[1], *place))


def loop_line(track: Chain, view: View) -> Numbers:
    """The loop's inner outline on the sheet, closed, (n, 2)."""
    coarse = view.area(loop(track)[1]).simplify(_COARSE, preserve_topology=False)
    rings = [np.asarray(part.exterior.coords) for part in getattr(coarse, "geoms", [coarse]) if not part.is_empty]
    return max(rings, key=len, default=np.zeros((0, 2)))


def through_chain(labels: Sequence[Label], wanted: Sequence[Wanted]) -> int:
    """How many leaders cross the chain to a place inside the loop."""
    loops = {want.pin.number: want.loop for want in wanted if len(want.loop)}
    ends = [(np.asarray(label.leader), loops.get(label.pin.number)) for label in labels if not label.on_part]
    return sum(
        bool(cross(leader[0], leader[1], line[:-1], line[1:]).any()) for leader, line in ends if line is not None
    )
