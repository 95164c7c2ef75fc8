"""The trade's words: all of them there, and parts named as a reader would name them."""

from enum import StrEnum

import pytest

from tracksworn.assessment.model import AssumedValue, Basis, SharesFrom, Stage
from tracksworn.assessment.sayings import Severity, Subject, Topic
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.label_words import HEADINGS
from tracksworn.documents.words.language import Language
from tracksworn.inspection.model import Spot
from tracksworn.inspection.vocabulary import (
    Component,
    Evidence,
    Grade,
    Ground,
    Impact,
    Layout,
    LimitMeans,
    ObservedPlace,
    Origin,
    PartPlace,
    ShoeKind,
    Side,
    Sign,
    Suspension,
    Track,
)

ENGLISH = Language()
LEFT, RIGHT = Side.LEFT, Side.RIGHT
KINDS: tuple[type[StrEnum], ...] = (
    AssumedValue, Basis, SharesFrom, Stage, Severity, Topic, Component, Evidence, Grade, Ground, Impact, Layout,
    LimitMeans, ObservedPlace, Origin, PartPlace, ShoeKind, Side, Sign, Suspension, Track,
)  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
def test_every_word_of_the_trade_has_words_of_its_own(kind: type[StrEnum]) -> None:
    words = [labels.word(member, ENGLISH) for member in kind]
    assert len(set(words)) == len(words)
    assert all(words)


def test_every_component_has_a_heading() -> None:
    assert set(HEADINGS) == set(Component)


@pytest.mark.parametrize(
    ("subject", "name"),
    [
        (Subject(Component.LINK, RIGHT), "right links"),
        (Subject(Component.LINK, LEFT, 31), "left link at joint 31"),
        (Subject(ObservedPlace.PIN, LEFT, 31), "left pin at joint 31"),
        (Subject(Component.SHOE, RIGHT, 12), "right shoe 12"),
        (Subject(Component.BOTTOM_ROLLER, LEFT), "left bottom rollers"),
        (Subject(Component.BOTTOM_ROLLER, LEFT, 3, PartPlace.INNER_TREAD), "left bottom roller 3, inner tread"),
        (Subject(Component.BUSHING, LEFT, None, PartPlace.FORWARD_SIDE), "left bushings, forward side"),
        (Subject(Component.SPROCKET, LEFT), "left sprocket"),
        (Subject(ObservedPlace.EQUALISER_BAR), "equaliser bar"),
        (Subject(Topic.JOINT_TEMPERATURE, LEFT), "left joint temperatures"),
        (Spot(None, LEFT), "left side"),
        (Spot(None), "machine"),
    ],
)
def test_part(subject: Subject | Spot, name: str) -> None:
    assert labels.part(subject, ENGLISH) == name


WHOLE = (Component.PITCH, Component.FRONT_IDLER, Component.LINK)


def rollers(side: Side, *numbers: int) -> list[Subject]:
    return [Subject(Component.BOTTOM_ROLLER, side, number) for number in numbers]


@pytest.mark.parametrize(
    ("subjects", "names"),
    [
        (rollers(LEFT, 3), "left bottom roller 3"),
        (rollers(LEFT, 8, 1, 3), "left bottom rollers 1, 3 and 8"),
        (rollers(RIGHT, 3, 4, 5, 6), "right bottom rollers 3 to 6"),
        (rollers(LEFT, 1, 2) + rollers(RIGHT, 1, 2), "left and right bottom rollers 1 and 2"),
        (rollers(LEFT, 1) + rollers(RIGHT, 1), "left and right bottom roller 1"),
        ([Subject(Component.LINK, LEFT), Subject(Component.LINK, RIGHT)], "left and right links"),
        ([Subject(Component.LINK, LEFT), Subject(Component.SHOE, RIGHT)], "left links and right shoes"),
        ([Subject(one, RIGHT) for one in WHOLE], "right pitch, front idler and links"),
        ([Subject(one, side) for one in WHOLE for side in Side], "left and right pitch, front idlers and links"),
        ([Subject(one) for one in WHOLE], "pitch, front idler and links"),
        ([*rollers(RIGHT, 3), Subject(Component.LINK, RIGHT)], "right bottom roller 3 and right links"),
        ([Subject(ObservedPlace.PIN, LEFT, 3), Subject(ObservedPlace.PIN, LEFT, 9)], "left pins at joints 3 and 9"),
    ],
)
def test_parts_are_drawn_together(subjects: list[Subject], names: str) -> None:
    assert labels.parts(subjects, ENGLISH) == names


def test_a_lone_roller_has_no_number() -> None:
    figures = Figures(lone=frozenset({Component.TOP_ROLLER}))
    assert figures.part(Subject(Component.TOP_ROLLER, LEFT, 1)) == "left top roller"
    assert figures.parts([Subject(Component.TOP_ROLLER, side, 1) for side in Side]) == "left and right top rollers"
    assert figures.part(Subject(Component.BOTTOM_ROLLER, LEFT, 1)) == "left bottom roller 1"


@pytest.mark.parametrize(
    ("numbers", "text"), [((5,), "5"), ((1, 2), "1 and 2"), ((1, 2, 3), "1 to 3"), ((9, 1, 4, 5, 6), "1, 4 to 6 and 9")]
)
def test_runs(numbers: tuple[int, ...], text: str) -> None:
    assert labels.runs(numbers, ENGLISH) == text
