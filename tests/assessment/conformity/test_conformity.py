"""Rules 40 to 43: each side against the terms, the first reason why there is no verdict, and the whole."""

import math
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from builders import about, at_least, at_most, by_eye, chart, gauge, inspection, machine, reading, unseen, wears
from scipy import stats

from tracksworn.assessment.assess import figures
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.conformity.conformity import conformity
from tracksworn.assessment.decisions import Conformity, Result, Verdict, Why
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import FittedPart, Fitting, Hours, Inspection, Reading
from tracksworn.inspection.terms import Rule, Terms
from tracksworn.inspection.vocabulary import Component, Evidence, Side

LINK = wears(Component.LINK, 110.0, 10.0)  # 1 mm is 1 point
ROLLER = wears(Component.BOTTOM_ROLLER, 300.0, 200.0)
CHART = chart(LINK, ROLLER)
FITTED = {
    Component.LINK: Fitting(1000.0, Evidence.INVOICE),
    Component.BOTTOM_ROLLER: Fitting(1000.0, Evidence.INVOICE),
}
EXACT = gauge("caliper", accuracy=0.0)
TABLE = Assumptions()
AT_3000 = Hours(3000.0)


def terms(*rows: tuple[float, float], **more: Any) -> Terms:
    """Allowed for every component, as a rule 0 % at 0 h and 80 % at 4000 h."""
    allowed = {None: rows or ((0.0, 0.0), (4000.0, 80.0))}
    return Terms("Plan", **({"rule": Rule.GUARDED, "allowed": allowed} | more))


def looked(*readings: Reading, hours: Hours | None = AT_3000, **more: Any) -> Inspection:
    """At 2000 h after everything was fitted, when 40 % is allowed."""
    told: dict[str, Any] = {"fitted": FITTED, "instruments": [EXACT], "machine": machine(hours=hours, bottom_rollers=2)}
    return inspection(*readings, **(told | more))


def link(left: Any = None, right: Any = None, **more: Any) -> Inspection:
    return looked(reading(Component.LINK, left, right, gauge="caliper"), **more)


def judge(seen: Inspection, against: WearChart | None = CHART, by: Terms | None = None) -> Conformity:
    return conformity(figures(seen, against, TABLE), by or terms())


def left(found: Conformity, component: Component = Component.LINK) -> Verdict:
    return next(one for one in found.components if (one.component, one.side) == (component, Side.LEFT))


def worn(percent: float) -> float:
    """The link height at a percent worn, mm."""
    return 110.0 - percent


def test_rule_40_linear_between_rows() -> None:
    assert left(judge(link(worn(10)))).allowed == pytest.approx(40.0)
    assert left(judge(link(worn(10)))).hours == pytest.approx(2000.0)


@pytest.mark.parametrize(
    ("after", "slope"), [(0.0, 0.01), (1999.0, 0.01), (2000.0, 0.03), (2001.0, 0.03), (2500.0, 0.03), (2501.0, 0.02)]
)
def test_rule_40_the_steeper_slope_at_a_row(after: float, slope: float) -> None:
    by = terms((0.0, 10.0), (2000.0, 30.0), (2500.0, 45.0), (4000.0, 75.0), hours_within=100.0)
    found = left(judge(link(worn(10), hours=Hours(1000.0 + after)), by=by))
    u = math.hypot(math.sqrt(9 + 1 + 4), slope * 100.0 / math.sqrt(3))  # spread and seat of one joint, inspector
    dof = u**4 / (9.0**2 / 3.0)
    assert found.guard == pytest.approx(stats.t.ppf(0.975, dof) * u)


def test_rule_40_every_component_with_a_row_that_is_allowed() -> None:
    seen = link(worn(10))
    assert [(one.component, one.side, one.position) for one in judge(seen).components] == [
        (Component.LINK, Side.LEFT, None),
        (Component.LINK, Side.RIGHT, None),
        (Component.BOTTOM_ROLLER, Side.LEFT, None),
        (Component.BOTTOM_ROLLER, Side.RIGHT, None),
    ]
    named = replace(terms(), allowed={Component.LINK: ((0.0, 50.0), (4000.0, 50.0)), Component.SHOE: ((0.0, 1.0),)})
    assert {one.component for one in judge(seen, by=named).components} == {Component.LINK}
    assert left(judge(seen, by=named)).allowed == pytest.approx(50.0)


