"""Attained coverage of hours left: the short version of `hours_coverage.py`, with room for chance."""

import math

import pytest
from bench.hours_coverage import KINDS, rate_of_hits

from tracksworn.assessment.decisions import RateFrom

COUNT = 400


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS, ids=str)
def test_hours_left_hold_the_truth_as_often_as_they_say(kind: RateFrom) -> None:
    """95 %, with four standard errors of room."""
    room = 4 * math.sqrt(0.95 * 0.05 / COUNT)
    assert rate_of_hits(kind, COUNT, seed=1) == pytest.approx(0.95, abs=room)
