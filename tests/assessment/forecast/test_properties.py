"""What must hold for every forecast."""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from builders import chart, gauge, inspection, machine, reading, wears
from histories import LINKS, at_day, fitted_at, forecast_of, walk
from hypothesis import given
from hypothesis import strategies as st
from strategies import cases, inspections, maybe, numbers

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import ForecastRow, RateFrom
from tracksworn.assessment.model import Assessment
from tracksworn.inspection.chart import Case, WearChart
from tracksworn.inspection.model import FittedPart, Fitting, Hours, Inspection
from tracksworn.inspection.values import ByPlace, ByPosition, PerSide, Sizes
from tracksworn.inspection.vocabulary import Component, Evidence

TOOL = gauge("caliper", resolution=0.02, accuracy=0.05)
USUAL_HOURS = numbers(1.0, 12_000.0)
HOSTILE_HOURS = st.sampled_from((0.0, 1e-12, 1e-7, 1.0, 8412.0, 8412.0 + 1e-9, 1e6)) | numbers(0.0, 1e6)
EVIDENCE = st.sampled_from((None, Evidence.INVOICE, Evidence.OWNERS_WORD))


@st.composite
def meters(draw: st.DrawFn) -> Hours | None:
    shown = draw(maybe(HOSTILE_HOURS) | USUAL_HOURS)
    return None if shown is None else Hours(shown, draw(st.sampled_from((Evidence.METER, Evidence.OWNERS_WORD))))


@st.composite
def fittings(draw: st.DrawFn) -> Fitting:
    if draw(st.integers(0, 4)) == 0:
        return Fitting(original=True)
    return Fitting(draw(maybe(HOSTILE_HOURS)), draw(EVIDENCE), draw(maybe(HOSTILE_HOURS)))


def stretched(seen: Inspection, factor: float) -> Inspection:
    """The same readings with every size that much larger or smaller."""

    def larger(value: Any) -> Any:
        match value:
            case Sizes(sizes, unit):
                return Sizes(tuple(size and size * factor for size in sizes), unit)
            case ByPlace(entries):
                return ByPlace({place: larger(entry) for place, entry in entries.items()})
            case ByPosition(entries, others):
                return ByPosition({position: larger(entry) for position, entry in entries.items()}, larger(others))
            case _:
                return value

    readings = {
        component: replace(each, sides=PerSide(larger(each.sides.left), larger(each.sides.right)))
        for component, each in seen.readings.items()
    }
    return replace(seen, readings=readings)


@st.composite
def histories(draw: st.DrawFn) -> tuple[WearChart, Inspection, list[Inspection]]:
    """A whole machine by a random chart with cases, now and up to five times before."""
    now, source = draw(cases())
    ends_at, times = draw(numbers(0.001, 99.999)), draw(st.sampled_from((1e-6, 0.5, 3.0, 1e6)))
    entries = [
        replace(entry, dimensions=replace(entry.dimensions, case=Case(ends_at, times))) if entry.dimensions else entry
        for entry in source.components.values()
    ]
    before = st.floats(0.97, 1.03).map(lambda factor: stretched(now, factor))
    walks = [now, *draw(st.lists(before | inspections(source), max_size=5))]
    fitted = {FittedPart(component): draw(fittings()) for component in source.components}
    a_week = draw(maybe(numbers(1e-9, 168.0)))
    met = []
    for each in walks:
        hours = draw(meters())
        found = replace(each.machine, hours=hours, hours_per_week=a_week)
        met.append(at_day(replace(each, machine=found, fitted=fitted), hours.machine if hours else 0.0))
    return chart(*entries, layout=source.layout), met[0], met[1:]


