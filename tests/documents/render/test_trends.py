"""Trends on the sheets, in a browser and in Markdown."""

import re
from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path

import pikepdf
import pytest
import views
from documents.render.tools import run
from playwright.sync_api import Browser

from tracksworn.documents.drawing.trend.trend import Trend, TrendPoint, TrendSide
from tracksworn.documents.full.trend_views import TrendRow, Trends, TrendView
from tracksworn.documents.full.view import FullReport
from tracksworn.documents.render.render import render
from tracksworn.inspection.vocabulary import Side

pytestmark = pytest.mark.slow

NAMES = tuple(f"Part-{letter}" for letter in "ABCDEFG")
HEADING = "Two inspections, one machine"


def trend(name: str) -> TrendView:
    """A part that wore from 30 to 60 on the left, from 25 to 52 on the right."""
    seen = {Side.LEFT: (30.0, 60.0), Side.RIGHT: (25.0, 52.0)}
    sides = tuple(
        TrendSide(side, 5000, tuple(TrendPoint(h, w, w - 5, w + 5) for h, w in zip((6500, 8000), worn, strict=True)))
        for side, worn in seen.items()
    )
    drawn = Trend(sides, ((5000, "5\u202f000"), (8000, "8\u202f000")), f"{name}: left 60 % at 8 000 h.")
    rows = (
        TrendRow("", "", "5\u202f000\u202fh", "as new", "as new"),
        TrendRow("MPS-2030-0377", "20 Nov 2030", "6\u202f500\u202fh", "30\u00a0% (25 to 35)", "25\u00a0% (20 to 30)"),
        TrendRow("MPS-2031-0418", "18 Apr 2031", "8\u202f000\u202fh", "60\u00a0% (55 to 65)", ""),
    )
    return TrendView(name, drawn, f"{name}: 2.0 left, 1.8 right", rows)


@cache
def view() -> FullReport:
    return replace(views.report(), trends=Trends(HEADING, "How it is read.", tuple(map(trend, NAMES))))


@cache
def made(form: str) -> bytes:
    return render(view(), [form])[0].content


@pytest.fixture(scope="module")
def pdf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("trends") / "report.pdf"
    file.write_bytes(made("pdf"))
    return file


def test_every_trend_has_its_name_above_it_and_its_rate_beneath_on_one_sheet(pdf: Path) -> None:
    sheets = run("pdftotext", "-layout", pdf, "-").split("\f")
    for name in NAMES:
        (sheet,) = (sheet for sheet in sheets if f"{name}: 2.0 left" in sheet)
        assert len(re.findall(rf"{name}(?!:)", sheet)) == 1
    (with_heading,) = (sheet for sheet in sheets if HEADING in sheet)
    assert f"{NAMES[0]}: 2.0 left" in with_heading


def test_five_stand_beside_one_another_on_paper(pdf: Path) -> None:
    heights = re.findall(r'yMin="([\d.]+)"[^>]*>Part-[A-G]<', run("pdftotext", "-bbox", pdf, "-"))
    assert len(heights) == len(NAMES)
    assert sorted((heights.count(height) for height in set(heights)), reverse=True) == [5, 2]


def test_every_trend_says_its_figures_where_it_cannot_be_seen(pdf: Path) -> None:
    with pikepdf.open(pdf) as opened:
        said = {str(thing.Alt) for thing in opened.objects if isinstance(thing, pikepdf.Dictionary) and "/Alt" in thing}
    assert {one.trend.alternative for one in trend_views()} <= said


def trend_views() -> tuple[TrendView, ...]:
    shown = view().trends
    assert shown is not None
    return shown.views


def test_a_phone_has_two_beside_one_another_in_legible_type_and_nothing_runs_out(browser: Browser) -> None:
    page = browser.new_context(viewport={"width": 390, "height": 900}, offline=True).new_page()
    page.set_content(made("html").decode(), wait_until="load")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    tops = page.evaluate("[...document.querySelectorAll('.trend')].map(one => one.getBoundingClientRect().top)")
    assert [one == other for one, other in pairwise(tops)] == [True, False] * 3
    type_ = "Math.min(...[...document.querySelectorAll('.trend text')].map(one => one.getBoundingClientRect().height))"
    assert page.evaluate(type_) >= 10


def test_a_browser_opens_the_same_figures_as_a_table_with_every_value_named(browser: Browser) -> None:
    page = browser.new_context(viewport={"width": 390, "height": 900}, offline=True).new_page()
    page.set_content(made("html").decode(), wait_until="load")
    page.click(".trends summary")
    cells = page.evaluate("[...document.querySelectorAll('.courses tbody td')].map(one => one.innerText.trim())")
    assert cells[3:6] == ["30\u00a0% (25 to 35)", "25\u00a0% (20 to 30)", "MPS-2030-0377, 20 Nov 2030"]
    named = page.evaluate("[...document.querySelectorAll('.courses tbody td')].map(one => one.dataset.label || '')")
    assert [bool(label) for label in named] == [bool(cell) for cell in cells]


def test_markdown_has_every_trend_with_a_table_and_its_picture_beside_it() -> None:
    page, *pictures = render(view(), ["md"])
    text = page.content.decode()
    assert f"### {HEADING}" in text
    for name in NAMES:
        assert f"#### {name}" in text
    assert (
        text.count("| 6\u202f500\u202fh | 30\u00a0% (25 to 35) | 25\u00a0% (20 to 30) | MPS-2030-0377, 20 Nov 2030 |")
        == 7
    )
    assert len([one for one in pictures if "/trend-" in one.name]) == len(NAMES)


def test_without_an_earlier_inspection_there_is_no_such_block() -> None:
    assert HEADING not in render(views.report(), ["md"])[0].content.decode()
    assert "one machine" not in render(views.report(), ["html"])[0].content.decode()


def test_the_same_report_gives_the_same_bytes() -> None:
    assert render(view(), ["pdf"])[0].content == made("pdf")
