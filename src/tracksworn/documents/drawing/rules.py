"""All twin rules of a small sheet in one drawing, with their figures: a page would pay for each word of a table."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import HAIRLINE, INK, LABEL
from tracksworn.documents.drawing.lettering import broken, cut
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Drawing, Line, Stroke, Text
from tracksworn.documents.drawing.rule import draw_half
from tracksworn.documents.drawing.type import Weight, width_mm
from tracksworn.inspection.vocabulary import Side

WIDTH: Final = 182.0
HEAD: Final = 5.6
"""Height of the heads 0, 50, 80 and 100, mm."""
BAR: Final = 41.0  # from as new to the limit
STARTS: Final = {Side.LEFT: 50.4, Side.RIGHT: 151.6}  # where as new is
MIDDLE: Final = (STARTS[Side.LEFT] + STARTS[Side.RIGHT]) / 2
FIGURES: Final = {Side.LEFT: 48.4, Side.RIGHT: 153.8}
INTERVALS: Final = {Side.LEFT: 38.2, Side.RIGHT: 164.8}
NAME: Final = 26.4  # room for a name
DEPTH: Final = 3.5
ABOVE: Final = 1.9  # of the bar: the whisker's room
_LINE: Final = Stroke(0.12, HAIRLINE)
_HEADS: Final = ((0, "0"), (50, "50"), (80, "80"), (100, "100"))
_PAST: Final = 4.4  # how far a bar past its limit reaches into the middle


@dataclass(frozen=True, slots=True)
class RuleSide:
    """One side of a row: its gauge with the figure and the interval that stand beside it."""

    gauge: Gauge
    figure: str
    interval: str
    past_limit: bool = False


@dataclass(frozen=True, slots=True)
class RuleRow:
    """One component. `note` stands under its name."""

    name: str
    note: str
    left: RuleSide | None
    right: RuleSide | None
    difference: str
    differs: bool = False

    def __getitem__(self, side: Side) -> RuleSide | None:
        return self.left if side is Side.LEFT else self.right


def draw_rules(rows: Sequence[RuleRow], *, difference: str, alternative: str, pitch: float) -> Drawing:
    """A row each `pitch` mm, beneath the heads; `difference` stands over the middle."""
    pile, height = Pile(), HEAD + pitch * len(rows)
    _heads(pile, difference)
    for index, row in enumerate(rows):
        _row(pile, row, HEAD + index * pitch, pitch)
    pile.stroke(_LINE, *(_across(HEAD + index * pitch) for index in range(1, len(rows))))
    return pile.drawing(WIDTH, height, alternative)


def _across(height: float) -> Line:
    return Line(((0.0, height), (WIDTH, height)))


def _heads(pile: Pile, difference: str) -> None:
    for side, start in STARTS.items():
        towards = 1 if side is Side.LEFT else -1
        for percent, figure in _HEADS:
            x = start + towards * BAR * percent / 100
            pile.write(Text((x, HEAD - 1.2), figure, 6.6, colour=LABEL, anchor="middle"))
    pile.write(Text((MIDDLE, HEAD - 1.2), difference, 6.6, colour=LABEL, anchor="middle"))


def _row(pile: Pile, row: RuleRow, top: float, pitch: float) -> None:
    begins = top + (pitch - DEPTH - ABOVE) / 2 + ABOVE - 0.3
    base = begins + DEPTH / 2 + 1.1
    _name(pile, row, base)
    for side in Side:
        half = row[side]
        if half is not None:
            draw_half(pile, half.gauge, side, STARTS[side], (begins, DEPTH), BAR)
            _figures(pile, half, side, base)
    weight: Weight = 600 if row.differs else 400
    past = [side for side in Side if (half := row[side]) is not None and half.past_limit]
    shift = sum(_PAST / 2 if side is Side.LEFT else -_PAST / 2 for side in past)
    room = STARTS[Side.RIGHT] - STARTS[Side.LEFT] - 2 * BAR - _PAST * len(past) - 0.8
    size = _size(row.difference, room, (7.4, 7.0, 6.6, 6.2), weight)
    ink = INK if row.differs else LABEL
    pile.write(Text((MIDDLE + shift, base - 0.1), row.difference, size, weight, ink, "middle"))


def heading_size(heading: str) -> float:
    """The size in pt of a heading that stands over the names, beside the heads of the left bars."""
    return _size(heading, STARTS[Side.LEFT] - 2.4, (11.0, 10.2, 9.4, 8.6, 7.8), 600)


def _name(pile: Pile, row: RuleRow, base: float) -> None:
    taken = width_mm(row.left.interval, 7.2) if row.left else 0.0
    room = INTERVALS[Side.LEFT] - taken - 0.8
    size = _size(row.name, min(NAME, room), (8.8, 8.4, 8.0, 7.6, 7.0, 6.2), 600)
    if row.note:
        _line_of(pile, row.name, base - 1.75, room, Text((0.0, 0.0), "", size, 600))
        note = Text((0.0, 0.0), "", _size(row.note, room, (6.6, 6.2), 400), colour=LABEL)
        _line_of(pile, row.note, base + 0.6, room, note)
        return
    style = Text((0.0, 0.0), "", 7.0 if width_mm(row.name, size, weight=600) > room else size, 600)
    first, *rest = broken(row.name, room, style)
    _line_of(pile, first, base - 1.7 if rest else base, room, style)
    _line_of(pile, " ".join(rest), base + 0.9, room, style)


def _line_of(pile: Pile, content: str, base: float, room: float, style: Text) -> None:
    """One line of a name: what has no room ends in an ellipsis, as the alternative says all of it."""
    if content:
        pile.write(replace(style, at=(0.0, base), content=cut(content, room, style)))


def _figures(pile: Pile, half: RuleSide, side: Side, base: float) -> None:
    anchor = "end" if side is Side.LEFT else "start"
    weight: Weight = 700 if half.past_limit else 600
    room = abs(FIGURES[side] - INTERVALS[side]) - 0.8
    size = _size(half.figure, room, (11.0, 9.4, 8.2, 7.4, 6.6), weight)
    pile.write(Text((FIGURES[side], base), half.figure, size, weight, anchor=anchor))  # type: ignore[arg-type]
    pile.write(Text((INTERVALS[side], base), half.interval, 7.2, colour=LABEL, anchor=anchor))  # type: ignore[arg-type]


def _size(text: str, room: float, sizes: Sequence[float], weight: Weight) -> float:
    """The largest of the sizes in which the text fits, else the last."""
    return next((size for size in sizes if width_mm(text, size, weight=weight) <= room), sizes[-1])
