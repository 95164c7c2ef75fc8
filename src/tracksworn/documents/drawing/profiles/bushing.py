"""Section of a bushing: a ring that wears in crescents where the sprocket drives it."""

import math
from typing import Final

import numpy as np
from numpy.typing import NDArray
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
_ROUND: Final = np.arange(0.0, 360.0, _STEP)

Angles = NDArray[np.float64]  # degrees


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

    hole = disc((0.0, 0.0), bore)

    def edge(at: Angles, losses: Losses) -> NDArray[np.float64]:
        each = [max(loss, 0.0) * _crescent(at - middle) for loss, middle in zip(losses, angles, strict=True)]
        gone = sum(loss**4 for loss in each) ** 0.25  # the deepest, without a crest where two meet
        left = np.maximum(radius - np.where(gone > 0, gone, min(*losses, 0.0)), 1.01 * bore)
        points: NDArray[np.float64] = left[:, None] * np.column_stack((np.cos(np.radians(at)), np.sin(np.radians(at))))
        return points

    def solid(losses: Losses) -> BaseGeometry:
        return Polygon(edge(_ROUND, losses), [hole.exterior.coords])

    def touch(face: int, loss: float, share: float) -> Point:
        angle = angles[face] + (share - 0.5) * 70 * (1 if angles[face] < 270 else -1)
        ((x, y),) = edge(np.array([angle]), tuple(loss if index == face else 0.0 for index in range(len(faces))))
        return float(x), float(y)

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


def _crescent(off: Angles) -> Angles:
    """The share of the loss at angles off the middle: level in the middle, running out at the ends."""
    off = np.abs((off + 180) % 360 - 180)
    return np.where(off < _HALF_CRESCENT, np.cos(np.radians(off / _HALF_CRESCENT * 90)) ** 2, 0.0)


def _polar(radius: float, angle: float) -> Point:
    return radius * math.cos(math.radians(angle)), radius * math.sin(math.radians(angle))
