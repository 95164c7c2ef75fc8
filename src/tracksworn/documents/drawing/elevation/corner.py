"""The outer upper corner: the side's name and the chain's bars, which cannot stand at any one place of the chain."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from tracksworn.assessment.model import Stage
from tracksworn.documents.drawing.elevation.boxes import Box, around, text_box
from tracksworn.documents.drawing.elevation.canvas import Canvas, Layer
from tracksworn.documents.drawing.elevation.gauges import paint
from tracksworn.documents.drawing.elevation.sides import SideElevation
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import INK, LABEL
from tracksworn.documents.drawing.lettering import balanced
from tracksworn.documents.drawing.outline import Edges, edges_of_rings
from tracksworn.documents.drawing.plain import Line, Shape, Stroke, Text
from tracksworn.documents.drawing.type import text_width
from tracksworn.inspection.vocabulary import Layout, Side

_LENGTH: Final = 26.0  # of a bar
_THICK: Final = 2.5
_PAST: Final = 1.06  # how far wear past the limit reaches at most, short of the figure
_ROW: Final = 4.1
_AIR: Final = 2.6  # between name, bar and figure
_LINE: Final = 4.2  # baseline of the heading
_CLOSE: Final = 1.4  # the same, in one line
_APART: Final = 4.5  # from one to the next there
_SHORTEST: Final = 6.0
_NOTE: Final = 30.0  # of a line of the note under the heading
_NOTE_LINE: Final = 2.7
_LIMIT: Final = Stroke(0.5, INK)


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar of metal: its outer end is the working face, its inner end the limit."""

    left: float
    top: float
    length: float = _LENGTH

    def _at(self, depth: float) -> float:
        return self.left + self.length * min(depth, _PAST)

    def outline(self) -> tuple[Shape, ...]:
        """The whole of it as new."""
        return self.shapes(0, 1)

    def edges(self, start: float, end: float) -> Edges:
        """Round what lies between two depths."""
        a, b, low = self._at(start), self._at(end), self.top + _THICK
        return edges_of_rings(np.array([[(a, self.top), (b, self.top), (b, low), (a, low)]]))

    def shapes(self, start: float, end: float) -> tuple[Shape, ...]:
        """Its outline."""
        a, b, low = self._at(start), self._at(end), self.top + _THICK
        return (Line(((a, self.top), (b, self.top), (b, low), (a, low)), closed=True),)

    def edge(self, depth: float) -> tuple[Shape, ...]:
        """A stroke across, a little longer than the bar is thick at the limit."""
        over = 0.4 if depth == 1 else 0.0
        return (Line(((self._at(depth), self.top - over), (self._at(depth), self.top + _THICK + over))),)


@dataclass(frozen=True, slots=True)
class Corner:
    """What stands in the corner, in the sheet's mm."""

    texts: tuple[Text, ...]
    bars: tuple[tuple[Bar, Gauge], ...]
    boxes: tuple[Box, ...]  # of the heading and of the bars, what of the two there is

    @property
    def bottom(self) -> float:
        """How far down it reaches."""
        return max((box.bottom for box in self.boxes), default=0.0)


def corner(side: SideElevation) -> Corner:
    """The corner of this side at the top of the sheet, at left on the left side and at right on the right one."""
    heading = _heading(side)
    bars, texts = _beside(side, heading) or _bars(side, 7.2 if heading else 0.4)
    groups = (heading, texts)
    boxes = tuple(around(map(text_box, group)) for group in groups if group)
    return Corner((*heading, *texts), bars, boxes)


def draw_corner(canvas: Canvas, it: Corner) -> None:
    """The bars."""
    for bar, gauge in it.bars:
        paint(canvas, Layer.GROUND, bar, gauge, _LIMIT)


