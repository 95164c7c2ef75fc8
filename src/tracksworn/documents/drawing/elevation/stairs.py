"""Labels in rows beside a flat track: in the order of their places, in steps of one row where they stand close.

Within a step the labels stand one above the other, each a disc further along than the one above it, so that no leader
passes through a label. Steps come where neighbours would push each other far from their places.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

import numpy as np

from tracksworn.documents.drawing.elevation.beside import Beside
from tracksworn.documents.drawing.elevation.label import DISC, Label, Sizes, Wanted, in_a_row
from tracksworn.documents.drawing.lettering import pooled

_STEP: Final = 2 * DISC + 1.3  # mm from disc to disc within a step
_AIR: Final = 2.2  # mm between labels of one row
_ROW: Final = 3.0  # mm aside that a row further up is worth
_EDGE: Final = 0.6
_LEADER_AIR: Final = 1.4  # mm from a leader to a figure by choice: closer, it reads as a part of it
_SHIFTS: Final = np.asarray(sorted((0.5 * k for k in range(-18, 19)), key=abs))  # mm, where type is in the way
_FEW: Final = 8  # labels up to which every place to turn from one reading direction to the other is tried


@dataclass(frozen=True)
class _Step:
    """Labels one above the other, from the left; the text of all is on the same side of the disc."""

    labels: tuple[Label, ...]
    rightwards: bool

    @property
    def before(self) -> float:
        """From its left edge to its first disc."""
        return max(-label.box.left - _STEP * k for k, label in enumerate(self.labels))

    @property
    def after(self) -> float:
        """From its last disc to its right edge."""
        last = len(self.labels) - 1
        return max(label.box.right - _STEP * (last - k) for k, label in enumerate(self.labels))

    @property
    def rows(self) -> range:
        """The row of each: the text of the upper ones runs over the lower discs."""
        count = len(self.labels)
        return range(count - 1, -1, -1) if self.rightwards else range(count)


@dataclass(frozen=True)
class _Stand:
    steps: tuple[_Step, ...]
    at: tuple[float, ...]
    cost: float


def in_rows(wanted: Sequence[Wanted], width: float, sizes: Sizes, others: Beside) -> tuple[Label, ...]:
    """Those of the labels that find room in their rows, which are the same for all, clear of what stands already."""
    low = [want for want in wanted if in_a_row(want.pin, sizes)]
    if not low:
        return ()
    ordered, rows = sorted(low, key=lambda want: want.places[0][0]), wanted[0].rows
    stand = _best(ordered, len(rows), width, sizes)
    while stand is None:
        ordered.remove(min(ordered, key=lambda want: (want.pin.rank, -want.pin.number)))
        if not ordered:
            return ()
        stand = _best(ordered, len(rows), width, sizes)
    labels: tuple[Label, ...] = ()
    chosen = [(label, rows[row]) for step in stand.steps for label, row in zip(step.labels, step.rows, strict=True)]
    for want, (label, height), x in zip(ordered, chosen, stand.at, strict=True):
        labels = (*labels, *_standing(want, label, (x, height), width, others.with_labels(*labels)))
    return labels


def _standing(want: Wanted, label: Label, at: tuple[float, float], width: float, others: Beside) -> tuple[Label, ...]:
    """The label there, or a little aside, or pointing to another place of its part, so that it stands clear."""
    across = at[0] + _SHIFTS
    across = across[(across + label.box.left >= _EDGE) & (across + label.box.right <= width - _EDGE)]
    count = len(want.places)
    discs = np.column_stack((np.repeat(across, count), np.full(len(across) * count, at[1])))
    places = np.tile(np.asarray(want.places), (len(across), 1))
    avoid = np.asarray([box.sides for box in want.avoid]).reshape(-1, 4)
    narrow = replace(others, type=np.concatenate((others.type, avoid)))
    wide = replace(narrow, leader_air=_LEADER_AIR)
    return wide.first_clear(label, discs, places) or narrow.first_clear(label, discs, places)


def _best(wanted: Sequence[Wanted], rows: int, width: float, sizes: Sizes) -> _Stand | None:
    """The cheapest way to stand, over where the text turns from one side of the discs to the other."""
    both = [in_a_row(want.pin, sizes) for want in wanted]
    anchors = [want.places[0][0] for want in wanted]
    count = len(wanted)
    turns = range(count + 1) if count <= _FEW else (0, count // 2, count)
    stands = [
        _stand([pair[(k < turn) is first] for k, pair in enumerate(both)], anchors, rows, width, turn, first=first)
        for turn in turns
        for first in (True, False)
    ]
    return min((one for one in stands if one), key=lambda one: one.cost, default=None)


def _stand(
    labels: Sequence[Label], anchors: Sequence[float], rows: int, width: float, turn: int, *, first: bool
) -> _Stand | None:
    """Joins neighbouring labels into steps as long as that brings all nearer to their places.

    `first`: whether those before the turn are the ones with the text to the left of their discs.
    """
    steps = tuple(_Step((label,), (k < turn) is not first) for k, label in enumerate(labels))
    best = _placed(steps, anchors, width)
    while best is None:
        steps = next(iter(_joined(steps, rows)), ())
        if not steps:
            return None
        best = _placed(steps, anchors, width)
    while True:
        found = [_placed(joined, anchors, width) for joined in _joined(best.steps, rows)]
        cheapest = min((one for one in found if one), key=lambda one: one.cost, default=None)
        if cheapest is None or cheapest.cost >= best.cost:
            return best
        best = cheapest


def _joined(steps: Sequence[_Step], rows: int) -> Iterator[tuple[_Step, ...]]:
    """The same with two neighbours as one step, in every way that the rows allow, the shortest first."""
    pairs = sorted(range(len(steps) - 1), key=lambda k: len(steps[k].labels) + len(steps[k + 1].labels))
    for k in pairs:
        a, b = steps[k], steps[k + 1]
        if a.rightwards is b.rightwards and len(a.labels) + len(b.labels) <= rows:
            yield (*steps[:k], _Step(a.labels + b.labels, a.rightwards), *steps[k + 2 :])


def _placed(steps: Sequence[_Step], anchors: Sequence[float], width: float) -> _Stand | None:
    """The discs as near to their places as the steps allow; None where the row is too short for them."""
    gaps: list[float] = []
    for k, step in enumerate(steps):
        gaps += [_STEP] * (len(step.labels) - 1)
        if k + 1 < len(steps):
            gaps.append(step.after + steps[k + 1].before + _AIR)
    labels = [label for step in steps for label in step.labels]
    at = pooled(anchors, gaps)
    high = width - _EDGE
    for k in range(len(at) - 1, -1, -1):
        right = high - labels[k].box.right
        at[k] = min(at[k], right if k == len(at) - 1 else min(right, at[k + 1] - gaps[k]))
    for k, label in enumerate(labels):
        left = _EDGE - label.box.left
        at[k] = max(at[k], left if k == 0 else max(left, at[k - 1] + gaps[k - 1]))
    if any(x + label.box.right > high + 1e-6 for x, label in zip(at, labels, strict=True)):
        return None
    if any(b - a < gap - 1e-6 for (a, b), gap in zip(pairwise(at), gaps, strict=True)):
        return None
    aside = sum(abs(x - anchor) for x, anchor in zip(at, anchors, strict=True))
    higher = sum(row for step in steps for row in step.rows)
    return _Stand(tuple(steps), tuple(at), aside + _ROW * higher)
