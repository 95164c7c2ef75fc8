"""What the record tells of the machine and of when its parts went on."""

from dataclasses import replace
from pathlib import Path

import pytest
from builders import inspection, machine, reading

from tracksworn.assessment.assess import assess
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.identification import IMPACT, TRACK, identification
from tracksworn.documents.full.view import Identification
from tracksworn.documents.words.figures import NO_BREAK, THIN, Figures
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.model import FittedPart, Fitting, Inspection, Shoe
from tracksworn.inspection.vocabulary import Component, Evidence, Impact, Origin, Side, Track

LEAST = inspection(reading(Component.LINK, 131.0))
BY_INVOICE = Fitting(5210.0, Evidence.INVOICE)


def told(inspected: Inspection) -> Identification:
    return identification(Context(Dossier(inspected, Path("TEST-1")), assess(inspected, None), Figures()))


def fitted(**parts: Fitting) -> list[tuple[str, str]]:
    by_part = {FittedPart(Component(name.replace("_", " "))): fitting for name, fitting in parts.items()}
    return [(one.label, plain(one.value)) for one in told(replace(LEAST, fitted=by_part)).fitted]


def plain(text: str) -> str:
    return text.replace(THIN, " ").replace(NO_BREAK, " ")


def test_parts_fitted_at_the_same_hours_by_the_same_evidence_stand_together() -> None:
    assert fitted(
        link=BY_INVOICE,
        bushing=replace(BY_INVOICE, turned_at=7100.0),
        shoe=replace(BY_INVOICE, known_from=Evidence.OWNERS_WORD),
        sprocket=replace(BY_INVOICE, origin=Origin.ANOTHER_MAKE),
    ) == [
        ("Links, bushings and sprocket", "at 5 210 h (by invoice)"),
        ("Bushings", "turned at 7 100 h (by invoice)"),
        ("Shoes", "at 5 210 h (told by the owner, no evidence)"),
        ("Sprocket", "another make"),
    ]


def test_hours_without_evidence_say_so() -> None:
    assert fitted(link=Fitting(100.0)) == [("Links", "at 100 h (no evidence recorded)")]


def test_what_needs_no_evidence_claims_none() -> None:
    assert fitted(link=Fitting(original=True), bushing=Fitting(not_turned=True)) == [
        ("Links", "original, on since new"),
        ("Bushings", "not turned"),
    ]


def test_parts_of_which_the_same_is_known_have_one_line() -> None:
    both = Fitting(1150.0, Evidence.STAMP, origin=Origin.MAKER)
    assert fitted(lug=both, drive_lug=both) == [("Lugs and drive lugs", "at 1 150 h (by stamp), the maker's own")]


def test_a_rubber_track_has_lugs_and_a_width() -> None:
    made = machine(links=48, track=Track.RUBBER, shoe=Shoe(width=320.0))
    details = {one.label: plain(one.value) for one in told(replace(LEAST, machine=made)).details}
    assert (details["Lugs, left and right"], details["Track width"]) == ("48 · 48", "320 mm")
    assert not {"Links, left and right", "Shoes"} & set(details)


def test_a_single_part_is_told_with_its_side_and_position() -> None:
    roller = FittedPart(Component.BOTTOM_ROLLER, Side.RIGHT, 7)
    (one,) = told(replace(LEAST, fitted={roller: Fitting(4100.0, Evidence.STAMP)})).fitted
    assert (one.label, plain(one.value)) == ("Right bottom roller 7", "at 4 100 h (by stamp)")


def test_no_value_repeats_its_label() -> None:
    made = replace(LEAST, machine=machine(track=Track.GREASED, impact=Impact.LOW, travel_share=0.12))
    details = {one.label: plain(one.value) for one in told(made).details}
    assert (details["Track"], details["Impact"], details["Share of travel"]) == ("greased", "low", "12 %")


@pytest.mark.parametrize(("kinds", "words"), [(Track, TRACK), (Impact, IMPACT)])
def test_every_kind_has_a_bare_word(kinds: type[Track] | type[Impact], words: dict[Track | Impact, str]) -> None:
    assert set(words) == set(kinds)
