"""Where one label could stand: in free room, clear of the type that stands already, as near its place as may be."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from tracksworn.documents.drawing.elevation.boxes import (
    Box,
    Numbers,
    Room,
    cross,
    crossed,
    squared_distances,
    text_box,
)
from tracksworn.documents.drawing.elevation.label import DISC, Label, Wanted

_SHORTEST: Final = 2.2  # mm of a leader, from the disc
_LONGEST: Final = 62.0
_LONGEST_BARE: Final = 16.0
_LONG: Final = 50.0  # mm of a leader that counts twice
_HIDING: Final = 12.0  # mm of leader that a leader clear of all parts is worth
_ASLANT: Final = 0.25  # mm of leader that a millimetre aside is worth
_ACROSS: Final = 8.0  # mm of leader that not touching a wheel is worth
_THROUGH: Final = 40.0  # mm of leader that not crossing the chain is worth
_INNER: Final = 0.6  # of a wheel's tread: no leader passes through that
_RANK: Final = 1.5  # mm of leader that a better place is worth
_LINE: Final = 5.0  # mm of leader that a line less is worth
CLEAR: Final = 0.3  # from a leader to type
AIR: Final = 0.5  # round a label
_GRID: Final = (2, 2)  # mm down and to the right from one field that is looked at to the next
_FINE: Final = (1, 1)  # where there is little room
_FIELD: Final = (9.0, 4.0)  # of those that begin within so many mm of each other only the best is kept
_CELLS: Final = 1000  # more than there are of them along a sheet
_EACH: Final = 6  # fields of such a cell that are looked at
_NEAR: Final = 400  # fields of which all are looked at, the nearest
_FAR: Final = 600  # and how many of the rest
_AT_ONCE: Final = 500
_MOST: Final = 40  # options of one label


@dataclass(frozen=True)
class Options:
    """What one label could be, the cheapest first: which of its shapes (n), disc and place (n, 2), cost in mm (n)."""

    shapes: Sequence[Label]
    which: NDArray[np.int_]
    discs: Numbers
    places: Numbers
    costs: Numbers

    @property
    def starts(self) -> Numbers:
        """Where the leaders begin, at the edge of the discs, (n, 2)."""
        towards = self.places - self.discs
        starts: Numbers = self.discs + towards * (DISC / np.hypot(*towards.T))[:, None]
        return starts

    @property
    def boxes(self) -> Numbers:
        """The labels' boxes, (n, 4)."""
        sides = np.asarray([shape.box.sides for shape in self.shapes])
        boxes: Numbers = sides[self.which] + np.tile(self.discs, 2)
        return boxes

    def some(self, chosen: NDArray[np.int_] | slice) -> "Options":
        """A choice of them."""
        return Options(self.shapes, self.which[chosen], self.discs[chosen], self.places[chosen], self.costs[chosen])

    def label(self, index: int) -> Label:
        """The label that one of them is."""
        disc, place = self.discs[index].tolist(), self.places[index].tolist()
        return self.shapes[int(self.which[index])].at((disc[0], disc[1]), (place[0], place[1]))


