"""Walks the pin line by chords of exactly the pitch, and closes it by moving the front idler as its adjuster does."""

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from tracksworn.documents.drawing.elevation.path import PinLine, pin_line
from tracksworn.documents.drawing.elevation.undercarriage import Undercarriage, lengthened
from tracksworn.documents.drawing.elevation.wheels import Wheel, wheels
from tracksworn.documents.drawing.plain import Point

_POINTS_A_PITCH: Final = 12  # on the sprocket, so that each pin on it falls on a point
_TRAVEL: Final = 0.75  # pitches that the front idler may move to take the links that were counted
_CLOSED: Final = 1e-7  # mm


@dataclass(frozen=True, slots=True, eq=False)
class Chain:
    """The chain on its wheels, in the machine's mm. `pins` are empty where no pitch is known.

    Compared by identity, as `chain` keeps it: what is worked out of a chain is kept without its points being hashed.
    """

    undercarriage: Undercarriage
    wheels: tuple[Wheel, ...]
    line: PinLine
    pins: tuple[Point, ...]
    forward: float  # how far the front idler stands before its nominal place
    gap: float  # what is left to the first pin after the last link, along the line


@lru_cache(maxsize=64)
def chain(it: Undercarriage) -> Chain:
    """The chain of the links counted, else of the nearest whole number, closed to less than 0.001 mm.

    Where the chart leaves the wheels' distance open it follows the count; where it does not, and the count would need
    more travel than an adjuster has, the nearest whole number is drawn instead. Where none closes, on wheels that no
    machine has, or where no pitch is known, no links are drawn.
    """
    if not it.pitch_known:
        return _without_links(it)
    if it.links and "idler_centres" in it.typical:
        it = _for_count(it, it.links)
    nearest = round(pin_line(wheels(it)).length / it.pitch)
    counted = it.links if it.links and abs(it.links - nearest) <= 2 * _TRAVEL else nearest
    for count in (counted, nearest, nearest - 1, nearest + 1):
        found = _closed(it, count)
        if found is not None:
            return found
    return _without_links(it)


def _without_links(it: Undercarriage) -> Chain:
    row = wheels(it)
    return Chain(replace(it, pitch_known=False), row, pin_line(row), (), 0.0, 0.0)


def _for_count(it: Undercarriage, links: int) -> Undercarriage:
    """Wheels as far apart as that many links ask for, but never so near that they touch."""
    least = 1.3 * (it.front_radius + (it.rear_radius or it.sprocket_radius)) + it.rail
    for _ in range(4):
        by = (links * it.pitch - pin_line(wheels(it)).length) / 2
        it = lengthened(it, max(by, least - it.rear_x))
    return it


def _closed(it: Undercarriage, count: int) -> Chain | None:
    """The chain with the front idler where `count` links close; None where none of its travel does."""
    travel = _TRAVEL * it.pitch
    backmost, foremost = _laid(it, count, -travel), _laid(it, count, travel)
    if backmost.gap > 0 or foremost.gap < 0:
        return None
    return _between(backmost, foremost, count)


def _between(back: Chain, fore: Chain, count: int) -> Chain:
    """The chain with the idler where the gap changes its sign: the Illinois way of regula falsi."""
    it, low, high, below, above, side = back.undercarriage, back.forward, fore.forward, back.gap, fore.gap, 0
    while high - low > _CLOSED:
        at = (low * above - high * below) / (above - below)
        laid = _laid(it, count, at)
        if abs(laid.gap) < _CLOSED:
            return laid
        if laid.gap < 0:
            low, below, above, side = at, laid.gap, above / (2 if side < 0 else 1), -1
        else:
            fore, high, above, below, side = laid, at, laid.gap, below / (2 if side > 0 else 1), 1
    return fore


def _laid(it: Undercarriage, count: int, forward: float) -> Chain:
    """So many links laid round with the idler at a place, closed or not."""
    row = wheels(it, forward)
    line = _line(it, row)
    pins, reached = _walk(line, it.pitch, count)
    return Chain(it, row, line, pins, forward, line.length - reached)


def _line(it: Undercarriage, row: tuple[Wheel, ...]) -> PinLine:
    return pin_line(row, 2 * math.asin(it.pitch / (2 * it.sprocket_radius)) / _POINTS_A_PITCH)


def _walk(line: PinLine, pitch: float, count: int) -> tuple[tuple[Point, ...], float]:
    """`count` pins from the first point on, each a chord of `pitch` from the last, and how far along the next one lies.

    Where the line ends before the links do, they go on round it a second time.
    """
    points = line.points + line.points[1:]
    pins = [points[0]]
    segment, share = 1, 0.0
    for _ in range(count):
        segment, share = _next(points, segment, pins[-1], pitch)
        (x0, y0), (x1, y1) = points[segment - 1], points[segment]
        pins.append((x0 + share * (x1 - x0), y0 + share * (y1 - y0)))
    start, end = _along(line, segment - 1), _along(line, segment)
    return tuple(pins[:count]), start + share * (end - start)


def _along(line: PinLine, index: int) -> float:
    """How far along a point lies, also the second time round."""
    rounds, index = divmod(index, len(line.points) - 1)
    return line.lengths[index] + rounds * line.length


def _next(points: tuple[Point, ...], segment: int, here: Point, pitch: float) -> tuple[int, float]:
    """The first segment that ends a chord or more from `here`, and where on it, 0 to 1, the chord ends."""
    (x, y), square = here, pitch * pitch
    while (points[segment][0] - x) ** 2 + (points[segment][1] - y) ** 2 < square:
        segment += 1
    return segment, _crossing(points[segment - 1], points[segment], here, square)


def _crossing(start: Point, end: Point, centre: Point, square: float) -> float:
    """Where from start (0) to end (1) a segment leaves the circle round a centre."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    fx, fy = start[0] - centre[0], start[1] - centre[1]
    a, b, c = dx * dx + dy * dy, fx * dx + fy * dy, fx * fx + fy * fy - square
    return min(max((-b + math.sqrt(max(b * b - a * c, 0.0))) / a, 0.0), 1.0)
