"""Rule 44 with rules 17, 23 and 27: what two inspections differ by, and which errors they share."""

import math
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from builders import about, at_least, at_most, by_eye, chart, gauge, inspection, machine, reading, unseen, wears
from scipy import stats

from tracksworn.assessment.assess import assess
from tracksworn.assessment.comparing.difference import difference, differences, is_same_machine
from tracksworn.assessment.comparing.model import Assessed, Gap
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import Fitting, Hours, Inspection, Inspector
from tracksworn.inspection.vocabulary import Component, Evidence, PartPlace, Side

LINK = wears(Component.LINK, 110.0, 10.0)  # 1 mm is 1 point
EXACT = gauge("caliper", accuracy=0.0)
ROOT = math.sqrt(3.0)
SCATTER = 9.0 + 1.0  # variance of spread and seat of one joint
DOF = 3.0
FORWARD, REVERSE = PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE
IVO = Inspector("Ivo Renn")


def looked(
    left: Any, right: Any = None, *, serial: str = "A", component: Component = Component.LINK, **more: Any
) -> Inspection:
    told: dict[str, Any] = {"instruments": [EXACT], "machine": replace(machine(bottom_rollers=2), serial=serial)}
    return inspection(reading(component, left, right, gauge="caliper"), **(told | more))


def assessed(seen: Inspection, by: WearChart | None = None) -> Assessed:
    by = chart(LINK) if by is None else by
    return Assessed(seen, by, assess(seen, by))


def left_gap(first: Assessed, second: Assessed) -> Gap | None:
    (component,) = first.inspection.readings
    sides = difference(first, second).sides
    return next(entry.gap for entry in sides if (entry.component, entry.side) == (component, Side.LEFT))


def expected(variance: float, scatter: float = 2 * SCATTER, spread: float = 9.0) -> float:
    """U of a difference of two single joints, each with its own spread, and further shared-out variance."""
    u = math.sqrt(scatter + variance)
    return float(stats.t.ppf(0.975, u**4 / (2 * spread**2 / DOF))) * u


def known(gap: Gap | None) -> tuple[float, float]:
    assert gap is not None
    return gap.points, gap.uncertainty


def test_one_inspector_and_one_gauge_cancel_between_machines() -> None:
    gap = left_gap(assessed(looked(60.0)), assessed(looked(70.0, serial="B")))
    assert known(gap) == pytest.approx((10.0, expected(0.0)))


def test_two_inspectors_do_not_cancel() -> None:
    first, second = looked(60.0), replace(looked(70.0, serial="B"), inspector=IVO)
    assert known(left_gap(assessed(first), assessed(second))) == pytest.approx((10.0, expected(4.0 + 4.0)))


def test_an_inspector_is_one_however_his_name_is_composed() -> None:
    first, second = (replace(looked(60.0), inspector=Inspector(name)) for name in ("Zoé", "Zoe\u0301"))
    assert known(left_gap(assessed(first), assessed(second))) == pytest.approx((0.0, expected(0.0)))


@pytest.mark.parametrize(
    ("one", "other", "shared"),
    [
        ({}, {}, True),
        ({"calibrated": date(2031, 1, 1)}, {"calibrated": date(2031, 1, 1)}, True),
        ({"calibrated": date(2031, 1, 1)}, {"calibrated": date(2031, 2, 1)}, False),
        ({"calibrated": date(2031, 1, 1)}, {}, False),
    ],
)
@pytest.mark.parametrize("serial", ["A", "B"])
def test_a_gauge_is_the_same_by_name_and_calibration(one: Any, other: Any, shared: bool, serial: str) -> None:
    first = looked(60.0, instruments=[gauge("caliper", accuracy=3.0, **one)])
    second = looked(70.0, instruments=[gauge("caliper", accuracy=3.0, **other)], serial=serial)
    gap = left_gap(assessed(first), assessed(second))
    assert known(gap)[1] == pytest.approx(expected(0.0 if shared else 2 * 3.0))


def test_a_gauge_without_a_name_is_never_the_same() -> None:
    seen = [inspection(reading(Component.LINK, size)) for size in (60.0, 70.0)]
    one, other = map(assessed, seen)
    assert known(left_gap(one, other))[1] == pytest.approx(expected(2 * 0.25 / 3.0))


