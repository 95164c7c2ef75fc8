"""What a rate of wear may rest on, and which of two governs."""

from dataclasses import replace
from datetime import date

import pytest
from builders import about, at_least, by_eye, chart, gauge, wears
from histories import DEPTH_GAUGE, LINKS, fitted_at, forecast_of, only_row, walk, worn

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import RateFrom
from tracksworn.assessment.uncertainty import weighted_sum
from tracksworn.inspection.chart import Case
from tracksworn.inspection.model import FittedPart, Fitting, Hours, Inspection
from tracksworn.inspection.vocabulary import Component, Evidence, PartPlace, Side

FITTED = {Component.LINK: fitted_at(1000.0)}
NOW = walk(6000.0, worn(50.0))
BEFORE = walk(5000.0, worn(36.0))


@pytest.mark.parametrize(
    "evidence", [Evidence.INVOICE, Evidence.STAMP, Evidence.OWNERS_WORD, Evidence.EARLIER_INSPECTION]
)
def test_any_evidence_of_fitting_gives_a_long_term_rate(evidence: Evidence) -> None:
    row = only_row(forecast_of(walk(6000.0, worn(50.0), fitted={Component.LINK: Fitting(1000.0, evidence)})))
    assert row.rate_from is RateFrom.SINCE_FITTED
    assert row.rate_per_100_h == pytest.approx(1.0)
    assert row.rates == {RateFrom.SINCE_FITTED: row.rate_per_100_h, RateFrom.BETWEEN: None}
    assert (row.hours_left, row.whole_life, row.over) == pytest.approx((5000.0, 10_000.0, 5000.0))


def test_on_since_new_is_evidence_from_hour_nought() -> None:
    row = only_row(forecast_of(walk(5000.0, worn(50.0), fitted={Component.LINK: Fitting(original=True)})))
    assert row.rate_per_100_h == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("hours", "fitting"),
    [
        (6000.0, None),
        (6000.0, Fitting()),
        (6000.0, Fitting(1000.0)),
        (6000.0, Fitting(None, Evidence.INVOICE)),
        (None, fitted_at(1000.0)),
        (Hours(6000.0, Evidence.OWNERS_WORD), fitted_at(1000.0)),
    ],
)
def test_without_evidence_at_both_ends_nothing_is_forecast(
    hours: float | Hours | None, fitting: Fitting | None
) -> None:
    fitted = {Component.LINK: fitting} if fitting else {}
    assert forecast_of(walk(hours, worn(50.0), fitted=fitted)) is None


def test_evidence_of_a_part_that_was_not_seen_gives_an_empty_forecast() -> None:
    assert forecast_of(walk(6000.0, worn(50.0), fitted={FittedPart(Component.LINK, Side.RIGHT): fitted_at(0.0)})) == ()


def test_a_named_earlier_inspection_gives_an_empty_forecast() -> None:
    assert forecast_of(NOW, walk(None, worn(36.0))) == ()


@pytest.mark.parametrize("fitted", [fitted_at(6000.0), fitted_at(6000.0 - 1e-10)])
def test_no_rate_over_no_hours(fitted: Fitting) -> None:
    assert forecast_of(walk(6000.0, worn(50.0), fitted={Component.LINK: fitted})) == ()


@pytest.mark.parametrize("percent", [-3.0, 0.0])
def test_a_part_as_new_has_no_long_term_rate(percent: float) -> None:
    assert forecast_of(walk(6000.0, worn(percent), fitted=FITTED)) == ()


@pytest.mark.parametrize("said", [about(50.0), by_eye(40.0, 60.0), at_least(50.0)])
def test_an_estimate_has_no_rate(said: object) -> None:
    now = walk(6000.0, said, joints=None, fitted=FITTED)  # type: ignore[arg-type]
    assert forecast_of(now, walk(5000.0, said, joints=None)) == ()  # type: ignore[arg-type]


def test_the_nearest_key_tells_when_a_part_went_on() -> None:
    fitted = {Component.LINK: fitted_at(0.0), FittedPart(Component.LINK, Side.LEFT): fitted_at(3500.0)}
    rows = forecast_of(walk(6000.0, worn(50.0), worn(30.0), fitted=fitted))
    assert rows is not None
    assert [row.over for row in rows] == [2500.0, 6000.0]


def test_a_replaced_meter_goes_on() -> None:
    row = only_row(forecast_of(walk(Hours(500.0, Evidence.METER, 5500.0), worn(50.0), fitted=FITTED)))
    assert row.over == 5000.0


BUSHINGS = chart(wears(Component.BUSHING, 84.0, 76.5, places=(PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE), turns=1))


