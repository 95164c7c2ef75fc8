"""Stages, turns and what is lost, in words."""

import pytest
from builders import about, at_least, at_most, by_eye

from tracksworn.assessment.model import Basis, Row, Turning
from tracksworn.assessment.stages import stage
from tracksworn.documents.words.figures import NO_BREAK, Figures
from tracksworn.documents.words.language import Language
from tracksworn.documents.words.worn import figure, lost_words, stage_words, turning_words, with_interval
from tracksworn.inspection.values import ByEye
from tracksworn.inspection.vocabulary import Component, LimitMeans, Side

ENGLISH = Language()


def measured(percent: float, low: float, high: float, component: Component = Component.LINK) -> Row:
    return Row(component, Side.LEFT, None, Basis.MEASURED, None, 4, 131.0, percent, low, high, stage=stage(percent))


def judged(said: ByEye, percent: float | None, low: float | None, high: float | None) -> Row:
    reached = None if percent is None else stage(percent)
    return Row(
        Component.BUSHING,
        Side.LEFT,
        None,
        Basis.BY_EYE,
        percent_worn=percent,
        low=low,
        high=high,
        stage=reached,
        estimate=said,
    )


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (measured(79.3, 75.8, 82.9), "second half, possibly near limit"),
        (measured(42.0, 33.5, 49.6), "first half"),
        (measured(52.0, 48.0, 56.0), "second half"),  # never down
        (measured(78.0, 55.0, 101.0), "second half, possibly past limit"),
        (measured(97.0, 92.0, 100.0), "near limit, possibly past limit"),
        (measured(107.0, 102.0, 112.0), "past limit"),
        (judged(by_eye(40, 60), 50.0, 40.0, 60.0), "second half"),
        (judged(about(45), 45.0, 35.0, 55.0), "first half, possibly second half"),
        (judged(at_least(50), None, 50.0, None), "second half or beyond"),
        (judged(at_least(100), None, 100.0, None), "past limit"),
        (judged(at_most(30), None, None, 30.0), "first half"),
        (judged(at_most(60), None, None, 60.0), "second half at most"),
        (Row(Component.LINK, Side.LEFT, None, Basis.NOT_SEEN), ""),
    ],
)
def test_stage_words(row: Row, words: str) -> None:
    assert stage_words(row, ENGLISH) == words


def test_a_figure_in_a_sentence_says_how_it_was_had() -> None:
    assert with_interval(measured(79.3, 75.8, 82.9), Figures()) == f"79{NO_BREAK}% (75 to 83)"
    assert with_interval(judged(at_least(50), None, 50.0, None), Figures()) == f"at least 50{NO_BREAK}%, by eye"
    assert figure(Row(Component.LINK, Side.LEFT, None, Basis.NOT_SEEN), Figures()) == "–"


@pytest.mark.parametrize(
    ("turning", "words"),
    [
        (Turning(1, 0, known=True), "first side, life used 20 to 30 %"),
        (Turning(1, 1, known=True), "second side, no turn left, life used 70 to 80 %"),
        (Turning(1, 1, known=False), "side unknown, no turn counted, life used 70 to 80 %"),
        (Turning(0, 0, known=True), "not to be turned, life used 40 to 60 %"),
        (Turning(2, 1, known=True), "second side, life used 46 to 54 %"),
    ],
)
def test_the_life_of_a_bushing_by_eye_is_a_range(turning: Turning, words: str) -> None:
    row = judged(by_eye(40, 60), 50.0, 40.0, 60.0)
    assert turning_words(row, turning, Figures()).replace(NO_BREAK, " ") == words


def test_what_is_lost_is_said_only_past_the_limit_beyond_doubt() -> None:
    assert lost_words(measured(107.0, 102.0, 112.0), LimitMeans.TURN, ENGLISH) == "can no longer be turned"
    assert lost_words(measured(101.0, 96.0, 106.0), LimitMeans.TURN, ENGLISH) == ""
    assert lost_words(measured(99.0, 94.0, 104.0), LimitMeans.TURN, ENGLISH) == ""
    assert lost_words(measured(107.0, 102.0, 112.0), None, ENGLISH) == ""