def told_right(now: Inspection, assessed: Assessment) -> None:
    """Every figure is finite, no hours are negative, and ends lie about their middle."""
    for row in assessed.forecast or ():
        figures = (row.rate_per_100_h, row.hours_left, row.hours_low, row.whole_life, row.over)
        assert all(math.isfinite(figure) for figure in figures)
        assert 0.0 <= row.hours_low <= row.hours_left
        assert row.hours_high is None or row.hours_left <= row.hours_high < math.inf
        assert row.rate_per_100_h > 0.0
        assert set(row.rates) == {RateFrom.SINCE_FITTED, RateFrom.BETWEEN}
        assert all(rate is None or 0.0 < rate < math.inf for rate in row.rates.values())
        if row.date_low is not None and row.date_high is not None:
            assert now.inspected <= row.date_low <= row.date_high
    for course in assessed.courses:
        assert all(math.isfinite(point.percent_worn) for point in course.points)
        days = [point.inspected for point in course.points[:-1]]
        assert days == sorted(days)


@pytest.mark.slow
@given(histories())
def test_hours_of_a_whole_machine_are_finite_in_order_and_never_negative(
    history: tuple[WearChart, Inspection, list[Inspection]],
) -> None:
    source, now, earlier = history
    told_right(now, assess(now, source, earlier=earlier))


@st.composite
def series(draw: st.DrawFn) -> tuple[WearChart, Inspection, list[Inspection]]:
    """One chain by any chart, walked round up to six times at any hours, mostly rising."""
    table = draw(maybe(st.just(((200.0, 0.0), (160.0, draw(numbers(1.0, 99.0))), (100.0, 100.0)))))
    case = None if table else draw(maybe(st.builds(Case, numbers(0.01, 99.9), st.sampled_from((1e-6, 3.0, 1e6)))))
    source = chart(
        wears(Component.LINK, 200.0, 100.0, table=table, case=case, tolerance=draw(maybe(numbers(0.0, 5.0))))
    )
    hours = draw(st.lists(HOSTILE_HOURS | USUAL_HOURS, min_size=2, max_size=6))
    percents = draw(st.lists(numbers(-20.0, 150.0), min_size=len(hours), max_size=len(hours)))
    if draw(st.booleans()):
        hours.sort()
    if draw(st.booleans()):
        percents.sort()
    fitted = {Component.LINK: draw(fittings())} if draw(st.booleans()) else {}
    spread, a_week = draw(numbers(0.0, 3.0)), draw(maybe(numbers(1e-9, 168.0)))
    walks = [
        walk(at, joints(percent, spread), fitted=fitted, hours_per_week=a_week)
        for at, percent in zip(hours, percents, strict=True)
    ]
    return source, walks[-1], walks[:-1]


@given(series())
def test_hours_are_finite_in_order_and_never_negative(history: tuple[WearChart, Inspection, list[Inspection]]) -> None:
    source, now, earlier = history
    told_right(now, assess(now, source, earlier=earlier))


@pytest.mark.slow
@given(histories())
def test_there_is_a_forecast_where_there_is_evidence_or_an_earlier_inspection(
    history: tuple[WearChart, Inspection, list[Inspection]],
) -> None:
    source, now, earlier = history
    hours = now.machine.hours
    known = hours is not None and hours.known_from is not Evidence.OWNERS_WORD
    told = any(f.original or (f.known_from and f.at is not None) for f in now.fitted.values())
    turned = any(f.known_from and f.turned_at is not None for f in now.fitted.values())
    has_rows = any(row.component in source.components for row in assess(now, source).components)
    expected = bool(earlier) or (has_rows and known and (told or turned))
    assert (assess(now, source, earlier=earlier).forecast is not None) is expected


def rows(forecast: Sequence[ForecastRow] | None) -> tuple[ForecastRow, ...]:
    assert forecast
    return tuple(forecast)


def joints(percent: float, spread: float, count: int = 4) -> tuple[float, ...]:
    return tuple(200.0 - percent + spread * (-1.0) ** index for index in range(count))


@given(st.lists(numbers(1.0, 130.0), min_size=2, max_size=5), numbers(0.0, 3.0))
def test_since_fitted_more_worn_never_has_more_hours_left(percents: list[float], spread: float) -> None:
    found = [
        rows(forecast_of(walk(5000.0, joints(each, spread), fitted={Component.LINK: fitted_at(0.0)})))[0]
        for each in sorted(percents)
    ]
    for less, more in pairwise(found):
        assert more.hours_left <= less.hours_left * (1 + 1e-9)
        assert more.hours_low <= less.hours_low * (1 + 1e-9) + 1e-9


