"""What the view of a sale says: its counts add up, nothing is told without what qualifies it."""

from dataclasses import replace
from hashlib import sha256

import pytest
from sale_lots import LONG_MODEL, many, with_long_names

from tracksworn.assessment.fleet import Look
from tracksworn.assessment.model import Bound
from tracksworn.documents.sale.build import sale
from tracksworn.documents.sale.lot import Entry, HoursLeft, Part, faulty_lot
from tracksworn.documents.sale.lots import DOCUMENTS
from tracksworn.documents.sale.tables import write_lines
from tracksworn.documents.sale.view import LeftView
from tracksworn.inspection.dossier import Stationery
from tracksworn.inspection.languages import LANGUAGES
from tracksworn.inspection.letterhead import Letterhead, Signatory
from tracksworn.inspection.vocabulary import Component, Side

YARD = Stationery(Letterhead(firm="Oxbow Sale Yard", signatory=Signatory("Tobias Wren"), language="de", paper="letter"))
LOTS = many(100)


def test_counts_by_stage_add_up_to_all_lots() -> None:
    assert sum(int(one.count) for one in sale(LOTS).stages) == len(LOTS)


def test_the_words_say_how_many_and_how_many_of_them() -> None:
    view = sale(LOTS)
    to_act, past, faulty, unmade, known, unknown = view.summary.sentences
    assert view.summary.headline.startswith("100 lots, ")
    assert [int(text.split()[0]) for text in (known, unknown, faulty, unmade, past, to_act)] == [
        len([lot for lot in LOTS if lot.standing.percent_worn is not None]),
        len([lot for lot in LOTS if lot.read and lot.standing.percent_worn is None]),
        len([lot for lot in LOTS if lot.looks == (Look.FAULTS,)]),
        len([lot for lot in LOTS if lot.looks == (Look.UNMADE,)]),
        len([lot for lot in LOTS if lot.read and lot.read.whole.past_limit]),
        len([lot for lot in LOTS if lot.read and lot.read.acts]),
    ]


def test_a_sale_that_nothing_is_wrong_with_says_so() -> None:
    sound = tuple(replace(lot, looks=()) for lot in LOTS if lot.standing.percent_worn is not None)[:5]
    view = sale(sound)
    assert view.summary.headline == "5 lots, none of which asks for another look."
    assert view.looks == ()


def test_no_figure_without_its_interval() -> None:
    for lot, view in zip(LOTS, sale(LOTS).lots, strict=True):
        whole = lot.read.whole if lot.read else None
        shown = view.read.whole if view.read else None
        if shown is None or whole is None or whole.percent_worn is None:
            continue
        assert bool(shown.interval) is (whole.bound is None)
        assert shown.bound == {True: "at least", False: "≈" if whole.by_eye else ""}[whole.bound is Bound.AT_LEAST]
        assert shown.seen.endswith("%")
        assert bool(shown.reach) is (shown.seen != "100\u00a0%")


def test_a_faulty_lot_has_its_faults_and_no_figure() -> None:
    faulty = sale(LOTS).lots[7]
    assert faulty.read is None
    assert faulty.faults
    assert faulty.stage_code == Look.FAULTS
    assert faulty.documents == ()


def test_a_lot_that_failed_for_no_fault_of_its_own_is_not_called_faulty() -> None:
    view = sale(LOTS)
    failed = view.lots[32]
    assert LOTS[32].looks == (Look.UNMADE,)
    assert (failed.stage_code, failed.look_codes) == (Look.UNMADE, "unmade")
    assert failed.unread == "No figure: it could not be made this time"
    assert {one.code: one.count for one in view.stages}["unmade"] == "2"


def left_of(past: int, left: HoursLeft | None) -> LeftView:
    lot = next(lot for lot in LOTS if lot.read)
    assert lot.read is not None
    read = replace(lot.read, whole=replace(lot.read.whole, past_limit=past), hours_left=left)
    (view,) = sale([replace(lot, read=read)]).lots
    assert view.read is not None
    return view.read.left


LEFT = HoursLeft(Part(Component.LINK, Side.LEFT, None), 770.0, 1830.0, False, True, False, False)


