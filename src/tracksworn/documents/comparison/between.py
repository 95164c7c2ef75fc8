"""All differences of several machines, asked by their indices."""

from collections.abc import Sequence
from dataclasses import dataclass

from tracksworn.assessment.comparing.model import Difference, Gap

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
                found.append((first, None if gap is None else Gap(-gap.points, gap.uncertainty)))
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
