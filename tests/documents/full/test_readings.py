"""Readings in the record: one row a component and place, left beside right, rollers as a list by position."""

from dataclasses import replace
from pathlib import Path

import pytest
from builders import about, inspection, machine, reading, sizes, unseen

from tracksworn.assessment.assess import assess
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.readings import reading_views
from tracksworn.documents.words.figures import NO_BREAK, THIN, Figures
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.model import JointTemperatures, Reading
from tracksworn.inspection.values import PerSide, Sizes, Temperatures
from tracksworn.inspection.vocabulary import Component, PartPlace, Unit

INNER, OUTER = PartPlace.INNER_TREAD, PartPlace.OUTER_TREAD
EIGHT = machine(bottom_rollers=8)


def rows(*readings: Reading, temperatures: JointTemperatures | None = None) -> list[tuple[str, str, str, str]]:
    inspected = replace(inspection(*readings, machine=EIGHT), joint_temperatures=temperatures)
    context = Context(Dossier(inspected, Path("TEST-1")), assess(inspected, None), Figures())
    views = reading_views(context)
    return [(one.part, plain(one.left), plain(one.right), plain(one.how)) for one in views]


def plain(text: str) -> str:
    return text.replace(THIN, " ").replace(NO_BREAK, " ")


def test_left_and_right_stand_side_by_side() -> None:
    links = reading(Component.LINK, (131.2, None, 130.8), unseen("mud"), "rule", joints=(3, 13, 23))
    assert rows(links) == [("Links", "131.2, –, 130.8 mm", "not seen: mud", "rule; joints 3, 13, 23")]


def test_a_side_without_an_entry_says_so() -> None:
    assert rows(reading(Component.LINK, 131.0))[0][2] == "no entry"


def test_each_place_has_its_row() -> None:
    idler = reading(Component.FRONT_IDLER, {INNER: 706.5, OUTER: 707.0}, {INNER: 708.0})
    assert [row[:3] for row in rows(idler)] == [
        ("Front idler, inner tread", "706.5 mm", "708.0 mm"),
        ("Front idler, outer tread", "707.0 mm", "no entry"),
    ]


def test_places_share_a_row_with_a_side_that_tells_none() -> None:
    idler = reading(Component.FRONT_IDLER, {INNER: 706.0, OUTER: 707.0}, about(50))
    assert [row[:3] for row in rows(idler)] == [
        ("Front idler", "inner tread: 706 mm; outer tread: 707 mm", "by eye about 50 %")
    ]


@pytest.mark.parametrize(
    ("side", "printed"),
    [
        (
            {1: 224.4, 2: 229.5, 7: 229.0, 8: 225.2, "others": unseen("guard fitted")},
            "224.4, 229.5, –, –, –, –, 229.0, 225.2 mm; 3 to 6 not seen: guard fitted",
        ),
        ({1: about(70), 8: 171.4, "others": unseen()}, "1 by eye about 70 %; 2 to 7 not seen: mud; 8: 171.4 mm"),
        ({1: (224.0, 226.0), 2: 229.5}, "1: 224.0, 226.0 mm; 2: 229.5 mm"),
        ({1: 224.0, 2: Sizes((203.2,), Unit.INCH)}, "1: 224 mm; 2: 8 in"),
        ({"others": unseen("guard")}, "1 to 8 not seen: guard"),
    ],
)
def test_rollers_stand_by_position(side: dict[int | str, object], printed: str) -> None:
    (row,) = rows(reading(Component.BOTTOM_ROLLER, side, sizes(*[230.0] * 8)))
    assert row[:2] == ("Bottom rollers", printed)


def test_gauges_and_joints_are_told_of_each_side_where_they_differ() -> None:
    made = reading(Component.BUSHING, 59.0, 9.5, ("caliper", "ultrasonic gauge"))
    made = replace(made, joints=PerSide[tuple[int, ...] | None]((4, 14), (5,)))
    assert rows(made)[0][3] == "left caliper, right ultrasonic gauge; left joints 4, 14, right joints 5"
    assert rows(reading(Component.SPROCKET, 42.0, about(50), ("caliper", "caliper")))[0][3] == "caliper"


def test_joint_temperatures_are_one_row() -> None:
    read = PerSide[Temperatures | None](Temperatures((31.0, None, 58.0)), None)
    told = JointTemperatures(read, PerSide[tuple[int, ...] | None]((3, 13, 31), None), "15 min", 18.0)
    assert rows(temperatures=told) == [
        ("Joint temperatures", "31, –, 58 °C", "no entry", "joints 3, 13, 31; after 15 min, air 18 °C")
    ]
