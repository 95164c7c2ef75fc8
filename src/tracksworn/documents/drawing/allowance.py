"""A part against what terms allow it: hatched what is worn, a heavy stroke what is allowed, a whisker what decides."""

from dataclasses import dataclass
from typing import Final

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.bar import EDGE, HATCH_SPACING, HATCH_WIDTH, OUTLINE, dashed
from tracksworn.documents.drawing.inks import HAIRLINE, INK, LABEL, PAPER, STAGE_INKS
from tracksworn.documents.drawing.lettering import centred
from tracksworn.documents.drawing.outline import hatch_corners
from tracksworn.documents.drawing.pile import Pile, rectangle
from tracksworn.documents.drawing.plain import Drawing, Line, Stroke, Text
from tracksworn.documents.drawing.type import text_width

WIDTH: Final = 42.0
HEIGHT: Final = 7.4
ALLOWED: Final = Stroke(0.6)
AXIS: Final = Stroke(0.12, HAIRLINE)
STEP: Final = 20  # percent between the figures of the scale
_START: Final = 1.0  # room before 0, and after the last figure
_END: Final = 3.0
_TOP, _FOOT = 2.5, 5.3
_MIDDLE: Final = (_TOP + _FOOT) / 2
_CAP: Final = 0.75
_BESIDE: Final = 0.9  # by which the paper shows beside a whisker on hatching
_WORD: Final = Text((0, 0), "", 6.8, 500, anchor="middle")


@dataclass(frozen=True, slots=True)
class Allowance:
    """Numbers to draw by, in percent worn, and the texts that stand at them in the reader's language.

    Measured, `low` and `high` are the ends of what decides: the allowance fails the part below `low`, passes it from
    `high` on, and leaves it undecided between. By eye they are the range as said. None where there is no such end.
    """

    basis: Basis
    percent: float | None = None
    low: float | None = None
    high: float | None = None
    stage: Stage | None = None
    allowed: float | None = None  # None outside the terms, and where nothing was seen
    allowed_text: str = ""
    word: str = ""  # what stands in an empty outline

    @property
    def furthest(self) -> float:
        """The highest percent that it would like to show."""
        return max((one for one in (self.percent, self.high, self.allowed) if one is not None), default=0.0)


def draw_allowance(allowance: Allowance, most: float, *, alternative: str, width: float = WIDTH) -> Drawing:
    """One part, its scale running from 0 to `most` percent over `width` mm."""
    pile, scale = Pile(), _Scale(most, width)
    if allowance.basis is Basis.MEASURED and allowance.percent is not None:
        _measured(pile, scale, allowance, allowance.percent)
    else:
        pile.stroke(OUTLINE, scale.box(0.0, min(most, 100.0)))
        if allowance.basis is Basis.BY_EYE:
            _by_eye(pile, scale, allowance)
        else:
            pile.write(_word(scale, allowance.word))
    if allowance.allowed is not None:
        _allowed(pile, scale, allowance.allowed, allowance.allowed_text)
    return pile.drawing(width, HEIGHT, alternative)


def draw_allowance_scale(most: float, *, alternative: str, width: float = WIDTH) -> Drawing:
    """The figures over a column of such drawings."""
    pile, scale = Pile(), _Scale(most, width)
    for percent in range(0, int(most) + 1, STEP):
        pile.write(Text((scale.at(percent), 2.2), str(percent), 6.6, colour=LABEL, anchor="middle"))
    return pile.drawing(width, 3.0, alternative)


@dataclass(frozen=True, slots=True)
class _Scale:
    most: float
    width: float

    def at(self, percent: float) -> float:
        return _START + (self.width - _START - _END) * min(max(percent, 0.0), self.most) / self.most

    def box(self, start: float, end: float) -> Line:
        return Line(rectangle(self.at(start), _TOP, self.at(end), _FOOT), closed=True)


def _measured(pile: Pile, scale: _Scale, allowance: Allowance, percent: float) -> None:
    pile.stroke(AXIS, Line(((scale.at(0.0), _FOOT), (scale.at(scale.most), _FOOT))))
    if scale.at(percent) > scale.at(0.0):
        bar = scale.box(0.0, percent)
        past = allowance.stage is Stage.PAST_LIMIT
        pen = Stroke(HATCH_WIDTH, STAGE_INKS[allowance.stage or Stage.FIRST_HALF])
        pile.extend(hatch_corners(bar.points, HATCH_SPACING, crossed=past), pen)
        pile.stroke(OUTLINE, bar)
        if percent > scale.most:
            _points_on(pile, scale, _MIDDLE)
    else:
        pile.stroke(EDGE, Line(((scale.at(0.0), _TOP), (scale.at(0.0), _FOOT))))
    if allowance.low is not None and allowance.high is not None:
        _whisker(pile, scale, allowance.low, allowance.high)


def _whisker(pile: Pile, scale: _Scale, low: float, high: float) -> None:
    """On the bar itself, with paper beside it so that it is not lost in the hatching."""
    start, end = scale.at(low), scale.at(high)
    caps = [x for said, x in ((low, start), (high, end)) if 0.0 <= said <= scale.most]
    lines = (
        Line(((start, _MIDDLE), (end, _MIDDLE))),
        *(Line(((x, _MIDDLE - _CAP), (x, _MIDDLE + _CAP))) for x in caps),
    )
    pile.stroke(Stroke(_BESIDE, PAPER), *lines)
    pile.stroke(EDGE, *lines)
    if high > scale.most:
        _points_on(pile, scale, _MIDDLE)


def _points_on(pile: Pile, scale: _Scale, y: float) -> None:
    x = scale.at(scale.most)
    pile.fill(INK, Line(((x + 0.4, y - 0.6), (x + 1.5, y), (x + 0.4, y + 0.6)), closed=True))


def _by_eye(pile: Pile, scale: _Scale, allowance: Allowance) -> None:
    """The range as said, dashed and without an edge; an end that was not said has no bar."""
    low, high = allowance.low or 0.0, 100.0 if allowance.high is None else allowance.high
    pile.stroke(EDGE, *dashed((scale.at(low), _MIDDLE), (scale.at(high), _MIDDLE)))
    for said in (allowance.low, allowance.high):
        if said is not None:
            x = scale.at(said)
            pile.stroke(EDGE, *dashed((x, _TOP + 0.4), (x, _FOOT - 0.4)))


def _allowed(pile: Pile, scale: _Scale, allowed: float, said: str) -> None:
    x = scale.at(allowed)
    upright = Line(((x, _TOP - 0.6), (x, _FOOT + 1.6)))
    pile.stroke(Stroke(ALLOWED.width + 0.5, PAPER), upright)
    pile.stroke(ALLOWED, upright)
    text = Text((x, _TOP - 0.8), said, 6.4, 500, anchor="middle")
    half = text_width(text) / 2
    shifted = min(max(x, half), scale.width - half)
    pile.write(Text((shifted, text.at[1]), said, 6.4, 500, anchor="middle"))


def _word(scale: _Scale, word: str) -> Text:
    x = (scale.at(0.0) + scale.at(min(scale.most, 100.0))) / 2
    return Text((x, centred(_MIDDLE, _WORD.size)), word, _WORD.size, _WORD.weight, anchor="middle")
