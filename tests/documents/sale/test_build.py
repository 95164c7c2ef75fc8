"""What the view of a sale says: its counts add up, nothing is told without what qualifies it."""

from dataclasses import replace

import pytest
from sale_lots import LONG_MODEL, many, with_long_names

from tracksworn.assessment.fleet import Look
from tracksworn.assessment.model import Bound
from tracksworn.documents.sale.build import sale
from tracksworn.documents.sale.lot import Entry, faulty_lot
from tracksworn.documents.sale.lots import DOCUMENTS
from tracksworn.inspection.dossier import Stationery
from tracksworn.inspection.languages import LANGUAGES
from tracksworn.inspection.letterhead import Letterhead, Signatory

YARD = Stationery(Letterhead(firm="Oxbow Sale Yard", signatory=Signatory("Tobias Wren"), language="de", paper="letter"))
LOTS = many(100)


def test_counts_by_stage_add_up_to_all_lots() -> None:
    assert sum(int(one.count) for one in sale(LOTS).stages) == len(LOTS)


def test_the_words_say_how_many_and_how_many_of_them() -> None:
    view = sale(LOTS)
    to_act, faulty, known, unknown = view.summary.sentences
    assert view.summary.headline.startswith("100 lots, ")
    assert [int(text.split()[0]) for text in (known, unknown, faulty, to_act)] == [
        len([lot for lot in LOTS if lot.standing.percent_worn is not None]),
        len([lot for lot in LOTS if lot.read and lot.standing.percent_worn is None]),
        len([lot for lot in LOTS if lot.read is None]),
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
        assert shown.reach.startswith("floor ")


def test_a_faulty_lot_has_its_faults_and_no_figure() -> None:
    faulty = sale(LOTS).lots[7]
    assert faulty.read is None
    assert faulty.faults
    assert faulty.stage_code == Look.FAULTS
    assert faulty.documents == ()


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


def test_a_fault_is_told_by_the_path_of_the_list() -> None:
    elsewhere = faulty_lot(
        Entry(1, "107/inspection.yaml"), ["/home/clerk/107/inspection.yaml:31:11: wrong", "no/a.yaml:1:1: b"]
    )
    assert sale([elsewhere]).lots[0].faults == ("107/inspection.yaml:31:11: wrong", "no/a.yaml:1:1: b")
