"""The wheels that the chain runs round, counter-clockwise, each by the radius of the pin line on it."""

import math
from dataclasses import dataclass

from tracksworn.documents.drawing.elevation.typical import (
    RISE_OF_TOP_ROLLERS,
    SAG_OF_REAR_RUN,
    SAG_OF_UPPER_RUN,
)
from tracksworn.documents.drawing.elevation.undercarriage import Undercarriage
from tracksworn.documents.drawing.plain import Point
from tracksworn.inspection.vocabulary import Component


@dataclass(frozen=True, slots=True)
class Wheel:
    """A circle that the pin line lies on, and how far the run that leaves it hangs, as a share of its length."""

    part: Component
    centre: Point
    radius: float
    sag: float = 0.0

    def at(self, angle: float) -> Point:
        """The point of the pin line at an angle, counter-clockwise from the rear."""
        return (self.centre[0] + self.radius * math.cos(angle), self.centre[1] + self.radius * math.sin(angle))


def leaving_angle(wheel: Wheel, following: Wheel) -> float:
    """The angle at which the outer tangent touches both: α − arccos((r₁ − r₂) / d), α the direction, d the distance."""
    dx, dy = following.centre[0] - wheel.centre[0], following.centre[1] - wheel.centre[1]
    return math.atan2(dy, dx) - math.acos((wheel.radius - following.radius) / math.hypot(dx, dy))


def wheels(it: Undercarriage, forward: float = 0.0) -> tuple[Wheel, ...]:
    """All that the chain lies on, from the sprocket on, the front idler moved `forward` by its adjuster.

    Of the bottom rollers only the first and the last turn the chain. A wheel that the chain would pass without
    touching is left out.
    """
    front = Wheel(Component.FRONT_IDLER, (-forward, 0.0), it.front_radius + it.rail)
    sprocket = Wheel(Component.SPROCKET, it.sprocket_at, it.sprocket_radius, SAG_OF_UPPER_RUN)
    ends = it.bottom_at[:1] + it.bottom_at[1:][-1:]
    bottom = [Wheel(Component.BOTTOM_ROLLER, (x, it.bottom_height), it.bottom_radius + it.rail) for x in ends]
    rear = []
    if it.rear_radius:
        rear = [Wheel(Component.REAR_IDLER, it.rear_idler_at, it.rear_radius + it.rail, SAG_OF_REAR_RUN)]
    top = [
        Wheel(Component.TOP_ROLLER, centre, it.top_radius + it.rail, SAG_OF_UPPER_RUN)
        for centre in reversed(top_roller_centres(it))
    ]
    return _touched([sprocket, *top, front, *bottom, *rear])


def top_roller_centres(it: Undercarriage) -> tuple[Point, ...]:
    """The top rollers' centres: a little above the straight line from sprocket to front idler, so that they carry."""
    sprocket = Wheel(Component.SPROCKET, it.sprocket_at, it.sprocket_radius)
    front = Wheel(Component.FRONT_IDLER, (0.0, 0.0), it.front_radius + it.rail)
    angle = leaving_angle(sprocket, front)
    start, end = sprocket.at(angle), front.at(angle)
    inwards = it.top_radius + it.rail
    x0, y0 = start[0] - inwards * math.cos(angle), start[1] - inwards * math.sin(angle)
    slope = (end[1] - start[1]) / (end[0] - start[0])
    span = it.sprocket_at[0]
    rise = RISE_OF_TOP_ROLLERS * it.pitch * len(it.top_at)
    return tuple((x, y0 + slope * (x - x0) + rise * 4 * (x / span) * (1 - x / span)) for x in it.top_at)


def wraps(row: tuple[Wheel, ...] | list[Wheel]) -> list[tuple[float, float]]:
    """For each wheel the angle at which the chain meets it and how far it turns on it, below 0 where it does not."""
    leaving = [leaving_angle(wheel, following) for wheel, following in zip(row, [*row[1:], row[0]], strict=True)]
    met = [leaving[-1], *leaving[:-1]]
    return [(start, _turn(end - start)) for start, end in zip(met, leaving, strict=True)]


def _turn(angle: float) -> float:
    turn = angle % math.tau
    return turn - math.tau if turn > 1.5 * math.pi else turn


def _touched(row: list[Wheel]) -> tuple[Wheel, ...]:
    rollers = (Component.BOTTOM_ROLLER, Component.TOP_ROLLER)
    while True:
        turns = [turn for _, turn in wraps(row)]
        passed = [
            i for i, (wheel, turn) in enumerate(zip(row, turns, strict=True)) if wheel.part in rollers and turn < -1e-9
        ]
        if not passed:
            return tuple(row)
        row = [wheel for i, wheel in enumerate(row) if i != min(passed, key=lambda i: turns[i])]
