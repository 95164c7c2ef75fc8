"""What the first sheet leaves to the elevations: the less the more there is to say, so that all stays on one sheet."""

from dataclasses import replace
from pathlib import Path

import pytest
from long_example import CHART, INSPECTION

from tracksworn.assessment.assess import assess
from tracksworn.documents.full.build import full_report
from tracksworn.documents.full.sheet_one import MOST, beyond_room, room_for_elevations
from tracksworn.documents.full.view import FullReport, Labelled, Summary
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.letterhead import Assumed


@pytest.fixture(scope="module")
def report() -> FullReport:
    inspection = replace(
        INSPECTION, photos=(), observations=tuple(replace(one, photos=()) for one in INSPECTION.observations)
    )
    dossier = Dossier(inspection, Path("TEST-1"), CHART, None, photos={}, digests={"TEST-1/inspection.yaml": "22" * 32})
    return full_report(dossier, assess(inspection, CHART, Assumed()))


def room(
    report: FullReport,
    paper: str = "A4",
    words: int = 60,
    facts: int = 4,
    strip: int = 1,
    fact: str = "Seen or measured",
    caption: str = "worn",
) -> float:
    whole = replace(report.whole, facts=(Labelled(fact, "92 %"),) * facts, caption=caption)
    identification = replace(
        report.identification, strip=(Labelled("Place", "works yard of the owner"),) * strip, revision=""
    )
    return room_for_elevations(paper, identification, Summary("Hardly worn.", ("word " * words,)), whole)


def test_every_further_line_of_words_takes_its_height_from_both(report: FullReport) -> None:
    rooms = [room(report, words=count) for count in (60, 120, 180, 240)]
    assert rooms == sorted(rooms, reverse=True)
    assert rooms[1] - rooms[3] > 10


def test_short_words_leave_no_more_than_a_drawing_can_use(report: FullReport) -> None:
    assert room(report, words=5) == MOST
    assert room(report, words=5) == room(report, words=6)


def test_more_facts_than_words_decide(report: FullReport) -> None:
    assert room(report, words=150, facts=4) == room(report, words=150, facts=5)
    assert room(report, words=150, facts=12) < room(report, words=150, facts=4)


def test_facts_that_take_two_lines_and_a_caption_of_many_decide_too(report: FullReport) -> None:
    longer = "El peor de todos: la rueda motriz del lado izquierdo"
    assert room(report, "letter", facts=10, fact=longer) < room(report, "letter", facts=10)
    assert room(report, words=5, caption="worn, of what was seen, " * 14) < room(report, words=5)


def test_a_letter_sheet_has_less_room(report: FullReport) -> None:
    assert room(report, "letter", words=120) == pytest.approx(room(report, "A4", words=120) - 8.8, abs=0.01)


def test_a_strip_of_two_lines_takes_one_more(report: FullReport) -> None:
    assert room(report, words=120, strip=5) > room(report, words=120, strip=8)


def test_the_drawings_keep_within_their_room(report: FullReport) -> None:
    most = room_for_elevations("A4", report.identification, report.summary, report.whole)
    assert sum(side.drawing.height for side in report.sides) <= 2 * most + 0.02


def test_lines_under_the_drawings_and_a_longer_legend_are_told_to_be_beyond_the_room_kept_for_them() -> None:
    assert beyond_room(("", ""), "Percent worn.") == 0
    assert beyond_room(("6 bolt missing", ""), "Percent worn.") > 3
    assert beyond_room(("", ""), "word " * 200) > beyond_room(("", ""), "word " * 150) > 0