def test_rule_40_a_name_goes_before_any() -> None:
    both = {None: ((0.0, 10.0), (4000.0, 10.0)), Component.LINK: ((0.0, 50.0), (4000.0, 50.0))}
    assert left(judge(link(worn(10)), by=replace(terms(), allowed=both))).allowed == pytest.approx(50.0)


def test_rule_40_rollers_by_the_governing_position_and_its_own_fitting() -> None:
    fitted = FITTED | {FittedPart(Component.BOTTOM_ROLLER, Side.LEFT, 2): Fitting(2500.0, Evidence.STAMP)}
    seen = looked(reading(Component.BOTTOM_ROLLER, (290.0, 270.0), (270.0, 290.0), gauge="caliper"), fitted=fitted)
    one, other = (each for each in judge(seen).components if each.component is Component.BOTTOM_ROLLER)
    assert (one.position, one.hours, one.allowed) == pytest.approx((2, 500.0, 10.0))
    assert (other.position, other.hours, other.allowed) == pytest.approx((1, 2000.0, 40.0))


def test_rule_40_a_turned_bushing_by_hours_since_its_turn() -> None:
    entry = wears(Component.BUSHING, 110.0, 10.0, turns=1)
    fitted = {Component.BUSHING: Fitting(1000.0, Evidence.INVOICE, turned_at=2400.0)}
    seen = looked(reading(Component.BUSHING, worn(10), gauge="caliper"), fitted=fitted)
    found = left(judge(seen, chart(entry)), Component.BUSHING)
    assert (found.hours, found.allowed) == pytest.approx((600.0, 12.0))


def test_rule_41_passes_with_the_guard_to_spare() -> None:
    guard = left(judge(link(worn(10)))).guard
    assert guard == pytest.approx(stats.t.ppf(0.975, 14.0**2 / (9.0**2 / 3.0)) * math.sqrt(14.0))
    assert guard is not None
    on, above = left(judge(link(worn(40.0 - guard)))), left(judge(link(worn(40.0 - guard + 1e-6))))
    assert (on.result, on.why) == (Result.PASSES, None)
    assert (above.result, above.why) == (Result.UNDECIDED, Why.DOUBT)


def test_rule_41_the_risk_of_failing_is_shared_by_rows_measured_and_inside() -> None:
    seen = looked(
        reading(Component.LINK, worn(20), worn(20), gauge="caliper"),
        reading(Component.BOTTOM_ROLLER, (290.0, None), by_eye(20, 30), gauge="caliper"),
    )
    found = judge(seen)
    assert found.tested == 3
    verdict = left(found)
    assert verdict.guard is not None
    assert verdict.guard_of_failure is not None
    pooled = 14.0**2 / (9.0**2 / 3.0)
    ratio = stats.t.ppf(1.0 - 0.025 / 3, pooled) / stats.t.ppf(0.975, pooled)
    assert verdict.guard_of_failure / verdict.guard == pytest.approx(ratio)
    past = 40.0 + verdict.guard_of_failure
    for percent, result in ((past - 1e-6, Result.UNDECIDED), (past + 1e-6, Result.FAILS)):
        at_it = reading(Component.LINK, worn(percent), worn(20), gauge="caliper")
        readings = {**seen.readings, Component.LINK: at_it}
        assert left(judge(replace(seen, readings=readings))).result is result


@pytest.mark.parametrize(("percent", "result"), [(40.0, Result.PASSES), (40.001, Result.FAILS)])
def test_rule_41_the_simple_rule_has_no_guard(percent: float, result: Result) -> None:
    found = left(judge(link(worn(percent)), by=terms(rule=Rule.SIMPLE)))
    assert (found.guard, found.guard_of_failure, found.result) == (0.0, 0.0, result)
    assert found.probability == pytest.approx(0.5, abs=1e-3)


