"""What a listing sheet says: one sentence, figures with what qualifies them, nothing left out in silence."""

from dataclasses import replace

import lots
import pytest
from builders import machine, reading, unseen
from lots import MANY, lot, measured, ordinary, told

from tracksworn.documents.listing.height import LEAST_PITCH, pitch_that_fills
from tracksworn.documents.listing.room import UNSEEN, clipped, fitting, lines
from tracksworn.documents.listing.view import Listing
from tracksworn.inspection.model import Hours
from tracksworn.inspection.values import ByPosition
from tracksworn.inspection.vocabulary import Component, Evidence

SHEETS = {"ordinary": ordinary, **lots.EXTREMES}


@pytest.fixture(scope="module")
def views() -> dict[str, Listing]:
    return {name: make() for name, make in SHEETS.items()}


def test_the_sentence_names_what_asks_for_action_and_the_whole() -> None:
    headline = ordinary().headline
    assert headline.startswith("Left bottom roller 3 loses oil; the 82\u00a0% by cost that was seen is ")
    assert headline.endswith("\u00a0worn.")


@pytest.mark.parametrize("name", SHEETS)
def test_no_figure_stands_without_what_qualifies_it(name: str, views: dict[str, Listing]) -> None:
    figures = views[name].figures
    assert len(figures) in (3, 4)
    assert all(one.notes for one in figures)
    assert any("of the cost seen" in note for note in figures[0].notes)


def test_three_figures_without_prices_four_with_them() -> None:
    assert [one.caption for one in ordinary().figures][-1] == "to restore what was seen"
    assert len(lot(told(*measured())).figures) == 3


def test_hours_stand_under_what_they_are_known_from() -> None:
    def label(hours: Hours | None) -> tuple[str, str]:
        strip = lot(told(*measured(), machine=machine(hours=hours))).identification.strip
        return strip[2].label, strip[2].value

    assert label(Hours(4000.0, Evidence.METER)) == ("Machine hours", "4\u202f000\u202fh")
    assert label(Hours(4000.0, Evidence.OWNERS_WORD)) == ("Hours, told by the owner, no evidence", "4\u202f000\u202fh")
    assert label(None) == ("Hours", "not recorded")


def test_why_there_are_no_hours_left_is_told() -> None:
    hours = lot(told(*measured()), None).figures[2]
    assert hours.figure == "not known"
    assert hours.notes[0].startswith("There is no wear chart, the machine's hours are not known")


def test_what_has_no_room_among_the_unseen_is_counted() -> None:
    reasons = ByPosition({number: unseen(f"guard {number}") for number in range(1, MANY + 1)})
    readings = [one for one in measured() if one.component is not Component.BOTTOM_ROLLER]
    view = lot(
        told(*readings, reading(Component.BOTTOM_ROLLER, reasons, reasons), machine=machine(bottom_rollers=MANY))
    )
    shown = len(view.not_seen.parts)
    assert 0 < shown < MANY
    assert view.not_seen.sentences[0].startswith(f"{MANY - shown} more reasons")


def test_what_has_no_room_among_the_acts_is_counted(views: dict[str, Listing]) -> None:
    view = views["longest"]
    assert len(view.found) >= 1
    assert "more findings ask for action" in view.found_more


@pytest.mark.parametrize("name", SHEETS)
def test_at_every_pin_its_words_are_printed(name: str, views: dict[str, Listing]) -> None:
    view = views[name]
    told = {pin for one in view.found for pin in one.pins} | {one.pin for one in view.also}
    without_words = {said.partition(" ")[0] for side in view.sides for said in side.unnamed}
    assert without_words <= told
    assert bool(view.also_more) <= bool(view.also)


def test_what_no_words_have_room_for_is_counted_and_not_pinned(views: dict[str, Listing]) -> None:
    view = views["longest"]
    pinned = sum(side.drawing.alternative.count("Observation ") for side in view.sides)
    assert view.also_more == f"{len(lots.fourteen()) - pinned} more in the full report"


def test_terms_are_whole_or_not_there(views: dict[str, Listing]) -> None:
    view = views["longest"]
    assert view.standing_terms == ""
    assert view.terms_elsewhere


@pytest.mark.parametrize("name", SHEETS)
def test_the_words_of_any_sheet_leave_room_for_its_rules(name: str, views: dict[str, Listing]) -> None:
    assert pitch_that_fills(views[name]) >= LEAST_PITCH


def test_clipping_keeps_what_fits_and_says_that_it_cut() -> None:
    text = "guard fitted and painted over " * 20
    cut = clipped(text, 3, UNSEEN)
    assert cut.endswith("…")
    assert lines(cut, UNSEEN) <= 3
    assert text.startswith(cut[:-1])
    assert clipped("mud", 1, UNSEEN) == "mud"
    assert fitting(["mud", text, "mud"], 2, UNSEEN) == 1


def test_a_lone_long_word_counts_as_the_lines_that_it_takes() -> None:
    assert lines("m" * 200, UNSEEN) > 4


def test_every_component_has_its_row() -> None:
    view = ordinary()
    assert [row.component for row in view.rows] == list(lots.CHART.components)
    top = view.rows[-1]
    assert top.right is not None
    assert (top.right.figure, top.right.gauge.reason) == ("", "packed with clay")


def test_no_lot_leaves_the_number_to_stand_for_it() -> None:
    found = replace(told(*measured()), lot=None)
    assert lot(found).identification.lot == ""
    assert lot(found).identification.number.startswith("TEST-1")