def options(
    want: Wanted,
    shapes: Sequence[Label],
    room: Room,
    standing: Sequence[Box],
    *,
    crowded: bool = False,
    grid: tuple[int, int] = _GRID,
) -> Options:
    """Up to 40 options, none across type that stands already: the cheapest, or among a crowd some further off too."""
    fields = _fields(want, shapes, room, grid)
    if not len(fields.costs):
        return fields
    fields = _dearer_across_parts(_nearest(fields), want, room)
    kept: list[int] = []
    cells: set[int] = set()
    for start in range(0, len(fields.costs), _AT_ONCE):
        chunk = fields.some(slice(start, start + _AT_ONCE))
        clear = np.nonzero(_clear(chunk, standing))[0]
        found, first = np.unique(_cells(chunk.some(clear)), return_index=True)
        new = [nth for cell, nth in zip(found.tolist(), first.tolist(), strict=True) if cell not in cells]
        cells.update(found.tolist())
        kept += (start + clear[sorted(new)]).tolist()
        if len(kept) >= _MOST and not crowded:
            break
    near, far = kept[: _MOST // 2], kept[_MOST // 2 :]
    chosen = near + far[:: math.ceil(len(far) / (_MOST // 2))] if far and crowded else kept[:_MOST]
    return fields.some(np.asarray(chosen, dtype=int))


def options_within(want: Wanted, shapes: Sequence[Label], room: Room, standing: Sequence[Box]) -> Options:
    """Options inside the loop whose leaders cross neither the chain nor another wheel."""
    found = options(replace(want, ground=math.inf), shapes, room, standing, crowded=True, grid=_FINE)
    if not len(found.costs):
        return found
    start, end = found.starts[:, None], found.places[:, None]
    met = cross(want.loop[:-1], want.loop[1:], start, end).any(axis=1)
    if len(want.wheels):
        met |= (squared_distances(want.wheels[:, :2], start, end) < want.wheels[:, 2] ** 2).any(axis=1)
    return found.some(np.nonzero(~met)[0])


def either(some: Options, others: Options) -> Options:
    """The options of both."""
    return Options(
        (*some.shapes, *others.shapes), np.concatenate((some.which, others.which + len(some.shapes))),
        np.concatenate((some.discs, others.discs)), np.concatenate((some.places, others.places)),
        np.concatenate((some.costs, others.costs)),
    )  # fmt: skip


def _cells(fields: Options) -> NDArray[np.int_]:
    """A number for each shape and field of the sheet, (n)."""
    across, down = (fields.discs / _FIELD).astype(int).T
    cells: NDArray[np.int_] = (fields.which * _CELLS + across) * _CELLS + down
    return cells


def _fields(want: Wanted, shapes: Sequence[Label], room: Room, grid: tuple[int, int]) -> Options:
    """All free fields, far enough from the place and not too far."""
    ends = np.asarray(want.places)
    found = []
    for index, shape in enumerate(shapes):
        discs = _free_discs(shape, room, want, grid)
        far = np.hypot(*(discs[:, None] - ends).T).T
        nth, of = np.nonzero((far >= DISC + _SHORTEST) & (far <= (_LONGEST if shape.named else _LONGEST_BARE)))
        length = far[nth, of]
        aside = np.abs(discs[nth, 0] - ends[of, 0])
        costs = length * (1 + length / _LONG) + _ASLANT * aside + _RANK * of + _LINE * max(len(shape.texts) - 2, 0)
        found.append(Options(shapes, np.full(len(nth), index), discs[nth], ends[of], costs))
    return Options(
        shapes, np.concatenate([each.which for each in found]), np.concatenate([each.discs for each in found]),
        np.concatenate([each.places for each in found]), np.concatenate([each.costs for each in found]),
    )  # fmt: skip


def _free_discs(shape: Label, room: Room, want: Wanted, grid: tuple[int, int]) -> Numbers:
    """Where the disc of a label of this shape could stand: anywhere free over the ground line."""
    box = shape.box.grown(AIR)
    width, height = math.ceil(box.right - box.left), math.ceil(box.bottom - box.top)
    free = room.free(width, height)
    free[max(math.floor(want.until - height), 0) :] = False
    rows, columns = np.nonzero(free[:: grid[0], :: grid[1]])
    return np.column_stack((columns * grid[1] - box.left, rows * grid[0] - box.top))


def _nearest(fields: Options) -> Options:
    """The cheapest fields of each cell: of these all near ones and a thin choice of the rest, in order."""
    order = np.argsort(fields.costs, kind="stable")
    order = order[_nth_of_its_cell(_cells(fields.some(order))) < _EACH]
    rest = order[_NEAR:]
    return fields.some(np.concatenate((order[:_NEAR], rest[:: max(math.ceil(len(rest) / _FAR), 1)])))


def _nth_of_its_cell(cells: NDArray[np.int_]) -> NDArray[np.int_]:
    """How many came before each in the same cell, (n)."""
    order = np.argsort(cells, kind="stable")
    begins = np.flatnonzero(np.diff(cells[order], prepend=-1))
    nth = np.empty(len(cells), dtype=int)
    nth[order] = np.arange(len(cells)) - np.repeat(begins, np.diff(begins, append=len(cells)))
    return nth


def _dearer_across_parts(fields: Options, want: Wanted, room: Room) -> Options:
    """In order of cost once more, each dearer by what its leader hides of the machine and by what it crosses."""
    share = np.linspace(0.05, 0.85, 9)[:, None, None]
    hides = room.taken_at(fields.starts + share * (fields.places - fields.starts)).mean(axis=0)
    costs = fields.costs + _HIDING * hides
    if len(want.wheels):
        radii = want.wheels[:, 2]
        away = squared_distances(want.wheels[:, :2], fields.starts[:, None], fields.places[:, None])
        costs += _ACROSS * (away < radii**2).sum(axis=1)
        costs[(away < (radii * _INNER) ** 2).any(axis=1)] = np.inf
    if len(want.loop):
        lines = cross(want.loop[:-1], want.loop[1:], fields.starts[:, None], fields.places[:, None])
        costs += _THROUGH * lines.any(axis=1)
    order = np.argsort(costs, kind="stable")
    return replace(fields, costs=costs).some(order[np.isfinite(costs[order])])


def _clear(fields: Options, standing: Sequence[Box]) -> NDArray[np.bool_]:
    """For each field whether its leader passes clear of what stands and of its own type."""
    start, end = fields.starts[:, None], fields.places[:, None]
    own = _type_boxes(fields.shapes)[fields.which] + np.tile(fields.discs, 2)[:, None]
    met = crossed(own, start, end).any(axis=1)
    if standing:
        met |= crossed(np.asarray([box.grown(CLEAR).sides for box in standing]), start, end).any(axis=1)
    return np.logical_not(met)


def _type_boxes(shapes: Sequence[Label]) -> Numbers:
    """The lines of type of each shape as boxes, (shapes, lines, 4), filled up with boxes that nothing meets."""
    most = max(len(shape.texts) for shape in shapes)
    boxes = np.full((len(shapes), most, 4), np.inf)
    for index, shape in enumerate(shapes):
        for line, text in enumerate(shape.texts):
            boxes[index, line] = text_box(text).grown(CLEAR).sides
    return boxes
