"""Labels with leaders at either side of a section, and dimensions with arrows."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from tracksworn.documents.drawing.inks import INK, LABEL
from tracksworn.documents.drawing.lettering import centred, spread
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Circle, Line, Point, Stroke, Text
from tracksworn.documents.drawing.type import text_width

LEADER: Final = Stroke(0.16, LABEL)
DIMENSION: Final = Stroke(0.16)
READING: Final = Text((0, 0), "", 8.6, 600, anchor="middle")
RISE: Final = Text((0, 0), "", 7.2)
BESIDE: Final = Text((0, 0), "", 6.6, colour=LABEL)
REACH: Final = 3.4  # from a section's edge to the labels beside it
_GAP: Final = 3.3
DOT: Final = 0.24


@dataclass(frozen=True, slots=True)
class Tag:
    """A label with a leader to a point of the sheet."""

    text: str
    point: Point
    side: Literal["left", "right"]
    strong: bool = False

    @property
    def style(self) -> Text:
        """Its type, unplaced."""
        return Text((0, 0), self.text, READING.size, 600) if self.strong else Text((0, 0), self.text, 7.2)


def tags_width(tags: Sequence[Tag], side: Literal["left", "right"]) -> float:
    """How much room the labels of a side take beside the section, leaders included."""
    widths = [text_width(tag.style) for tag in tags if tag.side == side]
    return max(widths) + REACH if widths else 0.0


def draw_tags(pile: Pile, tags: Sequence[Tag], edges: tuple[float, float], rows: tuple[float, float]) -> None:
    """Labels stacked beside the edges, between the rows, each as near to its point's height as may be."""
    for side, edge, out in (("left", edges[0], -1.0), ("right", edges[1], 1.0)):
        chosen = sorted((tag for tag in tags if tag.side == side), key=lambda tag: tag.point[1])
        heights = spread([tag.point[1] for tag in chosen], _GAP, *rows)
        for tag, height in zip(chosen, heights, strict=True):
            _draw_tag(pile, tag, (edge + out * REACH, height), out)


def _draw_tag(pile: Pile, tag: Tag, at: Point, out: float) -> None:
    x, y = at
    bend = (x - out * (REACH - 0.9), y)
    pile.write(replace(tag.style, at=(x, centred(y, tag.style.size)), anchor="end" if out < 0 else "start"))
    pile.stroke(LEADER, Line(((x - out * 0.7, y), bend, tag.point)))
    pile.fill(INK, Circle(tag.point, DOT))


def arrow_head(tip: Point, away: Point) -> Line:
    """A slim arrow at the tip, coming from `away`."""
    length = math.dist(tip, away) or 1.0
    along = ((away[0] - tip[0]) / length, (away[1] - tip[1]) / length)
    back = (tip[0] + 1.7 * along[0], tip[1] + 1.7 * along[1])
    half = (-0.32 * along[1], 0.32 * along[0])
    return Line((tip, (back[0] + half[0], back[1] + half[1]), (back[0] - half[0], back[1] - half[1])), closed=True)


def draw_dimension(pile: Pile, start: Point, end: Point, *, open_start: bool = False) -> None:
    """A line with arrows at its ends; from outside, pointing in, where it is too short for both."""
    length = math.dist(start, end)
    if length >= 4.2 or open_start:
        pile.stroke(DIMENSION, Line((start, end)))
        pile.fill(INK, arrow_head(end, start))
        if not open_start:
            pile.fill(INK, arrow_head(start, end))
        return
    if length == 0:
        return
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    outer = (start[0] - 2.6 * along[0], start[1] - 2.6 * along[1]), (end[0] + 2.6 * along[0], end[1] + 2.6 * along[1])
    pile.stroke(DIMENSION, Line(outer))
    pile.fill(INK, arrow_head(start, outer[0]), arrow_head(end, outer[1]))
