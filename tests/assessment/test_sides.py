"""Rules 23 and 24: left against right."""

import math
from dataclasses import replace

import pytest
from builders import Said, about, at_least, at_most, by_eye, chart, gauge, inspection, machine, reading, unseen, wears
from scipy import stats

from tracksworn.assessment.assess import assess
from tracksworn.assessment.model import Assessment, Comparison
from tracksworn.assessment.sides import leading
from tracksworn.inspection.chart import ChartComponent
from tracksworn.inspection.vocabulary import Component, PartPlace, Side

LINK = wears(Component.LINK, 110.0, 10.0)
ROLLER = wears(Component.BOTTOM_ROLLER, 300.0, 200.0)
FORWARD, REVERSE, ANGLES = PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE, PartPlace.RIGHT_ANGLES


def compare(left: Said, right: Said, entry: ChartComponent = LINK, **more: object) -> Comparison | None:
    exact = gauge("caliper", accuracy=0.0)
    seen = inspection(
        reading(entry.component, left, right, gauge="caliper"),
        instruments=[exact],
        machine=machine(**more),  # type: ignore[arg-type]
    )
    return assess(seen, chart(entry)).comparison(entry.component)


def known(entry: Comparison | None) -> tuple[float, float]:
    """Delta and the half-width of its interval."""
    assert entry is not None
    assert entry.delta is not None
    assert entry.delta_low is not None
    assert entry.delta_high is not None
    assert entry.delta - entry.delta_low == pytest.approx(entry.delta_high - entry.delta)
    return entry.delta, entry.delta_high - entry.delta


def test_rule_23_errors_that_the_sides_share_cancel() -> None:
    delta, within = known(compare(60.0, 70.0))
    u = math.sqrt(2 * 9 + 2 * 1)  # spread and seat of each side; no inspector, no instrument
    assert delta == pytest.approx(10.0)
    assert within == pytest.approx(stats.t.ppf(0.975, u**4 / (18**2 / 3)) * u)


def test_rule_23_a_shared_new_size_leaves_the_delta_times_its_doubt() -> None:
    entry = wears(Component.LINK, 110.0, 10.0, new_doubt=3.0, limit_tolerance=1.0, tolerance=2.0)
    comparison = compare(60.0, 70.0, entry)
    assert comparison is not None
    assert comparison.budget is not None
    by_kind = {source.kind.value: part.points for source, part in comparison.budget.contributions.items()}
    root = math.sqrt(3)
    assert by_kind["new doubt"] == pytest.approx(-10.0 * 3.0 / root / 100)
    assert by_kind["limit"] == pytest.approx(10.0 * 1.0 / root / 100)
    assert by_kind["inspector"] == pytest.approx(0.0)
    tolerances = [part.points for source, part in comparison.budget.contributions.items() if source.kind == "tolerance"]
    assert tolerances == pytest.approx([0.5 * 2.0 / root, -0.6 * 2.0 / root])


def test_rule_23_place_by_place() -> None:
    entry = wears(Component.BUSHING, 110.0, 10.0)
    delta, _ = known(compare({FORWARD: 60.0, REVERSE: 70.0, ANGLES: 20.0}, {REVERSE: 75.0, FORWARD: 71.0}, entry))
    assert delta == pytest.approx((11.0 + 5.0) / 2)


def test_rule_23_a_side_without_places_meets_the_governing_place_with_a_middle() -> None:
    entry = wears(Component.BUSHING, 110.0, 10.0)
    delta, _ = known(compare({FORWARD: 60.0, REVERSE: 55.0, ANGLES: at_least(90)}, by_eye(30, 50), entry))
    assert delta == pytest.approx(55.0 - 40.0)


def test_rule_23_positions_seen_on_both_sides_with_half_widths_as_a_mean() -> None:
    comparison = compare(
        (250.0, 260.0, None), {1: about(40), 2: by_eye(30, 60), 3: about(50)}, ROLLER, bottom_rollers=3
    )
    delta, within = known(comparison)
    assert comparison is not None
    assert comparison.pairs == 2
    assert delta == pytest.approx(((50 - 40) + (40 - 45)) / 2)
    measured = comparison.budget
    assert measured is not None
    assert within == pytest.approx(math.hypot(measured.expanded, (10 + 15) / 2))
    u = math.sqrt(2 / 4 * 1.0 + 4.0)  # two seats, halved; the inspector in both
    assert measured.standard == pytest.approx(u)


