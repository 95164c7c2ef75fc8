"""Chance that follows from words alone."""

from collections import Counter
from statistics import fmean, stdev

import pytest

from tracksworn.batch.sample.dice import Dice

PINNED = (362885380, "0x1.ce24935040720p-1", "-0x1.9e77a34aec914p+0")


def test_the_same_words_fall_the_same_and_other_words_otherwise() -> None:
    first, again, other = (Dice(*words) for words in ((7, "x"), (7, "x"), (7, "y")))
    drawn = [first.between(0.0, 1.0) for _ in range(5)]
    assert drawn == [again.between(0.0, 1.0) for _ in range(5)]
    assert drawn != [other.between(0.0, 1.0) for _ in range(5)]


def test_a_draw_is_the_same_on_every_machine() -> None:
    dice = Dice("pinned")
    drawn = (dice.whole(0, 10**9), dice.between(0.0, 1.0).hex(), dice.bell(0.0, 1.0).hex())
    assert drawn == PINNED


def test_whole_numbers_reach_both_ends_and_no_further() -> None:
    dice = Dice("whole")
    assert set(Counter(dice.whole(3, 6) for _ in range(200))) == {3, 4, 5, 6}


def test_the_bell_has_its_middle_and_its_deviation() -> None:
    dice = Dice("bell")
    drawn = [dice.bell(10.0, 2.0) for _ in range(4000)]
    assert fmean(drawn) == pytest.approx(10.0, abs=0.15)
    assert stdev(drawn) == pytest.approx(2.0, abs=0.1)


def test_weights_say_how_often() -> None:
    dice = Dice("weights")
    drawn = Counter(dice.weighed({"often": 9.0, "seldom": 1.0, "never": 0.0}) for _ in range(2000))
    assert drawn["seldom"] == pytest.approx(200, abs=50)
    assert drawn["never"] == 0
