"""Places the names of observations: each in free room near its place, no leader through type or through another."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from tracksworn.documents.drawing.elevation.boxes import Box, Numbers, Room, around, cross, crossed, text_box
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
_CLEAR: Final = 0.3  # from a leader to type
_GRID: Final = (2, 3)  # mm down and to the right from one field that is looked at to the next
_LONGEST: Final = 62.0  # of a leader
_LONGEST_BARE: Final = 16.0
_TRIED: Final = 1500  # fields looked at, the nearest first
_AT_ONCE: Final = 300
_NARROW: Final = 26.0  # of short lines
_LINE: Final = 2.5  # mm of leader that a line less is worth


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
    """A pin and the places on the sheet that would do for it, the best first."""

    pin: Pin
    places: tuple[Point, ...]


def place_labels(wanted: Sequence[Wanted], room: Room, standing: Sequence[Box], sizes: Sizes) -> tuple[Label, ...]:
    """Labels for as many as find room, with their words where there is room for these, in the order of their numbers.

    `standing` is the type that stands already. Labels are placed one after the other, and where one finds no room all
    are tried in other orders; that with the most words and then the shortest leaders holds. Deterministic.
    """
    best: _Placing | None = None
    for order in _ORDERS:
        tried = _placed(sorted(wanted, key=order), room, standing, sizes)
        if best is None or tried.worth > best.worth:
            best = tried
        if all(label.named for label in best.labels) and len(best.labels) == len(wanted):
            break
    assert best is not None
    return tuple(sorted(best.labels, key=lambda label: label.pin.number))


def _placed(ordered: Sequence[Wanted], room: Room, standing: Sequence[Box], sizes: Sizes) -> "_Placing":
    placing = _Placing(room.copy(), standing)
    left = [want for want in ordered if not placing.place(want, _shapes(want.pin, sizes))]
    for want in left:
        placing.place(want, (_bare(want.pin),))
    return placing


_ORDERS: Final[tuple[Callable[[Wanted], tuple[float, ...]], ...]] = (
    lambda want: (len(want.places), want.places[0][1], want.places[0][0]),
    lambda want: (-want.places[0][0], want.places[0][1]),
)
"""The least free and the highest first; from the right."""


def _shapes(pin: Pin, sizes: Sizes) -> tuple[Label, ...]:
    """The label round a disc at the origin: its type to the right or to the left, in long lines or in short ones."""
    widths = [_WIDEST]
    if max(width_mm(pin.title, sizes.title, weight=600), width_mm(pin.subtitle, sizes.subtitle)) > _NARROW:
        widths.append(_NARROW)
    return tuple(_worded(pin, sizes, rightwards, width) for width in widths for rightwards in (True, False))


def _bare(pin: Pin) -> Label:
    return Label(pin, (0.0, 0.0), (0.0, 0.0), (), Box(-DISC, -DISC, DISC, DISC))


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


def _wrapped(content: str, size: float, weight: Literal[400, 600], widest: float) -> Iterator[str]:
    """Lines no wider than that, broken at blanks."""
    line = ""
    for word in content.split():
        longer = f"{line} {word}" if line else word
        if line and width_mm(longer, size, weight=weight) > widest:
            yield line
            line = word
        else:
            line = longer
    if line:
        yield line


@dataclass(frozen=True)
class _Fields:
    """Free fields a label could take: which of its shapes (n), disc and place (n, 2), what it costs (n)."""

    shapes: NDArray[np.int_]
    discs: Numbers
    places: Numbers
    costs: Numbers

    def nearest(self, count: int) -> "_Fields":
        """The cheapest of them, in order."""
        order = np.argsort(self.costs, kind="stable")[:count]
        return self.some(order)

    def some(self, which: NDArray[np.int_] | slice) -> "_Fields":
        """A choice of them."""
        return _Fields(self.shapes[which], self.discs[which], self.places[which], self.costs[which])


class _Placing:
    """Labels so far. Each new one takes the field of free room with the shortest leader that crosses nothing."""

    def __init__(self, room: Room, standing: Sequence[Box]) -> None:
        self.room = room
        self.labels: list[Label] = []
        self._boxes = [box.sides for box in standing]

    @property
    def worth(self) -> tuple[int, int, float]:
        """How many have their words, how many are there at all, and how short the leaders are."""
        named = sum(label.named for label in self.labels)
        return named, len(self.labels), -sum(math.dist(*label.leader) for label in self.labels)

    def place(self, want: Wanted, shapes: Sequence[Label]) -> bool:
        """Place a pin in one of these shapes; False where none has room."""
        fields = self._fields(want.places, shapes).nearest(_TRIED)
        for start in range(0, len(fields.costs), _AT_ONCE):
            chunk = fields.some(slice(start, start + _AT_ONCE))
            clear = self._clear(chunk, shapes)
            if clear.any():
                first = int(np.argmax(clear))
                disc, place = chunk.discs[first].tolist(), chunk.places[first].tolist()
                self._take(shapes[chunk.shapes[first]].at((disc[0], disc[1]), (place[0], place[1])))
                return True
        return False

    def _take(self, label: Label) -> None:
        self.labels.append(label)
        self._boxes.append(label.box.grown(_CLEAR).sides)
        self.room.take(label.box.grown(_AIR))

    def _fields(self, places: Sequence[Point], shapes: Sequence[Label]) -> _Fields:
        """All free fields, far enough from the place and not too far."""
        ends = np.asarray(places)
        taken = np.asarray([label.place for label in self.labels]).reshape(-1, 2)
        shared = (np.hypot(*(ends[:, None] - taken).T) < _APART).any(axis=0)
        handicap = _RANK * np.arange(len(ends)) + _SHARED * shared
        found = []
        for index, shape in enumerate(shapes):
            discs = self._free_discs(shape)
            far = np.hypot(*(discs[:, None] - ends).T).T
            nth, of = np.nonzero((far >= DISC + _SHORTEST) & (far <= (_LONGEST if shape.named else _LONGEST_BARE)))
            cost = far[nth, of] + handicap[of] + _LINE * max(len(shape.texts) - 2, 0)
            found.append(_Fields(np.full(len(nth), index), discs[nth], ends[of], cost))
        return _Fields(
            np.concatenate([field.shapes for field in found]), np.concatenate([field.discs for field in found]),
            np.concatenate([field.places for field in found]), np.concatenate([field.costs for field in found]),
        )  # fmt: skip

    def _free_discs(self, shape: Label) -> Numbers:
        """Where the disc of a label of this shape could stand."""
        box = shape.box.grown(_AIR)
        free = self.room.free(math.ceil(box.right - box.left), math.ceil(box.bottom - box.top))
        rows, columns = np.nonzero(free[:: _GRID[0], :: _GRID[1]])
        return np.column_stack((columns * _GRID[1] - box.left, rows * _GRID[0] - box.top))

    def _clear(self, fields: _Fields, shapes: Sequence[Label]) -> NDArray[np.bool_]:
        """For each field whether its leader passes clear of type and of other leaders, and these of its type."""
        towards = fields.places - fields.discs
        starts = fields.discs + towards * (DISC / np.hypot(*towards.T))[:, None]
        start, end = starts[:, None], fields.places[:, None]
        corners = np.tile(fields.discs, 2)[:, None]
        met = crossed(np.asarray(self._boxes).reshape(-1, 4), start, end).any(axis=1)
        met |= crossed(_type_boxes(shapes)[fields.shapes] + corners, start, end).any(axis=1)
        if self.labels:
            leaders = np.asarray([label.leader for label in self.labels])
            whole = np.asarray([shape.box.grown(_CLEAR).sides for shape in shapes])[fields.shapes]
            met |= crossed(whole[:, None] + corners, leaders[:, 0], leaders[:, 1]).any(axis=1)
            met |= cross(start, end, leaders[:, 0], leaders[:, 1]).any(axis=1)
        return np.logical_not(met)


def _type_boxes(shapes: Sequence[Label]) -> Numbers:
    """The lines of type of each shape as boxes, (shapes, lines, 4), filled up with boxes that nothing meets."""
    most = max(len(shape.texts) for shape in shapes)
    boxes = np.full((len(shapes), most, 4), np.inf)
    for index, shape in enumerate(shapes):
        for line, text in enumerate(shape.texts):
            boxes[index, line] = text_box(text).grown(_CLEAR).sides
    return boxes
