"""What no font holds is replaced, what reads leftward is set apart, once and for all formats."""

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from enum import Enum

import pytest
from five_scripts import FIRM, INSPECTOR, JAPANESE, PLACE, REASON, TANGLED, five_scripts
from long_example import CHART, EARLIER, INSPECTION, PRICES, TERMS
from long_example import FIRM as VALUES

from tracksworn.assessment.assess import assess
from tracksworn.documents.fingerprint import fingerprint
from tracksworn.documents.full.build import full_report
from tracksworn.documents.full.reader import context_for, contexts_for
from tracksworn.documents.legible import AS_IT_IS, _texts, legible
from tracksworn.documents.report import assess_dossier
from tracksworn.documents.statement import statement
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.values import NotSeen
from tracksworn.inspection.vocabulary import Component


def printed(dossier: Dossier) -> Dossier:
    return legible([(dossier, assess_dossier(dossier))]).read[0][0]


def place(said: str, fonts: str = "") -> str | None:
    return printed(five_scripts(place=said, fonts=fonts)).inspection.place


def test_what_is_all_latin_stays_the_very_same() -> None:
    dossier = Dossier(INSPECTION, five_scripts().folder, CHART, digests={})
    read = (dossier, assess_dossier(dossier))
    found = legible([read])
    assert found.read[0][0] is dossier
    assert found.read[0][1] is read[1]
    assert found.faces == ()


def every_text(value: object) -> Iterator[str]:
    """All texts within a value, wherever they may be, whatever its fields are said to hold."""
    if isinstance(value, str):
        yield from () if isinstance(value, Enum) else (value,)
    elif isinstance(value, tuple):
        yield from (text for one in value for text in every_text(one))
    elif isinstance(value, Mapping):
        yield from every_text((*value, *value.values()))
    elif is_dataclass(value):
        yield from every_text(tuple(getattr(value, one.name) for one in fields(value) if one.name not in AS_IT_IS))


def test_no_text_is_overlooked() -> None:
    """Fields that hold none by their type are passed over; what they hold is held to that."""
    assessed = assess(INSPECTION, CHART, VALUES, earlier=[EARLIER], prices=PRICES, terms=TERMS)
    dossier = Dossier(INSPECTION, five_scripts().folder, CHART, digests={"x.yaml": "00"}, prices=PRICES, terms=TERMS)
    for value in ((dossier, assessed), (five_scripts(), assess_dossier(five_scripts()))):
        assert _texts(value) == set(every_text(value))


def test_what_reads_leftward_is_set_apart_and_the_rest_is_not() -> None:
    found = printed(five_scripts())
    assert found.inspection.place == f"\u2068{PLACE}\u2069"
    assert found.inspection.inspector.name == INSPECTOR
    assert found.letterhead is not None
    assert found.letterhead.firm == FIRM
    assert found.inspection.readings[Component.SPROCKET].sides.right == NotSeen(f"\u2068{REASON}\u2069")


def test_notes_are_markdown_and_keep_their_first_signs() -> None:
    notes = five_scripts().inspection.notes
    assert printed(five_scripts()).inspection.notes == notes
    assert printed(five_scripts()).inspection.observations == five_scripts().inspection.observations


@pytest.mark.parametrize(
    ("said", "shown"),
    [
        ("row 🚜", "row � U+1F69C"),
        ("🚜", "� U+1F69C"),
        ("日本", "� U+65E5 � U+672C"),
        ("a日b", "a � U+65E5 b"),
        ("(日), 日.", "(� U+65E5), � U+65E5."),
        ("I ❤\ufe0f it", "I � U+2764 it"),
        ("👩\u200d🔧!", "� U+1F469 � U+1F527!"),
    ],
)
def test_a_character_that_no_font_holds_becomes_its_code(said: str, shown: str) -> None:
    assert place(said) == shown


def test_a_letterheads_font_holds_it() -> None:
    assert place("日本、", JAPANESE) == "日本 � U+3001"
    dossier = five_scripts(place="日本", fonts=JAPANESE)
    (face,) = legible([(dossier, assess_dossier(dossier))]).faces
    assert face.family == "Letterhead 1"


def test_the_fingerprint_is_that_of_what_was_computed_not_of_what_is_printed() -> None:
    dossier = five_scripts(place="🚜")
    assessment = assess_dossier(dossier)
    view = full_report(dossier, assessment)
    assert view.fingerprint == fingerprint(statement(assessment), {})
    context = context_for(dossier, assessment, None, None)
    assert context.computed is assessment
    assert context.assessment != assessment


def test_several_inspections_share_their_letterheads_faces() -> None:
    read = [(one, assess_dossier(one)) for one in (five_scripts(place="語", fonts=JAPANESE), five_scripts(place="日"))]
    one, other = contexts_for(read, None, None)
    assert one.faces == other.faces != ()
    assert other.inspection.place == "日"


def test_names_of_files_and_addresses_are_left_as_they_are() -> None:
    dossier = five_scripts()
    assert dossier.letterhead is not None
    address = "https://שלום.example/r/"
    named = replace(
        dossier, digests={"מגרש/inspection.yaml": "0" * 64}, letterhead=replace(dossier.letterhead, records_at=address)
    )
    found = printed(named)
    assert found.digests == named.digests
    assert found.letterhead is not None
    assert found.letterhead.records_at == address
    assert TANGLED in str(found.inspection.readings)
