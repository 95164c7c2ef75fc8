"""Rules 25 to 29: the whole undercarriage by shares of cost."""

import math
from typing import Any

import pytest
from builders import about, at_least, at_most, by_eye, chart, gauge, inspection, machine, reading, unseen, wears

from tracksworn.assessment.assess import assess
from tracksworn.assessment.assumed import TYPICAL_SHARES
from tracksworn.assessment.model import Bound, Overall, SharesFrom, Turning
from tracksworn.inspection.model import FittedPart, Fitting, Inspection
from tracksworn.inspection.vocabulary import Component, Layout, Side, Track

EXACT = gauge("caliper", accuracy=0.0)


def parts(**shares: float) -> Any:
    """A chart in which one mm is one point, by component and share."""
    entries = [
        wears(Component(name.replace("_", " ")), 110.0, 10.0, share=share, turns=1 if name == "bushing" else None)
        for name, share in shares.items()
    ]
    return chart(*entries)


def measured(component: Component, left: Any, right: Any = None) -> Any:
    return reading(component, left, right, gauge="caliper")


def overall(*readings: Any, source: Any, **more: Any) -> Overall:
    return assess(inspection(*readings, instruments=[EXACT], **more), source).overall


def test_rule_25_sides_and_positions_carry_equal_parts() -> None:
    seen = inspection(measured(Component.LINK, 60.0), machine=machine(bottom_rollers=4))
    rows = assess(seen, parts(link=30.0, bottom_roller=10.0)).components
    assert [each.share for each in rows] == pytest.approx([15 / 40] * 2 + [10 / 40 / 8] * 8)


def test_rule_25_what_was_not_seen_drops_out() -> None:
    figure = overall(
        measured(Component.LINK, 60.0, unseen()),
        measured(Component.SHOE, 80.0, 90.0),
        source=parts(link=60.0, shoe=20.0),
    )
    assert figure.percent_worn == pytest.approx((30 * 50 + 10 * 30 + 10 * 20) / 50)
    assert figure.seen_share == pytest.approx(50 / 80)


def test_rule_25_a_chart_without_shares_takes_the_typical() -> None:
    seen = inspection(measured(Component.LINK, 60.0))
    assessed = assess(seen, chart(wears(Component.LINK, 110.0, 10.0), wears(Component.PITCH, 110.0, 10.0, share=0.0)))
    assert assessed.overall.shares_from is SharesFrom.TYPICAL
    assert [each.share for each in assessed.components] == [0.5, 0.5, 0.0, 0.0]


def test_rule_25_the_layout_is_the_machines() -> None:
    seen = inspection(measured(Component.LINK, 60.0), machine=machine(Layout.EXCAVATOR))
    source = chart(
        wears(Component.LINK, 110.0, 10.0), wears(Component.SHOE, 110.0, 10.0), layout=Layout.ELEVATED_SPROCKET
    )
    assert assess(seen, source).components[0].share == pytest.approx(27 / 45 / 2)


def test_rule_25_a_component_without_share_has_nought() -> None:
    seen = inspection(measured(Component.SHOE, 60.0))
    source = chart(wears(Component.LINK, 110.0, 10.0, share=1.0), wears(Component.SHOE, 110.0, 10.0))
    assessed = assess(seen, source)
    assert assessed.overall.shares_from is SharesFrom.CHART
    assert (assessed.overall.seen_share, assessed.overall.percent_worn) == (0.0, None)
    assert assessed.overall.worst is not None
    assert assessed.overall.worst.component is Component.SHOE


@pytest.mark.parametrize("layout", Layout)
def test_rule_25_typical_shares_add_up_to_a_hundred(layout: Layout) -> None:
    assert math.fsum(TYPICAL_SHARES[layout].values()) == 100.0


@pytest.mark.parametrize(
    ("fitting", "turning", "life"),
    [
        (Fitting(1000.0, turned_at=2000.0), Turning(1, 1, known=True), 0.7),
        (Fitting(1000.0, not_turned=True), Turning(1, 0, known=True), 0.2),
        (Fitting(1000.0), Turning(1, 1, known=False), 0.7),
        (None, Turning(1, 1, known=False), 0.7),
    ],
)
def test_rule_26_life_of_a_bushing(fitting: Fitting | None, turning: Turning, life: float) -> None:
    fitted = {Component.BUSHING: fitting} if fitting else {}
    seen = inspection(measured(Component.BUSHING, 70.0), fitted=fitted, instruments=[EXACT])
    assessed = assess(seen, parts(bushing=1.0))
    row = assessed.components[0]
    assert row.turning == turning
    assert row.life_used == pytest.approx(life)
    assert assessed.overall.percent_worn == pytest.approx(100 * life)
    assert row.uncertainty is not None
    assert assessed.overall.high == pytest.approx(100 * life + row.uncertainty / 2)


