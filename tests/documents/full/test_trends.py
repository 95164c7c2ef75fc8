"""How each component wore: which are shown, what is said of them, and what leads on to the limit."""

from dataclasses import replace
from pathlib import Path

import pytest
from builders import by_eye, chart, wears
from histories import LINKS, fitted_at, walk, worn

from tracksworn.assessment.assess import assess
from tracksworn.documents.drawing.trend.trend import LEAST_TOP
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.trend_views import TrendRow, Trends
from tracksworn.documents.full.trends import trends
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.language import Language
from tracksworn.inspection.chart import Case, WearChart
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.letterhead import Assumed
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component, Side

FITTED = {Component.LINK: fitted_at(5000)}


def shown(now: Inspection, *earlier: Inspection, by: WearChart = LINKS) -> Trends | None:
    assessment = assess(now, by, Assumed(), earlier=earlier)
    return trends(Context(Dossier(now, Path("TEST-1"), by), assessment, Figures(language=Language())))


def of_links(*hours_and_worn: tuple[float, float, float]) -> Trends:
    """The trend of links that were read at those hours, left and right so much worn."""
    *earlier, now = (walk(hours, worn(left), worn(right), fitted=FITTED) for hours, left, right in hours_and_worn)
    made = shown(now, *earlier)
    assert made is not None
    return made


THREE = ((6000.0, 20.0, 16.0), (7000.0, 40.0, 32.0), (8000.0, 60.0, 48.0))


def test_one_inspection_is_no_trend_even_where_the_beginning_is_known() -> None:
    assert shown(walk(8000, worn(60), worn(50), fitted=FITTED)) is None


def test_inspections_at_the_same_hours_are_no_trend() -> None:
    assert shown(walk(8000, worn(60), worn(50)), walk(8000, worn(59), worn(50))) is None


@pytest.mark.parametrize(
    ("count", "heading"),
    [
        (2, "Two inspections, one machine"),
        (3, "Three inspections, one machine"),
        (6, "Six inspections, one machine"),
        (7, "7 inspections, one machine"),
    ],
)
def test_the_heading_counts_the_inspections(count: int, heading: str) -> None:
    made = of_links(*((5000 + 500.0 * n, 10.0 * n, 8.0 * n) for n in range(1, count + 1)))
    assert made.heading == heading


def test_every_inspection_has_a_row_with_its_interval_and_the_beginning_has_one_too() -> None:
    (view,) = of_links(*THREE).views
    assert view.name == "Track links"
    assert view.rows[0] == TrendRow("", "", "5\u202f000\u202fh", "as new", "as new")
    assert [(row.inspection, row.hours) for row in view.rows[1:]] == [
        ("AT-6000", "6\u202f000\u202fh"),
        ("AT-7000", "7\u202f000\u202fh"),
        ("AT-8000", "8\u202f000\u202fh"),
    ]
    assert view.rows[3].left.startswith("60\u00a0% (5")
    assert view.rows[3].right.startswith("48\u00a0% (4")


def test_the_rate_is_told_for_each_side_that_has_one() -> None:
    (view,) = of_links(*THREE).views
    assert view.rate == "2.0 left, 1.6 right, % in 100\u202fh"
    both = [walk(hours, worn(left), fitted=FITTED) for hours, left, _ in THREE]
    made = shown(both[-1], *both[:-1])
    assert made is not None
    assert made.views[0].rate == "2.0 left, % in 100\u202fh"


def test_the_alternative_says_every_figure_that_is_drawn() -> None:
    (view,) = of_links(*THREE).views
    assert view.trend.alternative.startswith("Track links. Left links: as new at 5\u202f000\u202fh; 20\u00a0% (1")
    for row in view.rows[1:]:
        for cell in (row.left, row.right):
            assert f"{cell} at {row.hours}" in view.trend.alternative
    assert view.trend.alternative.count("limit in ") == 2
    assert view.trend.alternative.endswith(f" {view.rate}.")


