"""What older inspections and hours left say, from readings to findings, by the forecast that is computed."""

import pytest
import strategies
from builders import about, chart, wears
from histories import LINKS, fitted_at, walk, worn
from hypothesis import given, settings
from hypothesis import strategies as st

from tracksworn.assessment.assess import assess
from tracksworn.assessment.sayings import Finding
from tracksworn.documents.words.figures import NO_BREAK, THIN, Figures
from tracksworn.documents.words.findings import say_finding
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component, LimitMeans

FITTED = {Component.LINK: fitted_at(1000.0)}
CONTRADICTIONS = {"grown-back", "jumped"}


def found(now: Inspection, *earlier: Inspection, by: WearChart = LINKS) -> dict[str, Finding]:
    return {one.code: one for one in assess(now, by, earlier=earlier).findings}


def said(finding: Finding) -> list[str]:
    words = say_finding(finding, Figures())
    return [line.replace(THIN, " ").replace(NO_BREAK, " ") for line in (words.title, *words.reasons)]


def test_a_reading_that_grew_back_is_told_with_both_days_hours_and_figures() -> None:
    before = walk(5000.0, worn(50.0), inspector="Tom Ashe")
    assert said(found(walk(6000.0, worn(40.0)), before)["grown-back"]) == [
        "Left links read less worn than at an earlier inspection",
        "Earlier inspection AT-5000: 17 September 2021, at 5 000 machine hours. This one: 20 January 2022, at 6 000.",
        "Measured by Tom Ashe then, by Ines Marlow now.",
        "Left links: worn 50 % (45 to 55) then, 40 % (35 to 45) now.",
    ]


@pytest.mark.parametrize(("later", "code"), [(44.5, None), (44.2, "grown-back"), (55.5, None), (55.8, "jumped")])
def test_two_readings_disagree_from_where_their_own_doubts_end(later: float, code: str | None) -> None:
    """By hand: s² = (3·1² + 3·0.333)/6, u² = 2² + s²/4 + 0.1²/3, U = 1.96·2.04 = 4.0; E_n is 1 at 5.7 points apart."""
    codes = CONTRADICTIONS & found(walk(5080.0, worn(later)), walk(5000.0, worn(50.0))).keys()
    assert codes == ({code} if code else set())


def test_ground_that_wears_faster_is_told_with_both_rates() -> None:
    finding = found(walk(6000.0, worn(50.0), fitted=FITTED), walk(5000.0, worn(30.0)))["wears-faster-lately"]
    assert said(finding) == [
        "Left links wear faster than they did",
        "Left links: 2.0 points in 100 hours over the last 1 000 hours, 1.0 in the long run.",
    ]


def test_wear_that_goes_on_as_before_is_not_told() -> None:
    assert "wears-faster-lately" not in found(walk(6000.0, worn(50.0), fitted=FITTED), walk(5000.0, worn(40.0)))


def test_what_ends_first_is_told_by_its_computed_hours() -> None:
    """By hand: U = 4.0, (100 − 74.0)/74.0 and (100 − 66.0)/66.0 of the 5 000 hours since it was fitted."""
    both_on = walk(6000.0, worn(70.0), worn(40.0), fitted=FITTED)
    title, hours, *_ = said(found(both_on)["stops-first"])
    assert title == "Left links reach their limit first"
    assert hours == "Left links: 1 750 to 2 580 machine hours left."


def test_rubber_has_no_case_to_ignore() -> None:
    lugs = chart(wears(Component.LUG, 200.0, 100.0, limit_means=LimitMeans.REPLACE))
    now = walk(6000.0, worn(50.0), component=Component.LUG, joints=None, fitted={Component.LUG: fitted_at(1000.0)})
    (row,) = assess(now, lugs).forecast or ()
    assert not row.hardening_ignored


def test_by_eye_contradicts_nothing() -> None:
    assert not CONTRADICTIONS & found(walk(5080.0, about(30.0)), walk(5000.0, worn(50.0))).keys()


@settings(deadline=None, max_examples=20)
@given(strategies.charts().flatmap(lambda by: st.tuples(st.just(by), strategies.inspections(by))))
def test_no_inspection_contradicts_itself(pair: tuple[WearChart, Inspection]) -> None:
    by, inspected = pair
    assert not CONTRADICTIONS & found(inspected, inspected, by=by).keys()