def test_rule_42_probability() -> None:
    found = left(judge(link(worn(35)), by=terms(hours_within=30.0)))
    u = math.hypot(math.sqrt(14.0), 0.02 * 30.0 / math.sqrt(3.0))
    assert found.probability == pytest.approx(stats.t.cdf(5.0 / u, u**4 / (9.0**2 / 3.0)))


@pytest.mark.parametrize(
    ("estimate", "result", "why"),
    [
        (by_eye(41, 50), Result.FAILS, None),
        (by_eye(40, 50), Result.UNDECIDED, Why.BY_EYE),  # on the boundary
        (by_eye(0, 5), Result.UNDECIDED, Why.BY_EYE),
        (about(60), Result.FAILS, None),
        (about(45), Result.UNDECIDED, Why.BY_EYE),
        (at_least(50), Result.FAILS, None),
        (at_least(30), Result.UNDECIDED, Why.BY_EYE),
        (at_most(10), Result.UNDECIDED, Why.BY_EYE),
    ],
)
@pytest.mark.parametrize("rule", Rule)
def test_rule_42_by_eye_never_passes(estimate: Any, result: Result, why: Why | None, rule: Rule) -> None:
    found = judge(link(estimate), by=terms(rule=rule))
    verdict = left(found)
    assert (verdict.result, verdict.why, found.tested) == (result, why, 0)
    assert verdict.allowed == pytest.approx(40.0)
    assert (verdict.guard, verdict.probability) == (None, None)


@pytest.mark.parametrize("value", [worn(90), by_eye(90, 95)])
def test_rule_42_a_chart_that_stands_in_decides_nothing(value: Any) -> None:
    other = replace(CHART, stands_in_for="Hollin H-100")
    found = judge(link(value), other)
    verdict = left(found)
    assert (verdict.result, verdict.why, found.tested) == (Result.UNDECIDED, Why.CHART, 0)
    assert verdict.allowed == pytest.approx(40.0)
    assert (verdict.guard, verdict.probability) == (None, None)


def test_rule_42_without_a_chart() -> None:
    seen = looked(
        reading(Component.LINK, by_eye(90, 95), worn(90), gauge="caliper"),
        fitted={Component.LINK: FITTED[Component.LINK]},
    )
    one, other = judge(seen, None, replace(terms(), allowed={Component.LINK: terms().allowed[None]})).components
    assert one.allowed == pytest.approx(40.0)
    assert (one.result, one.why) == (Result.UNDECIDED, Why.CHART)
    assert (other.result, other.why, other.allowed) == (Result.UNDECIDED, Why.NO_PERCENT, None)


DUE = gauge("caliper", accuracy=0.0, calibrated=date(2030, 1, 1), due=date(2031, 4, 17))  # the day before


@pytest.mark.parametrize(
    ("seen", "why"),
    [
        (link(worn(10), hours=None), Why.HOURS),
        (link(worn(10), hours=Hours(3000.0, Evidence.OWNERS_WORD)), Why.HOURS),
        (link(worn(10), fitted={}), Why.FITTING),
        (link(worn(10), fitted={Component.LINK: Fitting(1000.0)}), Why.FITTING),
        (link(worn(10), fitted={Component.LINK: Fitting(1000.0, Evidence.OWNERS_WORD)}), Why.FITTING),
        (link(worn(10), hours=Hours(5001.0)), Why.BEYOND),
        (link(worn(10), instruments=[DUE]), Why.GAUGE_DUE),
        (link(by_eye(90, 95), hours=Hours(5001.0)), Why.BEYOND),
    ],
)
def test_rule_43_outside_the_terms(seen: Inspection, why: Why) -> None:
    found = judge(seen)
    verdict = left(found)
    assert (verdict.result, verdict.why, found.tested) == (Result.OUTSIDE, why, 0)
    assert (verdict.allowed, verdict.guard, verdict.probability) == (None, None, None)


def test_rule_43_before_the_first_row() -> None:
    by = terms((2000.5, 10.0), (4000.0, 80.0))
    assert left(judge(link(worn(10)), by=by)).why is Why.BEYOND