def _heading(side: SideElevation) -> tuple[Text, ...]:
    words = side.words
    if not words.title:
        return ()
    at_right = side.side is Side.RIGHT
    edge, step = (side.width, -1) if at_right else (0.0, 1)
    title = Text((edge, 4.2), words.title, 11, 600, INK, "end" if at_right else "start")
    if not words.note:
        return (title,)
    note = Text((edge, 7.3), words.note, 6.6, 400, LABEL, "end" if at_right else "start")
    if side.small and side.layout is Layout.ELEVATED_SPROCKET:  # low, where the track leaves its corner free
        return (title, *_in_lines(note))
    return (title, replace(note, at=(edge + step * (text_width(title) + 3.2), 4.2)))


def _in_lines(note: Text) -> Iterator[Text]:
    """A long note in several lines: the narrower it stands in its corner, the larger the track beside it."""
    for index, line in enumerate(balanced(note.content, _NOTE, note)):
        yield replace(note, content=line, at=(note.at[0], note.at[1] + _NOTE_LINE * index))


def _beside(
    side: SideElevation, heading: tuple[Text, ...]
) -> tuple[tuple[tuple[Bar, Gauge], ...], tuple[Text, ...]] | None:
    """On a flat layout the bars in one line beside the heading; None where that has not the room."""
    shown = [(name, side.worn[part]) for part, name in side.words.bars.items() if part in side.worn]
    if not shown or not heading or side.small or side.layout is Layout.ELEVATED_SPROCKET:
        return None
    names = [Text((0, 0), name, 7.1, 600) for name, _ in shown]
    figures = [_figure(gauge, side.words.not_seen) for _, gauge in shown]
    taken = around(map(text_box, heading))
    words = sum(map(text_width, (*names, *figures))) + (2 * _CLOSE + _APART) * len(shown)
    room = side.width - (taken.right - taken.left) - words
    length = min(room / len(shown), _LENGTH)
    if length < _SHORTEST:
        return None
    x = _APART + taken.right if side.side is Side.LEFT else taken.left - words - length * len(shown)
    bars, texts = [], []
    for name, figure, (_, gauge) in zip(names, figures, shown, strict=True):
        start = x + text_width(name) + _CLOSE
        end = start + length + _CLOSE + text_width(figure)
        bars.append((Bar(start, _LINE - 2.1, length), gauge))
        texts += [replace(name, at=(x, _LINE)), replace(figure, at=(end, _LINE + 0.1))]
        x = end + _APART
    return tuple(bars), tuple(texts)


def _bars(side: SideElevation, top: float) -> tuple[tuple[tuple[Bar, Gauge], ...], tuple[Text, ...]]:
    shown = [(name, side.worn[part]) for part, name in side.words.bars.items() if part in side.worn]
    if not shown or side.small:
        return (), ()
    names = [Text((0, 0), name, 7.1, 600) for name, _ in shown]
    figures = [_figure(gauge, side.words.not_seen) for _, gauge in shown]
    middle = max(map(text_width, names)) + _AIR
    whole = middle + _LENGTH + _AIR + max(map(text_width, figures))
    left = side.width - whole if side.side is Side.RIGHT else 0.0
    caption = [Text((left, top + 2.2), side.words.chain, 6.6, 400, LABEL)] if side.words.chain else []
    first = top + (3.9 if caption else 0.0)
    texts, bars = list(caption), []
    for row, (name, figure, (_, gauge)) in enumerate(zip(names, figures, shown, strict=True)):
        y = first + _ROW * row
        bars.append((Bar(left + middle, y), gauge))
        texts += [replace(name, at=(left, y + 2.1)), replace(figure, at=(left + whole, y + 2.2))]
    return tuple(bars), tuple(texts)


def _figure(gauge: Gauge, not_seen: str) -> Text:
    if not gauge.seen:
        return Text((0, 0), gauge.word or not_seen, 6.6, 400, LABEL, "end")
    return Text((0, 0), gauge.figure, 8.0, 700 if gauge.stage is Stage.PAST_LIMIT else 600, INK, "end")
