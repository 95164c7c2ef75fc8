"""How one component wore: percent against hours, inspection by inspection, and where that leads.

Left is drawn full, right open, so that both can be told apart in grey. A measured point stands on its 95 % interval; an
estimate by eye is its dashed range alone, without an edge. What no rate rests on is lighter and dashed.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from tracksworn.documents.drawing.plain import Point
from tracksworn.inspection.vocabulary import Side

WIDTH: Final = 34.8
PER_PERCENT: Final = 0.21  # mm
LEAST_TOP: Final = 108.0  # percent
MOST_TOP: Final = 150.0  # percent; what is worn further stands there as a pointer
AHEAD: Final = 0.8  # of the hours seen, that the hours ahead take at most beside them
HEAD: Final = 0.9  # mm above the top
FOOT: Final = 4.4  # mm below nought


@dataclass(frozen=True, slots=True)
class TrendPoint:
    """One inspection's figure of one side: percent worn and its interval at machine hours."""

    hours: float
    percent: float
    low: float
    high: float
    counts: bool = True  # whether a rate may rest on it
    by_eye: bool = False


@dataclass(frozen=True, slots=True)
class Outlook:
    """Hours and percents on the way to the limit: as best known, at the soonest and at the latest."""

    best: tuple[Point, ...]
    soonest: tuple[Point, ...]
    latest: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class TrendSide:
    """One side's course, the oldest point first."""

    side: Side
    began: float | None  # hours at which it was as new
    points: tuple[TrendPoint, ...]
    outlook: Outlook | None = None

    @property
    def hours(self) -> Iterator[float]:
        """Machine hours of all that is known of it."""
        yield from (one.hours for one in self.points)
        if self.began is not None:
            yield self.began

    @property
    def line(self) -> tuple[Point, ...]:
        """What a rate may rest on, from the beginning."""
        start = () if self.began is None else ((self.began, 0.0),)
        return (*start, *((one.hours, one.percent) for one in self.points if one.counts and not one.by_eye))

    @property
    def aside(self) -> tuple[Point, ...]:
        """Measured points since the beginning with those that no rate rests on among them; else nothing."""
        since = [one for one in self.points if not one.by_eye and (self.began is None or one.hours >= self.began)]
        return tuple((one.hours, one.percent) for one in since) if not all(one.counts for one in since) else ()


@dataclass(frozen=True, slots=True)
class Trend:
    """One component's courses on either side."""

    sides: tuple[TrendSide, ...]
    labels: tuple[tuple[float, str], ...]  # hours that are named under the axis: `5 210`, `8 412`
    alternative: str
    top: float = LEAST_TOP  # percent up to which all trends of a page reach
    width: float = WIDTH

    @property
    def seen(self) -> tuple[float, ...]:
        """Machine hours at which a part went on or was inspected, in order."""
        return tuple(sorted({hours for side in self.sides for hours in side.hours}))

    @property
    def span(self) -> tuple[float, float]:
        """First and last machine hours seen."""
        return self.seen[0], self.seen[-1]

    @property
    def height(self) -> float:
        """How high it is drawn, mm."""
        return HEAD + self.top * PER_PERCENT + FOOT

    @property
    def end(self) -> float:
        """Hours at the right end: what is ahead takes no more than its share of the width."""
        ahead = [way[-1][0] for side in self.sides if side.outlook for way in (side.outlook.best, side.outlook.latest)]
        return min(max([self.span[1], *ahead]), self.farthest)

    @property
    def farthest(self) -> float:
        """Hours beyond which nothing is drawn."""
        first, now = self.span
        return now + AHEAD * (now - first)
