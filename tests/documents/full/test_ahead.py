"""Forecast and plan in the reader's words."""

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from builders import by_eye as eye
from builders import chart, inspection, machine, reading, unseen, wears
from documents.drawing.sheets import assert_sound
from foretold import forecast_row, piece, plain
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import ForecastRow, Plan, RateFrom, Swap, Visit
from tracksworn.assessment.model import Assessment
from tracksworn.documents.drawing.hours.draw import draw_hours
from tracksworn.documents.full.ahead import HoursLeft, HoursView
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.hours_left import hours_view, no_forecast
from tracksworn.documents.full.visits import ahead, plan_view
from tracksworn.documents.full.whole import whole
from tracksworn.documents.words.figures import Figures
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.model import FittedPart, Fitting, Hours, Inspection
from tracksworn.inspection.prices import Work
from tracksworn.inspection.vocabulary import Component, Evidence, Layout, Side

LEFT, RIGHT = Side
CHART = chart(
    wears(Component.LINK, 143.0, 128.0, share=0.5),
    wears(Component.SPROCKET, 50.0, 36.0, share=0.2),
    wears(Component.BOTTOM_ROLLER, 256.0, 210.0, share=0.3),
)
MACHINE = machine(links=45, bottom_rollers=3, hours=Hours(8412.0), hours_per_week=35.0)
SEEN = inspection(
    reading(Component.LINK, (131.0, 131.2), (133.0, 133.1)),
    reading(Component.SPROCKET, 43.0, eye(40, 60)),
    reading(Component.BOTTOM_ROLLER, {1: 220.0, 2: 206.0, 3: 230.0}, {1: 224.0, 2: 230.0, 3: unseen("guard fitted")}),
    machine=MACHINE,
)
LINKS = (
    forecast_row(Component.LINK, LEFT, 623.0, 830.0, 1066.0, date_low=date(2031, 8, 20), date_high=date(2031, 11, 17)),
    forecast_row(Component.LINK, RIGHT, 1250.0, 1540.0, None),
)


def context(
    rows: tuple[ForecastRow, ...] | None, plan: Plan | None = None, seen: Inspection = SEEN, wear_chart: Any = CHART
) -> Context:
    assessed: Assessment = replace(assess(seen, wear_chart), forecast=rows, plan=plan)
    return Context(Dossier(seen, Path("TEST-1"), wear_chart, None), assessed, Figures())


def shown(*rows: ForecastRow, plan: Plan | None = None, seen: Inspection = SEEN) -> HoursView:
    view = hours_view(context(rows, plan, seen))
    assert view is not None
    return view


def only(*rows: ForecastRow) -> HoursLeft:
    (row,) = shown(*rows).rows
    return row


def between(side: Side, **more: Any) -> ForecastRow:
    rates = {RateFrom.SINCE_FITTED: 2.0, RateFrom.BETWEEN: 3.0}
    return forecast_row(
        Component.LINK, side, 600.0, 800.0, 1000.0, rate_from=RateFrom.BETWEEN, over=752.0, rates=rates, **more
    )


# --- hours left ---


def test_a_row_has_both_sides_low_first_and_months_where_known() -> None:
    row = only(*LINKS)
    assert row.left is not None
    assert row.right is not None
    assert (row.part, row.note) == ("Track links", "")
    assert (plain(row.left.hours), row.left.months) == ("620 to 1 070", "August to November 2031")
    assert (plain(row.right.hours), row.right.months) == ("over 1 250", "")


def test_rows_come_soonest_first_rollers_of_different_positions_apart() -> None:
    left = forecast_row(Component.BOTTOM_ROLLER, LEFT, 0.0, 0.0, 0.0, position=2)
    right = forecast_row(Component.BOTTOM_ROLLER, RIGHT, 1160.0, 1460.0, 1800.0, position=1)
    rows = shown(*LINKS, left, right).rows
    assert [row.part for row in rows] == ["Bottom roller 2", "Track links", "Bottom roller 1"]
    assert [row.note for row in rows] == ["left, the worst", "", "right, the worst seen"]
    assert rows[0].left is not None
    assert rows[0].left.hours == "none: past its limit"


def test_rollers_of_one_position_stand_together() -> None:
    sides = [forecast_row(Component.BOTTOM_ROLLER, side, 100.0, 200.0, 300.0, position=2) for side in Side]
    row = only(*sides)
    assert row.left is not None
    assert row.right is not None
    assert row.note == ""


@pytest.mark.parametrize(
    ("rows", "note"),
    [
        ((between(LEFT),), "rate of the last 752 h; right: no rate known"),
        ((between(LEFT), LINKS[1]), "left: rate of the last 752 h"),
        ((between(LEFT), between(RIGHT)), "rate of the last 752 h"),
        ((replace(LINKS[0], rate_from=RateFrom.LINE, over=2422.0), LINKS[1]), "left: rate from 0 inspections"),
        ((forecast_row(Component.SPROCKET, LEFT, 100.0, 200.0, 300.0),), "right by eye"),
        ((forecast_row(Component.LINK, LEFT, 0.0, 0.0, 90.0), LINKS[1]), "left: past its limit, by its best value"),
    ],
)
def test_a_note_says_which_rate_governs_and_why_a_side_is_missing(rows: tuple[ForecastRow, ...], note: str) -> None:
    assert plain(only(*rows).note) == note


