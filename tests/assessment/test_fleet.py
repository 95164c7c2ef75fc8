"""Many lots together: every lot is counted once, and each reason for another look begins where it says."""

from dataclasses import replace
from types import MappingProxyType

import pytest
from builders import chart, inspection, reading, wears
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.assessment.assess import assess
from tracksworn.assessment.fleet import CLASSES, WHEN, Look, Standing, fleet, is_wide, looks
from tracksworn.assessment.model import Assessment, Bound, SharesFrom, Stage, Worst
from tracksworn.assessment.sayings import Finding, Saying, Severity
from tracksworn.inspection.vocabulary import Component, Side

CHART = chart(wears(Component.LINK, 110.0, 10.0, share=1.0))
"""1 mm is 1 point."""


def assessed(percent: float = 40.0) -> Assessment:
    read = inspection(reading(Component.LINK, left=110.0 - percent, right=110.0 - percent))
    return replace(assess(read, CHART), findings=())


def with_whole(**changed: object) -> Assessment:
    """A lot that nothing asks to be looked at again, but for what is changed in its whole."""
    quiet = assessed()
    sound = replace(quiet.overall, percent_worn=40.0, low=35.0, high=45.0, seen_share=1.0)
    return replace(quiet, overall=replace(sound, **changed))  # type: ignore[arg-type]


def found(code: str, severity: Severity) -> Assessment:
    return replace(with_whole(), findings=(Finding(code, severity, (), (), Saying("replace")),))


def worst(percent: float) -> Worst:
    return Worst(Component.LINK, Side.LEFT, None, percent)


def test_nothing_asks_for_another_look_at_a_sound_lot() -> None:
    assert looks(with_whole(), CHART) == ()


@pytest.mark.parametrize(
    ("lot", "reason", "just_not"),
    [
        (with_whole(percent_worn=None, low=None, high=None), Look.NO_FIGURE, with_whole()),
        (found("seized", Severity.ACT), Look.ACT, found("near-limit", Severity.WATCH)),
        (with_whole(percent_worn=80.0, low=78.0, high=82.0), Look.NEAR_LIMIT, with_whole(percent_worn=79.9)),
        (with_whole(worst=worst(80.0)), Look.WORST_FAR_ABOVE, with_whole(worst=worst(79.9))),
        (
            with_whole(percent_worn=55.0, worst=worst(85.0)),
            Look.WORST_FAR_ABOVE,
            with_whole(percent_worn=55.0, worst=worst(84.9)),
        ),
        (
            with_whole(percent_worn=60.0, worst=worst(80.0)),
            Look.PART_NEAR_LIMIT,
            with_whole(percent_worn=60.0, worst=worst(79.9)),
        ),
        (
            with_whole(worst=worst(99.9)),
            Look.PART_NEAR_LIMIT,
            with_whole(worst=worst(100.0), past_limit=1),
        ),
        (with_whole(worst=worst(100.0), past_limit=1), Look.PART_PAST_LIMIT, with_whole(worst=worst(99.9))),
        (with_whole(low=25.0, high=50.0), Look.WIDE, with_whole(low=25.1, high=50.0)),
        (with_whole(bound=Bound.AT_LEAST, high=None), Look.WIDE, with_whole()),
        (with_whole(seen_share=0.75), Look.UNSEEN, with_whole(seen_share=0.751)),
        (found("grown-back", Severity.WATCH), Look.CONTRADICTION, found("sides-differ", Severity.WATCH)),
        (found("jumped", Severity.WATCH), Look.CONTRADICTION, found("even-growth", Severity.NOTE)),
    ],
)
def test_a_reason_begins_where_it_says(lot: Assessment, reason: Look, just_not: Assessment) -> None:
    assert reason in looks(lot, CHART)
    assert reason not in looks(just_not, CHART)


def test_a_chart_that_is_missing_or_of_another_machine_is_a_reason() -> None:
    assert looks(with_whole(), None) == (Look.NO_CHART,)
    assert looks(with_whole(), replace(CHART, stands_in_for="Hollin H-640D")) == (Look.STANDS_IN,)


def test_reasons_stand_in_one_order() -> None:
    several = replace(found("jumped", Severity.ACT), overall=with_whole(low=0.0, seen_share=0.5).overall)
    assert looks(several, None) == (Look.ACT, Look.WIDE, Look.UNSEEN, Look.NO_CHART, Look.CONTRADICTION)


def test_a_threshold_can_be_another() -> None:
    assert is_wide(with_whole(low=35.0, high=45.0).overall, replace(WHEN, wide=10.0))


STANDINGS = st.builds(
    Standing,
    percent_worn=st.none() | st.floats(0.0, 100.0),
    unread=st.booleans(),
    looks=st.lists(st.sampled_from(Look), unique=True).map(tuple),
)


@given(st.lists(STANDINGS))
def test_every_lot_is_counted_once(lots: list[Standing]) -> None:
    told = fleet(lots)
    assert told.known + told.not_known + told.unread == told.lots == len(lots)
    assert sum(told.stages.values()) == told.known
    assert told.to_look_at == len([lot for lot in lots if lot.looks])
    assert len(told.classes) == CLASSES
    assert (told.median is None) == (told.known == 0)


@given(st.lists(STANDINGS))
def test_their_order_makes_no_difference(lots: list[Standing]) -> None:
    other = sorted(lots, key=lambda lot: (str(lot.percent_worn), lot.unread, lot.looks))
    assert fleet(other) == fleet(lots)


def test_classes_and_stages_begin_on_their_boundaries() -> None:
    told = fleet([Standing(percent) for percent in (0.0, 9.999, 10.0, 49.9, 50.0, 80.0, 99.9, 100.0)])
    assert told.classes == (2, 1, 0, 0, 1, 1, 0, 0, 1, 2)
    assert told.stages == MappingProxyType(
        {Stage.FIRST_HALF: 4, Stage.SECOND_HALF: 1, Stage.NEAR_LIMIT: 2, Stage.PAST_LIMIT: 1}
    )
    assert told.median == pytest.approx((49.9 + 50.0) / 2)


def test_shares_play_no_part_in_counting() -> None:
    assert looks(with_whole(shares_from=SharesFrom.TYPICAL), CHART) == ()
