"""Wheels, rollers and frame on the sheet, each wheel a gauge."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.elevation.canvas import Canvas, Layer
from tracksworn.documents.drawing.elevation.gauges import FINE, Ring, paint, wear
from tracksworn.documents.drawing.elevation.sides import SideElevation
from tracksworn.documents.drawing.elevation.typical import DRIVE_LUG, FLANGE
from tracksworn.documents.drawing.elevation.undercarriage import Undercarriage
from tracksworn.documents.drawing.elevation.view import Outline, View
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.documents.drawing.elevation.wheels import top_roller_centres
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import INK, METAL_DARK, PAPER
from tracksworn.documents.drawing.outline import Areas, coarse_discs, disc
from tracksworn.documents.drawing.plain import Circle, Point, Stroke
from tracksworn.documents.drawing.type import width_mm
from tracksworn.inspection.vocabulary import Component, Layout

_HUB: Final = 0.42  # of a wheel's tread
_LARGEST_HUB: Final = 0.56
_ROOM_IN_HUB: Final = 3.1  # mm on the sheet
_FIGURE: Final = 8.8  # pt, that a hub should have room for
_HUB_OF_ROLLER: Final = 0.34
_LIMIT: Final = Stroke(0.4, INK)
_LIMIT_OF_ROLLER: Final = Stroke(0.3, INK)


@dataclass(frozen=True, slots=True)
class Round:
    """A wheel or roller of the machine, in its mm; `number` is the position of a roller."""

    part: Component
    centre: Point
    tread: float
    number: int | None = None

    @property
    def roller(self) -> bool:
        """Whether its figure stands beside it, not in its hub."""
        return self.number is not None


def hub(part: Round, gauge: Gauge | None, view: View) -> float:
    """The radius of its hub on the sheet, which is the limit of its gauge: a wheel's has room for its figure."""
    tread = view.length(part.tread)
    if part.roller:
        return tread * _HUB_OF_ROLLER
    wanted = _ROOM_IN_HUB
    if gauge is not None and gauge.seen:
        wanted = max(wanted, width_mm(gauge.figure, _FIGURE, weight=600) / 2 + 0.8)
    return max(tread * _HUB, min(tread * _LARGEST_HUB, wanted))


@lru_cache(maxsize=64)
def rounds(chain: Chain) -> tuple[Round, ...]:
    """All wheels and rollers of a side, from the front idler on."""
    it = chain.undercarriage
    big = [Round(Component.FRONT_IDLER, (-chain.forward, 0.0), it.front_radius)]
    if it.rear_radius:
        big.append(Round(Component.REAR_IDLER, it.rear_idler_at, it.rear_radius))
    big.append(Round(Component.SPROCKET, it.sprocket_at, _sprocket_body(it)))
    bottom = [
        Round(Component.BOTTOM_ROLLER, (x, it.bottom_height), it.bottom_radius, i + 1)
        for i, x in enumerate(it.bottom_at)
    ]
    top = [Round(Component.TOP_ROLLER, at, it.top_radius, i + 1) for i, at in enumerate(top_roller_centres(it))]
    return (*big, *bottom, *top)


@lru_cache(maxsize=64)
def under_rounds(chain: Chain) -> Outline:
    """What they take with flanges and teeth, centre and radius of each in the machine's mm, (n, 3)."""
    it, every = chain.undercarriage, rounds(chain)
    wheels = [(*part.centre, part.tread * (1 + FLANGE)) for part in every]
    return np.array([*wheels, (*it.sprocket_at, it.sprocket_radius + 0.15 * it.pitch)])


def gauge_of(side: SideElevation, part: Round) -> Gauge | None:
    """Its gauge, if it has one."""
    if part.number is None:
        return side.worn.get(part.part)
    row = side.bottom_rollers if part.part is Component.BOTTOM_ROLLER else side.top_rollers
    return row[part.number - 1]