def test_rule_26_of_its_side_before_of_the_component() -> None:
    seen = inspection(
        measured(Component.BUSHING, 70.0, 70.0),
        fitted={
            FittedPart(Component.BUSHING): Fitting(not_turned=True),
            FittedPart(Component.BUSHING, Side.RIGHT): Fitting(1.0, turned_at=2.0),
        },
    )
    assert [each.life_used for each in assess(seen, parts(bushing=1.0)).components] == pytest.approx([0.2, 0.7])


def test_rule_26_two_turns_allowed() -> None:
    source = chart(wears(Component.BUSHING, 110.0, 10.0, turns=2, share=1.0))
    lives = [
        assess(inspection(measured(Component.BUSHING, 70.0), fitted={Component.BUSHING: fitting}), source)
        .components[0]
        .life_used
        for fitting in (Fitting(not_turned=True), Fitting(turned_at=1.0), Fitting())
    ]
    assert lives == pytest.approx([0.4 / 3, 1.4 / 3, 2.4 / 3])


def test_rule_26_past_the_limit_its_life_is_used() -> None:
    fitted = {Component.BUSHING: Fitting(not_turned=True)}
    at, past = (
        assess(inspection(measured(Component.BUSHING, size), fitted=fitted), parts(bushing=1.0)).components[0].life_used
        for size in (10.0, 9.9)
    )
    assert (at, past) == (0.5, 1.0)


def test_rule_26_no_life_without_turns_on_rotating_bushings_and_for_all_else() -> None:
    rotating = machine(track=Track.ROTATING_BUSHING)
    seen = inspection(measured(Component.BUSHING, 70.0), measured(Component.LINK, 70.0), machine=rotating)
    assert {each.life_used for each in assess(seen, parts(bushing=1.0, link=1.0)).components} == {None}
    plain = chart(wears(Component.BUSHING, 110.0, 10.0))
    assert assess(inspection(measured(Component.BUSHING, 70.0)), plain).components[0].life_used is None


def test_rule_27_the_cut_at_a_hundred_keeps_the_full_uncertainty() -> None:
    worn, at = (overall(measured(Component.LINK, size), source=parts(link=1.0)) for size in (-10.0 + 1e-9, 10.0))
    assert worn.percent_worn == at.percent_worn == pytest.approx(100.0)
    assert worn.high == pytest.approx(at.high)
    assert (at.high or 0.0) > 105.0  # the interval is not cut


def test_rule_27_better_than_new_is_not_cut() -> None:
    assert overall(measured(Component.LINK, 112.0), source=parts(link=1.0)).percent_worn == pytest.approx(-2.0)


@pytest.mark.parametrize(
    ("said", "middle", "half"),
    [
        (about(40), 40.0, 10.0),
        (about(95), 92.5, 7.5),
        (by_eye(90, 130), 95.0, 5.0),
        (at_most(30), 15.0, 15.0),
    ],
)
def test_rule_27_an_estimates_range_is_cut_first(said: Any, middle: float, half: float) -> None:
    figure = overall(reading(Component.LINK, said), source=parts(link=1.0))
    assert (figure.percent_worn, figure.low, figure.high) == pytest.approx((middle, middle - half, middle + half))


def test_rule_27_estimates_add_linearly_and_join_what_was_measured() -> None:
    figure = overall(
        measured(Component.LINK, 60.0),
        reading(Component.SHOE, about(40), by_eye(20, 30)),
        reading(Component.SPROCKET, at_least(60)),
        source=parts(link=50.0, shoe=30.0, sprocket=20.0),
    )
    assert figure.budget is not None
    half = (15 * 10 + 15 * 5 + 10 * 20) / (25 + 15 + 15 + 10)
    assert figure.high is not None
    assert figure.percent_worn is not None
    assert figure.percent_worn == pytest.approx((25 * 50 + 15 * 40 + 15 * 25 + 10 * 80) / 65)
    assert figure.high - figure.percent_worn == pytest.approx(math.hypot(figure.budget.expanded, half))


