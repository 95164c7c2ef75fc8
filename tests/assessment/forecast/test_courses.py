"""The course of every governing part over its inspections."""

from dataclasses import replace

import pytest
from builders import about, at_least, by_eye, chart, wears
from histories import LINKS, fitted_at, walk, worn

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import Course
from tracksworn.inspection.model import Hours, Inspection
from tracksworn.inspection.vocabulary import Component, Evidence, PartPlace, Side

FITTED = {Component.LINK: fitted_at(4500.0)}


def courses_of(now: Inspection, *earlier: Inspection) -> tuple[Course, ...]:
    return assess(now, LINKS, earlier=earlier).courses


def test_points_stand_oldest_first_and_say_whether_they_count() -> None:
    now = walk(6000.0, worn(50.0), fitted=FITTED)
    like, by_estimate = walk(5000.0, worn(36.0)), walk(5500.0, by_eye(30, 50))
    before_fitting, other_joints = walk(4000.0, worn(90.0)), walk(5200.0, worn(40.0), joints=(1, 2, 3, 4))
    (course,) = courses_of(now, other_joints, by_estimate, like, before_fitting)
    assert (course.component, course.side, course.position, course.place) == (Component.LINK, Side.LEFT, None, None)
    assert course.began == 4500.0
    assert [(point.hours, point.percent_worn, point.counts, point.by_eye) for point in course.points] == [
        (4000.0, pytest.approx(90.0), False, False),
        (5000.0, pytest.approx(36.0), True, False),
        (5200.0, pytest.approx(40.0), False, False),
        (5500.0, 40.0, False, True),
        (6000.0, pytest.approx(50.0), True, False),
    ]
    assert [point.number for point in course.points][-1] == now.number
    assert [point.inspected for point in course.points] == sorted(point.inspected for point in course.points)
    assert (course.points[3].low, course.points[3].high) == (30.0, 50.0)


def test_a_point_has_the_interval_of_its_inspection() -> None:
    before = walk(5000.0, worn(36.0))
    (course,) = courses_of(walk(6000.0, worn(50.0)), before)
    row = assess(before, LINKS).components[0]
    assert (course.points[0].low, course.points[0].high) == (row.low, row.high)
    assert course.began is None


def test_a_known_beginning_is_enough() -> None:
    (course,) = courses_of(walk(6000.0, about(50.0), fitted=FITTED))
    assert course.began == 4500.0
    assert [(point.low, point.high, point.counts) for point in course.points] == [(40.0, 60.0, False)]


@pytest.mark.parametrize(
    ("now", "earlier"),
    [
        (walk(6000.0, worn(50.0)), ()),
        (walk(None, worn(50.0), fitted=FITTED), ()),
        (walk(6000.0, at_least(50.0), fitted=FITTED), (walk(5000.0, worn(36.0)),)),
        (walk(6000.0, worn(50.0)), (walk(None, worn(36.0)),)),
        (walk(6000.0, worn(50.0)), (walk(5000.0, at_least(36.0)),)),
        (walk(6000.0, worn(50.0)), (walk(5000.0, None, worn(36.0)),)),
    ],
    ids=["alone", "no hours", "no middle", "no hours then", "no middle then", "other side"],
)
def test_what_has_no_course(now: Inspection, earlier: tuple[Inspection, ...]) -> None:
    assert [course for course in courses_of(now, *earlier) if course.side is Side.LEFT] == []


def test_the_owners_word_places_a_point() -> None:
    (course,) = courses_of(walk(6000.0, worn(50.0)), walk(Hours(5000.0, Evidence.OWNERS_WORD), worn(36.0)))
    assert [point.hours for point in course.points] == [5000.0, 6000.0]


def test_another_place_gives_a_point_that_does_not_count() -> None:
    source = chart(wears(Component.SPROCKET, 200.0, 100.0, places=(PartPlace.FORWARD_FACE, PartPlace.REVERSE_FACE)))
    now, before = (
        walk(hours, {place: 150.0}, component=Component.SPROCKET, joints=None)
        for hours, place in ((6000.0, PartPlace.FORWARD_FACE), (5000.0, PartPlace.REVERSE_FACE))
    )
    (course,) = assess(now, source, earlier=[before]).courses
    assert course.place is PartPlace.FORWARD_FACE
    assert [point.counts for point in course.points] == [False, True]


def test_two_inspections_of_one_day_stand_by_their_hours() -> None:
    later = walk(5000.0, worn(36.0))
    sooner = replace(walk(4990.0, worn(35.9)), inspected=later.inspected)
    (course,) = courses_of(walk(6000.0, worn(50.0)), later, sooner)
    assert [point.hours for point in course.points] == [4990.0, 5000.0, 6000.0]
