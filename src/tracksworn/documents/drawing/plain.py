"""A drawing as plain data: paths and texts in millimetres, x to the right, y down, painted in order.

An element of a page costs far more than a segment of a path, so all that shares stroke and fill is one `Path`.
"""

from dataclasses import dataclass
from itertools import islice
from typing import Literal

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Line:
    """A run of straight segments."""

    points: tuple[Point, ...]
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Circle:
    """A whole circle."""

    centre: Point
    radius: float


@dataclass(frozen=True, slots=True)
class Curve:
    """A run of cubic Béziers: a start, then for each its two controls and its end."""

    start: Point
    pieces: tuple[tuple[Point, Point, Point], ...]
    closed: bool = False


Shape = Line | Circle | Curve


@dataclass(frozen=True, slots=True)
class Runs:
    """Many lines, as hatching is: how many points each has, the x and y of all in turn, which is quick to write."""

    numbers: tuple[float, ...]
    counts: tuple[int, ...]
    closed: bool = False

    @property
    def lines(self) -> tuple[Line, ...]:
        """One by one."""
        points = zip(self.numbers[::2], self.numbers[1::2], strict=True)
        return tuple(Line(tuple(islice(points, count)), self.closed) for count in self.counts)


Drawn = Shape | Runs


@dataclass(frozen=True, slots=True)
class Stroke:
    """A pen: width and dashes in mm."""

    width: float
    colour: str = "#1b2329"
    dash: tuple[float, ...] = ()
    cap: Literal["butt", "round"] = "butt"


@dataclass(frozen=True, slots=True)
class Path:
    """Shapes that share one fill and one stroke. Overlaps and holes go by the even-odd rule."""

    drawn: tuple[Drawn, ...]
    fill: str | None = None
    stroke: Stroke | None = None

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """All of them one by one."""
        return tuple(one for each in self.drawn for one in (each.lines if isinstance(each, Runs) else (each,)))


@dataclass(frozen=True, slots=True)
class Text:
    """One line of type; `at` is its baseline's start, middle or end. Size in pt, `turn` in degrees clockwise."""

    at: Point
    content: str
    size: float = 7.0
    weight: Literal[400, 500, 600, 700] = 400
    colour: str = "#1b2329"
    anchor: Literal["start", "middle", "end"] = "start"
    family: Literal["Barlow", "Barlow Semi Condensed"] = "Barlow Semi Condensed"
    halo: bool = False
    turn: float = 0.0


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture of `width` × `height` mm and the words that stand for it where it cannot be seen."""

    width: float
    height: float
    marks: tuple[Path | Text, ...]
    alternative: str

    @property
    def texts(self) -> tuple[Text, ...]:
        """The type in it."""
        return tuple(mark for mark in self.marks if isinstance(mark, Text))

    @property
    def paths(self) -> tuple[Path, ...]:
        """All but the type."""
        return tuple(mark for mark in self.marks if isinstance(mark, Path))
