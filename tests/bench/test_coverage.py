"""Attained coverage: the short version of `coverage.py`, with room for chance."""

import math

import pytest
from bench.coverage import MISS_RATE, run

COUNT = 200


@pytest.mark.slow
def test_intervals_hold_the_truth_as_often_as_they_say() -> None:
    """94 to 97 % over the pool, no class under 93 %, each with four standard errors of room.

    Intervals of one inspection share errors, so the number of inspections, not of intervals, sets the room of a class.
    """
    tally = run(COUNT, seed=1)
    room = 4 * math.sqrt(0.95 * 0.05 / COUNT)
    assert 0.94 - room / 4 <= tally.pool <= 0.97 + room / 4
    low = {name: tally.rate(name) for name in tally.trials if tally.rate(name) < 0.93 - room}
    assert low == {}
    assert min(tally.trials.values()) > 50
    assert tally.rate("by eye") == pytest.approx(1.0 - MISS_RATE, abs=0.03)  # the simulation's own statement