def test_rule_27_estimates_of_bushings_count_through_their_life() -> None:
    figure = overall(
        reading(Component.BUSHING, at_least(60)), measured(Component.LINK, 60.0), source=parts(bushing=1.0)
    )
    assert (figure.percent_worn, figure.low, figure.high) == pytest.approx((90.0, 80.0, 100.0))  # no turn is left


def test_rule_27_errors_shared_by_several_parts_add_up() -> None:
    coarse = gauge("tape", accuracy=3.0)
    seen = inspection(
        reading(Component.LINK, 60.0, gauge="tape"), reading(Component.SHOE, 60.0, gauge="tape"), instruments=[coarse]
    )
    budget = assess(seen, parts(link=1.0, shoe=1.0)).overall.budget
    assert budget is not None
    instrument = [part.points for source, part in budget.contributions.items() if source.kind == "instrument"]
    assert instrument == pytest.approx([-3.0 / math.sqrt(3)])


def test_rule_28_floor_ceiling_and_counts() -> None:
    figure = overall(
        measured(Component.LINK, 30.0, 5.0),
        measured(Component.SHOE, 70.0, unseen()),
        reading(Component.SPROCKET, at_least(85), at_most(99)),
        reading(Component.PITCH, by_eye(95, 107), about(80)),
        source=parts(link=50.0, shoe=30.0, sprocket=20.0, pitch=0.0),
    )
    worn = 25 * 80 + 25 * 100 + 15 * 40 + 10 * 92.5 + 10 * 49.5
    assert figure.floor == pytest.approx(worn / 100)
    assert figure.ceiling == pytest.approx((worn + 15 * 100) / 100)
    assert (figure.past_limit, figure.near_limit, figure.unseen) == (2, 3, 1)
    assert figure.worst is not None
    assert (figure.worst.component, figure.worst.side) == (Component.LINK, Side.RIGHT)


def test_rule_28_worst_prints_at_least() -> None:
    figure = overall(
        reading(Component.LINK, at_least(70), about(60)),
        measured(Component.SHOE, 50.0),
        source=parts(link=1.0, shoe=0.0),
    )
    assert figure.worst is not None
    assert (figure.worst.component, figure.worst.percent_worn) == (Component.LINK, 70)


def test_rule_28_nothing_seen() -> None:
    figure = overall(source=parts(link=1.0))
    assert (figure.percent_worn, figure.low, figure.high, figure.worst) == (None,) * 4
    assert (figure.seen_share, figure.floor, figure.ceiling, figure.unseen) == (0.0, 0.0, 100.0, 2)


def test_rule_29_only_at_least() -> None:
    figure = overall(
        reading(Component.LINK, at_least(50), unseen()),
        reading(Component.BUSHING, at_least(60)),
        reading(Component.PITCH, about(30)),
        source=parts(link=60.0, bushing=20.0, pitch=0.0),
    )
    expected = (30 * 50 + 10 * 80) / 40
    assert (figure.percent_worn, figure.low) == pytest.approx((expected, expected))
    assert (figure.high, figure.bound, figure.ceiling) == (None, Bound.AT_LEAST, 100.0)
    assert figure.floor == pytest.approx((30 * 50 + 10 * 80) / 80)


@pytest.mark.parametrize("other", [reading(Component.SHOE, about(30)), measured(Component.PITCH, 60.0)])
def test_rule_29_not_beside_anything_else(other: Any) -> None:
    source = parts(link=60.0, shoe=20.0, pitch=0.0)
    assert overall(reading(Component.LINK, at_least(50)), other, source=source).bound is None


def test_overall_without_chart() -> None:
    seen: Inspection = inspection(
        reading(Component.LINK, about(40), by_eye(40, 50)),
        reading(Component.SPROCKET, at_most(30), unseen("mud")),
        machine=machine(Layout.EXCAVATOR, bottom_rollers=8, top_rollers=2),
    )
    figure = assess(seen, None).overall
    assert figure.shares_from is SharesFrom.TYPICAL
    assert figure.seen_share == pytest.approx(0.31)
    assert figure.percent_worn == pytest.approx((13.5 * 40 + 13.5 * 45 + 4 * 15) / 31)
