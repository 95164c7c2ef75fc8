"""Places the names of observations: each in free room near its place, no leader through type or through another."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from tracksworn.documents.drawing.elevation.boxes import Box, Room, around, text_box
from tracksworn.documents.drawing.elevation.sides import Pin
from tracksworn.documents.drawing.inks import INK, LABEL
from tracksworn.documents.drawing.plain import Point, Text
from tracksworn.documents.drawing.type import CAP_HEIGHT, MM_PER_POINT, width_mm

DISC: Final = 1.75  # radius
_GAP: Final = 0.8  # from disc to type
_LEADING: Final = 1.16  # of the size
_WIDEST: Final = 44.0
_SHORTEST: Final = 2.2  # of a leader, from the disc
_AIR: Final = 0.5  # round a label
_RANK: Final = 1.5  # mm of leader that a better place is worth
_SHARED: Final = 8.0  # mm of leader that a place of one's own is worth
_APART: Final = 1.6  # of two places that leaders end at
_TRIED: Final = 250  # free fields looked at, the nearest first

_Numbers = NDArray[np.float64]


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

    def moved(self, down: float) -> "Label":
        """The same further down the sheet."""
        texts = tuple(replace(text, at=(text.at[0], text.at[1] + down)) for text in self.texts)
        disc, place = ((x, y + down) for x, y in (self.disc, self.place))
        return replace(self, disc=disc, place=place, texts=texts, box=self.box.moved(0, down))


@dataclass(frozen=True)
class Wanted:
    """A pin and the places on the sheet that would do for it, the best first."""

    pin: Pin
    places: tuple[Point, ...]


def place_labels(wanted: Sequence[Wanted], room: Room, type_boxes: Sequence[Box], sizes: Sizes) -> tuple[Label, ...]:
    """Labels for as many as find room, with their words where there is room for these, in the order of their numbers.

    `type_boxes` is the type that stands already; `room` loses what is placed. Deterministic.
    """
    placing = _Placing(room, list(type_boxes))
    ordered = sorted(wanted, key=lambda want: (len(want.places), want.places[0][1], want.places[0][0]))
    left = [want for want in ordered if not placing.place(want, _shapes(want.pin, sizes))]
    for want in left:
        placing.place(want, (_bare(want.pin),))
    return tuple(sorted(placing.labels, key=lambda label: label.pin.number))


def _shapes(pin: Pin, sizes: Sizes) -> tuple[Label, ...]:
    """The label round a disc at the origin, its type to the right or to the left."""
    return tuple(_worded(pin, sizes, rightwards) for rightwards in (True, False))


def _bare(pin: Pin) -> Label:
    return Label(pin, (0.0, 0.0), (0.0, 0.0), (), Box(-DISC, -DISC, DISC, DISC))


def _worded(pin: Pin, sizes: Sizes, rightwards: bool) -> Label:
    x = (DISC + _GAP) * (1 if rightwards else -1)
    y = CAP_HEIGHT * sizes.title * MM_PER_POINT / 2
    texts: list[Text] = []
    styles: tuple[tuple[str, float, Literal[400, 600], str], ...] = (
        (pin.title, sizes.title, 600, INK),
        (pin.subtitle, sizes.subtitle, 400, LABEL),
    )
    for content, size, weight, colour in styles:
        for line in _wrapped(content, size, weight):
            y += _LEADING * size * MM_PER_POINT if texts else 0.0
            texts.append(Text((x, y), line, size, weight, colour, "start" if rightwards else "end"))
    box = around([Box(-DISC, -DISC, DISC, DISC), *map(text_box, texts)])
    return Label(pin, (0.0, 0.0), (0.0, 0.0), tuple(texts), box)


def _wrapped(content: str, size: float, weight: Literal[400, 600]) -> Iterator[str]:
    """Lines no wider than a label may be, broken at blanks."""
    line = ""
    for word in content.split():
        longer = f"{line} {word}" if line else word
        if line and width_mm(longer, size, weight=weight) > _WIDEST:
            yield line
            line = word
        else:
            line = longer
    if line:
        yield line


class _Placing:
    """Labels so far. Each new one takes the field of free room with the shortest leader that crosses nothing."""

    def __init__(self, room: Room, type_boxes: list[Box]) -> None:
        self.room, self.type_boxes = room, type_boxes
        self.labels: list[Label] = []

    def place(self, want: Wanted, shapes: Sequence[Label]) -> bool:
        """Place a pin in one of these shapes; False where none has room."""
        for shape, disc, place in self._nearest(want.places, shapes):
            label = replace(
                shape,
                disc=disc,
                place=place,
                texts=tuple(replace(text, at=(text.at[0] + disc[0], text.at[1] + disc[1])) for text in shape.texts),
                box=shape.box.moved(*disc),
            )
            if self._clear(label):
                self.labels.append(label)
                self.room.take(label.box.grown(_AIR))
                return True
        return False

    def _nearest(self, places: Sequence[Point], shapes: Sequence[Label]) -> Iterator[tuple[Label, Point, Point]]:
        """Free fields with the leader's end, by what they cost."""
        options = [
            (shape, place, *self._fields(shape.box.grown(_AIR), place, rank))
            for shape in shapes
            for rank, place in enumerate(places)
        ]
        costs = np.concatenate([option[4] for option in options])
        kinds = np.repeat(np.arange(len(options)), [len(option[4]) for option in options])
        x = np.concatenate([option[2] for option in options])
        y = np.concatenate([option[3] for option in options])
        for index in np.argsort(costs, kind="stable")[:_TRIED]:
            shape, place = options[kinds[index]][:2]
            yield shape, (float(x[index]), float(y[index])), place

    def _fields(self, box: Box, place: Point, rank: int) -> tuple[_Numbers, _Numbers, _Numbers]:
        """Discs' places x and y of all free fields far enough from a place, and what each costs."""
        free = self.room.free(math.ceil(box.right - box.left), math.ceil(box.bottom - box.top))
        rows, columns = np.nonzero(free)
        x, y = columns - box.left, rows - box.top
        far = np.hypot(x - place[0], y - place[1])
        shared = any(math.dist(place, label.place) < _APART for label in self.labels)
        enough = far >= DISC + _SHORTEST
        return x[enough], y[enough], far[enough] + _RANK * rank + (_SHARED if shared else 0.0)

    def _clear(self, label: Label) -> bool:
        """Whether its leader passes clear of type and of other leaders, and theirs of it."""
        start, end = label.leader
        own = [text_box(text).grown(0.3) for text in label.texts]
        if any(box.crossed_by(start, end) for box in (*self.type_boxes, *own)):
            return False
        for other in self.labels:
            if other.box.grown(0.3).crossed_by(start, end) or label.box.grown(0.3).crossed_by(*other.leader):
                return False
            if other.place != label.place and _cross(label.leader, other.leader):
                return False
        return True


def _cross(a: tuple[Point, Point], b: tuple[Point, Point]) -> bool:
    """Whether two straight lines cross."""

    def side(line: tuple[Point, Point], at: Point) -> float:
        (x0, y0), (x1, y1) = line
        return (x1 - x0) * (at[1] - y0) - (y1 - y0) * (at[0] - x0)

    return side(a, b[0]) * side(a, b[1]) < 0 and side(b, a[0]) * side(b, a[1]) < 0
