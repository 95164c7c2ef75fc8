"""The whole of one machine on a line: its interval, dashes to floor and ceiling, a pointer at the figure."""

from dataclasses import dataclass
from typing import Final

from tracksworn.assessment.model import Stage
from tracksworn.documents.drawing.bar import EDGE, LIMIT, dashed
from tracksworn.documents.drawing.inks import INK, LABEL, PAPER, STAGE_INKS
from tracksworn.documents.drawing.lettering import box_of
from tracksworn.documents.drawing.pile import Pile, rectangle
from tracksworn.documents.drawing.plain import Drawing, Line, Stroke, Text

HEIGHT: Final = 4.6
SCALE_HEIGHT: Final = 2.9
END: Final = 106.0  # percent at the right end
_AXIS: Final = 3.1
_HALF: Final = 0.85  # of the interval's height
_LINE: Final = Stroke(0.12, "#8d989e")
_REACH: Final = Stroke(0.26)
_TICKS: Final = (0.0, 50.0, 80.0)
_APART: Final = 0.6  # mm between two texts
_SAME: Final = 0.05  # percent: ends nearer than that are one


@dataclass(frozen=True, slots=True)
class WholeBar:
    """One overall figure, in percent; `high` None for at least; `percent` and `low` None where there is no figure."""

    percent: float | None
    low: float | None
    high: float | None
    floor: float
    ceiling: float
    stage: Stage | None
    by_eye: bool  # nothing was measured: the interval is dashed
    alternative: str


@dataclass(frozen=True, slots=True)
class _Axis:
    width: float

    def at(self, percent: float) -> float:
        inset = LIMIT.width
        return inset + min(max(percent, 0.0), END) * (self.width - 2 * inset) / END


def draw_whole_bar(bar: WholeBar, width: float) -> Drawing:
    """The line from 0 to 106 percent, `width` mm long."""
    pile, axis = Pile(), _Axis(width)
    ticks = [Line(((axis.at(one), _AXIS - 0.7), (axis.at(one), _AXIS + 0.7))) for one in _TICKS]
    pile.stroke(_LINE, Line(((axis.at(0), _AXIS), (axis.at(END), _AXIS))), *ticks)
    pile.stroke(LIMIT, Line(((axis.at(100), _AXIS - 1.3), (axis.at(100), _AXIS + 1.3))))
    _draw_reach(pile, axis, bar)
    _draw_interval(pile, axis, bar)
    return pile.drawing(width, HEIGHT, bar.alternative)


def draw_scale(width: float, limit: str, alternative: str) -> Drawing:
    """What stands over a column of such lines: where stages begin, and the limit; where its word has no room, 100."""
    axis, foot = _Axis(width), SCALE_HEIGHT - 0.5
    word = Text((axis.at(END), foot), limit, 6.4, 600, anchor="end")
    edges = [Text((axis.at(one), foot), f"{one:.0f}", 6.4, colour=LABEL, anchor="middle") for one in (50.0, 80.0)]
    if box_of(edges[-1]).right >= box_of(word).left - _APART:
        word = Text((axis.at(100.0), foot), "100", 6.4, 600, anchor="middle")
    left = box_of(word).left - _APART
    shown = [text for text in edges if box_of(text).right < left]
    return Drawing(width, SCALE_HEIGHT, (Text((0, foot), "0", 6.4, colour=LABEL), *shown, word), alternative)


def _draw_reach(pile: Pile, axis: _Axis, bar: WholeBar) -> None:
    """Dashes from floor to ceiling, but where the interval itself stands."""
    floor, ceiling = axis.at(bar.floor), axis.at(bar.ceiling)
    low = ceiling if bar.low is None else axis.at(bar.low)
    high = ceiling if bar.high is None else axis.at(bar.high)
    for start, end, outer in ((floor, low, floor), (high, ceiling, ceiling)):
        if end - start > _SAME:
            pile.stroke(_REACH, *dashed((start, _AXIS), (end, _AXIS), 0.8, 0.55))
            pile.stroke(_REACH, Line(((outer, _AXIS - 0.55), (outer, _AXIS + 0.55))))


def _draw_interval(pile: Pile, axis: _Axis, bar: WholeBar) -> None:
    if bar.percent is None or bar.low is None:
        return
    if bar.high is None:
        _draw_bound(pile, axis, bar)
        return
    low, high = axis.at(bar.low), axis.at(bar.high)
    box = rectangle(low, _AXIS - _HALF, max(high, low + 0.3), _AXIS + _HALF)
    if bar.by_eye:
        pile.fill(PAPER, Line(box, closed=True))
        for start, end in zip(box, (*box[1:], box[0]), strict=True):
            pile.stroke(EDGE, *dashed(start, end))
    else:
        pile.fill(STAGE_INKS[bar.stage or Stage.FIRST_HALF], Line(box, closed=True))
    _draw_pointer(pile, axis.at(bar.percent))


def _draw_bound(pile: Pile, axis: _Axis, bar: WholeBar) -> None:
    """At least so much: an edge that is open to the right."""
    assert bar.low is not None
    x, tip = axis.at(bar.low), axis.at(max(bar.ceiling, bar.low))
    pile.stroke(EDGE, *dashed((x, _AXIS), (tip, _AXIS)))
    pile.stroke(EDGE, Line(((tip - 0.9, _AXIS - 0.7), (tip, _AXIS), (tip - 0.9, _AXIS + 0.7))))
    pile.fill(INK, Line(rectangle(x, _AXIS - _HALF, x + 0.5, _AXIS + _HALF), closed=True))


def _draw_pointer(pile: Pile, x: float) -> None:
    top = _AXIS - _HALF - 0.2
    pile.fill(INK, Line(((x - 0.85, top - 1.4), (x + 0.85, top - 1.4), (x, top)), closed=True))
