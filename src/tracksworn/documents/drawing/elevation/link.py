"""The outlines of one link, its shoe and its lugs, in pitches: x from pin to pin, y outwards from the pin line."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from tracksworn.documents.drawing.elevation.typical import DRIVE_LUG, GROUSERS, LUG, RUBBER, STEEL
from tracksworn.documents.drawing.elevation.view import Outline
from tracksworn.inspection.vocabulary import ShoeKind

_OVERHANG: Final = 0.12  # of the rail beyond the pins
_BOSS: Final = 0.235
PIN_HEAD: Final = 0.115
PIN_CENTRE: Final = 0.03


@dataclass(frozen=True, slots=True)
class Block:
    """A grouser, pad or lug that wears from its tip: half its width at foot and tip, y of both."""

    centre: float
    foot: float
    tip: float
    foot_y: float
    tip_y: float

    def slice(self, start: float, end: float) -> Outline:
        """The part between two depths, 0 at the tip and 1 at the foot."""
        return np.array([*self._edge(start), *reversed(self._edge(end))])

    def _edge(self, depth: float) -> tuple[tuple[float, float], tuple[float, float]]:
        half = self.tip + (self.foot - self.tip) * depth
        y = self.tip_y + (self.foot_y - self.tip_y) * depth
        return ((self.centre - half, y), (self.centre + half, y))


def _arc(centre: float, start: int, end: int) -> list[tuple[float, float]]:
    """Round a boss, in degrees."""
    angles = [math.radians(start + (end - start) * k / 6) for k in range(7)]
    return [(centre + _BOSS * math.cos(angle), _BOSS * math.sin(angle)) for angle in angles]


def _link() -> Outline:
    rail, face = -STEEL.rail, STEEL.face
    corners = [(-_OVERHANG, rail), (1 + _OVERHANG, rail), (1 + _OVERHANG, rail + 0.1)]
    right, left = _arc(1.0, -52, 78), _arc(0.0, 102, 232)
    return np.array([*corners, *right, (0.88, face), (0.12, face), *left, (-_OVERHANG, rail + 0.1)])


def _window(left: float, right: float, top: float, bottom: float, cut: float = 0.035) -> Outline:
    return np.array([
        (left + cut, top), (right - cut, top), (right, top + cut), (right, bottom - cut),
        (right - cut, bottom), (left + cut, bottom), (left, bottom - cut), (left, top + cut),
    ])  # fmt: skip


LINK: Final = _link()
WINDOWS: Final = (_window(0.255, 0.485, -0.10, 0.16), _window(0.515, 0.745, -0.10, 0.16))
PLATE: Final = np.array([
    (-0.225, STEEL.face), (0.755, STEEL.face), (0.755, STEEL.face + STEEL.plate), (-0.225, STEEL.face + STEEL.plate)
])  # fmt: skip


END: Final = np.array([(1 + _OVERHANG, -STEEL.rail), (1 + _OVERHANG, -STEEL.rail + STEEL.rail_depth)])
"""The end of the rail that lies over the next link, from its top to its limit."""


def rail_height(depth: float) -> float:
    """Of the rail at a depth of its gauge, 0 at the rail top and 1 at the limit."""
    return -STEEL.rail + STEEL.rail_depth * depth


def _grousers(kind: ShoeKind, blocks: tuple[tuple[float, float, float], ...]) -> tuple[Block, ...]:
    foot = STEEL.face + STEEL.plate
    return tuple(Block(centre, half, tip, foot, foot + GROUSERS[kind]) for centre, half, tip in blocks)


GRIPS: Final[Mapping[ShoeKind | None, tuple[Block, ...]]] = {
    ShoeKind.SINGLE_GROUSER: _grousers(ShoeKind.SINGLE_GROUSER, ((-0.10, 0.085, 0.05),)),
    ShoeKind.DOUBLE_GROUSER: _grousers(ShoeKind.DOUBLE_GROUSER, ((-0.10, 0.075, 0.045), (0.45, 0.075, 0.045))),
    ShoeKind.TRIPLE_GROUSER: _grousers(
        ShoeKind.TRIPLE_GROUSER, ((-0.13, 0.065, 0.04), (0.22, 0.065, 0.04), (0.57, 0.065, 0.04))
    ),
    ShoeKind.SWAMP: _grousers(ShoeKind.SWAMP, ((0.265, 0.46, 0.09),)),
    ShoeKind.PAD: _grousers(ShoeKind.PAD, ((0.265, 0.45, 0.42),)),
    None: (Block(0.5, 0.33, 0.28, RUBBER.face, RUBBER.face + LUG),),
}
"""What meets the ground, by the kind of shoe; on rubber the lug."""

DRIVE_LUGS: Final = (Block(0.5, 0.20, 0.15, -RUBBER.rail, -RUBBER.rail - DRIVE_LUG),)