def bushings(hours: float, forward: float, reverse: float, **more: object) -> Inspection:
    sides = {PartPlace.FORWARD_SIDE: forward, PartPlace.REVERSE_SIDE: reverse}
    return walk(hours, sides, component=Component.BUSHING, joints=None, **more)  # type: ignore[arg-type]


def test_a_turned_bushing_wears_from_its_turn() -> None:
    fitted = {Component.BUSHING: fitted_at(1000.0, turned_at=4000.0)}
    row = only_row(forecast_of(bushings(6000.0, 80.25, 82.5, fitted=fitted), by=BUSHINGS))
    assert row.rate_per_100_h == pytest.approx(2.5)
    assert row.over == 2000.0


@pytest.mark.parametrize(("hours", "between"), [(3999.0, None), (4000.0, 2.0), (5000.0, 4.0)])
def test_readings_before_the_turn_do_not_count(hours: float, between: float | None) -> None:
    fitted = {Component.BUSHING: fitted_at(1000.0, turned_at=4000.0)}
    row = only_row(forecast_of(bushings(6000.0, 80.25, 82.5, fitted=fitted), bushings(hours, 83.25, 83.0), by=BUSHINGS))
    assert row.rates[RateFrom.BETWEEN] == (between and pytest.approx(between))


def test_the_short_term_rate_is_of_the_place_that_governs_now() -> None:
    row = only_row(forecast_of(bushings(6000.0, 80.25, 82.5), bushings(5000.0, 82.5, 80.0), by=BUSHINGS))
    assert row.rate_per_100_h == pytest.approx(3.0)


def test_between_two_inspections() -> None:
    row = only_row(forecast_of(NOW, BEFORE))
    assert row.rate_from is RateFrom.BETWEEN
    assert row.rate_per_100_h == pytest.approx(1.4)
    assert row.rates == {RateFrom.SINCE_FITTED: None, RateFrom.BETWEEN: row.rate_per_100_h}
    assert (row.hours_left, row.over) == pytest.approx((50.0 / 0.014, 1000.0))


@pytest.mark.parametrize(
    "before",
    [
        walk(5000.0, worn(36.0), joints=(3, 13, 23, 34)),
        walk(5000.0, worn(36.0), joints=None),
        walk(5000.0, worn(36.0)[:3], joints=(3, 13, 23)),
        walk(5000.0, (*worn(36.0)[:3], None)),
        walk(5000.0, worn(36.0), tool=None),
        walk(5000.0, worn(36.0), tool=gauge("caliper", accuracy=0.1)),
        walk(5000.0, None, worn(36.0)),
        walk(5000.0, about(36.0)),
        walk(5000.0, {PartPlace.INNER_TREAD: worn(36.0)}),
        walk(6000.0, worn(36.0)),
        walk(7000.0, worn(36.0)),
        walk(None, worn(36.0)),
        walk(999.0, worn(36.0)),
        walk(5000.0, worn(50.0)),
        walk(5000.0, worn(60.0)),
    ],
    ids=[
        "other joints", "no joints", "fewer joints", "one joint not measured", "no gauge", "other gauge", "other side",
        "by eye", "other place", "equal hours", "more hours", "unknown hours", "before it was fitted", "as worn",
        "more worn",
    ],
)  # fmt: skip
def test_what_makes_no_pair(before: Inspection) -> None:
    now = replace(NOW, fitted={FittedPart(Component.LINK): Fitting(1000.0)})
    assert forecast_of(now, before) == ()


def test_the_same_joints_in_another_order_make_a_pair() -> None:
    assert forecast_of(NOW, walk(5000.0, worn(36.0), joints=(33, 23, 13, 3)))


def test_two_readings_without_joints_or_gauge_make_a_pair() -> None:
    now, before = (walk(hours, worn(w), joints=None, tool=None) for hours, w in ((6000.0, 50.0), (5000.0, 36.0)))
    assert only_row(forecast_of(now, before)).rate_per_100_h == pytest.approx(1.4)


def test_the_owners_word_serves_between_inspections() -> None:
    now, before = (
        walk(Hours(hours, Evidence.OWNERS_WORD), worn(w), fitted=FITTED)
        for hours, w in ((6000.0, 50.0), (5000.0, 36.0))
    )
    row = only_row(forecast_of(now, before))
    assert row.rates == pytest.approx({RateFrom.SINCE_FITTED: None, RateFrom.BETWEEN: 1.4})


def test_the_latest_pair_counts() -> None:
    older, unlike = walk(4000.0, worn(20.0)), walk(5500.0, worn(45.0), joints=(1, 2, 3, 4))
    for earlier in ((older, BEFORE, unlike), (unlike, BEFORE, older)):
        assert only_row(forecast_of(NOW, *earlier)).rate_per_100_h == pytest.approx(1.4)