DOUBTED = wears(Component.LINK, 110.0, 10.0, tolerance=3.0, new_doubt=6.0, limit_tolerance=9.0)


def test_doubts_of_one_chart_leave_only_what_the_difference_leaves() -> None:
    first, second = looked(60.0), looked(80.0, serial="B")  # 50 and 30 % worn
    gap = left_gap(assessed(first, chart(DOUBTED)), assessed(second, chart(DOUBTED)))
    of_charts = (0.2 * 6.0 / ROOT) ** 2 + (0.2 * 9.0 / ROOT) ** 2
    tolerances = (0.5 * 3.0 / ROOT) ** 2 + (0.7 * 3.0 / ROOT) ** 2
    assert known(gap) == pytest.approx((20.0, expected(of_charts + tolerances)))


@pytest.mark.parametrize("serial", ["A", "B"])
def test_doubts_of_two_charts_are_apart(serial: str) -> None:
    first, second = looked(60.0), looked(80.0, serial=serial)
    gap = left_gap(assessed(first, chart(DOUBTED)), assessed(second, chart(DOUBTED, narrowest_shoe=500.0)))
    of_charts = sum((part * 6.0 / ROOT) ** 2 for part in (0.5, 0.7)) + sum(
        (part * 9.0 / ROOT) ** 2 for part in (0.5, 0.3)
    )
    tolerances = [(0.2 * 3.0 / ROOT) ** 2] if serial == "A" else [(part * 3.0 / ROOT) ** 2 for part in (0.5, 0.7)]
    assert known(gap)[1] == pytest.approx(expected(of_charts + sum(tolerances)))


def history(fitted: dict[Any, Fitting]) -> tuple[Assessed, Assessed]:
    """One machine twice: at 5000 h, and at 6000 h with what is told then."""
    first = replace(looked(80.0, machine=machine(hours=Hours(5000.0))), inspected=date(2030, 4, 18))
    second = looked(60.0, machine=machine(hours=Hours(6000.0)), fitted=fitted)
    return assessed(first, chart(DOUBTED)), assessed(second, chart(DOUBTED))


@pytest.mark.parametrize(
    ("fitted", "own"),
    [
        ({}, False),
        ({Component.LINK: Fitting(4000.0)}, False),
        ({Component.LINK: Fitting(5500.0)}, True),
        ({Component.LINK: Fitting(5500.0, Evidence.OWNERS_WORD)}, True),
        ({Component.SHOE: Fitting(5500.0)}, False),
    ],
)
def test_a_part_fitted_in_between_has_a_tolerance_of_its_own(fitted: dict[Any, Fitting], own: bool) -> None:
    of_charts = (0.2 * 6.0 / ROOT) ** 2 + (0.2 * 9.0 / ROOT) ** 2
    tolerances = [(part * 3.0 / ROOT) ** 2 for part in ((0.5, 0.7) if own else (0.2,))]
    first, second = history(fitted)
    assert known(left_gap(first, second)) == pytest.approx((-20.0, expected(of_charts + sum(tolerances))))
    assert known(left_gap(second, first)) == pytest.approx((20.0, expected(of_charts + sum(tolerances))))


def test_half_widths_of_estimates_add_up() -> None:
    first, second = assessed(looked(by_eye(30, 50))), assessed(looked(about(20), serial="B"))
    assert known(left_gap(first, second)) == pytest.approx((20.0, 20.0))
    measured = assessed(looked(60.0, serial="C"))
    alone = measured.assessment.components[0].uncertainty
    assert alone is not None
    assert known(left_gap(measured, first)) == pytest.approx((10.0, math.hypot(alone, 10.0)))


@pytest.mark.parametrize("value", [at_least(50), at_most(20), unseen(), None])
def test_without_a_middle_figure_there_is_no_pair(value: Any) -> None:
    one, other = assessed(looked(60.0, 60.0)), assessed(looked(value, 60.0, serial="B"))
    assert left_gap(one, other) is None
    assert left_gap(other, one) is None


BUSHING = chart(wears(Component.BUSHING, 110.0, 10.0))


