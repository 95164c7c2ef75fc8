"""Chance that falls the same on every machine: only whole numbers and sums, no function of a mathematics library."""

from collections.abc import Mapping, Sequence
from random import Random
from typing import TypeVar

T = TypeVar("T")


class Dice:
    """Draws that follow from words alone; other words, other draws."""

    def __init__(self, *words: object) -> None:
        self._random = Random("/".join(map(str, words)))  # noqa: S311 - nothing secret

    def between(self, low: float, high: float) -> float:
        """Any figure from `low` to under `high`, each as likely."""
        return low + (high - low) * self._random.random()

    def whole(self, low: int, high: int) -> int:
        """A whole number from `low` to `high`, both included."""
        return low + int(self._random.random() * (high - low + 1))

    def chance(self, part: float) -> bool:
        """True in that part of all cases, a fraction of 1."""
        return self._random.random() < part

    def bell(self, middle: float, deviation: float) -> float:
        """Nearly normal: twelve equal draws added up have the variance 1; never further than six deviations away."""
        return middle + deviation * (sum(self._random.random() for _ in range(12)) - 6.0)

    def among(self, things: Sequence[T]) -> T:
        """One of them, each as likely."""
        return things[self.whole(0, len(things) - 1)]

    def weighed(self, things: Mapping[T, float]) -> T:
        """One of them, each as likely as it weighs."""
        left = self.between(0.0, sum(things.values()))
        for thing, weight in things.items():
            left -= weight
            if left < 0.0:
                return thing
        return thing

    def some(self, things: Sequence[T], count: int) -> tuple[T, ...]:
        """So many different ones of them, in their order; all where there are no more."""
        rest = list(range(len(things)))
        while len(rest) > count:
            del rest[self.whole(0, len(rest) - 1)]
        return tuple(things[index] for index in rest)
