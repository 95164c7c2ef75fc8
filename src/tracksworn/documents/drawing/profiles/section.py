"""What a section is made of: the metal that is there at a given loss, and what is drawn about it."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal

from shapely import unary_union
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.plain import Point
from tracksworn.documents.drawing.profiles.profile import Worn

Losses = tuple[float, ...]  # one for each face, mm of size
Metal = Callable[[Losses], BaseGeometry]
Touch = Callable[[int, float, float], Point]
FAR: Final = 1e5


@dataclass(frozen=True, slots=True)
class Name:
    """A word on a part, centred at a point; it is left out where it is wider than `room`. Model mm."""

    text: str
    at: Point
    room: float


@dataclass(frozen=True, slots=True)
class Span:
    """How the reading is dimensioned, from `start` to `end` at the losses now: upright beside the part, of whose right
    side the two are points, or level inside it. `open` has no arrow at its start, which lies beyond the break.
    """

    start: Callable[[Losses], Point]
    end: Callable[[Losses], Point]
    open: bool = False
    level: bool = False


@dataclass(frozen=True, slots=True)
class Mark:
    """What is said of a flank, with a leader to its point at the losses now."""

    text: str
    at: Callable[[Losses], Point]
    side: Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class Rise:
    """A small upright dimension that does not wear: at which height something was measured."""

    x: float
    low: float
    high: float
    text: str


@dataclass(frozen=True, slots=True)
class Section:
    """One part in section, in mm of the part, y up. `faces` says which reading stands at each working face.

    `solid` is the metal with so much gone as a chart sees it, `worn` as wear leaves it. `touch` is the point on the
    working line of a face at a loss, the share saying how far along it.
    """

    faces: tuple[Worn, ...]
    solid: Metal
    worn: Metal
    touch: Touch
    bounds: tuple[float, float, float, float]
    cuts: tuple[tuple[Point, Point], ...] = ()  # where the drawing ends but not the part
    breaks: tuple[tuple[Point, Point], ...] = ()  # of the cuts, those with a break line
    axes: tuple[tuple[Point, Point], ...] = ()
    thin: tuple[tuple[Point, ...], ...] = ()  # what is drawn thin and does not wear
    cords: tuple[tuple[Point, Point], ...] = ()
    names: tuple[Name, ...] = ()
    beside: Name | None = None  # a quiet word that starts at its point
    span: Span | None = None
    rise: Rise | None = None
    marks: tuple[Mark, ...] = ()
    unsure: BaseGeometry | None = None  # where wear was seen but not measured: edges within are dashed
    flank: tuple[float, float] | None = None  # between which x labels keep out; None: the bounds
    rows: tuple[float | None, float | None] = (None, None)  # between which y, the lower first; None: no bound
    apart: bool = False  # wear at one face changes nothing at another
    above: bool = False  # what has gone at a face is said above it, not beside the section
    below: bool = False  # or under it, where no more than two have something said
    prefix: str = ""  # before a size: Ø


def under(line: list[Point]) -> Polygon:
    """All that lies below a line from left to right."""
    left, right = line[0], line[-1]
    return Polygon([*line, (right[0], right[1] - FAR), (left[0], left[1] - FAR)])


def over(line: list[Point], height: float) -> Polygon:
    """What lies between a line from left to right and a height above it."""
    return Polygon([*line, (line[-1][0], height), (line[0][0], height)])


def joined(*parts: BaseGeometry) -> BaseGeometry:
    """One area of several."""
    return unary_union(list(parts))
