"""A lot goes to JSON and back unchanged, and says of an inspection what its assessment says."""

import json
from dataclasses import fields
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sale_lots import many

from tracksworn.assessment.fleet import Look
from tracksworn.documents.report import Assessed, assess_dossier
from tracksworn.documents.sale.assessed_lot import document_files, sale_lot
from tracksworn.documents.sale.lot import DocumentFile, Entry, Read, faulty_lot
from tracksworn.documents.sale.lot_json import as_json, lot_of_json
from tracksworn.inspection.reading import read_inspection
from tracksworn.inspection.vocabulary import Component, Side

DEMO = Path(__file__).parents[3] / "demo_inspections"


@given(st.integers(0, 10**6))
def test_a_lot_comes_back_from_json_as_it_was(seed: int) -> None:
    for lot in many(12, seed):
        assert lot_of_json(json.loads(json.dumps(as_json(lot)))) == lot


LOT = as_json(faulty_lot(Entry(1, "lots/1"), ["no"]))


@pytest.mark.parametrize(
    "said",
    [
        {},
        {**LOT, "tracksworn": "sale lot 2"},
        {**LOT, "entry": {}},
        {**LOT, "entry": {**LOT["entry"], "place": "1"}},
        {**LOT, "looks": ["none of them"]},
        {**LOT, "price": 1},
        [],
        None,
    ],
)
def test_what_is_no_lot_is_refused(said: dict[str, object]) -> None:
    with pytest.raises(ValueError, match=r"lot|Lot"):
        lot_of_json(said)


def test_what_is_known_of_a_demo_lot_is_published_in_this_order() -> None:
    dossier = read_inspection(DEMO / "OXB-0231")
    said = as_json(sale_lot(Entry(1, "a"), Assessed(dossier, assess_dossier(dossier)), []))
    assert list(said) == ["tracksworn", "entry", "lot", "looks", "read", "faults", "documents"]
    assert list(said["read"]) == [one.name for one in fields(Read)]
    assert said["read"]["inspected"] == dossier.inspection.inspected.isoformat()


def test_a_demo_lot_says_what_its_assessment_says() -> None:
    dossier = read_inspection(DEMO / "MPS-2031-0418")
    assessment = assess_dossier(dossier)
    lot = sale_lot(
        Entry(3, "MPS-2031-0418/inspection.yaml"), Assessed(dossier, assessment), ["MPS-2031-0418-r0-listing.pdf"]
    )
    assert lot.read is not None
    whole, overall = lot.read.whole, assessment.overall
    assert (lot.lot, lot.read.number, lot.read.serial) == ("114", "MPS-2031-0418", "HLN640E0K00412")
    assert (whole.percent_worn, whole.low, whole.high) == (overall.percent_worn, overall.low, overall.high)
    assert (whole.floor, whole.ceiling, whole.seen_share) == (overall.floor, overall.ceiling, overall.seen_share)
    assert lot.read.worst is not None
    assert (lot.read.worst.part.component, lot.read.worst.part.side) == (Component.BOTTOM_ROLLER, Side.LEFT)
    assert [act.code for act in lot.read.acts] == ["past-limit-and-leaking", "dry-joint"]
    assert lot.read.letterhead == "../letterheads/millrace.yaml"
    assert lot.looks == (Look.ACT, Look.PART_PAST_LIMIT, Look.WORST_FAR_ABOVE)
    assert lot.documents == (DocumentFile("listing", "pdf", "MPS-2031-0418-r0-listing.pdf"),)


def test_the_list_goes_before_the_inspection() -> None:
    dossier = read_inspection(DEMO / "OXB-0231")
    assessment = assess_dossier(dossier)
    assert sale_lot(Entry(1, "a", "7"), Assessed(dossier, assessment), []).lot == "7"
    assert sale_lot(Entry(1, "a"), Assessed(dossier, assessment), []).lot == "131"


def test_titles_are_in_the_language_asked_for() -> None:
    dossier = read_inspection(DEMO / "OXB-0227")
    read = sale_lot(Entry(1, "a"), Assessed(dossier, assess_dossier(dossier)), [], language="de").read
    assert read is not None
    assert read.language == "de"
    assert "seized" not in read.acts[0].title


def test_a_lot_with_faults_has_its_path_its_number_and_its_faults_alone() -> None:
    lot = faulty_lot(Entry(5, "lots/5/inspection.yaml", "105"), ["lots/5/inspection.yaml:3:1: no"])
    assert (lot.lot, lot.read, lot.looks) == ("105", None, (Look.FAULTS,))
    assert lot.standing.unread
    assert lot.standing.percent_worn is None


def test_documents_are_known_by_their_names() -> None:
    names = [
        "A-listing-r0-full.html", "A-r0-listing-1.png", "A-r0-listing-2.png", "A-r0-full/side.svg", "A-r0-full.md",
        "index.html", "A-r0-certificate.pdf",
    ]  # fmt: skip
    assert [(one.document, one.format, one.name) for one in document_files(names)] == [
        ("full", "html", "A-listing-r0-full.html"),
        ("listing", "png", "A-r0-listing-1.png"),
        ("full", "md", "A-r0-full.md"),
        ("certificate", "pdf", "A-r0-certificate.pdf"),
    ]