def test_the_axis_has_hour_meter_and_month_beneath() -> None:
    chart_ = shown(*LINKS).chart
    assert [plain(one) for one in chart_.scales] == ["machine hours", "month, at 35 h a week"]
    assert (chart_.ticks[0].text, plain(chart_.ticks[0].below[0])) == ("now", "8 412")
    assert all(len(tick.below) == len(chart_.scales) for tick in chart_.ticks)


def test_a_replaced_meter_counts_in_machine_hours() -> None:
    replaced = Hours(412.0, meter_replaced_at=8000.0)
    seen = replace(SEEN, machine=replace(MACHINE, hours=replaced, hours_per_week=None))
    chart_ = shown(*LINKS, seen=seen).chart
    assert chart_.scales == ("machine hours",)
    assert plain(chart_.ticks[0].below[0]) == "8 412"


def test_an_excavator_says_that_its_hours_are_mostly_not_travel() -> None:
    digger = replace(SEEN, machine=replace(MACHINE, layout=Layout.EXCAVATOR))
    assert "how much it travels is not known" in shown(*LINKS, seen=digger).notes[-2]
    told = shown(*LINKS, seen=replace(digger, machine=replace(digger.machine, travel_share=0.15)))
    assert plain(told.notes[-2]) == (
        "An excavator's meter hours are mostly not travel: its share of travel was told as 15 %."
    )
    assert told.rows[0].left is not None
    assert told.rows[0].left.travelling == "90 to 160"
    assert plain(told.chart.scales[0]) == "of that travelling, 15 %"


def test_hours_are_no_permission_and_may_be_shorter_where_hardening_is_ignored() -> None:
    view = shown(*LINKS)
    assert view.foremost[0] == "Hours left are no permission to run a part past its limit."
    assert view.notes == ("No prices were given: no visits are planned.",)
    ignoring = replace(LINKS[0], hardening_ignored=True)
    assert shown(ignoring, LINKS[1]).notes[0] == "Hours may be shorter where the chart ignores hardening: links."
    assert shown(ignoring).notes[0] == "Hours may be shorter: the chart ignores hardening."


def test_the_rates_that_occur_are_explained_and_no_others() -> None:
    assert shown(*LINKS).rates == "Rate of wear since fitted or turned, unless a row names another."
    assert "surely higher" in shown(between(LEFT), LINKS[1]).rates
    assert shown(replace(LINKS[0], rate_from=RateFrom.LINE)).rates.startswith("From four inspections on: ")


def test_the_chart_says_its_figures_where_it_cannot_be_seen() -> None:
    plan = Plan(date(2031, 3, 1), "EUR", 95.0, (visit(0.0),), 1.0, 2.0)
    said = plain(shown(*LINKS, plan=plan).chart.alternative)
    assert "Track links: left: 620 to 1 070, right: over 1 250." in said
    assert said.endswith("Shop visits: now.")


@st.composite
def any_rows(draw: st.DrawFn) -> ForecastRow:
    component = draw(st.sampled_from([Component.LINK, Component.SPROCKET, Component.BOTTOM_ROLLER]))
    best = draw(st.just(0.0) | st.floats(1, 60_000))
    low = best * draw(st.floats(0, 1))
    high = draw(st.none() | st.floats(best, 2 * best + 100))
    position = draw(st.integers(1, 3)) if component is Component.BOTTOM_ROLLER else None
    rate = draw(st.sampled_from(RateFrom))
    ignored = draw(st.booleans())
    return forecast_row(
        component,
        draw(st.sampled_from(Side)),
        low,
        best,
        high,
        position=position,
        rate_from=rate,
        hardening_ignored=ignored,
    )


@given(st.lists(any_rows(), min_size=1, max_size=6, unique_by=lambda row: (row.component, row.side)))
def test_any_forecast_shows_every_row_once_and_draws_soundly(rows: list[ForecastRow]) -> None:
    view = shown(*rows)
    sides = [side for row in view.rows for side in (row.left, row.right) if side is not None]
    assert len(sides) == len(rows) == sum(len(row.bars) for row in view.chart.rows)
    assert all(side.hours for side in sides)
    firsts = [min((bar.low, bar.best) for bar in row.bars) for row in view.chart.rows]
    assert firsts == sorted(firsts)
    assert_sound(draw_hours(view.chart))


# --- no forecast ---


@pytest.mark.parametrize(
    ("seen", "wear_chart", "said"),
    [
        (SEEN, CHART, "nothing shows since when parts are on. For a forecast, record the hours at fitting"),
        (replace(SEEN, machine=replace(MACHINE, hours=None)), CHART, "hours are not known and nothing shows"),
        (
            replace(SEEN, machine=replace(MACHINE, hours=Hours(8412.0, Evidence.OWNERS_WORD))),
            CHART,
            "the machine's hours were only told",
        ),
        (SEEN, None, "there is no wear chart and nothing shows"),
        (
            replace(SEEN, fitted={FittedPart(Component.LINK): Fitting(5210.0, Evidence.INVOICE)}),
            CHART,
            "no rate of wear follows",
        ),
    ],
)
def test_why_there_is_no_forecast(seen: Inspection, wear_chart: Any, said: str) -> None:
    assert said in no_forecast(context(None, None, seen, wear_chart))


