"""Hours left, months and planned work as sentences."""

from dataclasses import replace
from datetime import date

import pytest
from builders import inspection, machine, reading
from foretold import forecast_row, piece, plain
from hypothesis import assume, given
from hypothesis import strategies as st

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import Plan, PlannedWork, Visit
from tracksworn.documents.words.figures import THIN, Figures
from tracksworn.documents.words.forecast import (
    first_limit,
    is_past,
    may_be_beaten,
    next_limit,
    reaches_limit,
    visits_sentence,
    work_words,
)
from tracksworn.documents.words.language import Language
from tracksworn.documents.words.rounding import upper_end
from tracksworn.inspection.prices import Work
from tracksworn.inspection.vocabulary import Component, Side

FIGURES = Figures()
LEFT, RIGHT = Side


def plan(*after: float) -> Plan:
    visits = tuple(Visit(hours, 8412 + hours, (piece(Component.LINK, LEFT),), 1800.0, 570.0) for hours in after)
    return Plan(date(2031, 3, 1), "EUR", 95.0, visits, 36_894.0, 43_301.0)


# --- figures ---


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (623.0, 1066.0, "620 to 1 070"),
        (620.0, 1070.0, "620 to 1 070"),
        (9790.5, None, "over 9 790"),
        (3.2, 17.1, "3 to 18"),
        (0.0, 0.0, "0"),
        (0.0, 212.0, "0 to 220"),
        (12_340.0, 41_002.0, "over 12 300"),
        (3600.0, 27_600.0, "over 3 600"),
        (120.0, 1300.0, "over 120"),
        (20.0, 640.0, "20 to 640"),
    ],
)
def test_hours_are_rounded_outwards_low_first(low: float, high: float | None, said: str) -> None:
    assert plain(FIGURES.hours_between(low, high)) == said


@given(st.floats(0, 10_000), st.floats(0, 10_000))
def test_a_range_of_hours_never_looks_narrower_than_it_is(low: float, extent: float) -> None:
    high = low + extent
    assume(upper_end(low, high) is not None)
    said = [float(one.replace(THIN, "")) for one in FIGURES.hours_between(low, high).split(" to ")]
    assert said[0] <= low + 1e-6
    assert said[-1] >= high - 1e-6
    assert said[-1] - said[0] <= 1.5 * extent + 22
    assert FIGURES.hours_left(low, high).split(" to ")[0] == FIGURES.hours_between(low, high).split(" to ")[0]


@given(st.floats(0, 200_000), st.floats(0, 200_000), st.none() | st.floats(1, 168))
def test_an_upper_end_is_told_where_it_tells_something_and_never_changed(
    low: float, extent: float, per_week: float | None
) -> None:
    high = low + extent
    told = upper_end(low, high, per_week)
    assert told in (None, high)
    tells_nothing = high > 10_000 or (high > 1_000 and high > 10 * low)
    assert (told is None) == (tells_nothing or (per_week is not None and high > per_week * 10 * 365.25 / 7))
    assert FIGURES.hours_left(low, high).startswith("over ") == tells_nothing


def test_no_upper_end_is_none_whatever_else_is_known() -> None:
    assert upper_end(100.0, None, 35.0) is None


@given(st.floats(0, 200_000))
def test_an_open_end_is_rounded_down(low: float) -> None:
    said = float(FIGURES.hours_between(low, None).removeprefix("over ").replace(THIN, ""))
    assert low - 100 < said <= low + 1e-6


@pytest.mark.parametrize(
    ("first", "last", "said"),
    [
        (date(2031, 6, 3), date(2031, 7, 1), "June to July 2031"),
        (date(2031, 6, 3), date(2031, 6, 30), "June 2031"),
        (date(2031, 11, 3), date(2032, 1, 30), "November 2031 to January 2032"),
        (date(2031, 6, 3), None, "from June 2031"),
    ],
)
def test_months(first: date, last: date | None, said: str) -> None:
    assert FIGURES.months(first, last) == said


def test_months_in_another_language_have_a_common_year_once_too() -> None:
    german = Figures(language=Language("de"))
    said = german.months(date(2031, 6, 3), date(2031, 7, 1))
    assert (said[:5], said[-9:]) == ("Juni ", "Juli 2031")
    assert said.count("2031") == 1
    assert german.month(date(2031, 6, 3), short=True) == "Juni 2031"
    assert german.month(date(2031, 10, 3), short=True) == "Okt. 2031"


# --- what stops the machine first ---


def test_what_reaches_its_limit_first_and_when() -> None:
    row = forecast_row(
        Component.LINK, LEFT, 272.0, 330.0, 398.0, date_low=date(2031, 6, 11), date_high=date(2031, 7, 6)
    )
    said = reaches_limit(row, FIGURES, named=False, more=False)
    assert said == "The left links reach their limit first, in 270 to 400 hours, June to July 2031."


@pytest.mark.parametrize(
    ("named", "more", "said"),
    [
        (False, False, "The left sprocket reaches its limit first, in over 270 hours."),
        (False, True, "Next to reach its limit is the left sprocket, in over 270 hours."),
        (True, True, "It reaches its limit first, in over 270 hours."),
    ],
)
def test_without_weekly_hours_and_upper_end(named: bool, more: bool, said: str) -> None:
    row = forecast_row(Component.SPROCKET, LEFT, 272.0, 330.0, None)
    assert reaches_limit(row, FIGURES, named=named, more=more) == said


