"""Places all labels together, so that none meets another, no leader passes through type and no two leaders cross.

Each label has its options; which of two options meet is worked out beforehand. From each label's cheapest one the
search goes round the labels and takes for each the option that costs least beside the others as they stand. Where it
sticks with some that meet, their meeting is made dearer and it goes on (guided local search). What still meets in the
best state found is dropped, and a last round shortens leaders. No chance is in it: the same side gives the same sheet.
"""

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from tracksworn.documents.drawing.elevation.boxes import Box, Numbers, Room, cross, crossed
from tracksworn.documents.drawing.elevation.label import Label, Sizes, Wanted, bare, shapes
from tracksworn.documents.drawing.elevation.options import AIR, CLEAR, Options, options

_SHARED: Final = 8.0  # mm of leader that a place of one's own is worth
_APART: Final = 1.6  # mm between two places that leaders end at
_MEETING: Final = 60.0  # mm of leader that not meeting is worth to begin with
_DEARER: Final = 30.0  # and so much more with each round that sticks
_ROUNDS: Final = 60
_CROWD: Final = 6


def place_labels(wanted: Sequence[Wanted], room: Room, standing: Sequence[Box], sizes: Sizes) -> tuple[Label, ...]:
    """Labels for as many as find room, with their words where there is room for these, in the order of their numbers.

    `standing` is the type that stands already. Where the words find no room the number alone stands, near its place.
    """
    crowded = len(wanted) > _CROWD
    labels = place_together(
        [options(want.places, shapes(want.pin, sizes), room, standing, crowded=crowded) for want in wanted]
    )
    named = {label.pin.number for label in labels}
    for want in wanted:
        if want.pin.number not in named:
            labels = (*labels, *_alone(want, room, standing, labels))
    return tuple(sorted(labels, key=lambda label: label.pin.number))


def place_together(choices: Sequence[Options]) -> tuple[Label, ...]:
    """One option of each, or none where it would meet others."""
    choices = [each for each in choices if len(each.costs)]
    if not choices:
        return ()
    search = _Search(choices)
    return tuple(each.label(index) for each, index in zip(choices, search.best(), strict=True) if index is not None)


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


class _Search:
    """All options of all labels in one row: `owner` says whose each is, `meets` which cannot stand together."""

    def __init__(self, choices: Sequence[Options]) -> None:
        counts = [len(each.costs) for each in choices]
        self.firsts = np.concatenate(([0], np.cumsum(counts)))
        self.costs = np.concatenate([each.costs for each in choices])
        self.count = len(choices)
        owner = np.repeat(np.arange(self.count), counts)
        places = np.concatenate([each.places for each in choices])
        self.meets = _meetings(choices, places) & (owner[:, None] != owner)
        near = np.hypot(*(places[:, None] - places).T) < _APART
        self.shared = _SHARED * (near & (owner[:, None] != owner))

    def best(self) -> list[int | None]:
        """The option of each label in the best state found, by its number among the label's own."""
        dear = np.full((self.count, self.count), _MEETING)
        state = self.firsts[:-1].copy()
        best, least = state.copy(), np.inf
        for _ in range(_ROUNDS):
            moved = self._round(state, dear)
            meeting = self.meets[np.ix_(state, state)]
            worth = float(self.costs[state].sum() + 1000 * meeting.any(axis=1).sum())
            if worth < least:
                best, least = state.copy(), worth
            if not moved:
                if not meeting.any():
                    break
                dear[meeting] += _DEARER
        return self._settled(best)

    def _round(self, state: NDArray[np.int_], dear: Numbers) -> bool:
        """Takes for each label in turn what costs least beside the others; whether that changed anything."""
        moved = False
        for label in range(self.count):
            mine = slice(self.firsts[label], self.firsts[label + 1])
            among = self.meets[mine][:, state] @ dear[label] + self.shared[mine][:, state].sum(axis=1)
            chosen = self.firsts[label] + int(np.argmin(self.costs[mine] + among))
            moved |= bool(chosen != state[label])
            state[label] = chosen
        return moved

    def _settled(self, state: NDArray[np.int_]) -> list[int | None]:
        """Drops what meets most until nothing meets, then takes back what finds room, and the cheapest for each."""
        stands = np.ones(self.count, dtype=bool)
        while True:
            meeting = self.meets[np.ix_(state, state)] & stands & stands[:, None]
            if not meeting.any():
                break
            stands[int(np.argmax(meeting.sum(axis=1)))] = False
        for _ in range(3):
            for label in range(self.count):
                others = state[stands & (np.arange(self.count) != label)]
                mine = slice(self.firsts[label], self.firsts[label + 1])
                costs = self.costs[mine] + self.shared[mine][:, others].sum(axis=1)
                costs = np.where(self.meets[mine][:, others].any(axis=1), np.inf, costs)
                if np.isfinite(costs).any():
                    state[label], stands[label] = self.firsts[label] + int(np.argmin(costs)), True
        return [int(state[i] - self.firsts[i]) if stands[i] else None for i in range(self.count)]


def _meetings(choices: Sequence[Options], places: Numbers) -> NDArray[np.bool_]:
    """Which options meet: box and box, leader and box, leader and leader; (options, options)."""
    boxes = np.concatenate([each.boxes for each in choices])
    starts = np.concatenate([each.starts for each in choices])
    low, high = boxes[:, None, :2] - 2 * AIR, boxes[:, None, 2:] + 2 * AIR
    overlap = ((low < boxes[None, :, 2:]) & (boxes[None, :, :2] < high)).all(axis=2)
    grown = boxes + np.array((-CLEAR, -CLEAR, CLEAR, CLEAR))
    through = crossed(grown[:, None], starts, places)
    crossing = cross(starts[:, None], places[:, None], starts, places)
    meeting: NDArray[np.bool_] = overlap | through | through.T | crossing
    return meeting