@pytest.mark.parametrize("rows", [((2000.0, 40.0), (4000.0, 80.0)), ((0.0, 0.0), (2000.0, 40.0))])
def test_rule_43_on_the_first_and_the_last_row_it_is_inside(rows: tuple[tuple[float, float], ...]) -> None:
    verdict = left(judge(link(worn(10)), by=terms(*rows)))
    assert verdict.result is Result.PASSES
    assert verdict.allowed == pytest.approx(40.0)


def test_rule_43_a_gauge_on_its_last_day_is_good() -> None:
    good = replace(DUE, due=date(2031, 4, 18))
    assert left(judge(link(worn(10), instruments=[good]))).result is Result.PASSES


def test_rule_43_no_gauge_is_due_where_all_is_by_eye() -> None:
    assert left(judge(link(by_eye(90, 95), instruments=[DUE]))).result is Result.FAILS


def test_rule_43_original_parts_began_at_nought() -> None:
    found = left(judge(link(worn(10), fitted={Component.LINK: Fitting(original=True)})))
    assert (found.hours, found.allowed) == pytest.approx((3000.0, 60.0))


@pytest.mark.parametrize("hours", [None, Hours(3000.0)])
def test_rule_43_not_seen_comes_first(hours: Hours | None) -> None:
    for component in (Component.LINK, Component.BOTTOM_ROLLER):
        found = judge(looked(reading(component, unseen()), hours=hours))
        verdict = left(found, component)
        assert (verdict.result, verdict.why, verdict.position) == (Result.UNDECIDED, Why.NOT_SEEN, None)
        assert (verdict.allowed, verdict.guard, verdict.probability) == (None, None, None)


def test_rule_43_measured_without_percent_comes_first() -> None:
    bare = chart(wears(Component.BOTTOM_ROLLER))
    found = judge(looked(reading(Component.BOTTOM_ROLLER, (290.0, 280.0)), hours=None), bare)
    verdict = left(found, Component.BOTTOM_ROLLER)
    assert (verdict.result, verdict.why, verdict.position) == (Result.UNDECIDED, Why.NO_PERCENT, None)


ONLY_LINK = chart(LINK)
LEFT_LINK = FittedPart(Component.LINK, Side.LEFT)


@pytest.mark.parametrize(
    ("seen", "result"),
    [
        (link(worn(10), worn(10)), Result.PASSES),
        (link(worn(10), worn(40)), Result.UNDECIDED),
        (link(worn(10), unseen()), Result.UNDECIDED),
        (link(worn(90), unseen()), Result.FAILS),
        (link(worn(90), worn(10)), Result.FAILS),
        (link(worn(10), worn(10), fitted={}), Result.OUTSIDE),
        (link(worn(10), unseen(), fitted={}), Result.UNDECIDED),
        (
            link(worn(10), worn(10), fitted={FittedPart(Component.LINK, Side.LEFT): Fitting(original=True)}),
            Result.UNDECIDED,
        ),
    ],
)
def test_rule_43_the_whole(seen: Inspection, result: Result) -> None:
    assert judge(seen, ONLY_LINK).result is result


def test_rule_43_nothing_compared_passes_nothing() -> None:
    found = judge(link(worn(10)), by=replace(terms(), allowed={Component.SHOE: terms().allowed[None]}))
    assert (found.components, found.result) == ((), Result.UNDECIDED)


@pytest.mark.parametrize("lower", [39.0, 20.0, 5.0, 0.0])
def test_a_lower_allowance_never_helps(lower: float) -> None:
    order = [Result.PASSES, Result.UNDECIDED, Result.FAILS]
    for percent in range(0, 80, 4):
        seen = link(worn(percent), worn(80 - percent))
        generous = judge(seen, by=terms((0.0, 40.0), (4000.0, 40.0)))
        strict = judge(seen, by=terms((0.0, lower), (4000.0, lower)))
        assert order.index(strict.result) >= order.index(generous.result)
        for one, other in zip(strict.components, generous.components, strict=True):
            assert order.index(one.result) >= order.index(other.result)
            assert (one.probability or 0.0) <= (other.probability or 0.0)
