"""The index in a browser: it reads without script, sorts and filters with it, from the keyboard, and says so."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page
from sale_lots import many

from tracksworn.assessment.fleet import Look
from tracksworn.documents.render import pages
from tracksworn.documents.render.files import Refused
from tracksworn.documents.sale.build import sale
from tracksworn.documents.sale.page import write_page

LOTS = many(60)
SHOWN = "[...document.querySelectorAll('#lots tbody tr')].filter(row => !row.hidden).map(row => row.id)"


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("sale") / "index.html"
    path.write_text(write_page(sale(LOTS)), encoding="utf-8")
    return path


@pytest.fixture
def page(file: Path, browser: Browser) -> Iterator[Page]:
    with browser.new_context(offline=True, viewport={"width": 1280, "height": 900}) as context:
        opened = context.new_page()
        wrong: list[str] = []
        opened.on("pageerror", lambda error: wrong.append(str(error)))
        opened.on("console", lambda message: wrong.append(message.text))
        opened.goto(file.as_uri())
        yield opened
        assert wrong == []


def shown(page: Page) -> list[str]:
    return [str(one) for one in page.evaluate(SHOWN)]


def status(page: Page) -> str:
    return page.locator("#status").inner_text()


def test_the_page_is_the_same_each_time() -> None:
    assert write_page(sale(LOTS)) == write_page(sale(many(60)))


def test_nothing_is_fetched_and_only_our_script_may_run() -> None:
    page = write_page(sale(LOTS))
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', page)
    assert policy is not None
    assert re.fullmatch(
        r"default-src 'none'; script-src 'sha256-[A-Za-z0-9+/=]{44}'; img-src data:; font-src data:; "
        r"style-src 'unsafe-inline'",
        policy[1],
    )
    assert page.count("<script") == 1
    assert not re.search(r"\son[a-z]+=|https?://(?!www\.w3\.org)", page)


def test_every_lot_and_every_caution_is_in_it() -> None:
    view = sale(LOTS)
    page = write_page(view)
    assert all(f'id="{lot.anchor}"' in page for lot in view.lots)
    assert all(one.title in page for one in view.cautions)


def test_a_template_without_cautions_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = pages.fill_page
    monkeypatch.setattr(pages, "fill_page", lambda *of: whole(*of).replace("surgical emergency", "thing"))
    with pytest.raises(Refused, match="grease"):
        write_page(sale(LOTS))


@pytest.mark.slow
def test_without_script_all_of_it_is_read(file: Path, browser: Browser) -> None:
    with browser.new_context(offline=True, java_script_enabled=False) as context:
        opened = context.new_page()
        opened.goto(file.as_uri())
        assert opened.locator("#lots tbody tr:visible").count() == len(LOTS)
        assert opened.locator("#tools").is_hidden()


@pytest.mark.slow
def test_a_column_sorts_and_says_so(page: Page) -> None:
    head = page.get_by_role("columnheader", name="Overall, % worn")
    head.get_by_role("button").press("Enter")
    assert head.get_attribute("aria-sort") == "descending"
    assert status(page) == "60 of 60 lots shown; Overall, % worn: most first"
    places = {f"lot-{lot.entry.place}": lot for lot in LOTS}
    order = [places[one].read for one in shown(page)]
    figures = [None if read is None else read.whole.percent_worn for read in order]
    known = [one for one in figures if one is not None]
    assert known == sorted(known, reverse=True)
    assert figures[len(known) :] == [None] * (len(LOTS) - len(known))  # what is not known comes last
    head.get_by_role("button").press("Space")
    assert head.get_attribute("aria-sort") == "ascending"
    assert page.evaluate("document.activeElement.textContent") == "Overall, % worn"
    head.get_by_role("button").press("Enter")
    assert head.get_attribute("aria-sort") is None
    assert shown(page) == [f"lot-{lot.entry.place}" for lot in LOTS]


@pytest.mark.slow
def test_what_is_not_known_comes_last_whichever_way(page: Page) -> None:
    head = page.get_by_role("columnheader", name="Hours to next limit").get_by_role("button")
    lasts = []
    for _ in range(2):
        head.click()
        lasts.append(shown(page)[-1])
    unknown = {f"lot-{lot.entry.place}" for lot in LOTS if lot.read is None or lot.read.hours_left is None}
    assert set(lasts) <= unknown


@pytest.mark.slow
def test_a_text_filters_whatever_its_case_and_accents(page: Page) -> None:
    page.get_by_label("Find lot, machine, serial number").fill("HÓLLIN drover")
    expected = [
        f"lot-{lot.entry.place}"
        for lot in LOTS
        if lot.read and (lot.read.maker, lot.read.model) == ("Hollin", "Drover 15")
    ]
    assert shown(page) == expected
    assert status(page) == f"{len(expected)} of 60 lots shown; as listed"


@pytest.mark.slow
def test_stage_and_reason_filter_together(page: Page) -> None:
    page.get_by_label("Stage", exact=True).select_option("second half")
    page.get_by_label("Another look", exact=True).select_option("act")
    expected = [
        f"lot-{lot.entry.place}"
        for lot in LOTS
        if lot.read and "act" in lot.looks and lot.read.whole.stage == "second half" and lot.read.whole.bound is None
    ]
    assert expected
    assert shown(page) == expected
    page.get_by_role("button", name="Show all").click()
    assert len(shown(page)) == len(LOTS)


@pytest.mark.slow
def test_a_reason_in_the_overview_filters_and_once_more_takes_it_away(page: Page) -> None:
    reason = page.get_by_role("button", name="to act on", exact=True)
    reason.press("Enter")
    assert shown(page) == [f"lot-{lot.entry.place}" for lot in LOTS if "act" in lot.looks]
    assert page.get_by_label("Another look", exact=True).input_value() == "act"
    assert reason.get_attribute("aria-pressed") == "true"
    reason.press("Enter")
    assert len(shown(page)) == len(LOTS)
    assert reason.get_attribute("aria-pressed") == "false"


@pytest.mark.slow
def test_what_is_weightiest_comes_first_by_reason(page: Page) -> None:
    page.get_by_role("columnheader", name="Another look").get_by_role("button").click()
    by_id = {f"lot-{lot.entry.place}": lot for lot in LOTS}
    firsts = [list(Look).index(lot.looks[0]) if lot.looks else len(Look) for lot in map(by_id.get, shown(page)) if lot]
    assert firsts == sorted(firsts)


@pytest.mark.slow
def test_where_nothing_is_left_it_says_so(page: Page) -> None:
    page.get_by_label("Find lot, machine, serial number").fill("no such machine")
    assert shown(page) == []
    assert page.get_by_text("No lot is like that.").is_visible()
    assert status(page).startswith("0 of 60")


@pytest.mark.slow
def test_lots_that_no_reason_is_given_for_can_be_found(page: Page) -> None:
    page.get_by_label("Another look", exact=True).select_option("none")
    assert shown(page) == [f"lot-{lot.entry.place}" for lot in LOTS if not lot.looks]
    page.get_by_label("Another look", exact=True).select_option("any")
    assert shown(page) == [f"lot-{lot.entry.place}" for lot in LOTS if lot.looks]


@pytest.mark.slow
def test_what_was_asked_is_kept_in_the_address(page: Page) -> None:
    page.get_by_label("Find lot, machine, serial number").fill("merrow")
    page.get_by_role("columnheader", name="Worst part").get_by_role("button").click()
    before = shown(page)
    assert "find=merrow" in page.url
    page.reload()
    assert shown(page) == before
    assert page.get_by_role("columnheader", name="Worst part").get_attribute("aria-sort") == "descending"


@pytest.mark.slow
def test_on_a_phone_the_machine_stands_beside_its_lot_and_has_more_of_the_width(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    lot, machine = (page.locator(f".lots tbody .{name}").first.bounding_box() for name in ("lot", "machine"))
    assert lot
    assert machine
    assert lot["y"] == machine["y"]
    assert machine["width"] > 1.9 * lot["width"]


def test_on_a_phone_the_order_is_chosen_from_a_list(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.get_by_label("Order by").select_option(label="Lot")
    page.get_by_role("button", name="Turn the order round").click()
    assert status(page) == "60 of 60 lots shown; Lot: most first"


@pytest.mark.slow
def test_links_lead_to_the_documents_beside_it(page: Page) -> None:
    link = page.get_by_role("link", name="Sheet PDF, Lot 101", exact=True)
    assert link.get_attribute("href") == "OXB-0001-r0-listing.pdf"
