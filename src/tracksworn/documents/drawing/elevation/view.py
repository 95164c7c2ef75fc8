"""From the machine's mm to the sheet's: the scale, the side's direction, and y downwards."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.plain import Point

Outline = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class View:
    """Where the machine stands on the sheet. Mirrored, the front is at right."""

    denominator: float
    across: float  # where the front idler's nominal centre stands, mm from the left
    ground: float  # where the ground line runs, mm from the top
    ground_height: float  # of the ground, in the machine's mm
    mirrored: bool

    @property
    def _direction(self) -> int:
        return -1 if self.mirrored else 1

    def length(self, mm: float) -> float:
        """A length of the machine on the sheet."""
        return mm / self.denominator

    def point(self, at: Point) -> Point:
        """A place of the machine on the sheet."""
        return (
            self.across + self._direction * at[0] / self.denominator,
            self.ground - (at[1] - self.ground_height) / self.denominator,
        )

    def points(self, places: Iterable[Point]) -> tuple[Point, ...]:
        """Several places of the machine on the sheet."""
        return tuple(self.point(at) for at in places)

    def array(self, places: Outline) -> Outline:
        """Places (…, 2) of the machine on the sheet."""
        scale = np.array((self._direction / self.denominator, -1 / self.denominator))
        shift = np.array((self.across, self.ground + self.ground_height / self.denominator))
        moved: Outline = places * scale + shift
        return moved

    def discs(self, discs: Outline) -> Outline:
        """Discs of the machine on the sheet, centre and radius of each, (n, 3)."""
        return np.column_stack((self.array(discs[:, :2]), discs[:, 2] / self.denominator))

    def area(self, area: BaseGeometry) -> BaseGeometry:
        """An area of the machine on the sheet."""
        moved: BaseGeometry = shapely.transform(area, self.array)
        return moved

    def moved(self, down: float) -> "View":
        """The same further down the sheet."""
        return View(self.denominator, self.across, self.ground + down, self.ground_height, self.mirrored)


def along_chain(outline: Outline, pins: Iterable[Point], pitch: float) -> Outline:
    """One outline at every link: (k, 2) in pitches, x along the chord and y outwards, to (links, k, 2) in mm."""
    starts = np.asarray(tuple(pins))
    chords = (np.roll(starts, -1, axis=0) - starts) / pitch
    outwards = np.column_stack((chords[:, 1], -chords[:, 0]))
    x, y = outline[None, :, 0, None] * pitch, outline[None, :, 1, None] * pitch
    placed: Outline = starts[:, None, :] + x * chords[:, None, :] + y * outwards[:, None, :]
    return placed
