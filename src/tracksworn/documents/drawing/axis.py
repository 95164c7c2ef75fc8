"""One axis of percent worn: a machine's overall figure with what qualifies it, those of the others pale behind."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from tracksworn.documents.drawing.bar import EDGE, LIMIT, OUTLINE, dashed
from tracksworn.documents.drawing.inks import INK, LABEL, PAPER
from tracksworn.documents.drawing.pile import Pile, rectangle
from tracksworn.documents.drawing.plain import Drawing, Line, Point, Stroke, Text

HEIGHT: Final = 8.2
END: Final = 112.0  # percent at the right end
_INSET: Final = 1.4  # mm before 0, for its figure
_AXIS: Final = 4.4
_BAR: Final = 2.6
_PALE: Final = Stroke(0.16, "#8d989e")
_BRACKET: Final = Stroke(0.3, LABEL)
_TICKS: Final = (0, 50, 80, 100)


@dataclass(frozen=True, slots=True)
class Span:
    """One overall figure, in percent; `low` and `high` None where there is no interval, `high` alone for at least."""

    percent: float | None
    low: float | None
    high: float | None
    floor: float
    ceiling: float
    by_eye: bool = False  # nothing was measured: the interval is dashed


@dataclass(frozen=True, slots=True)
class CommonAxis:
    """A machine's own span and those of the others, all on one scale."""

    own: Span
    others: tuple[Span, ...]
    alternative: str
    width: float

    def at(self, percent: float) -> float:
        """Where a percent stands, mm from the left; what is off the axis stands at its end."""
        return _INSET + min(max(percent, 0.0), END) * (self.width - _INSET) / END


def draw_axis(axis: CommonAxis) -> Drawing:
    """The axis from 0 to 112 percent: stages and limit ticked, floor to ceiling as a bracket, intervals as bars."""
    pile = Pile()
    _draw_scale(pile, axis)
    for other in axis.others:
        _draw_other(pile, axis, other)
    _draw_bracket(pile, axis)
    _draw_own(pile, axis)
    return pile.drawing(axis.width, HEIGHT, axis.alternative)


def _draw_scale(pile: Pile, axis: CommonAxis) -> None:
    pile.stroke(OUTLINE, Line(((axis.at(0), _AXIS), (axis.at(END), _AXIS))))
    for percent in _TICKS:
        x = axis.at(percent)
        if percent < 100:
            pile.stroke(OUTLINE, Line(((x, _AXIS), (x, _AXIS + 1.0))))
        pile.write(Text((x, HEIGHT - 0.5), str(percent), 6.2, colour=LABEL, anchor="middle"))
    pile.stroke(LIMIT, Line(((axis.at(100), _AXIS - 2.2), (axis.at(100), _AXIS + 1.2))))


def _box(axis: CommonAxis, low: float, high: float, height: float) -> tuple[Point, ...]:
    left = axis.at(low)
    return rectangle(left, _AXIS - height, max(axis.at(high), left + 0.5), _AXIS)


def _draw_other(pile: Pile, axis: CommonAxis, other: Span) -> None:
    if other.low is None:
        return
    high = other.ceiling if other.high is None else other.high
    pile.stroke(_PALE, Line(_box(axis, other.low, high, _BAR - 0.5), closed=True))


def _draw_bracket(pile: Pile, axis: CommonAxis) -> None:
    own = axis.own
    if own.ceiling - own.floor < 0.05:
        return
    floor, ceiling = axis.at(own.floor), axis.at(own.ceiling)
    y = _AXIS - _BAR / 2
    pile.stroke(_BRACKET, Line(((floor, y), (ceiling, y))))
    pile.extend((Line(((x, y - 0.9), (x, y + 0.9))) for x in (floor, ceiling)), _BRACKET)


def _draw_own(pile: Pile, axis: CommonAxis) -> None:
    own = axis.own
    if own.low is not None:
        high = own.ceiling if own.high is None else own.high
        outline = _box(axis, own.low, high, _BAR)
        if own.by_eye:
            pile.fill(PAPER, Line(outline, closed=True))
            for start, end in pairwise((*outline, outline[0])):
                pile.stroke(EDGE, *dashed(start, end))
        else:
            pile.fill(INK, Line(outline, closed=True))
    if own.percent is not None and own.high is not None:
        x, top = axis.at(own.percent), _AXIS - _BAR - 0.15
        pile.fill(INK, Line(((x - 0.85, top - 1.4), (x + 0.85, top - 1.4), (x, top)), closed=True))
