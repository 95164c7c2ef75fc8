"""Where on the drawing an observation points: the places that would do, the best first, in the machine's mm."""

import math
from itertools import pairwise
from typing import Final

from tracksworn.documents.drawing.elevation.frame import Frame, frame
from tracksworn.documents.drawing.elevation.parts import Round, rounds
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.documents.drawing.plain import Point
from tracksworn.inspection.model import Spot
from tracksworn.inspection.vocabulary import Component, ObservedPlace

_ON_PINS: Final = frozenset({
    Component.LINK, Component.BUSHING, Component.PITCH, Component.SAG,
    ObservedPlace.PIN, ObservedPlace.SEAL, ObservedPlace.MASTER_JOINT,
})  # fmt: skip
_ON_SHOES: Final = frozenset({Component.SHOE, Component.LUG, ObservedPlace.SHOE_BOLT})


def anchors(spot: Spot, chain: Chain, unseen: frozenset[int] = frozenset()) -> tuple[Point, ...]:
    """The places that show what a spot speaks of; none where it names no part or one that the machine has not.

    Joints are counted from the master joint towards the front along the upper run. Where the machine stopped is not
    known, so the master joint is drawn where the chain leaves the sprocket. `unseen` are the bottom rollers that a
    guard hides.
    """
    part = spot.part
    if part is None:
        return ()
    if part is Component.LINK and not chain.pins:
        it = chain.undercarriage
        return _on_chain(chain, spot.number, -it.rail + 0.5 * it.section.rail_depth * it.pitch)
    if part in _ON_PINS:
        return _on_chain(chain, spot.number, 0.0)
    if part in _ON_SHOES:
        return _on_chain(chain, spot.number, (chain.undercarriage.section.face + 0.04) * chain.undercarriage.pitch)
    if part is Component.DRIVE_LUG:
        return _on_chain(chain, spot.number, -(chain.undercarriage.rail + 0.2 * chain.undercarriage.pitch))
    if isinstance(part, Component) and part not in (Component.ADJUSTER, Component.CUSHION):
        return _on_wheels(part, spot.number, chain)
    if part is ObservedPlace.GUARD:
        return _at_guard(chain, unseen)
    return _on_frame(part, spot.number, chain, frame(chain))


def _on_chain(chain: Chain, joint: int | None, outwards: float) -> tuple[Point, ...]:
    """A joint by its number; without one, places spread along the upper run from its middle outwards."""
    line = chain.line
    if joint is not None and chain.pins:
        first = next(i for i, pin in enumerate(chain.pins) if _before(chain, pin))
        index = (first + joint - 1) % len(chain.pins)
        return (_outwards(chain.pins[index], chain.pins[(index + 1) % len(chain.pins)], outwards),)
    run = range(line.leaves, line.arrives)
    total = line.lengths[line.arrives] - line.lengths[line.leaves]
    places = []
    for share in (0.5, 0.35, 0.65, 0.25, 0.75, 0.42, 0.58, 0.15, 0.85):
        want = line.lengths[line.leaves] + share * total
        index = next((i for i in run if line.lengths[i + 1] >= want), line.arrives - 1)
        places.append(_at_length(chain, index, want, outwards))
    return tuple(places)


def _before(chain: Chain, pin: Point) -> bool:
    """Whether a pin has left the sprocket."""
    centre, radius = chain.wheels[0].centre, chain.wheels[0].radius
    return math.dist(pin, centre) > radius * 1.005


def _at_length(chain: Chain, index: int, length: float, outwards: float) -> Point:
    (x0, y0), (x1, y1) = chain.line.points[index], chain.line.points[index + 1]
    span = chain.line.lengths[index + 1] - chain.line.lengths[index]
    share = (length - chain.line.lengths[index]) / span
    at = (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
    return _outwards(at, (at[0] + x1 - x0, at[1] + y1 - y0), outwards)


def _outwards(here: Point, following: Point, by: float) -> Point:
    dx, dy = following[0] - here[0], following[1] - here[1]
    size = math.hypot(dx, dy)
    return (here[0] + by * dy / size, here[1] - by * dx / size)


def _on_wheels(part: Component, number: int | None, chain: Chain) -> tuple[Point, ...]:
    of_kind = [wheel for wheel in rounds(chain) if wheel.part is part]
    chosen = [wheel for wheel in of_kind if number in (None, wheel.number) or wheel.number is None]
    return tuple(at for wheel in chosen for at in _on_round(wheel, chain))


def _on_round(wheel: Round, chain: Chain) -> tuple[Point, ...]:
    """On the rim, on the side that the chain leaves free; on rollers between tread and hub."""
    it = chain.undercarriage
    radius, degrees = wheel.tread * 0.97, (35, 15, -5, 55)
    if wheel.part is Component.REAR_IDLER:
        degrees = (145, 165, 185, 125)
    if wheel.part is Component.SPROCKET:
        radius = it.sprocket_radius + 0.06 * it.pitch
        degrees = (-20, 200, -60, 240) if it.raised else (165, 145, 185, 205)
    if wheel.roller:
        radius, degrees = wheel.tread * 0.78, (90, 60, 120, 30)
    (x, y), angles = wheel.centre, [math.radians(degree) for degree in degrees]
    return tuple((x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in angles)


def _on_frame(part: Component | ObservedPlace, number: int | None, chain: Chain, body: Frame) -> tuple[Point, ...]:
    it = chain.undercarriage
    (x0, y), (x1, _) = body.travel
    before, behind = (x0 - 0.55 * (x0 - body.front), y), (x1 + 0.1 * (x1 - x0), y)
    low = body.bottom + 0.15 * body.height
    along = tuple((body.front + share * (body.rear - body.front), body.middle) for share in (0.55, 0.7, 0.45, 0.85))
    bogies = tuple((x, at + 0.14 * it.bottom_radius) for x, at in body.bogies)
    at_number = bogies[number - 1 : number] if number else bogies
    places: dict[Component | ObservedPlace, tuple[Point, ...]] = {
        Component.ADJUSTER: ((x0, y), (x1, y), before, behind),
        Component.CUSHION: at_number or along,
        ObservedPlace.ADJUSTER_SEAL: (before, (x0 + 0.2 * (x1 - x0), y)),
        ObservedPlace.ADJUSTER_BRACKET: (behind,),
        ObservedPlace.RECOIL_SPRING: ((x1 + 0.25 * (x1 - x0), y),),
        ObservedPlace.PIVOT_SHAFT: (body.pivot,) if body.pivot else along[3:],
        ObservedPlace.EQUALISER_BAR: ((body.front + 0.45 * (body.rear - body.front), body.top),),
        ObservedPlace.BOGIE_PIVOT: at_number or along,
        ObservedPlace.TRACK_FRAME: (*along, (body.front + 0.6 * (body.rear - body.front), low)),
    }
    return places.get(part, along)


def _at_guard(chain: Chain, unseen: frozenset[int]) -> tuple[Point, ...]:
    """Between two rollers, of those that were not seen where there are any, from the middle outwards."""
    it = chain.undercarriage
    hidden = [x for index, x in enumerate(it.bottom_at) if index + 1 in unseen or not unseen]
    places = [(a + b) / 2 for a, b in pairwise(hidden)] or hidden
    middle = sum(places) / max(len(places), 1)
    return tuple((x, it.bottom_height) for x in sorted(places, key=lambda x: (abs(x - middle), x)))
