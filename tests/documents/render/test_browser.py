"""The HTML as a browser shows it on a desk, on a phone and on paper."""

from dataclasses import replace
from io import BytesIO

import pikepdf
import pytest
from documents.render.conftest import made, view
from playwright.sync_api import Browser, Page

from tracksworn.documents.render.render import render

KINDS = ("like most", "short", "long")
pytestmark = pytest.mark.slow


def opened(kind: str, browser: Browser, width: int = 1280) -> Page:
    page = browser.new_context(viewport={"width": width, "height": 900}, offline=True).new_page()
    page.set_content(made(kind, "html")[0].content.decode("utf-8"), wait_until="load")
    page.evaluate("document.fonts.ready")
    return page


def sheets(content: bytes) -> int:
    with pikepdf.open(BytesIO(content)) as pdf:
        return len(pdf.pages)


@pytest.mark.parametrize("kind", [*KINDS[:-1], pytest.param(KINDS[-1], marks=pytest.mark.long)])
def test_printed_from_a_browser_it_takes_hardly_more_sheets_than_the_pdf(kind: str, browser: Browser) -> None:
    printed = opened(kind, browser).pdf(prefer_css_page_size=True)
    assert sheets(printed) <= sheets(made(kind, "pdf")[0].content) + 2


def test_paper_keeps_the_heads_of_tables_and_the_ink_of_pins(browser: Browser) -> None:
    page = opened("like most", browser, 688)  # A4 less its margins, in CSS pixels
    page.emulate_media(media="print")
    assert page.evaluate("getComputedStyle(document.querySelector('.twin thead')).display") == "table-header-group"
    assert page.evaluate("getComputedStyle(document.querySelector('.pin')).printColorAdjust") == "exact"


PLACED = """[...document.querySelectorAll('.twin tbody tr')].map(row => {
    const cells = '.name, .figure.left, .used:not(.right), .rule:not(.right), .figure.right, .used.right, '
        + '.rule.right, .delta';
    return [...row.querySelectorAll(cells)].filter(cell => cell.getBoundingClientRect().height > 0)
        .sort((one, other) => one.getBoundingClientRect().top - other.getBoundingClientRect().top)
        .map(cell => cell.dataset.label || cell.className);
})"""


def test_a_phone_names_left_and_right_before_what_each_has_and_their_difference_after_both(browser: Browser) -> None:
    words = view("like most").headings
    for row in opened("like most", browser, 390).evaluate(PLACED):
        assert row[0] == "name"
        sides = [label for label in row if label in (words.left, words.right)]
        assert sides in ([words.left, words.right], [words.left], [words.right])
        assert words.difference not in row or row[-1] == words.difference


def test_every_value_of_a_list_says_on_a_phone_what_it_is(browser: Browser) -> None:
    page = opened("like most", browser, 390)
    told = page.evaluate(
        "[...document.querySelectorAll('.list tbody td')].filter(cell => cell.innerText.trim())"
        ".map(cell => getComputedStyle(cell, '::before').content)"
    )
    assert told
    assert "none" not in told


def test_drawings_wider_than_a_phone_say_so_and_keep_their_type_legible(browser: Browser) -> None:
    told = "[...document.querySelectorAll('.slide')].map(one => one.getBoundingClientRect().height > 0)"
    assert all(opened("like most", browser, 390).evaluate(told))
    assert not any(opened("like most", browser, 1280).evaluate(told))
    width = "document.querySelector('.side figure svg').getBoundingClientRect().width"
    assert opened("like most", browser, 390).evaluate(width) >= 900


def test_beside_the_signature_words_begin_beneath_the_rule_as_its_heading_does(browser: Browser) -> None:
    top = "element => element.getBoundingClientRect().top"
    page = opened("like most", browser)
    words, heading = (page.eval_on_selector(f".signed {one}", top) for one in (".firm-of p", "h3"))
    assert abs(words - heading) < 4
    assert page.eval_on_selector(".visits .total th", "element => getComputedStyle(element).whiteSpace") == "nowrap"


def test_pins_lead_from_a_finding_to_its_observations_and_back(browser: Browser) -> None:
    base = view("like most")
    first = replace(base.findings[0], pins=(2,))
    seen = tuple(
        replace(one, findings=(first.number,) if index == 2 else ()) for index, one in enumerate(base.observations)
    )
    linked = replace(base, findings=(first, *base.findings[1:]), observations=seen)
    page = browser.new_context(offline=True).new_page()
    page.set_content(render(linked, ["html"])[0].content.decode("utf-8"))
    finding = page.locator(f"#finding-{first.number}")
    observation = page.locator(f"tr:has(#observation-{seen[2].number})")
    assert finding.locator("a.pin").all_inner_texts() == [seen[2].number]
    finding.locator("a.pin").click()
    assert page.evaluate("location.hash") == f"#observation-{seen[2].number}"
    observation.locator("a").click()
    assert page.evaluate("location.hash") == f"#finding-{first.number}"
    assert page.locator(".observations a").count() == 1
