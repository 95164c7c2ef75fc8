"""Whether a label keeps clear of the type that stands already, and of the other labels and their leaders."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from tracksworn.documents.drawing.elevation.boxes import Box, Numbers, cross, crossed, text_box
from tracksworn.documents.drawing.elevation.label import DISC, Label
from tracksworn.documents.drawing.elevation.options import AIR, CLEAR

_FIGURE_AIR: Final = 1.0  # mm from a disc to figures
_AT_ONCE: Final = 120  # places, of which often one of the first does
_OUTWARDS: Final = np.array((-1.0, -1.0, 1.0, 1.0))
_GROWN: Final = CLEAR * _OUTWARDS
_LEADER_AIR: Final = 2 * CLEAR  # mm from a leader to figures, which it must not seem to strike out


@dataclass(frozen=True)
class Beside:
    """What a label has to keep clear of: boxes of type and gauges (k, 4), and other labels."""

    type: Numbers
    labels: tuple[Label, ...] = ()
    leader_air: float = _LEADER_AIR

    def with_labels(self, *labels: Label) -> "Beside":
        """The same with further labels."""
        return replace(self, labels=(*self.labels, *labels))

    def first_clear(self, form: Label, discs: Numbers, places: Numbers) -> tuple[Label, ...]:
        """The first of the places (n, 2) at which a label, whose disc is at the origin, stands clear; none or one."""
        for begin in range(0, len(discs), _AT_ONCE):
            some = slice(begin, begin + _AT_ONCE)
            clear = self.clear(form, discs[some], places[some])
            if clear.any():
                index = begin + int(np.argmax(clear))
                (x, y), (px, py) = discs[index].tolist(), places[index].tolist()
                return (form.at((x, y), (px, py)),)
        return ()

    def clear(self, form: Label, discs: Numbers, places: Numbers) -> NDArray[np.bool_]:
        """For each disc (n, 2) with its leader's end (n, 2) whether it stands clear, (n)."""
        start, end = _starts(discs, places)[:, None], places[:, None]
        box, own = np.asarray(form.box.sides), _sides([text_box(text).grown(CLEAR) for text in form.texts])
        at = np.tile(discs, 2)
        every = np.concatenate((self.type, _sides([label.box for label in self.labels])))
        met = _overlap(box + at + np.array((-AIR, -AIR, AIR, AIR)), every)
        met |= crossed(every + self.leader_air * _OUTWARDS, start, end).any(axis=1)
        met |= crossed(own + at[:, None], start, end).any(axis=1)
        nearest = np.clip(discs[:, None], self.type[:, :2], self.type[:, 2:]) - discs[:, None]
        met |= (np.hypot(nearest[..., 0], nearest[..., 1]) < DISC + _FIGURE_AIR).any(axis=1)
        leaders = np.asarray([label.leader for label in self.labels]).reshape(-1, 2, 2)
        met |= cross(start, end, leaders[:, 0], leaders[:, 1]).any(axis=1)
        grown = box + at + _GROWN
        met |= crossed(grown[:, None], leaders[:, 0], leaders[:, 1]).any(axis=1)
        return np.logical_not(met)


def beside(boxes: Sequence[Box], labels: Sequence[Label] = ()) -> Beside:
    """What stands already."""
    return Beside(_sides(boxes), tuple(labels))


def _sides(boxes: Sequence[Box]) -> Numbers:
    return np.asarray([box.sides for box in boxes]).reshape(-1, 4)


def _starts(discs: Numbers, places: Numbers) -> Numbers:
    """Where the leaders begin, at the edge of the discs."""
    towards = places - discs
    starts: Numbers = discs + towards * (DISC / np.maximum(np.hypot(towards[:, 0], towards[:, 1]), DISC))[:, None]
    return starts


def _overlap(boxes: Numbers, others: Numbers) -> NDArray[np.bool_]:
    a, b = boxes[:, None], others[None]
    both = (a[..., :2] < b[..., 2:]) & (b[..., :2] < a[..., 2:])
    overlap: NDArray[np.bool_] = np.any(both[..., 0] & both[..., 1], axis=1)
    return overlap
