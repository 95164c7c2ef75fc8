"""Places all labels together, so that none meets another, no leader passes through type and no two leaders cross."""

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from tracksworn.documents.drawing.elevation.beside import Beside, beside
from tracksworn.documents.drawing.elevation.boxes import Box, Numbers, Room, cross, crossed
from tracksworn.documents.drawing.elevation.label import SMALL_DISC, Label, Sizes, Wanted, bare, on_part, shapes, titled
from tracksworn.documents.drawing.elevation.options import AIR, CLEAR, Options, either, options, options_within
from tracksworn.documents.drawing.elevation.search import Choices, choose
from tracksworn.documents.drawing.elevation.stairs import in_rows

_SHARED: Final = 8.0  # mm of leader that a place of one's own is worth
_APART: Final = 1.6  # mm between two places that leaders end at
_CROWD: Final = 6
UNDER: Final = 2.4  # mm from the ground line down to the middle of a disc
_ASIDE: Final = 9.0  # mm that such a disc stands off its place at most
_STEP: Final = 0.5
_REACHES: Final = (0.0, 1.5, 3.0, 4.5, 6.0, 8.0, 11.0)  # mm from a place to a small disc on the part


def place_labels(wanted: Sequence[Wanted], room: Room, standing: Sequence[Box], sizes: Sizes) -> tuple[Label, ...]:
    """A label for each, in the order of their numbers; those that matter more have the first choice.

    `standing` is the type that stands already. Where words find no room the number alone stands: of what is on the
    lower run under the ground line, of all else near its place or on the part itself.
    """
    labels = _within_flat(wanted, standing, sizes)
    labels = _in_rows(_without(wanted, labels), room, standing, sizes, labels)
    rest = sorted(_without(wanted, labels), key=lambda want: -want.pin.rank)
    free = [want for want in rest if not want.rows]
    every = [_anywhere(want, room, standing, sizes, crowded=len(free) > _CROWD) for want in free]
    labels = (*labels, *_place_together(every))
    for want in _without(rest, labels):
        others = beside(standing, labels)
        worded = () if want in free or want.lower else _alone(want, shapes(want.pin, sizes), room, others)
        found = worded or _under_ground(want, others) or _number_alone(want, room, others)
        labels = (*labels, *(found or _on_part(want, room, others)))
    return tuple(sorted(labels, key=lambda label: label.pin.number))


def _within_flat(wanted: Sequence[Wanted], standing: Sequence[Box], sizes: Sizes) -> tuple[Label, ...]:
    """The labels that find room inside the loop of a track whose others stand in rows above it."""
    some = sorted((want for want in wanted if want.rows and want.within), key=lambda want: -want.pin.rank)
    return _place_together([_within(want, standing, sizes) for want in some])


def _within(want: Wanted, standing: Sequence[Box], sizes: Sizes) -> Options:
    """Where there is room for no more, and none in rows above, its title alone, since the leader shows the part."""
    assert want.within is not None
    found = options_within(want, shapes(want.pin, sizes, within=True), want.within, [*standing, *want.avoid])
    if len(found.costs) or want.rows:
        return found
    return options_within(want, titled(want.pin, sizes), want.within, [*standing, *want.avoid])


def _anywhere(want: Wanted, room: Room, standing: Sequence[Box], sizes: Sizes, *, crowded: bool) -> Options:
    """What there is inside the loop, if the place is there, and round the track."""
    outside = options(want, shapes(want.pin, sizes), room, [*standing, *want.avoid], crowded=crowded)
    return either(_within(want, standing, sizes), outside) if want.within else outside


def _number_alone(want: Wanted, room: Room, others: Beside) -> tuple[Label, ...]:
    inside = _alone(want, (bare(want.pin),), want.within, others) if want.within else ()
    return inside or _alone(want, (bare(want.pin),), room, others)


def _in_rows(
    wanted: Sequence[Wanted], room: Room, standing: Sequence[Box], sizes: Sizes, labels: tuple[Label, ...]
) -> tuple[Label, ...]:
    """The labels that stand already, and those in rows above a flat track and under the figures."""
    for lower in (False, True):
        some = [want for want in wanted if want.rows and want.lower is lower]
        if some:
            labels = (*labels, *in_rows(some, room.columns, sizes, beside(standing, labels)))
    return labels


def _without(wanted: Sequence[Wanted], labels: Sequence[Label]) -> list[Wanted]:
    """Those that have no label yet."""
    numbers = {label.pin.number for label in labels}
    return [want for want in wanted if want.pin.number not in numbers]


def _under_ground(want: Wanted, others: Beside) -> tuple[Label, ...]:
    """The number under the ground line, as near below its place as the figures there allow."""
    if not want.lower:
        return ()
    place = np.asarray(want.places[:1])
    steps = np.arange(2 * int(_ASIDE / _STEP) + 1)
    aside = _STEP * ((steps + 1) // 2) * (-1.0) ** steps
    discs = np.column_stack((place[0, 0] + aside, np.full(len(steps), want.ground + UNDER)))
    return others.first_clear(bare(want.pin), discs, np.broadcast_to(place, discs.shape))


def _on_part(want: Wanted, room: Room, others: Beside) -> tuple[Label, ...]:
    """The number in a small disc on the part itself, or as near to it as what stands there allows."""
    ways = np.radians(np.arange(0, 360, 30))
    rounds = np.column_stack((np.cos(ways), np.sin(ways)))
    discs = np.concatenate([np.asarray(place) + reach * rounds for reach in _REACHES for place in want.places])
    inside = (discs > SMALL_DISC).all(axis=1) & (discs < (room.columns - SMALL_DISC, room.rows - SMALL_DISC)).all(
        axis=1
    )
    return others.first_clear(on_part(want.pin), discs[inside], discs[inside])


def _place_together(every: Sequence[Options]) -> tuple[Label, ...]:
    """One option of each, or none where it would meet others."""
    every = [each for each in every if len(each.costs)]
    if not every:
        return ()
    return tuple(each.label(i) for each, i in zip(every, choose(_choices(every)), strict=True) if i is not None)


def _alone(want: Wanted, forms: Sequence[Label], room: Room, others: Beside) -> tuple[Label, ...]:
    """One of its forms, clear of all labels that stand."""
    free = room.copy()
    for label in others.labels:
        free.take(label.box.grown(AIR))
    found = options(want, forms, free, [*(Box(*sides) for sides in others.type.tolist()), *want.avoid])
    for index in range(len(found.costs)):
        which = found.some(slice(index, index + 1))
        clear = others.first_clear(forms[int(which.which[0])], which.discs, which.places)
        if clear:
            return clear
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
