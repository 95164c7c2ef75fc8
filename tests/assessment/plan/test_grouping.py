"""The grouping of jobs into visits against every grouping that there is."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracksworn.assessment.plan.grouping import grouped
from tracksworn.inspection.vocabulary import Side

NONE = frozenset[Side]()
LEFT, RIGHT, BOTH = frozenset({Side.LEFT}), frozenset({Side.RIGHT}), frozenset(Side)


@dataclass(frozen=True)
class Job:
    due: float
    off: frozenset[Side] = NONE
    per_hour: float = 0.0
    name: int = 0


Groups = Sequence[Sequence[Job]]


def cost(groups: Groups, set_up: float, track_off: float) -> float:
    """The sum that a plan makes least, visit by visit, as the rule states it."""
    total = 0.0
    for group in groups:
        first = min(job.due for job in group)
        sides = {side for job in group for side in job.off}
        total += set_up + track_off * len(sides) + math.fsum(job.per_hour * (job.due - first) for job in group)
    return total


def every_grouping(jobs: Sequence[Job]) -> Iterator[list[list[Job]]]:
    """All set partitions."""
    if not jobs:
        yield []
        return
    first, *others = jobs
    for groups in every_grouping(others):
        yield [[first], *groups]
        for index, group in enumerate(groups):
            yield [*groups[:index], [first, *group], *groups[index + 1 :]]


def best_of_all(jobs: Sequence[Job], set_up: float, track_off: float) -> tuple[float, int]:
    """The least cost of any grouping, and the fewest visits at that cost."""
    known = [(cost(groups, set_up, track_off), len(groups)) for groups in every_grouping(jobs)]
    least = min(known)[0]
    return least, min(visits for sum_of_all, visits in known if sum_of_all <= least + 1e-9)


def jobs(most: int) -> st.SearchStrategy[list[Job]]:
    """Jobs with few different hours and prices, so that ties, noughts and sharing are common."""
    hours = st.sampled_from((0.0, 0.0, 1.0, 2.0, 3.0, 5.0, 8.0)) | st.floats(0.0, 10.0)
    rates = st.sampled_from((0.0, 0.0, 0.5, 1.0, 2.0)) | st.floats(0.0, 3.0)
    one = st.builds(Job, hours, st.sampled_from((NONE, LEFT, RIGHT, BOTH)), rates, st.integers(0, 10**6))
    return st.lists(one, min_size=1, max_size=most)


amounts = st.sampled_from((0.0, 1.0, 2.0, 5.0)) | st.floats(0.0, 12.0)


def hold_against_every_grouping(todo: list[Job], set_up: float, track_off: float) -> None:
    groups = grouped(todo, set_up, track_off)
    least, visits = best_of_all(todo, set_up, track_off)
    assert cost(groups, set_up, track_off) == pytest.approx(least, abs=1e-9)
    assert len(groups) == visits


@settings(max_examples=50)
@given(jobs(5), amounts, amounts)
def test_no_grouping_is_better(todo: list[Job], set_up: float, track_off: float) -> None:
    hold_against_every_grouping(todo, set_up, track_off)


@pytest.mark.slow
@settings(max_examples=150)
@given(jobs(8), amounts, amounts)
def test_no_grouping_of_eight_is_better(todo: list[Job], set_up: float, track_off: float) -> None:
    hold_against_every_grouping(todo, set_up, track_off)


@given(jobs(12), amounts, amounts)
def test_every_job_is_done_once_and_visits_follow_each_other(todo: list[Job], set_up: float, track_off: float) -> None:
    groups = grouped(todo, set_up, track_off)
    assert sorted((job.due, job.name) for group in groups for job in group) == sorted(
        (job.due, job.name) for job in todo
    )
    begun = [min(job.due for job in group) for group in groups]
    assert begun == sorted(begun)


@given(jobs(12), amounts, amounts)
def test_never_dearer_than_one_visit_each_nor_than_one_for_all(
    todo: list[Job], set_up: float, track_off: float
) -> None:
    found = cost(grouped(todo, set_up, track_off), set_up, track_off)
    assert found <= cost([[job] for job in todo], set_up, track_off) + 1e-9
    assert found <= cost([todo], set_up, track_off) + 1e-9


@given(jobs(9), amounts, amounts, st.randoms(use_true_random=False))
def test_the_order_in_which_jobs_are_told_changes_neither_cost_nor_visits(
    todo: list[Job], set_up: float, track_off: float, chance: Random
) -> None:
    shuffled = todo.copy()
    chance.shuffle(shuffled)
    here, there = grouped(todo, set_up, track_off), grouped(shuffled, set_up, track_off)
    assert cost(here, set_up, track_off) == pytest.approx(cost(there, set_up, track_off), abs=1e-9)
    assert len(here) == len(there)


@given(jobs(9), amounts, amounts)
def test_sides_may_change_places(todo: list[Job], set_up: float, track_off: float) -> None:
    mirrored = [Job(job.due, frozenset(side.other for side in job.off), job.per_hour) for job in todo]
    here, there = grouped(todo, set_up, track_off), grouped(mirrored, set_up, track_off)
    assert cost(here, set_up, track_off) == pytest.approx(cost(there, set_up, track_off), abs=1e-9)


def test_no_work_needs_no_visit() -> None:
    assert grouped([], 100.0, 50.0) == ()


def test_what_is_due_at_once_is_one_visit() -> None:
    """Even where a visit costs nothing: of equals the fewest visits."""
    todo = [Job(0.0, NONE, 1.0), Job(0.0, LEFT, 1.0), Job(0.0, RIGHT, 1.0)]
    assert grouped(todo, 0.0, 0.0) == (tuple(todo),)


def test_consecutive_work_is_not_always_best() -> None:
    """The roller between two jobs that share a track off is done on its own."""
    first, roller, last = Job(100.0, LEFT, 0.1), Job(150.0, NONE, 50.0), Job(200.0, LEFT, 0.1)
    assert grouped([first, roller, last], 500.0, 2000.0) == ((first, last), (roller,))


def test_a_track_may_be_taken_off_in_an_earlier_visit_for_what_is_yet_to_come() -> None:
    """The second left job pays for its track in the first visit, where the right one is off: then the last is free.

    The visit between would have been nearer for it, but no later visit then has both tracks off.
    """
    right, roller, left, both = Job(0.0, RIGHT, 0.0), Job(10.0, NONE, 60.0), Job(20.0, LEFT, 1.0), Job(30.0, BOTH, 1.0)
    assert grouped([right, roller, left, both], 500.0, 400.0) == ((right, left, both), (roller,))


def test_of_equal_cost_the_fewer_visits() -> None:
    """To throw away ten hours costs just what a second visit costs."""
    one, other = Job(0.0, NONE, 1.0), Job(10.0, NONE, 1.0)
    assert grouped([one, other], 10.0, 0.0) == ((one, other),)
    assert grouped([one, other], 10.0 - 1e-6, 0.0) == ((one,), (other,))
