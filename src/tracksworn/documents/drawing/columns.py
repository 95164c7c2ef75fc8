"""Large figures side by side, with words beneath each, in one drawing: a page would pay for each as for an element."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from tracksworn.documents.drawing.inks import HAIRLINE, INK
from tracksworn.documents.drawing.lettering import broken
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Drawing, Line, Stroke, Text
from tracksworn.documents.drawing.type import MM_PER_POINT

GAP: Final = 8.0
"""Between two columns, mm, the hairline in its middle."""
_HAIR: Final = Stroke(0.12, HAIRLINE)
_UNDER_FIGURE: Final = 1.4
_CAPTION: Final = Text((0, 0), "", 9.2, 600, INK)
_NOTE: Final = Text((0, 0), "", 7.8, 400, "#3d474e")
_LEADING: Final = {_CAPTION.size: 1.25, _NOTE.size: 1.32}  # of the size
_FIGURE_LINE: Final = 0.9  # of its size, without leading: figures have no descenders
_BASELINE: Final = 0.4  # of the size, from the middle of a line down


@dataclass(frozen=True, slots=True)
class Column:
    """A large figure, what it is, and what belongs beside it, in the room that they take, mm."""

    figure: str
    caption: str
    notes: tuple[str, ...]
    width: float


def draw_columns(columns: Sequence[Column], size: float, *, alternative: str) -> Drawing:
    """The columns from left to right, their figures in type of `size` points; words break where their room ends."""
    pile, left, lowest = Pile(), 0.0, 0.0
    edges: list[float] = []
    for column in columns:
        if left:
            edges.append(left - GAP / 2)
        lines = list(_lines(column, size))
        pile.write(*(_at(left, baseline, text) for baseline, text in lines))
        lowest = max(lowest, lines[-1][0] + (_LEADING.get(lines[-1][1].size, 1.0) / 2 - _BASELINE) * _mm(lines[-1][1]))
        left += column.width + GAP
    pile.stroke(_HAIR, *(Line(((edge, 0.0), (edge, lowest))) for edge in edges))
    return pile.drawing(round(left - GAP, 2), round(lowest, 2), alternative)


def _lines(column: Column, size: float) -> Iterator[tuple[float, Text]]:
    """Every line with how far down its baseline lies, mm."""
    figure = Text((0, 0), column.figure, size, 600, INK)
    down = _FIGURE_LINE * _mm(figure)
    yield down / 2 + _BASELINE * _mm(figure), figure
    down += _UNDER_FIGURE
    for content, style in ((column.caption, _CAPTION), *((note, _NOTE) for note in column.notes)):
        for line in broken(content, column.width, style):
            high = _LEADING[style.size] * _mm(style)
            yield down + high / 2 + _BASELINE * _mm(style), _said(line, style)
            down += high


def _said(line: str, style: Text) -> Text:
    return Text((0, 0), line, style.size, style.weight, style.colour)


def _at(left: float, baseline: float, text: Text) -> Text:
    return Text((left, round(baseline, 3)), text.content, text.size, text.weight, text.colour)


def _mm(text: Text) -> float:
    return text.size * MM_PER_POINT
