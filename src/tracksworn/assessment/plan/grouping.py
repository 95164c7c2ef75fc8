"""The cheapest way to spread jobs over visits, found exactly by dynamic programming.

A visit costs its set-up and, once for each side, the labour of taking the track off; it happens when the first of its
jobs is due, and every other job in it is done so much too early. The sum of all that is least. The jobs are taken as
they fall due, so a visit's time is known as soon as it begins. What a later job pays in a visit depends on nothing but
the visit's time and on the tracks that are off in it already. Hence no job need ever go into a visit when a later one
has the same tracks off, or more: whatever would still come to the earlier visit costs no more in the later one. So of
all visits begun only four can matter: the latest, the latest with the left track off, with the right, and with both.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol, TypeVar

from tracksworn.assessment.boundaries import TIE
from tracksworn.inspection.vocabulary import Side


class ToDo(Protocol):
    """What grouping must know of a job. Hours from the inspection; money."""

    @property
    def due(self) -> float:
        """When it must be done."""

    @property
    def off(self) -> frozenset[Side]:
        """Which tracks must be off for it."""

    @property
    def per_hour(self) -> float:
        """What every hour that it is done too early costs, never negative."""


AnyJob = TypeVar("AnyJob", bound=ToDo)


@dataclass(frozen=True, slots=True)
class _Price:
    """Money for a visit, and in it for each side with its track off."""

    visit: float
    track_off: float

    def tracks(self, off: int) -> float:
        """For taking these tracks off."""
        return self.track_off * off.bit_count()


_LEFT, _RIGHT = 1, 2
_TRACKS = (0, _LEFT, _RIGHT, _LEFT | _RIGHT)
"""Which tracks are off, bit by bit."""


@dataclass(frozen=True, slots=True)
class _Path:
    """One way to have placed the jobs so far. `at` and `number` are by the tracks that must be off, as in `_TRACKS`."""

    cost: float = 0.0
    visits: int = 0
    at: tuple[float, ...] = (-math.inf,) * 4  # hours of the latest visit with these tracks off, or more
    number: tuple[int, ...] = (-1,) * 4  # which visit that is, counted as they begin
    off: int = 0  # tracks off in the latest visit
    into: int = -1  # the visit that the last job went into
    before: "_Path | None" = None

    def onward(self, job: ToDo, price: _Price) -> "Iterator[_Path]":
        """The job into each visit that may serve it best, or into a new one."""
        needs = sum(_LEFT if side is Side.LEFT else _RIGHT for side in job.off)
        begun = {self.number[off]: off for off in _TRACKS if self.number[off] >= 0}
        for number, off in begun.items():
            too_early = job.per_hour * (job.due - self.at[off])
            yield self._placed(number, self.at[off], off | needs, price.tracks(needs & ~off) + too_early)
        yield self._placed(self.visits, job.due, needs, price.visit + price.tracks(needs))

    def _placed(self, number: int, at: float, off: int, cost: float) -> "_Path":
        better = [tracks & off == tracks and at >= self.at[tracks] for tracks in _TRACKS]
        return _Path(
            self.cost + cost,
            max(self.visits, number + 1),
            tuple(at if now else before for now, before in zip(better, self.at, strict=True)),
            tuple(number if now else before for now, before in zip(better, self.number, strict=True)),
            off if better[0] else self.off,
            number,
            self,
        )

    def beats(self, other: "_Path", price: _Price) -> bool:
        """Whether nothing that the other path may come to is better than what this one may come to.

        What the other has and this one lacks, this one may pay for now: tracks off in its latest visit, or a new visit.
        """
        lacking = 0
        for tracks, mine, its in zip(_TRACKS, self.at, other.at, strict=True):
            if mine < its:
                lacking |= tracks
        if self.at[0] < other.at[0]:
            return self.cost + price.visit + price.tracks(lacking) < other.cost - TIE
        if lacking:
            return self.cost + price.tracks(lacking & ~self.off) < other.cost - TIE
        return self.cost < other.cost - TIE or (self.cost <= other.cost and self.visits <= other.visits)


def grouped(jobs: Sequence[AnyJob], set_up: float, track_off: float) -> tuple[tuple[AnyJob, ...], ...]:
    """The jobs by visit, each visit's in their order, visits as they happen. `track_off` is money for one side.

    Of groupings that cost the same within TIE the one with fewest visits is taken; of those the one found first, where
    jobs are taken as they fall due, of equals in the order given, and each tries the latest visit, then that with the
    left track off, with the right, with both, and a new one last.
    """
    price = _Price(set_up, track_off)
    in_turn = sorted(range(len(jobs)), key=lambda index: jobs[index].due)
    paths = [_Path()]
    for index in in_turn:
        onward = [path for before in paths for path in before.onward(jobs[index], price)]
        paths = _worth_following(onward, price)
    least = min(path.cost for path in paths)
    best = min((path for path in paths if path.cost <= least + TIE), key=lambda path: path.visits)
    into = dict(zip(in_turn, reversed(list(_numbers(best))), strict=True))
    return tuple(tuple(job for index, job in enumerate(jobs) if into[index] == number) for number in range(best.visits))


def _worth_following(paths: Iterable[_Path], price: _Price) -> list[_Path]:
    """The paths that may still be best, cheapest first, of equal ones the first found."""
    kept: list[_Path] = []
    for path in sorted(paths, key=lambda path: path.cost):
        if not any(other.beats(path, price) for other in kept):
            kept.append(path)
    return kept


def _numbers(path: _Path) -> Iterator[int]:
    """The visit that each job went into, the last job first."""
    while path.before is not None:
        yield path.into
        path = path.before
