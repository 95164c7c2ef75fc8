"""Section of a bushing: a ring that wears in crescents where the sprocket drives it."""

import math
from typing import Final

from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.outline import disc
from tracksworn.documents.drawing.plain import Point
from tracksworn.documents.drawing.profiles.amounts import Amounts
from tracksworn.documents.drawing.profiles.profile import Measure, ProfileWords, Worn
from tracksworn.documents.drawing.profiles.section import Losses, Name, Section
from tracksworn.inspection.vocabulary import PartPlace

_ANGLES: Final = {PartPlace.FORWARD_SIDE: 212.0, PartPlace.REVERSE_SIDE: 328.0, PartPlace.RIGHT_ANGLES: 270.0}
_HALF_CRESCENT: Final = 90.0  # degrees from the middle of a crescent to its end
_STEP: Final = 4


def bushing_section(faces: tuple[Worn, ...], given: Amounts, depth: float, words: ProfileWords) -> Section:
    """The ring with a crescent at each side that was measured. Across the diameter the far side is unworn, so all that
    has gone has gone at one side.
    """
    if given.measure is Measure.WALL:
        bore, radius = 1.4 * given.new, 2.4 * given.new
    else:
        radius = given.new / 2
        bore = min(0.6 * radius, max(radius - 1.25 * depth, 0.15 * radius))
    angles = [_ANGLES.get(worn.place, _ANGLES[PartPlace.FORWARD_SIDE]) if worn.place else 212.0 for worn in faces]

    def at(angle: float, losses: Losses, floor: float) -> Point:
        each = [max(loss, 0.0) * _crescent(angle - middle) for loss, middle in zip(losses, angles, strict=True)]
        gone = sum(loss**4 for loss in each) ** 0.25  # the deepest, without a crest where two meet
        better = min(*losses, 0.0)
        return _polar(max(radius - (gone if gone > 0 else better), floor), angle)

    def solid(losses: Losses) -> BaseGeometry:
        outside = Polygon([at(angle, losses, 1.01 * bore) for angle in range(0, 360, _STEP)])
        return outside.difference(disc((0.0, 0.0), bore))

    def touch(face: int, loss: float, share: float) -> Point:
        angle = angles[face] + (share - 0.5) * 70 * (1 if angles[face] < 270 else -1)
        return at(angle, tuple(loss if index == face else 0.0 for index in range(len(faces))), 1.01 * bore)

    out = 1.12 * radius
    return Section(
        faces=faces,
        solid=solid,
        worn=solid,
        touch=touch,
        bounds=(-out, -out, out, out),
        axes=(((-out, 0.0), (out, 0.0)), ((0.0, -out), (0.0, out))),
        apart=True,
        below=True,
        thin=(tuple(_polar(0.96 * bore, angle) for angle in range(0, 361, 2 * _STEP)),),
        names=(Name(words.pin, (0.42 * bore, 0.42 * bore), 0.8 * bore),),
        prefix="Ø\u2009" if given.measure is Measure.DIAMETER else "",
    )


def _crescent(off: float) -> float:
    """The share of the loss at an angle off the middle: level in the middle, running out at the ends."""
    off = abs((off + 180) % 360 - 180)
    return math.cos(math.radians(off / _HALF_CRESCENT * 90)) ** 2 if off < _HALF_CRESCENT else 0.0


def _polar(radius: float, angle: float) -> Point:
    return radius * math.cos(math.radians(angle)), radius * math.sin(math.radians(angle))