def test_of_one_day_the_one_with_more_hours_is_the_later() -> None:
    other = replace(walk(4990.0, worn(35.9)), inspected=BEFORE.inspected)
    for earlier in ((other, BEFORE), (BEFORE, other)):
        assert only_row(forecast_of(NOW, *earlier)).over == 1000.0


ROLLERS = chart(wears(Component.BOTTOM_ROLLER, 200.0, 100.0))


def test_a_roller_is_followed_at_its_own_position() -> None:
    now = walk(6000.0, (140.0, 150.0), component=Component.BOTTOM_ROLLER, joints=None)
    before = walk(5000.0, (160.0, 130.0), component=Component.BOTTOM_ROLLER, joints=None)
    row = only_row(forecast_of(now, before, by=ROLLERS))
    assert row.position == 1
    assert row.rate_per_100_h == pytest.approx(2.0)


def test_a_side_whose_worst_roller_was_judged_by_eye_has_no_row() -> None:
    fitted = {Component.BOTTOM_ROLLER: fitted_at(0.0)}
    now = walk(6000.0, {1: 140.0, 2: about(70.0)}, component=Component.BOTTOM_ROLLER, joints=None, fitted=fitted)
    assert forecast_of(now, by=ROLLERS) == ()


def test_through_a_case_a_rate_is_of_even_wear() -> None:
    cased = chart(wears(Component.LINK, 200.0, 100.0, spread=1.0, case=Case(60.0, 3.0)))
    row = only_row(forecast_of(walk(6000.0, worn(75.0)), walk(5000.0, worn(45.0)), by=cased))
    assert row.rate_per_100_h == pytest.approx(2.0)
    assert row.hours_left == pytest.approx((40.0 - 15.0) / 3.0 / 0.02)
    assert row.whole_life == pytest.approx((60.0 + 40.0 / 3.0) / 0.02)
    assert not row.hardening_ignored
    assert only_row(forecast_of(NOW, BEFORE)).hardening_ignored


def with_both(before: float, **more: object) -> tuple[Inspection, Inspection]:
    """50 % worn after 5000 h: 1 point in 100 h since fitted."""
    return walk(6000.0, worn(50.0), fitted=FITTED), walk(5000.0, worn(before), **more)  # type: ignore[arg-type]


def edge() -> float:
    """How worn it was at 5000 h where the short-term rate is above the long-term one by U of their difference."""
    now, then = (
        assess(seen, LINKS).components[0].budget for seen in (walk(6000.0, worn(50.0)), walk(5000.0, worn(36.0)))
    )
    assert now is not None
    assert then is not None
    renamed = replace(
        then,
        contributions={
            replace(source, of=(*source.of, "then"))
            if source.kind.value in ("spread", "seat", "resolution")
            else source: (
                replace(part, rests_on=part.rests_on and replace(part.rests_on, of=(*part.rests_on.of, "then")))
            )
            for source, part in then.contributions.items()
        },
    )
    difference = weighted_sum([(1 / 1000 - 1 / 5000, now), (-1 / 1000, renamed)])
    return 50.0 - 1000.0 * (0.01 + difference.expanded)


def test_short_term_governs_only_beyond_the_uncertainty_of_the_difference() -> None:
    now, just_within = with_both(edge() + 1e-5)
    assert only_row(forecast_of(now, just_within)).rate_from is RateFrom.SINCE_FITTED
    now, just_beyond = with_both(edge() - 1e-5)
    row = only_row(forecast_of(now, just_beyond))
    assert row.rate_from is RateFrom.BETWEEN
    assert row.rates[RateFrom.SINCE_FITTED] == pytest.approx(1.0)


def test_what_two_inspections_share_lets_a_smaller_rise_be_told() -> None:
    """By the same hand with the same gauge errors cancel in the short-term rate; by others they do not."""
    now, then = with_both(38.0)
    assert only_row(forecast_of(now, then)).rate_from is RateFrom.BETWEEN
    _, by_another = with_both(38.0, inspector="Tom Wren", tool=replace(DEPTH_GAUGE, calibrated=date(2029, 1, 1)))
    assert only_row(forecast_of(now, by_another)).rate_from is RateFrom.SINCE_FITTED


def test_a_slower_short_term_rate_does_not_govern() -> None:
    now, then = with_both(45.0)
    row = only_row(forecast_of(now, then))
    assert row.rate_from is RateFrom.SINCE_FITTED
    assert row.rates == pytest.approx({RateFrom.SINCE_FITTED: 1.0, RateFrom.BETWEEN: 0.5})