def test_what_is_ahead_starts_at_the_present_figure_and_ends_at_the_limit() -> None:
    (view,) = of_links(*THREE).views
    left, right = view.trend.sides
    assert right.outlook is None, "its latest is too far for the scale"
    for side in (left,):
        assert side.outlook is not None
        for way in (side.outlook.best, side.outlook.soonest, side.outlook.latest):
            assert way[0] == (8000.0, side.points[-1].percent)
            assert way[-1][1] == 100.0
        hours = [way[-1][0] for way in (side.outlook.soonest, side.outlook.best, side.outlook.latest)]
        assert hours == sorted(hours)
    assert view.trend.sides[0].outlook is not None
    assert view.trend.sides[0].outlook.best[-1][0] == pytest.approx(8000 + 40 / 0.02)


def test_through_a_hardened_case_the_way_has_a_bend_where_it_ends() -> None:
    links = wears(Component.LINK, 200.0, 100.0, spread=1.0)
    assert links.dimensions is not None
    cased = chart(replace(links, dimensions=replace(links.dimensions, case=Case(70.0, 3.0))))
    before = walk(6000, worn(20), fitted=FITTED)
    made = shown(walk(8000, worn(60), fitted=FITTED), before, by=cased)
    assert made is not None
    outlook = made.views[0].trend.sides[0].outlook
    assert outlook is not None
    assert outlook.best[1] == pytest.approx((8000 + 10 / 0.02, 70.0))
    assert outlook.best[2] == pytest.approx((8500 + 30 / 0.06, 100.0))


def test_past_the_limit_nothing_is_ahead() -> None:
    (view,) = of_links((6000, 40, 20), (8000, 104, 60)).views
    assert [side.outlook is None for side in view.trend.sides] == [True, False]


def test_by_eye_says_its_range_and_no_middle() -> None:
    made = shown(walk(8000, worn(60), fitted=FITTED), walk(6000, by_eye(20, 40), fitted=FITTED))
    assert made is not None
    (view,) = made.views
    assert view.rows[1].left == "20 to 40\u00a0%, by eye"
    assert "Dashes alone: by eye." in made.note
    assert "30" not in view.trend.alternative


def test_a_reading_of_the_part_before_says_so() -> None:
    renewed = {Component.LINK: fitted_at(7000)}
    made = shown(walk(8000, worn(30), fitted=renewed), walk(6000, worn(88), fitted=FITTED))
    assert made is not None
    before, began, now = made.views[0].rows
    assert before.left.endswith("), the part before")
    assert (began.hours, began.left) == ("7\u202f000\u202fh", "as new")
    assert now.left.startswith("30\u00a0%")
    assert "Lighter: " in made.note


def test_what_was_read_at_other_joints_is_not_for_a_rate() -> None:
    before = walk(6000, worn(20), joints=(5, 15, 25, 35), fitted=FITTED)
    made = shown(walk(8000, worn(60), fitted=FITTED), before)
    assert made is not None
    assert made.views[0].rows[1].left.endswith("), not for a rate")


def test_what_does_not_occur_is_not_explained() -> None:
    note = of_links(*THREE).note
    assert "by eye" not in note
    assert "Lighter" not in note
    assert "Square: as new." in note


def test_all_trends_of_a_page_reach_as_high_as_the_most_worn_of_them_needs() -> None:
    (usual,) = of_links(*THREE).views
    (worse,) = of_links((6000, 60, 20), (8000, 130, 60)).views
    assert usual.trend.top == LEAST_TOP
    assert 130 < worse.trend.top < 140


def test_sides_stand_left_before_right_and_first_and_last_hours_are_named() -> None:
    (view,) = of_links(*THREE).views
    assert [side.side for side in view.trend.sides] == [Side.LEFT, Side.RIGHT]
    assert view.trend.labels[:2] == ((5000.0, "5\u202f000"), (8000.0, "8\u202f000"))
    assert view.trend.labels[2] == (view.trend.end, "10\u202f360")