def test_no_hours_are_left_where_a_part_is_past_its_limit() -> None:
    left = left_of(2, LEFT)
    assert (left.hours, left.now) == ("now; next 770 to 1\u202f830\u202fh", "now")
    assert (left.next, left.part, left.rest_on) == ("next 770 to 1\u202f830\u202fh", "left links", "")
    assert left_of(1, None).hours == "now: past it"
    assert left_of(0, None).hours == "not known"


def test_hours_say_where_the_worst_part_has_none_and_name_no_part_where_another_may_be_sooner() -> None:
    assert left_of(0, LEFT).rest_on == "without the worst part"
    beaten = left_of(0, replace(LEFT, high=None, beaten=True))
    assert (beaten.hours, beaten.part) == ("over 770\u202fh", "")


def test_hours_beside_a_finding_are_said_to_be_by_wear_alone() -> None:
    for lot, view in zip(LOTS, sale(LOTS).lots, strict=True):
        if view.read and lot.read and lot.read.hours_left:
            assert ("by wear alone" in view.read.left.rest_on) is bool(view.read.acts)


def test_parts_past_their_limit_are_counted_not_listed() -> None:
    for lot, view in zip(LOTS, sale(LOTS).lots, strict=True):
        if lot.read and view.read:
            titles = [act.title for act in lot.read.acts if act.code != "past-limit"]
            assert list(view.read.acts) == titles
            assert bool(view.read.past_limit) is (lot.read.whole.past_limit > 0)


def test_the_fingerprint_is_that_of_the_lines_and_so_of_every_lot_number_and_fault() -> None:
    assert sale(LOTS).fingerprint == sha256(write_lines(LOTS)).hexdigest()
    assert sale([replace(LOTS[0], lot="7")]).fingerprint != sale(LOTS[:1]).fingerprint


def test_the_sale_is_named_where_it_has_a_name() -> None:
    strip = sale(LOTS[:3], title="Oxbow, 24 May 2031").identification.strip
    assert (strip[0].label, strip[0].value) == ("Sale", "Oxbow, 24 May 2031")
    assert sale(LOTS[:3]).identification.strip[0].label == "Lots"


def test_every_reason_of_a_lot_is_counted() -> None:
    view = sale(LOTS)
    counted = {one.code: int(one.count) for one in view.looks}
    told = [code for lot in view.lots for code in lot.look_codes.split()]
    assert counted == {code: told.count(code) for code in set(told)}


def test_the_stationery_gives_firm_language_and_paper() -> None:
    view = sale(LOTS, stationery=YARD)
    assert (view.branding.firm, view.branding.language, view.branding.paper) == ("Oxbow Sale Yard", "de", "letter")
    assert view.signature.name == "Tobias Wren"
    assert sale(LOTS, stationery=YARD, language="fr", paper="A4").branding.language == "fr"


def test_without_stationery_the_inspectors_stand_for_it() -> None:
    assert sale(LOTS).branding.firm == "Oda Fenn, Ines Marlow"


def test_titles_in_another_language_are_marked() -> None:
    acts = [lot.read for lot in sale(LOTS, language="de").lots if lot.read and lot.read.acts]
    assert {read.acts_language for read in acts} == {"en"}
    assert {lot.read.acts_language for lot in sale(LOTS).lots if lot.read} == {""}


def test_documents_stand_in_the_order_in_which_they_are_wanted() -> None:
    links = sale(LOTS).lots[0].documents
    assert [(one.name, one.format) for one in links] == [("Sheet", "PDF"), ("Sheet", "HTML"), ("Report", "PDF")]
    assert len(DOCUMENTS) == 3


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_language_has_every_heading(language: str) -> None:
    view = sale(with_long_names(many(12)), language=language)
    assert view.headings.shown.count("{") == 3
    assert view.lots[0].read is not None
    assert view.lots[0].read.machine.endswith(LONG_MODEL)


def test_what_no_font_holds_is_told_by_its_code() -> None:
    first = LOTS[0]
    assert first.read is not None
    view = sale([replace(first, read=replace(first.read, model="\U00013000"))])
    assert view.lots[0].read is not None
    assert "\U00013000" not in view.lots[0].read.machine


def test_a_fault_is_told_as_it_stands() -> None:
    faults = ("107/inspection.yaml:31:11: wrong", "charts/a.yaml:1:1: wrong")
    assert sale([faulty_lot(Entry(1, "107/inspection.yaml"), faults)]).lots[0].faults == faults
