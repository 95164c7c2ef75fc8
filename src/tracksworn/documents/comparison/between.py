"""All differences of several machines, asked by their indices."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from tracksworn.assessment.comparing.difference import is_same_machine
from tracksworn.assessment.comparing.model import Difference, Gap
from tracksworn.inspection.model import Inspection

Pair = tuple[int, int, Difference]
"""The index of the first, that of the second, and the first less the second."""


@dataclass(frozen=True, slots=True)
class Between:
    """Every two of `count` machines."""

    count: int
    pairs: tuple[Pair, ...]

    @property
    def strangers(self) -> tuple[Pair, ...]:
        """Pairs of two machines."""
        return tuple(pair for pair in self.pairs if not pair[2].same_machine)

    @property
    def twins(self) -> tuple[Pair, ...]:
        """Pairs of two inspections of one machine."""
        return tuple(pair for pair in self.pairs if pair[2].same_machine)

    @property
    def successive(self) -> tuple[Pair, ...]:
        """Of these the pairs with no third inspection of that machine between them."""
        twins = self.twins
        return tuple(pair for pair in twins if not any(one[0] == pair[0] and one[1] < pair[1] for one in twins))

    def alike(self) -> tuple[Pair, ...]:
        """Two machines that cannot be told apart."""
        return tuple(pair for pair in self.strangers if (gap := pair[2].overall) is not None and not gap.told_apart)

    def apart(self) -> tuple[Pair, ...]:
        """Two machines that can be told apart."""
        return tuple(pair for pair in self.strangers if (gap := pair[2].overall) is not None and gap.told_apart)

    def others(self, index: int) -> list[tuple[int, Gap | None]]:
        """Every machine that is not the same as this one, with this one less that."""
        found: list[tuple[int, Gap | None]] = []
        for first, second, difference in self.strangers:
            gap = difference.overall
            if first == index:
                found.append((second, gap))
            elif second == index:
                found.append((first, opposite(gap)))
        return found

    def furthest(self, *, more: bool) -> int | None:
        """The one machine that is surely more, or surely less, worn than every other; None where there is none."""
        for index in range(self.count):
            gaps = [gap for _, gap in self.others(index)]
            if gaps and all(gap is not None and gap.told_apart and (gap.points > 0) is more for gap in gaps):
                return index
        return None


def between(count: int, pairs: Sequence[Pair]) -> Between:
    """The differences of so many machines; every two must be there."""
    assert len(pairs) == count * (count - 1) // 2
    return Between(count, tuple(pairs))


def in_time(inspections: Sequence[Inspection]) -> tuple[int, ...]:
    """The order of the columns: as given, but inspections of one machine change places so that the earlier is left."""
    order = list(range(len(inspections)))
    for index, inspection in enumerate(inspections):
        places = [place for place, other in enumerate(inspections) if is_same_machine(inspection, other)]
        if places[0] == index:
            for place, one in zip(places, sorted(places, key=lambda one: _when(inspections[one])), strict=True):
                order[place] = one
    return tuple(order)


def _when(inspection: Inspection) -> tuple[date, float]:
    hours = inspection.machine.hours
    return inspection.inspected, hours.machine if hours is not None else 0.0


def in_order(pairs: Sequence[Pair], order: Sequence[int]) -> tuple[Pair, ...]:
    """The differences with their indices moved as the machines are, the first of each still left of the second."""
    moved = []
    for first, second, difference in pairs:
        one, other = order.index(first), order.index(second)
        moved.append((one, other, difference) if one < other else (other, one, _turned(difference)))
    return tuple(sorted(moved, key=lambda pair: pair[:2]))


def _turned(difference: Difference) -> Difference:
    """The second less the first."""
    return Difference(
        overall=opposite(difference.overall),
        sides=tuple(replace(side, gap=opposite(side.gap)) for side in difference.sides),
        same_machine=difference.same_machine,
        agreement=tuple(replace(one, first=one.second, second=one.first) for one in difference.agreement),
    )


def opposite(gap: Gap | None) -> Gap | None:
    """The same difference, the other way round."""
    return None if gap is None else Gap(-gap.points, gap.uncertainty)