def test_without_forecast_and_plan_there_is_no_sheet_but_the_reason() -> None:
    view = ahead(context(None))
    assert not view.has_sheet
    assert view.no_forecast
    assert ahead(context(LINKS)).no_forecast == ""


# --- plan ---


def visit(after: float, *more: Any, lost: float = 0.0) -> Visit:
    work = [
        replace(piece(Component.LINK, side), hours_left=after + early, life_lost=lost)
        for side, early in ((LEFT, 0.0), (RIGHT, 690.0 if lost else 0.0))
    ]
    return Visit(after, 8412 + after, (*work, *more), 1800.0, 1140.0)


PLAN = Plan(
    date(2031, 3, 1),
    "EUR",
    95.0,
    (visit(0.0), visit(838.0, lost=120.4)),
    36_894.4,
    43_301.0,
    swaps=(
        Swap(Component.BOTTOM_ROLLER, Work.SWAP_POSITIONS, RIGHT, (1, 2), (69.2, 57.8), 475.0),
        Swap(Component.LINK, Work.SWAP_SIDES, None, None, (79.4, 67.1), 1900.0),
    ),
    unpriced=(Component.SPROCKET,),
)


def test_a_visit_says_when_what_and_how_much() -> None:
    view = plan_view(context(LINKS, PLAN))
    assert view is not None
    first, second = view.visits
    assert [plain(one) for one in (first.when, second.when)] == ["now, 8 412 h", "9 250 h, Oct 2031"]
    assert first.work == "Replace left and right links."
    assert [plain(one) for one in (first.parts, first.labour, first.set_up, first.cost)] == [
        "2 000",
        "1 340",
        "1 800",
        "5 140",
    ]
    assert plain(view.basis) == "EUR, an estimate without tax; prices of 1 March 2031; labour 95 an hour"
    assert (plain(view.value_left), plain(view.to_restore)) == ("EUR 36 900", "EUR 43 300")


def test_early_work_says_what_life_it_gives_away() -> None:
    view = plan_view(context(LINKS, PLAN))
    assert view is not None
    assert view.visits[0].early == ""
    assert plain(view.visits[1].early) == "Done early to share the visit: right links 690 h; unused wear worth EUR 120."


def test_the_sum_of_all_visits_adds_up() -> None:
    view = plan_view(context(LINKS, PLAN))
    assert view is not None
    assert view.total is not None
    assert plain(view.total.when) == "Both visits"
    assert plain(view.total.cost) == "10 300"
    one = plan_view(context(LINKS, replace(PLAN, visits=PLAN.visits[:1])))
    assert one is not None
    assert one.total is None


def test_swaps_are_advice_and_say_so() -> None:
    view = plan_view(context(LINKS, PLAN))
    assert view is not None
    positions, sides = map(plain, view.swaps)
    assert positions == (
        "Right bottom rollers 1 and 2 could change places (69 % against 58 %), so that the more worn wears on "
        "where wear is slower: EUR 475, not in the plan."
    )
    assert sides == (
        "Left and right links could change sides (79 % against 67 %), so that the more worn wears on where wear is "
        "slower: EUR 1 900, not in the plan."
    )


def test_what_the_plan_leaves_out_is_said() -> None:
    view = plan_view(context(LINKS, PLAN))
    assert view is not None
    assert "Not priced, or no priced way still open, and so in no visit: sprockets." in view.left_out
    empty = plan_view(context(None, replace(PLAN, visits=(), unpriced=())))
    assert empty is not None
    assert empty.remarks == ("Without a forecast no visit can be planned.",)


def test_small_change_is_said_to_be_rounded() -> None:
    odd = replace(PLAN, visits=(visit(0.0, replace(piece(Component.SPROCKET, LEFT), labour=95.55)),), unpriced=())
    view = plan_view(context(LINKS, odd))
    assert view is not None
    assert view.remarks[-1] == "Money is an estimate and rounded to three figures, so sums may differ in the last."


# --- page one ---


def test_the_first_sheet_has_hours_to_the_first_limit_and_cost_to_restore() -> None:
    facts = {fact.label: plain(fact.value) for fact in whole(context(LINKS, PLAN)).facts}
    assert facts["First limit"] == "620 to 1 070 h"
    assert facts["Cost to restore what was seen"] == "EUR 43 300"
    past = forecast_row(Component.BOTTOM_ROLLER, LEFT, 0.0, 0.0, 0.0, position=2)
    facts = {fact.label: fact.value for fact in whole(context((past, *LINKS))).facts}
    assert plain(facts["First limit"]) == "now; next 620 to 1 070 h"
    assert "Cost to restore what was seen" not in facts
    assert "First limit" not in {fact.label for fact in whole(context(None)).facts}
