"""Places all labels together, so that none meets another, no leader passes through type and no two leaders cross."""

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from tracksworn.documents.drawing.elevation.boxes import Box, Numbers, Room, cross, crossed
from tracksworn.documents.drawing.elevation.label import Label, Sizes, Wanted, bare, shapes
from tracksworn.documents.drawing.elevation.options import AIR, CLEAR, Options, options
from tracksworn.documents.drawing.elevation.search import Choices, choose

_SHARED: Final = 8.0  # mm of leader that a place of one's own is worth
_APART: Final = 1.6  # mm between two places that leaders end at
_CROWD: Final = 6


def place_labels(wanted: Sequence[Wanted], room: Room, standing: Sequence[Box], sizes: Sizes) -> tuple[Label, ...]:
    """Labels for as many as find room, with their words where there is room for these, in the order of their numbers.

    `standing` is the type that stands already. Where the words find no room the number alone stands, near its place.
    """
    crowded = len(wanted) > _CROWD
    labels = _place_together(
        [options(want.places, shapes(want.pin, sizes), room, standing, crowded=crowded) for want in wanted]
    )
    named = {label.pin.number for label in labels}
    for want in wanted:
        if want.pin.number not in named:
            labels = (*labels, *_alone(want, room, standing, labels))
    return tuple(sorted(labels, key=lambda label: label.pin.number))


def _place_together(every: Sequence[Options]) -> tuple[Label, ...]:
    """One option of each, or none where it would meet others."""
    every = [each for each in every if len(each.costs)]
    if not every:
        return ()
    return tuple(each.label(i) for each, i in zip(every, choose(_choices(every)), strict=True) if i is not None)


def _alone(want: Wanted, room: Room, standing: Sequence[Box], labels: Sequence[Label]) -> tuple[Label, ...]:
    """The number alone, clear of all labels that stand."""
    free = room.copy()
    for label in labels:
        free.take(label.box.grown(AIR))
    found = options(want.places, (bare(want.pin),), free, [*standing, *(label.box for label in labels)])
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
