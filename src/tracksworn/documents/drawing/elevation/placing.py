"""Places all labels together, so that none meets another, no leader passes through type and no two leaders cross."""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from tracksworn.documents.drawing.elevation.boxes import Box, Numbers, Room, cross, crossed, text_box
from tracksworn.documents.drawing.elevation.label import DISC, Label, Sizes, Wanted, bare, on_part, shapes
from tracksworn.documents.drawing.elevation.options import AIR, CLEAR, Options, options
from tracksworn.documents.drawing.elevation.search import Choices, choose
from tracksworn.documents.drawing.elevation.stairs import in_rows

_SHARED: Final = 8.0  # mm of leader that a place of one's own is worth
_APART: Final = 1.6  # mm between two places that leaders end at
_CROWD: Final = 6
_UNDER: Final = 2.75  # mm from the ground line down to the middle of a disc
_ASIDE: Final = 9.0  # mm that such a disc stands off its place at most
_STEP: Final = 0.5
_REACHES: Final = (0.0, 1.5, 3.0, 4.5, 6.0, 8.0, 11.0)  # mm from a place to a small disc on the part
FIGURE_AIR: Final = 1.0  # mm from a disc to figures


def place_labels(wanted: Sequence[Wanted], room: Room, standing: Sequence[Box], sizes: Sizes) -> tuple[Label, ...]:
    """A label for each, in the order of their numbers; those that matter more have the first choice.

    `standing` is the type that stands already. Where words find no room the number alone stands: of what is on the
    lower run under the ground line, of all else near its place or on the part itself.
    """
    labels = _in_rows(wanted, room, standing, sizes)
    rest = sorted(_without(wanted, labels), key=lambda want: -want.pin.rank)
    free = [want for want in rest if not want.rows]
    every = [
        options(want, shapes(want.pin, sizes), room, [*standing, *want.avoid], crowded=len(free) > _CROWD)
        for want in free
    ]
    labels = (*labels, *_place_together(every))
    for want in _without(rest, labels):
        worded = () if want in free or want.lower else _alone(want, shapes(want.pin, sizes), room, standing, labels)
        found = worded or _under_ground(want, standing, labels)
        found = found or _alone(want, (bare(want.pin),), room, standing, labels)
        labels = (*labels, *(found or _on_part(want, room, standing, labels)))
    return tuple(sorted(labels, key=lambda label: label.pin.number))


def _in_rows(wanted: Sequence[Wanted], room: Room, standing: Sequence[Box], sizes: Sizes) -> tuple[Label, ...]:
    """The labels that stand in rows above a flat track and under the figures."""
    above = [want for want in wanted if want.rows and not want.lower]
    labels = _row(above, room, standing, sizes, ())
    return (*labels, *_row([want for want in wanted if want.rows and want.lower], room, standing, sizes, labels))


def _row(
    wanted: Sequence[Wanted], room: Room, standing: Sequence[Box], sizes: Sizes, labels: Sequence[Label]
) -> tuple[Label, ...]:
    """Those that find room in their rows beside the labels that stand already."""
    avoid = {want.pin.number: want.avoid for want in wanted}

    def clear(label: Label, others: Sequence[Label]) -> bool:
        return _stands_clear(label, [*standing, *avoid[label.pin.number]], [*labels, *others])

    return in_rows(wanted, wanted[0].rows if wanted else (), room.columns, sizes, clear)


def _without(wanted: Sequence[Wanted], labels: Sequence[Label]) -> list[Wanted]:
    """Those that have no label yet."""
    numbers = {label.pin.number for label in labels}
    return [want for want in wanted if want.pin.number not in numbers]