def test_rule_23_half_widths_add_up() -> None:
    assert known(compare(about(40), by_eye(20, 30))) == pytest.approx((15.0, 15.0))


@pytest.mark.parametrize("right", [at_least(50), at_most(20), unseen(), None])
def test_rule_23_without_a_pair_there_is_no_delta(right: Said) -> None:
    entry = compare(60.0, right)
    assert entry is not None
    assert (entry.delta, entry.delta_low, entry.delta_high, entry.differs) == (None,) * 4


def test_rule_24_five_points_at_least() -> None:
    steady = (60.0,) * 60
    below, at = compare(steady, (64.9,) * 60), compare(steady, (65.0,) * 60)
    assert below is not None
    assert at is not None
    assert (below.differs, at.differs) == (False, True)


def assess_two(left: Said, right: Said, *, second: bool) -> Assessment:
    exact = gauge("caliper", accuracy=0.0)
    readings = [reading(Component.LINK, left, right, gauge="caliper")]
    if second:
        readings.append(reading(Component.SHOE, 70.0, 70.0, gauge="caliper"))
    return assess(inspection(*readings, instruments=[exact]), chart(LINK, wears(Component.SHOE, 110.0, 10.0)))


def test_rule_24_half_as_much_again_where_several_are_compared() -> None:
    _, within = known(assess_two(60.0, 70.0, second=False).comparison(Component.LINK))
    apart = 1.2 * within
    alone = assess_two(60.0, 60.0 + apart, second=False).comparison(Component.LINK)
    among = assess_two(60.0, 60.0 + apart, second=True).comparison(Component.LINK)
    assert alone is not None
    assert among is not None
    assert (alone.differs, among.differs) == (True, False)
    assert known(among)[1] == pytest.approx(within)  # the interval itself is without the factor
    clear = assess_two(60.0, 60.0 + 1.6 * within, second=True).comparison(Component.LINK)
    assert clear is not None
    assert clear.differs is True


def test_rule_24_on_its_uncertainty_is_not_beyond_it() -> None:
    estimate = compare(by_eye(40, 50), by_eye(30, 40))
    assert known(estimate) == (10.0, 10.0)
    assert estimate is not None
    assert estimate.differs is False


def test_rule_24_neither_side_seen_is_no_entry() -> None:
    assert compare(unseen(), None) is None
    assert compare(60.0, 60.0, wears(Component.LINK)) is None  # measured, but without percent


def test_rule_24_the_governing_position_stands_in_sides() -> None:
    entry = compare((250.0, 240.0), {1: at_least(70), 2: about(60)}, ROLLER, bottom_rollers=2)
    assert entry is not None
    assert entry.left is not None
    assert entry.right is not None
    assert entry.left.percent_worn == pytest.approx(60.0)
    assert entry.left.position == 2
    assert (entry.right.percent_worn, entry.right.low, entry.right.high, entry.right.position) == (None, 70, None, 1)


@pytest.mark.parametrize(
    ("left", "right", "side"),
    [
        ((250.0, 240.0, None), (270.0, 260.0, None), Side.LEFT),
        ((270.0, 260.0, None), (250.0, 240.0, None), Side.RIGHT),
        ((250.0, 240.0, None), {1: 270.0, 2: 260.0, 3: 225.0}, None),  # the right one has the most worn part
        ((250.0, 240.0, None), {1: 270.0, 2: 260.0, 3: at_least(50)}, None),  # or may have it
        ((250.0, 240.0, None), (250.0, 240.0, None), None),
    ],
)
def test_a_side_leads_by_its_most_worn_part_too(left: Said, right: Said, side: Side | None) -> None:
    entry = compare(left, right, ROLLER, bottom_rollers=3)
    assert leading(entry) is side


def test_a_part_that_was_not_made_for_its_place_lets_no_side_lead() -> None:
    entry = compare((250.0, 240.0), (270.0, 260.0), ROLLER, bottom_rollers=2)
    assert entry is not None
    assert leading(entry) is Side.LEFT
    assert leading(replace(entry, foreign=True)) is None
