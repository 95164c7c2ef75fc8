"""Work that must be done together, whatever it costs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from tracksworn.assessment.plan.work import Piece
from tracksworn.inspection.prices import Work
from tracksworn.inspection.vocabulary import Component, Side

BOTH_SIDES = frozenset(
    {Component.LINK, Component.BUSHING, Component.PITCH, Component.SHOE, Component.LUG, Component.DRIVE_LUG}
)
"""A machine with one new chain pulls to one side: what runs round is worked on left and right alike.

Common practice, no source.
"""

TRACK_OFF = frozenset(
    {
        Component.LINK,
        Component.BUSHING,
        Component.PITCH,
        Component.LUG,
        Component.DRIVE_LUG,
        Component.SPROCKET,
        Component.FRONT_IDLER,
        Component.REAR_IDLER,
    }
)
"""What cannot be worked on with the track on."""

NEW_CHAIN = {Component.LINK: frozenset({Work.REPLACE}), Component.BUSHING: frozenset({Work.REPLACE, Work.TURN})}
"""Work on a chain that brings a new face of bushing to the sprocket, which a worn tooth would spoil.

Common practice, no source.
"""


@dataclass(frozen=True, slots=True)
class Job:
    """Pieces of work that go into one visit together, in the order of the forecast."""

    pieces: tuple[Piece, ...]

    @property
    def due(self) -> float:
        """Hours after which the first of them reaches its limit."""
        return min(piece.row.hours_left for piece in self.pieces)

    @property
    def off(self) -> frozenset[Side]:
        """Sides that must have their track off."""
        return frozenset(piece.row.side for piece in self.pieces if piece.row.component in TRACK_OFF)

    @property
    def per_hour(self) -> float:
        """Money thrown away for every hour that it is done before it is due."""
        return sum(piece.per_hour for piece in self.pieces)


def joined(pieces: Sequence[Piece], together: Sequence[Sequence[Component]]) -> tuple[Job, ...]:
    """All work as jobs, in the order of their first piece; `together` lists components always worked on at once.

    What goes with the same piece goes together.
    """
    group = list(range(len(pieces)))
    for (here, one), (there, other) in combinations(enumerate(pieces), 2):
        if _belong(one, other, together):
            group = [group[here] if each == group[there] else each for each in group]
    return tuple(_jobs(pieces, group))


def _jobs(pieces: Sequence[Piece], group: Sequence[int]) -> Iterator[Job]:
    for name in dict.fromkeys(group):
        yield Job(tuple(piece for piece, of in zip(pieces, group, strict=True) if of == name))


def _belong(one: Piece, other: Piece, together: Sequence[Sequence[Component]]) -> bool:
    components = {one.row.component, other.row.component}
    if any(components <= set(listed) for listed in together):
        return True
    if len(components) == 1:
        return components <= BOTH_SIDES
    same_side = one.row.side is other.row.side
    return same_side and (_goes_with_new_chain(one, other) or _goes_with_new_chain(other, one))


def _goes_with_new_chain(sprocket: Piece, chain: Piece) -> bool:
    wanted = NEW_CHAIN.get(chain.row.component, frozenset())
    return sprocket.row.component is Component.SPROCKET and chain.way in wanted
