"""What the demo's machines come to: each kind of rate and each kind of verdict is seen on some page."""

from functools import cache
from pathlib import Path

import pytest

from tracksworn.assessment.decisions import RateFrom, Result
from tracksworn.assessment.model import Assessment
from tracksworn.documents.report import assess_dossier
from tracksworn.inspection.reading import read_inspection
from tracksworn.inspection.vocabulary import Component, Side

DEMO = Path(__file__).parents[2] / "demo_inspections"


@cache
def assessed(name: str) -> Assessment:
    return assess_dossier(read_inspection(DEMO / name))


def test_a_line_a_short_term_and_a_long_term_rate_each_govern_somewhere() -> None:
    forecast = assessed("MPS-2031-0418").forecast or ()
    governs = {(row.component, row.side): row.rate_from for row in forecast}
    assert governs[Component.LINK, Side.LEFT] is RateFrom.LINE
    assert governs[Component.PITCH, Side.LEFT] is RateFrom.BETWEEN
    assert governs[Component.SHOE, Side.LEFT] is RateFrom.SINCE_FITTED


def test_a_roller_renewed_in_between_has_a_course_of_its_own() -> None:
    courses = {(one.component, one.side): one for one in assessed("MPS-2031-0418").courses}
    course = courses[Component.BOTTOM_ROLLER, Side.LEFT]
    assert (course.position, course.began) == (3, 6100.0)
    assert not course.points[0].counts


@pytest.mark.parametrize(
    ("name", "result"),
    [
        ("MPS-2031-0418", Result.FAILS),
        ("MPS-2031-0402", Result.PASSES),
        ("MPS-2031-0433", Result.UNDECIDED),
    ],
)
def test_terms_come_to_each_kind_of_verdict(name: str, result: Result) -> None:
    found = assessed(name).conformity
    assert found is not None
    assert found.result is result


def test_prices_make_a_plan_from_history_and_from_fitting_alone() -> None:
    plans = {name: assessed(name).plan for name in ("MPS-2031-0418", "OXB-0227", "OXB-0236")}
    assert {name: plan.currency for name, plan in plans.items() if plan and plan.visits} == {
        "MPS-2031-0418": "EUR",
        "OXB-0227": "USD",
        "OXB-0236": "EUR",
    }


def test_by_eye_and_without_evidence_nothing_is_foretold() -> None:
    assert assessed("OXB-0231").forecast is None
    assert assessed("OXB-0231").plan is None
    assert assessed("OXB-0231").conformity is None
