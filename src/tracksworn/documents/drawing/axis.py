"""One axis of percent worn: a machine's overall figure with what qualifies it, those of the others pale behind."""

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from tracksworn.documents.drawing.bar import EDGE, LIMIT, OUTLINE, dashed
from tracksworn.documents.drawing.inks import INK, LABEL, PAPER
from tracksworn.documents.drawing.lettering import box_of
from tracksworn.documents.drawing.pile import Pile, rectangle
from tracksworn.documents.drawing.plain import Drawing, Line, Point, Stroke, Text
from tracksworn.documents.drawing.type import text_width

HEIGHT: Final = 9.6
END: Final = 112.0  # percent at the right end
_INSET: Final = 1.4  # mm before 0, for its figure
_AXIS: Final = 5.9
_BAR: Final = 2.6
_PALE: Final = Stroke(0.16, "#8d989e")
_BRACKET: Final = Stroke(0.3, LABEL)
_TICKS: Final = (0, 50, 80, 100)
_TAG: Final = 5.8  # pt, what names a pale mark
_TAGS: Final = 1.7  # their baseline
_APART: Final = 1.0  # mm between two of them


@dataclass(frozen=True, slots=True)
class Span:
    """One overall figure, in percent; `low` and `high` None where there is no interval, `high` alone for at least."""

    percent: float | None
    low: float | None
    high: float | None
    floor: float
    ceiling: float
    by_eye: bool = False  # nothing was measured: the interval is dashed
    tag: str = ""  # which machine it is, in as few characters as tell it


@dataclass(frozen=True, slots=True)
class CommonAxis:
    """A machine's own span and those of the others, all on one scale."""

    own: Span
    others: tuple[Span, ...]
    alternative: str
    width: float
    limit: str = ""  # the word beside the 100

    def at(self, percent: float) -> float:
        """Where a percent stands, mm from the left; what is off the axis stands at its end."""
        return _INSET + min(max(percent, 0.0), END) * (self.width - _INSET) / END


def draw_axis(axis: CommonAxis) -> Drawing:
    """The axis from 0 to 112 percent: stages and limit ticked, floor to ceiling as a bracket, intervals as bars."""
    pile = Pile()
    _draw_scale(pile, axis)
    for other in axis.others:
        _draw_other(pile, axis, other)
    pile.write(*_tags(axis))
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
    if axis.limit:
        pile.write(_limit_word(axis))
    pile.stroke(LIMIT, Line(((axis.at(100), _AXIS - 2.2), (axis.at(100), _AXIS + 1.2))))


def _limit_word(axis: CommonAxis) -> Text:
    """The word after the 100, or before it where it would run off the axis."""
    beside = text_width(Text((0, 0), "100", 6.2)) / 2 + 0.7
    after = Text((axis.at(100) + beside, HEIGHT - 0.5), axis.limit, 6.2, colour=LABEL)
    if after.at[0] + text_width(after) <= axis.width:
        return after
    return Text((axis.at(100) - beside, HEIGHT - 0.5), axis.limit, 6.2, colour=LABEL, anchor="end")


def _box(axis: CommonAxis, low: float, high: float, height: float) -> tuple[Point, ...]:
    left = axis.at(low)
    return rectangle(left, _AXIS - height, max(axis.at(high), left + 0.5), _AXIS)


def _draw_other(pile: Pile, axis: CommonAxis, other: Span) -> None:
    if other.low is None:
        return
    high = other.ceiling if other.high is None else other.high
    pile.stroke(_PALE, Line(_box(axis, other.low, high, _BAR - 0.5), closed=True))


def _tags(axis: CommonAxis) -> tuple[Text, ...]:
    """What names the pale marks, over their middles; those too close for two stand as one."""
    placed: list[Text] = []
    for x, tag in sorted((_middle(axis, one), one.tag) for one in axis.others if one.tag and one.low is not None):
        text = _tag(axis, x, tag)
        while placed and box_of(placed[-1]).right + _APART > box_of(text).left:
            before = placed.pop()
            text = _tag(axis, (before.at[0] + text.at[0]) / 2, f"{before.content}, {text.content}")
        placed.append(text)
    return tuple(placed)


def _tag(axis: CommonAxis, x: float, content: str) -> Text:
    text = Text((x, _TAGS), content, _TAG, colour=LABEL, anchor="middle")
    half = text_width(text) / 2
    return replace(text, at=(min(max(x, half), axis.width - half), _TAGS))


def _middle(axis: CommonAxis, span: Span) -> float:
    assert span.low is not None
    return axis.at((span.low + (span.ceiling if span.high is None else span.high)) / 2)


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
