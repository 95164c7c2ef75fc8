"""What ails single parts. A part with several troubles is told once, under the gravest; the others are reasons there.

A roller past its limit that also loses oil is one thing to a buyer, not two. So the checks for limits, cracks, seizure,
leaks, end play and flat spots share one list of ailing parts, and each takes those of which its trouble is the gravest.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.findings.telling import Seen, observations, part_of, readings, seen
from tracksworn.assessment.model import Row, Stage
from tracksworn.assessment.sayings import Saying, Subject
from tracksworn.assessment.so_far import SoFar, once
from tracksworn.assessment.stages import stage
from tracksworn.inspection.vocabulary import ROLLERS, Component, ObservedPlace, Sign


class Trouble(StrEnum):
    """The gravest first."""

    CRACK = "crack"
    SEIZED = "seized"
    DESTROYED = "past the size at which it may fail"
    PAST_LIMIT = "past limit"
    LEAK = "leak"
    END_PLAY = "end play"
    FLAT_SPOT = "flat spot"


IDLERS: Final = frozenset({Component.FRONT_IDLER, Component.REAR_IDLER})
WHEELS: Final = ROLLERS | IDLERS | {Component.SPROCKET}
"""Parts that turn on seals and are judged singly."""

FRAME: Final = frozenset(
    {
        ObservedPlace.TRACK_FRAME,
        ObservedPlace.EQUALISER_BAR,
        ObservedPlace.PIVOT_SHAFT,
        ObservedPlace.BOGIE_PIVOT,
        ObservedPlace.RECOIL_SPRING,
        ObservedPlace.ADJUSTER_BRACKET,
    }
)

_ANYWHERE: Final = {Sign.CRACK: Trouble.CRACK, Sign.SEIZED: Trouble.SEIZED}
_ON_WHEELS: Final = {Sign.LEAK: Trouble.LEAK, Sign.END_PLAY: Trouble.END_PLAY, Sign.FLAT_SPOT: Trouble.FLAT_SPOT}
"""Oil at a sprocket comes from the final drive behind it, so it ails another part."""


@dataclass(frozen=True, slots=True)
class Ailing:
    """One part, what ails it, what was seen of that, and its row where it is near its limit or past it."""

    part: Subject
    troubles: frozenset[Trouble]
    seen: tuple[Seen, ...]
    row: Row | None = None

    @property
    def gravest(self) -> Trouble:
        """The trouble under which the part is told."""
        return next(trouble for trouble in Trouble if trouble in self.troubles)


@once
def ailing(so_far: SoFar) -> tuple[Ailing, ...]:
    """All ailing parts: those past their limit in the order of the rows, then the others as they were observed."""
    rows = {part_of(row): row for row in so_far.components if is_near_limit(row) or is_past_limit(row)}
    watched: dict[Subject, list[Seen]] = {part: [] for part, row in rows.items() if is_past_limit(row)}
    for one in seen(so_far, {*_ANYWHERE, *_ON_WHEELS}):
        watched.setdefault(whole(one.part), []).append(one)
    found = (_at(so_far, part, rows.get(part), there) for part, there in watched.items())
    return tuple(part for part in found if part.troubles)


def told_as(so_far: SoFar, trouble: Trouble) -> Iterator[tuple[Ailing, ...]]:
    """The parts that this trouble is the gravest of, those of one kind together."""
    kinds: dict[object, list[Ailing]] = {}
    for each in ailing(so_far):
        if each.gravest is trouble:
            kinds.setdefault(each.part.what, []).append(each)
    yield from map(tuple, kinds.values())


def reasons(parts: tuple[Ailing, ...]) -> tuple[Saying, ...]:
    """The figures of the parts near their limit or past it, then what was seen of them, the gravest first."""
    rows = [each.row for each in parts if each.row is not None]
    return readings(rows) + observations(one for each in parts for one in each.seen)


def whole(part: Subject) -> Subject:
    """The part without the place on it."""
    return Subject(part.what, part.side, part.number)


def is_too_much_end_play(so_far: SoFar, one: Seen) -> bool:
    """Whether end play is more than the chart allows; where either is unknown, whoever noted it thought so."""
    entry = so_far.entry(one.part.what)
    if entry is None or entry.end_play is None or one.observation.size is None:
        return True
    return exceeds(one.observation.size, entry.end_play)


def is_near_limit(row: Row) -> bool:
    """Whether the percent worn that counts is 80 and under 100."""
    return row.counted is not None and stage(row.counted) is Stage.NEAR_LIMIT


def is_past_limit(row: Row) -> bool:
    """Whether the percent worn that counts is 100 or more."""
    return row.counted is not None and stage(row.counted) is Stage.PAST_LIMIT


def is_destroyed(row: Row) -> bool:
    """Whether any size read passes the one at which the chart says that the part may fail in use."""
    scale = row.scale
    if scale is None or scale.dimensions.destroyed is None:
        return False
    growth = 1.0 if scale.limit > scale.new else -1.0
    sizes = (single.size for place in row.places for single in place.singles)
    return any(reaches(growth * (size - scale.dimensions.destroyed), 0.0) for size in sizes)


def _at(so_far: SoFar, part: Subject, row: Row | None, watched: list[Seen]) -> Ailing:
    by_observation = {one: _troubles(so_far, one) for one in watched}
    there = tuple(one for one, troubles in by_observation.items() if troubles)
    troubles = frozenset[Trouble]().union(*by_observation.values())
    if row is not None and is_past_limit(row):
        troubles |= {Trouble.DESTROYED if is_destroyed(row) else Trouble.PAST_LIMIT}
    return Ailing(part, troubles, there, row)


def _troubles(so_far: SoFar, one: Seen) -> frozenset[Trouble]:
    signs = _ANYWHERE | (_ON_WHEELS if one.part.what in WHEELS else {})
    found = {signs[sign] for sign in one.observation.seen if sign in signs}
    if one.part.what is Component.SPROCKET:
        found.discard(Trouble.LEAK)
    if Trouble.END_PLAY in found and not is_too_much_end_play(so_far, one):
        found.remove(Trouble.END_PLAY)
    return frozenset(found)