@given(st.lists(numbers(1.0, 130.0), min_size=2, max_size=5), numbers(0.1, 30.0))
def test_at_equal_rate_more_worn_never_has_more_hours_left(percents: list[float], grown: float) -> None:
    found = [
        rows(forecast_of(walk(5000.0, joints(each, 0.5)), walk(4000.0, joints(each - grown, 0.5))))[0]
        for each in sorted(percents)
    ]
    for less, more in pairwise(found):
        assert more.rate_per_100_h == pytest.approx(less.rate_per_100_h)
        assert more.hours_left <= less.hours_left * (1 + 1e-9)
        assert more.hours_low <= less.hours_low * (1 + 1e-6) + 1e-6


def inch(found: Any) -> Any:
    return None if found is None else found / 25.4


@given(
    st.lists(numbers(10.0, 120.0), min_size=1, max_size=5).map(sorted),
    numbers(0.0, 2.0),
    maybe(st.just(Case(60.0, 3.0))),
    maybe(numbers(0.01, 1.0)),
)
def test_inch_and_millimetre_agree(
    percents: list[float], spread: float, case: Case | None, tolerance: float | None
) -> None:
    def told_in(unit: float) -> tuple[ForecastRow, ...] | None:
        tool = replace(TOOL, resolution=0.02 / unit, accuracy=0.05 / unit)
        source = chart(
            wears(
                Component.LINK,
                200.0 / unit,
                100.0 / unit,
                case=case,
                tolerance=None if tolerance is None else tolerance / unit,
            )
        )
        walks = [
            walk(
                2000.0 + 500.0 * index,
                tuple(size / unit for size in joints(percent, spread)),
                tool=tool,
                fitted={Component.LINK: fitted_at(1000.0)},
                hours_per_week=35.0,
            )
            for index, percent in enumerate(percents)
        ]
        return forecast_of(walks[-1], *walks[:-1], by=source)

    for here, there in zip(rows(told_in(1.0)), rows(told_in(25.4)), strict=True):
        assert there.rate_from is here.rate_from
        assert (there.hours_left, there.hours_low, there.rate_per_100_h) == pytest.approx(
            (here.hours_left, here.hours_low, here.rate_per_100_h), rel=1e-6, abs=1e-6
        )
        assert (there.hours_high is None) is (here.hours_high is None)
        if here.hours_high is not None:
            assert there.hours_high == pytest.approx(here.hours_high, rel=1e-6)


@given(st.lists(numbers(0.0, 59.0), min_size=1, max_size=5))
def test_more_inspections_before_the_latest_keep_both_rates(percents: list[float]) -> None:
    now = walk(9000.0, joints(80.0, 0.5), fitted={Component.LINK: fitted_at(1000.0)})
    latest = walk(8000.0, joints(60.0, 0.5))
    older = [walk(2000.0 + 1000.0 * index, joints(percent, 0.5)) for index, percent in enumerate(percents)]
    alone, among = (rows(forecast_of(now, *earlier))[0] for earlier in ([latest], [*older, latest]))
    assert among.rates == alone.rates


@given(numbers(0.5, 8.0))
def test_hours_counted_in_another_unit_scale_with_it(factor: float) -> None:
    """Twice the hours everywhere is half the rate and twice the hours left."""
    here, there = (
        rows(forecast_of(walk(6000.0 * by, joints(60.0, 0.5)), walk(4000.0 * by, joints(40.0, 0.5))))[0]
        for by in (1.0, factor)
    )
    assert there.hours_low == pytest.approx(here.hours_low * factor)
    assert there.hours_high == pytest.approx((here.hours_high or 0.0) * factor)
    assert there.rate_per_100_h == pytest.approx(here.rate_per_100_h / factor)


def test_forecasting_twice_gives_the_same() -> None:
    now = inspection(
        reading(Component.LINK, joints(50.0, 0.5), joints(30.0, 0.5)),
        machine=machine(hours=Hours(5000.0)),
        fitted={Component.LINK: fitted_at(100.0)},
    )
    assert assess(now, LINKS).forecast == assess(now, LINKS).forecast
