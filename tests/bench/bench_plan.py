"""How long thirty jobs take to be grouped into visits, as a ratio to trying every grouping of seven."""

import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from random import Random
from statistics import median

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from assessment.plan.test_grouping import BOTH, LEFT, NONE, RIGHT, Job, best_of_all
from bench.turns import took

from tracksworn.assessment.plan.grouping import grouped

JOBS = 30
ALL_TRIED = 7
ROUNDS = 5
DRAWS = 40
"""Invented sets of jobs, from such as nearly all share one visit to such as nearly all have their own."""


@dataclass(frozen=True)
class Draw:
    """Jobs with what a visit and a track off cost."""

    jobs: list[Job]
    set_up: float
    track_off: float


def draw(seed: int, count: int) -> Draw:
    """Jobs over 3 000 hours; what an hour costs differs a thousandfold from draw to draw."""
    chance = Random(seed)
    dear = 10 ** chance.uniform(-2.0, 1.0)
    jobs = [
        Job(chance.uniform(0.0, 3000.0), chance.choice((NONE, LEFT, RIGHT, BOTH)), dear * chance.random(), number)
        for number in range(count)
    ]
    return Draw(jobs, chance.choice((0.0, 500.0, 2000.0)), chance.choice((200.0, 600.0, 2000.0)))


def shortest(find: Callable[[list[Job], float, float], object], one: Draw) -> float:
    """Milliseconds, the shortest of all rounds."""
    return min(took(lambda: find(one.jobs, one.set_up, one.track_off)).clock for _ in range(ROUNDS))


def main() -> None:
    """Print the median and the longest of all draws; each draw's time is its shortest."""
    ways: dict[int, Callable[[list[Job], float, float], object]] = {ALL_TRIED: best_of_all, JOBS: grouped}
    times = {count: [shortest(find, draw(seed, count)) for seed in range(DRAWS)] for count, find in ways.items()}
    reference = f"every grouping of {ALL_TRIED} jobs"
    print(f"| plan, {DRAWS} draws, the shortest of {ROUNDS} rounds | median ms | longest ms | × {reference} |")
    print("| --- | --- | --- | --- |")
    for count, name in ((ALL_TRIED, reference), (JOBS, f"the best grouping of {JOBS} jobs")):
        ratio = median(times[count]) / median(times[ALL_TRIED])
        print(f"| {name} | {median(times[count]):.1f} | {max(times[count]):.1f} | {ratio:.2f} |")
    print()


if __name__ == "__main__":
    main()
