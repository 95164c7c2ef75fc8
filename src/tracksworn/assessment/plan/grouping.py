"""The cheapest way to spread jobs over visits, found exactly by dynamic programming.

A visit costs its set-up and, once for each side, the labour of taking the track off; it happens when the first of its
jobs is due, and every other job in it is done so much too early. The sum of all that is least. The jobs are taken as
they fall due, so a visit's time is known as soon as it begins. What a later job pays in a visit depends on nothing but
the visit's time and on the tracks that are off in it already. Hence no job need ever go into a visit when a later one
has the same tracks off, or more: whatever would still come to the earlier visit costs no more in the later one. So of
all visits begun only four can matter: the latest, the latest with the left track off, with the right, and with both.
"""

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
class _Open:
    """A visit begun, that a later job may still go into."""

    number: int
    at: float
    off: frozenset[Side]

    def serves(self, other: "_Open") -> bool:
        """Whether whatever goes into the other visit may as well go into this one."""
        return self.at >= other.at and self.off >= other.off


@dataclass(frozen=True, slots=True)
class _Path:
    """One way to have placed the jobs so far."""

    cost: float
    visits: int
    open: tuple[_Open, ...]  # latest first, none served by another
    into: int = 0  # the number of the visit that the last job went into
    before: "_Path | None" = None

    def into_visit(self, visit: _Open, cost: float) -> "_Path":
        """The path on from here with one more job in that visit, as the visit is then, at that cost."""
        others = tuple(each for each in self.open if each.number != visit.number and not visit.serves(each))
        begun = max(self.visits, visit.number + 1)
        latest_first = sorted((visit, *others), key=lambda each: (-each.at, -each.number))
        return _Path(self.cost + cost, begun, tuple(latest_first), visit.number, self)

    def beats(self, other: "_Path") -> bool:
        """Whether nothing that the other path may come to is better than what this one may come to."""
        cheaper = self.cost < other.cost - TIE or (self.cost <= other.cost and self.visits <= other.visits)
        return cheaper and all(any(mine.serves(each) for mine in self.open) for each in other.open)


def grouped(jobs: Sequence[AnyJob], set_up: float, track_off: float) -> tuple[tuple[AnyJob, ...], ...]:
    """The jobs by visit, each visit's in their order, visits as they happen. `track_off` is money for one side.

    Of groupings that cost the same within TIE the one with fewest visits is taken; of those the one found first, where
    jobs are taken as they fall due, of equals in the order given, and each tries later visits before earlier ones and
    a new one last.
    """
    in_turn = sorted(range(len(jobs)), key=lambda index: jobs[index].due)
    paths = [_Path(0.0, 0, ())]
    for index in in_turn:
        onward = [path for before in paths for path in _continued(before, jobs[index], set_up, track_off)]
        paths = _worth_following(onward, set_up + len(Side) * track_off)
    least = min(path.cost for path in paths)
    best = min((path for path in paths if path.cost <= least + TIE), key=lambda path: path.visits)
    visits = list(reversed(list(_numbers(best))))
    into = dict(zip(in_turn, visits, strict=True))
    return tuple(tuple(job for index, job in enumerate(jobs) if into[index] == number) for number in range(best.visits))


def _continued(path: _Path, job: ToDo, set_up: float, track_off: float) -> Iterator[_Path]:
    """The job into each visit that may serve it best, or into a new one."""
    for visit in path.open:
        cost = track_off * len(job.off - visit.off) + job.per_hour * (job.due - visit.at)
        yield path.into_visit(_Open(visit.number, visit.at, visit.off | job.off), cost)
    yield path.into_visit(_Open(path.visits, job.due, job.off), set_up + track_off * len(job.off))


def _worth_following(paths: Iterable[_Path], anew: float) -> list[_Path]:
    """The paths that may still be best, cheapest first.

    A path dearer than another by more than `anew` never is: with a visit begun anew and both tracks off, the other
    one has all that this one has.
    """
    in_order = sorted(paths, key=lambda path: path.cost)
    kept: list[_Path] = []
    for path in in_order:
        if path.cost > in_order[0].cost + anew + TIE:
            break
        if not any(other.beats(path) for other in kept):
            kept.append(path)
    return kept


def _numbers(path: _Path) -> Iterator[int]:
    """The visit that each job went into, the last job first."""
    while path.before is not None:
        yield path.into
        path = path.before