def _under_ground(want: Wanted, standing: Sequence[Box], labels: Sequence[Label]) -> tuple[Label, ...]:
    """The number under the ground line, as near below its place as the figures there allow."""
    if not want.lower:
        return ()
    (x, y), disc = want.places[0], bare(want.pin)
    for step in range(2 * int(_ASIDE / _STEP) + 1):
        aside = _STEP * ((step + 1) // 2) * (-1) ** step
        label = disc.at((x + aside, want.ground + _UNDER), (x, y))
        if _stands_clear(label, standing, labels):
            return (label,)
    return ()


def _stands_clear(label: Label, standing: Sequence[Box], labels: Sequence[Label]) -> bool:
    """Whether a bare disc and its leader keep clear of type, of other labels and of their leaders."""
    boxes = [*standing, *(other.box for other in labels)]
    if any(label.box.grown(AIR).meets(box) for box in boxes):
        return False
    sides = np.asarray([box.sides for box in boxes]).reshape(-1, 4)
    disc = np.asarray((*label.disc, DISC + FIGURE_AIR))
    nearest = np.clip(disc[:2], sides[: len(standing), :2], sides[: len(standing), 2:]) - disc[:2]
    start, end = np.asarray(label.leader)
    if (np.hypot(*nearest.T) < disc[2]).any() or crossed(sides, start, end).any():
        return False
    own = np.asarray([text_box(text).sides for text in label.texts]).reshape(-1, 4)
    others = np.asarray([other.leader for other in labels]).reshape(-1, 2, 2)
    through = crossed(np.asarray(label.box.grown(CLEAR).sides), others[:, 0], others[:, 1])
    return not (cross(start, end, others[:, 0], others[:, 1]) | through).any() and not crossed(own, start, end).any()


def _on_part(want: Wanted, room: Room, standing: Sequence[Box], labels: Sequence[Label]) -> tuple[Label, ...]:
    """The number in a small disc on the part itself, or as near to it as what stands there allows."""
    ways = [math.radians(degrees) for degrees in range(0, 360, 30)]
    for reach in _REACHES:
        for x, y in want.places:
            for way in ways if reach else ways[:1]:
                at = (x + reach * math.cos(way), y + reach * math.sin(way))
                label = on_part(want.pin, at)
                box = label.box
                inside = box.left >= 0 and box.top >= 0 and box.right <= room.columns and box.bottom <= room.rows
                if inside and _stands_clear(label, standing, labels):
                    return (label,)
    return ()


def _place_together(every: Sequence[Options]) -> tuple[Label, ...]:
    """One option of each, or none where it would meet others."""
    every = [each for each in every if len(each.costs)]
    if not every:
        return ()
    return tuple(each.label(i) for each, i in zip(every, choose(_choices(every)), strict=True) if i is not None)


def _alone(
    want: Wanted, forms: Sequence[Label], room: Room, standing: Sequence[Box], labels: Sequence[Label]
) -> tuple[Label, ...]:
    """One of its forms, clear of all labels that stand."""
    free = room.copy()
    for label in labels:
        free.take(label.box.grown(AIR))
    found = options(want, forms, free, [*standing, *want.avoid, *(label.box for label in labels)])
    for index in range(len(found.costs)):
        label = found.label(index)
        start, end = np.asarray(label.leader)
        others = np.asarray([other.leader for other in labels]).reshape(-1, 2, 2)
        if not (
            cross(start, end, others[:, 0], others[:, 1])
            | crossed(np.asarray(label.box.sides), others[:, 0], others[:, 1])
        ).any():
            return (label,)
    return ()


def _choices(every: Sequence[Options]) -> Choices:
    counts = [len(each.costs) for each in every]
    owner = np.repeat(np.arange(len(every)), counts)
    others = owner[:, None] != owner
    places = np.concatenate([each.places for each in every])
    near = np.hypot(*(places[:, None] - places).T) < _APART
    return Choices(
        np.concatenate(([0], np.cumsum(counts))),
        np.concatenate([each.costs for each in every]),
        _meetings(every, places) & others,
        _SHARED * (near & others),
        tuple(each.shapes[0].pin.rank for each in every),
    )


def _meetings(every: Sequence[Options], places: Numbers) -> NDArray[np.bool_]:
    """Which options meet: box and box, leader and box, leader and leader; (options, options)."""
    boxes = np.concatenate([each.boxes for each in every])
    starts = np.concatenate([each.starts for each in every])
    low, high = boxes[:, None, :2] - 2 * AIR, boxes[:, None, 2:] + 2 * AIR
    overlap = ((low < boxes[None, :, 2:]) & (boxes[None, :, :2] < high)).all(axis=2)
    grown = boxes + np.array((-CLEAR, -CLEAR, CLEAR, CLEAR))
    through = crossed(grown[:, None], starts, places)
    crossing = cross(starts[:, None], places[:, None], starts, places)
    meeting: NDArray[np.bool_] = overlap | through | through.T | crossing
    return meeting
