"""An observation's label: a numbered disc, a leader to its place, and its words to one side of the disc."""

import math
from dataclasses import dataclass, field, replace
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from tracksworn.documents.drawing.elevation.boxes import Box, Numbers, Room, around, text_box
from tracksworn.documents.drawing.elevation.sides import Pin
from tracksworn.documents.drawing.inks import INK, LABEL
from tracksworn.documents.drawing.plain import Point, Text
from tracksworn.documents.drawing.type import CAP_HEIGHT, MM_PER_POINT, width_mm

DISC: Final = 1.75  # radius
SMALL_DISC: Final = 1.3
_GAP: Final = 0.8  # from disc to type
_LEADING: Final = 1.16  # of the size
_WIDEST: Final = 44.0
_NARROW: Final = 26.0  # of short lines
_NARROWEST: Final = 17.0  # of those between the wheels
_ROW_WIDTHS: Final = (_WIDEST, 64.0, 90.0)
ROW_LINES: Final = 2


@dataclass(frozen=True, slots=True)
class Sizes:
    """Type sizes of a label in pt."""

    title: float = 7.1
    subtitle: float = 6.6


@dataclass(frozen=True, slots=True)
class Label:
    """A pin with its place on the sheet: the disc, the leader's end, and its type, if there was room."""

    pin: Pin
    disc: Point
    place: Point
    texts: tuple[Text, ...]
    box: Box
    on_part: bool = False  # a small disc on the part itself, without a leader

    @property
    def named(self) -> bool:
        """Whether its words are on the drawing."""
        return bool(self.texts)

    @property
    def leader(self) -> tuple[Point, Point]:
        """From the edge of the disc to the place."""
        (x, y), (px, py) = self.disc, self.place
        share = DISC / max(math.dist(self.disc, self.place), DISC)
        return ((x + (px - x) * share, y + (py - y) * share), self.place)

    def at(self, disc: Point, place: Point) -> "Label":
        """The same, its disc moved from the origin to there, its leader going to a place."""
        return replace(self.moved(*disc), place=place)

    def moved(self, right: float, down: float) -> "Label":
        """The same elsewhere on the sheet, its place too."""
        texts = tuple(replace(text, at=(text.at[0] + right, text.at[1] + down)) for text in self.texts)
        disc, place = ((x + right, y + down) for x, y in (self.disc, self.place))
        return replace(self, disc=disc, place=place, texts=texts, box=self.box.moved(right, down))


@dataclass(frozen=True)
class Wanted:
    """A pin and the places on the sheet that would do for it, the best first.

    `avoid` are gauges that its leader must not cross, `wheels` circles (n, 3) that it had better not; `rows` are the
    heights on the sheet at which its disc stands by choice, the nearest first; `ground` is that of the ground line, and
    `lower` says that the place is on the lower run, which is labelled from under it. What is inside the loop has its
    label there by choice: `within` is the room, `loop` the chain's inner outline (n, 2), which a leader from elsewhere
    has to cross.
    """

    pin: Pin
    places: tuple[Point, ...]
    avoid: tuple[Box, ...] = ()
    wheels: NDArray[np.float64] = field(default_factory=lambda: np.zeros((0, 3)))
    rows: tuple[float, ...] = ()
    ground: float = math.inf
    lower: bool = False
    within: Room | None = None
    loop: Numbers = field(default_factory=lambda: np.zeros((0, 2)))

    @property
    def until(self) -> float:
        """How far down the sheet labels stand in the free room round the track."""
        return min(self.ground, 1e6)


def shapes(pin: Pin, sizes: Sizes, *, within: bool = False) -> tuple[Label, ...]:
    """The label round a disc at the origin: its type to the right or to the left, in long lines or in short ones;
    `within` the loop in the shortest too.
    """
    longest = max(width_mm(pin.title, sizes.title, weight=600), width_mm(pin.subtitle, sizes.subtitle))
    shorter = (_NARROW, _NARROWEST) if within else (_NARROW,)
    widths = [_WIDEST, *(width for width in shorter if longest > width)]
    return tuple(_worded(pin, sizes, rightwards, width) for width in widths for rightwards in (True, False))


def titled(pin: Pin, sizes: Sizes) -> tuple[Label, ...]:
    """The label without the part's name, on one line: its type to the right or to the left."""
    some = replace(pin, subtitle="")
    return tuple(replace(_worded(some, sizes, rightwards, _WIDEST), pin=pin) for rightwards in (True, False))


def in_a_row(pin: Pin, sizes: Sizes) -> tuple[Label, ...]:
    """The label as low as a row of them is high: its type to the right and to the left, in as many lines as
    `ROW_LINES`; none where its words are too many for that.
    """
    for width in _ROW_WIDTHS:
        found = tuple(_worded(pin, sizes, rightwards, width) for rightwards in (True, False))
        if len(found[0].texts) <= ROW_LINES:
            return found
    return ()


def bare(pin: Pin) -> Label:
    """The number alone, its disc at the origin."""
    return Label(pin, (0.0, 0.0), (0.0, 0.0), (), Box(-DISC, -DISC, DISC, DISC))


def on_part(pin: Pin) -> Label:
    """The number in a small disc that stands on the part, at the origin."""
    half = SMALL_DISC
    return Label(pin, (0.0, 0.0), (0.0, 0.0), (), Box(-half, -half, half, half), on_part=True)


def _worded(pin: Pin, sizes: Sizes, rightwards: bool, widest: float) -> Label:
    x = (DISC + _GAP) * (1 if rightwards else -1)
    y = CAP_HEIGHT * sizes.title * MM_PER_POINT / 2
    texts: list[Text] = []
    styles: tuple[tuple[str, float, Literal[400, 600], str], ...] = (
        (pin.title, sizes.title, 600, INK),
        (pin.subtitle, sizes.subtitle, 400, LABEL),
    )
    for content, size, weight, colour in styles:
        for line in _wrapped(content, size, weight, widest):
            y += _LEADING * size * MM_PER_POINT if texts else 0.0
            texts.append(Text((x, y), line, size, weight, colour, "start" if rightwards else "end"))
    box = around([Box(-DISC, -DISC, DISC, DISC), *map(text_box, texts)])
    return Label(pin, (0.0, 0.0), (0.0, 0.0), tuple(texts), box)


def _wrapped(content: str, size: float, weight: Literal[400, 600], widest: float) -> list[str]:
    """As few lines as that width allows, broken at blanks and about equally long."""
    lines = _broken(content, size, weight, widest)
    narrower = widest - 1
    while narrower > 0 and len(lines) > 1 and len(_broken(content, size, weight, narrower)) == len(lines):
        lines = _broken(content, size, weight, narrower)
        narrower -= 1
    return lines


def _broken(content: str, size: float, weight: Literal[400, 600], widest: float) -> list[str]:
    """Lines no wider than that, unless one word is."""
    lines: list[str] = []
    for word in content.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_mm(longer, size, weight=weight) <= widest:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