def test_what_is_past_its_limit_is_not_next() -> None:
    past = forecast_row(Component.BOTTOM_ROLLER, LEFT, 0.0, 0.0, 0.0, position=3)
    later = forecast_row(Component.LINK, LEFT, 600.0, 800.0, 1000.0)
    assessed = replace(assess(inspection(reading(Component.LINK, 130.0)), None), forecast=(later, past))
    assert first_limit((later, past)) is past
    assert next_limit(assessed) is later
    assert is_past(past)
    assert not is_past(replace(past, hours_high=120.0))
    assert not is_past(replace(past, hours_high=None))


def test_where_another_may_be_first_only_the_hours_before_any_limit_are_told() -> None:
    links = forecast_row(Component.LINK, LEFT, 2770.0, 6000.0, 9000.0, date_low=date(2033, 1, 20))
    shoes = forecast_row(Component.SHOE, LEFT, 3600.0, 5200.0, None)
    first = first_limit((shoes, links))
    assert first is links
    assert may_be_beaten(links, (shoes, links))
    assert not may_be_beaten(links, (links, forecast_row(Component.SHOE, LEFT, 3600.0, 6000.0, None)))
    said = reaches_limit(links, FIGURES, named=True, more=False, beaten=True)
    assert plain(said) == "No limit before 2 770 hours, January 2033 (left links)."


def test_no_upper_date_where_there_is_no_upper_end() -> None:
    row = forecast_row(
        Component.SPROCKET, LEFT, 272.0, 9000.0, 270_000.0, date_low=date(2031, 6, 11), date_high=date(2130, 7, 6)
    )
    said = reaches_limit(row, FIGURES, named=False, more=False)
    assert said == "The left sprocket reaches its limit first, in over 270 hours, from June 2031."


def test_without_a_forecast_nothing_is_first() -> None:
    assert first_limit(()) is None
    assert next_limit(assess(inspection(reading(Component.LINK, 130.0)), None)) is None


# --- visits and work ---


@pytest.mark.parametrize(
    ("after", "said"),
    [
        ((), []),
        ((0.0,), ["Shop visit: EUR 3 470 now; an estimate without tax."]),
        ((842.0,), ["Shop visit: about EUR 3 470 in 840 h; an estimate without tax."]),
        ((0.0, 842.0), ["Shop visits: EUR 3 470 now; about EUR 3 470 in 840 h; estimates without tax."]),
        (
            (842.0, 1000.0, 1100.0, 1200.0, 1300.0),
            [
                (
                    "Shop visits: about EUR 3 470 in 840 h; about EUR 3 470 in 1 000 h; about EUR 3 470 in 1 100 h; "
                    "about EUR 3 470 in 1 200 h; 1 visit more later; estimates without tax."
                )
            ],
        ),
    ],
)
def test_what_the_visits_cost(after: tuple[float, ...], said: list[str]) -> None:
    assert [plain(one) for one in visits_sentence(plan(*after), FIGURES)] == said


def test_a_visit_has_its_month_where_weekly_hours_are_known() -> None:
    seen = inspection(reading(Component.LINK, 130.0), machine=machine(hours_per_week=35.0))
    said = next(visits_sentence(plan(0.0, 842.0), FIGURES, seen))
    assert plain(said) == "Shop visits: EUR 3 470 now; about EUR 3 470 in Oct 2031; estimates without tax."


def test_no_plan_no_sentence() -> None:
    assert list(visits_sentence(None, FIGURES)) == []


@pytest.mark.parametrize(
    ("work", "said"),
    [
        ([piece(Component.BOTTOM_ROLLER, LEFT, position=3)], "Replace left bottom roller 3."),
        (
            [piece(part, side) for part in (Component.LINK, Component.BUSHING) for side in Side]
            + [piece(Component.SPROCKET, LEFT), piece(Component.BOTTOM_ROLLER, RIGHT, position=1)],
            "Replace both chains with bushings; left sprocket; right bottom roller 1.",
        ),
        (
            [piece(Component.LINK, LEFT), piece(Component.BUSHING, LEFT)],
            "Replace left chain with bushings.",
        ),
        (
            [piece(Component.LINK, side, Work.REBUILD) for side in Side]
            + [piece(Component.BUSHING, side, Work.TURN) for side in Side],
            "Turn left and right bushings. Rebuild left and right links.",
        ),
        (
            [piece(part, side) for part in (Component.PITCH, Component.BUSHING) for side in Side],
            "Replace pins and seals of both chains; left and right bushings.",
        ),
        (
            [piece(Component.PITCH, side) for side in Side] + [piece(Component.BUSHING, LEFT, Work.TURN)],
            (
                "Replace pins and seals of the left chain; pins, bushings and seals of the right chain (pitch). "
                "Turn left bushings."
            ),
        ),
        (
            [piece(Component.FRONT_IDLER, side, Work.RE_SHELL) for side in Side]
            + [piece(Component.SHOE, side, Work.RE_GROUSER) for side in Side],
            "Re-shell left and right front idlers. Re-grouser left and right shoes.",
        ),
    ],
)
def test_work_joins_sides_and_components(work: list[PlannedWork], said: str) -> None:
    assert work_words(work, FIGURES) == said


@given(
    st.lists(
        st.builds(
            piece,
            st.sampled_from([Component.LINK, Component.BUSHING, Component.SHOE, Component.SPROCKET]),
            st.sampled_from(Side),
            st.sampled_from([Work.REPLACE, Work.REBUILD]),
        ),
        min_size=1,
        unique_by=lambda one: (one.component, one.side),
    )
)
def test_no_work_goes_untold(work: list[PlannedWork]) -> None:
    said = work_words(work, FIGURES)
    for one in work:
        names = {Component.LINK: ("link", "chain"), Component.BUSHING: ("bushing",)}.get(
            one.component, (one.component,)
        )
        assert any(name in said for name in names)
        assert one.side.value in said or "both" in said