@pytest.mark.parametrize(
    ("one", "other", "points"),
    [
        ({FORWARD: 60.0}, {FORWARD: 70.0}, 10.0),
        ({FORWARD: 60.0}, 70.0, None),
        (60.0, {FORWARD: 70.0}, None),
        ({FORWARD: 60.0}, {REVERSE: 70.0}, None),
        ({FORWARD: 60.0, REVERSE: 80.0}, {FORWARD: 75.0, REVERSE: 70.0}, 10.0),  # what governs each
        ({FORWARD: 60.0, REVERSE: 80.0}, {REVERSE: 70.0}, None),
    ],
)
def test_a_place_that_one_alone_names_makes_no_pair(one: Any, other: Any, points: float | None) -> None:
    first, second = (
        assessed(looked(value, serial=serial, component=Component.BUSHING), BUSHING)
        for value, serial in ((one, "A"), (other, "B"))
    )
    gap = left_gap(first, second)
    assert (gap is None) if points is None else (known(gap)[0] == pytest.approx(points))


def test_rollers_by_what_governs_each_side() -> None:
    by = chart(wears(Component.BOTTOM_ROLLER, 300.0, 200.0, tolerance=3.0))
    first, second = (
        assessed(looked(sizes, component=Component.BOTTOM_ROLLER), by) for sizes in ((250.0, 260.0), (270.0, 245.0))
    )
    points, uncertainty = known(left_gap(first, second))
    assert points == pytest.approx(50.0 - 55.0)
    tolerances = (0.5 * 3.0 / ROOT) ** 2 + (0.45 * 3.0 / ROOT) ** 2  # another position is another part
    assert uncertainty == pytest.approx(expected(tolerances, scatter=2.0, spread=1.0))


OVERALL = chart(wears(Component.LINK, 110.0, 10.0, share=60.0), wears(Component.SHOE, 110.0, 10.0, share=40.0))


def whole(link: Any, shoe: Any, serial: str) -> Assessed:
    seen = inspection(
        reading(Component.LINK, link, link, gauge="caliper"),
        reading(Component.SHOE, shoe, shoe, gauge="caliper"),
        instruments=[EXACT],
        machine=replace(machine(), serial=serial),
    )
    return assessed(seen, OVERALL)


def test_overall_with_shared_errors_and_half_widths() -> None:
    first, second = whole(60.0, by_eye(30, 50), "A"), whole(70.0, by_eye(20, 30), "B")
    gap = difference(first, second).overall
    u = math.sqrt(4 * 0.3**2 * SCATTER)  # four sides of link; inspector and gauge cancel
    doubts = 2 * (2 * 0.3**2 * 9.0) ** 2 / DOF  # one pooled deviation each
    measured = stats.t.ppf(0.975, u**4 / doubts) * u
    assert known(gap) == pytest.approx((0.6 * 10.0 + 0.4 * 15.0, math.hypot(measured, 0.4 * 10.0 + 0.4 * 5.0)))


def test_no_overall_gap_where_one_is_only_a_bound() -> None:
    first, second = whole(60.0, 60.0, "A"), whole(at_least(30), at_least(30), "B")
    assert difference(first, second).overall is None
    assert difference(second, first).overall is None


def test_told_apart_beyond_its_uncertainty() -> None:
    assert Gap(3.0, 2.9).told_apart
    assert Gap(-3.0, 2.9).told_apart
    assert not Gap(3.0, 3.0 - 1e-12).told_apart


@pytest.mark.parametrize(
    ("change", "same"),
    [({}, True), ({"serial": "B"}, False), ({"maker": "Merrow"}, False), ({"model": "H-200"}, False)],
)
def test_a_machine_is_known_by_maker_model_and_serial(change: Any, same: bool) -> None:
    one = looked(60.0)
    other = replace(one, machine=replace(one.machine, **change))
    assert is_same_machine(one, other) is same
    found = difference(assessed(one), assessed(other))
    assert found.same_machine is same
    assert bool(found.agreement) is same


def test_every_two_of_several() -> None:
    machines = [assessed(looked(size, serial=serial)) for size, serial in ((60.0, "A"), (70.0, "B"), (75.0, "C"))]
    found = differences(machines)
    assert [(one, other) for one, other, _ in found] == [(0, 1), (0, 2), (1, 2)]
    assert [each.overall.points for _, _, each in found if each.overall] == pytest.approx([10.0, 15.0, 5.0])