def draw_rounds(canvas: Canvas, view: View, chain: Chain, side: SideElevation) -> None:
    """All wheels and rollers as gauges, and the sprocket's teeth."""
    it = chain.undercarriage
    canvas.area(Layer.TEETH, view.area(_teeth(chain)), fill=METAL_DARK, stroke=FINE)
    for part in rounds(chain):
        gauge = gauge_of(side, part)
        centre, tread = view.point(part.centre), view.length(part.tread)
        ring = Ring(centre, tread, hub(part, gauge, view))
        flange = Circle(centre, tread * (1 + FLANGE))
        if part.roller:
            if wear(gauge).seen and it.layout is not Layout.RUBBER:
                canvas.add(Layer.ROLLER_FLANGES, [flange], fill=PAPER, stroke=FINE)
            paint(canvas, Layer.ROLLERS, ring, gauge, _LIMIT_OF_ROLLER)
        else:
            if part.part is not Component.SPROCKET and it.layout is not Layout.RUBBER:
                canvas.add(Layer.FLANGES, [Circle(centre, tread * (1 + FLANGE * 0.8))], fill=PAPER, stroke=FINE)
            paint(canvas, Layer.WHEELS, ring, gauge, _LIMIT if wear(gauge).seen else None)


def _sprocket_body(it: Undercarriage) -> float:
    """The radius up to which the sprocket is clear of the chain that lies on it."""
    apothem = math.sqrt(it.sprocket_radius**2 - it.pitch**2 / 4)
    if it.layout is Layout.RUBBER:
        return it.sprocket_radius - it.rail - (DRIVE_LUG + 0.08) * it.pitch
    return apothem - it.rail - 0.03 * it.pitch


@lru_cache(maxsize=64)
def _teeth(chain: Chain) -> BaseGeometry:
    """The toothed rim, its gaps where the pins lie, in the machine's mm."""
    it = chain.undercarriage
    start = _angle(chain.wheels[0].centre, chain.line.points[0])
    step = math.tau / it.teeth
    if it.layout is Layout.RUBBER:
        bars = _bars(it, [start + k * step for k in range(it.teeth)])
        return shapely.union_all([disc(it.sprocket_at, _sprocket_body(it) * 1.02), *bars])
    gap = 0.19 if it.hunting else 0.2
    tip = it.sprocket_radius + 0.13 * it.pitch
    gaps = _gaps(it, [start + k * step for k in range(it.teeth)], gap * it.pitch, tip)
    return disc(it.sprocket_at, tip).difference(shapely.union_all(gaps))


def _angle(centre: Point, at: Point) -> float:
    return math.atan2(at[1] - centre[1], at[0] - centre[0])


def _polar(it: Undercarriage, angle: float, radius: float, aside: float = 0.0) -> Point:
    """A place by its angle and radius from the sprocket's centre, and how far to the side of that ray."""
    x, y = it.sprocket_at
    return (
        x + radius * math.cos(angle) - aside * math.sin(angle),
        y + radius * math.sin(angle) + aside * math.cos(angle),
    )


def _gaps(it: Undercarriage, angles: Sequence[float], half: float, tip: float) -> Areas:
    """Gaps that bushings lie in, open outwards and a little wider there where the teeth have room."""
    wide = half * (1.0 if it.hunting else 1.5)
    corners = [(it.sprocket_radius, -half), (tip + half, -wide), (tip + half, wide), (it.sprocket_radius, half)]
    return _rounded(it, angles, corners, it.sprocket_radius, half)


def _bars(it: Undercarriage, angles: Sequence[float]) -> Areas:
    """Teeth for a rubber track, each between two drive lugs."""
    half, foot, tip = 0.17 * it.pitch, _sprocket_body(it) * 0.95, it.sprocket_radius - it.rail
    corners = [(foot, -half), (tip - half, -half), (tip - half, half), (foot, half)]
    return _rounded(it, angles, corners, tip - half, half)


def _rounded(it: Undercarriage, angles: Sequence[float], corners: Sequence[Point], centre: float, half: float) -> Areas:
    """At every angle a disc, its centre at that radius, and corners by radius and side of the ray, as one area."""
    seats = coarse_discs([_polar(it, angle, centre) for angle in angles], half)
    straight = [[_polar(it, angle, radius, aside) for radius, aside in corners] for angle in angles]
    whole: Areas = shapely.union(seats, shapely.polygons(np.array(straight)))
    return whole
