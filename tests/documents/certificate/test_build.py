"""A certificate in words: what it calls itself, what it rests on, how it can be checked."""

from dataclasses import replace
from pathlib import Path

import pytest
from certificates import DIGESTS, EXAMPLE, LETTERHEAD, assessed, certified
from long_example import CHART, TERMS

from tracksworn.assessment.decisions import Result
from tracksworn.documents.certificate.allowed import dots
from tracksworn.documents.certificate.build import certificate
from tracksworn.documents.certificate.no_terms import NoTerms
from tracksworn.documents.certificate.view import Certificate
from tracksworn.documents.drawing.allowed import Stand
from tracksworn.documents.full.reader import context_for
from tracksworn.documents.words.cautions import CAUTIONS
from tracksworn.documents.words.figures import NO_BREAK, THIN
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.vocabulary import Component


def plain(text: str) -> str:
    return text.replace(THIN, " ").replace(NO_BREAK, " ")


def detail(view: Certificate, label: str) -> str:
    return next(one.value for one in view.details if one.label == label)


@pytest.mark.parametrize("result", Result)
def test_only_what_passes_is_called_a_certificate(result: Result) -> None:
    view = certified(result)
    passes = result is Result.PASSES
    assert (view.identification.title == "Certificate of conformity") is passes
    assert ("certificate" in view.identification.title.lower()) is passes
    assert view.end.startswith("End of certificate" if passes else "End of statement")
    assert view.identification.stem == "MPS-2031-0418-r0-certificate"


def test_every_result_has_its_own_title() -> None:
    assert len({certified(result).identification.title for result in Result}) == len(Result)


def test_without_terms_there_is_none_and_it_says_what_to_add() -> None:
    dossier = Dossier(EXAMPLE, Path("MPS"), CHART, LETTERHEAD, digests=DIGESTS)
    with pytest.raises(NoTerms, match="`terms: FILE`"):
        certificate(dossier, replace(assessed(), conformity=None))


def test_issuing_body_client_place_conditions_and_access_are_named() -> None:
    """ISO/IEC 17020:2012, 7.4.2 (read) and Annex B (from memory)."""
    view = certified()
    assert detail(view, "Issued by") == "Millrace Plant Survey, 4 Tannery Row"
    assert detail(view, "Engaged by") == "Oxbow Sale Yard"
    assert detail(view, "Place of the inspection") == "Oxbow Sale Yard, row 14"
    assert detail(view, "Conditions")
    assert detail(view, "Limits of access")
    assert plain(detail(view, "Machine hours")) == "8 412 h"
    assert plain(detail(view, "Issued")) == "19 April 2031"


def test_what_was_not_recorded_says_so() -> None:
    unknown = replace(EXAMPLE, place=None, inspector=replace(EXAMPLE.inspector, engaged_by=None))
    view = certified(inspection=unknown)
    assert detail(view, "Engaged by") == "not recorded"
    assert detail(view, "Place of the inspection") == "not recorded"


def test_every_bar_says_what_is_allowed_for_it() -> None:
    sides = [
        side for row in certified().terms.rows for side in row.sides if side and side.allowance.allowed is not None
    ]
    assert len(sides) == 4
    for side in sides:
        assert side.allowance.allowed_text
        assert side.allowed == f"allowed {side.allowance.allowed_text}"


def test_what_was_read_stands_with_its_gauge_its_joints_and_its_calibration() -> None:
    view = certified()
    link = view.taken[0]
    assert (plain(link.left), plain(link.right), link.sampled) == ("131.1 mm", "133.0 mm", "mean of 4 joints")
    assert len(view.taken) == len(view.terms.rows)
    assert any("Links" in one.label and one.value == "depth gauge; joints 3, 13, 23, 33" for one in view.read_with)
    depth = next(one for one in view.instruments if one.name == "Depth gauge")
    assert plain(depth.calibrated) == "12 Jan 2031, due 12 Jan 2032"


def test_parts_that_the_terms_do_not_speak_of_are_named() -> None:
    some = replace(TERMS, allowed={Component.LINK: TERMS.allowed[None]})
    told = certified(terms=some).not_seen.sentences[0]
    assert told.startswith("Not held against the terms, which do not speak of them: ")
    assert "bushings" in told
    assert "links" not in told


def test_what_was_not_seen_is_told_with_its_reason_but_nothing_of_an_overall_figure() -> None:
    view = certified()
    assert ("Right top roller", "packed with clay") in [(one.parts, one.reason) for one in view.not_seen.parts]
    assert view.not_seen.sentences[-1].startswith("A look of this kind takes nothing apart")
    assert not any("the whole would be" in one for one in view.not_seen.sentences)


def test_opinions_stand_apart_and_ask_for_action() -> None:
    view = certified()
    assert view.opinions.acts
    assert all(one.value for one in view.opinions.acts)
    assert view.opinions.sentence.startswith("The verdict rests on measurement and rule alone.")


def test_without_a_finding_that_asks_for_action_there_is_no_opinion() -> None:
    quiet = replace(assessed(), findings=())
    dossier = Dossier(EXAMPLE, Path("MPS"), CHART, LETTERHEAD, terms=TERMS, digests=DIGESTS)
    opinions = certificate(dossier, quiet).opinions
    assert opinions.acts == ()
    assert "no finding asks for action" in opinions.sentence


def test_an_amended_one_names_what_it_replaces() -> None:
    amended = replace(EXAMPLE, revision=2, replaces=0, because="wrong place")
    view = certified(inspection=amended)
    assert "replaces revision 0 of MPS-2031-0418, because: wrong place." in view.revision
    assert view.check.address == "millrace.example/r/MPS-2031-0418-r2"
    assert certified().revision == ""


def test_it_relates_to_this_machine_alone_and_says_that_it_is_not_sealed() -> None:
    said = " ".join(certified().statement)
    assert "relates only to the machine named in it" in said
    assert "not to be copied except in full" in said
    assert "Not sealed" in said


def test_all_cautions_are_there() -> None:
    assert certified().cautions == CAUTIONS


# --- how it is checked ------------------------------------------------------------------------------------------------


def test_the_code_holds_address_number_revision_and_fingerprint() -> None:
    view = certified()
    assert view.check.code == f"https://millrace.example/r/MPS-2031-0418-r0#sha256={view.fingerprint}"
    assert view.check.address == "millrace.example/r/MPS-2031-0418-r0"
    assert "millrace.example/r/MPS-2031-0418-r0" in view.check.code_alternative


@pytest.mark.parametrize(
    ("base", "address"),
    [
        ("https://millrace.example/r", "https://millrace.example/r/MPS-2031-0418-r0"),
        ("https://millrace.example/?number=", "https://millrace.example/?number=MPS-2031-0418-r0"),
    ],
)
def test_an_address_goes_on_with_the_number(base: str, address: str) -> None:
    view = certified(letterhead=replace(LETTERHEAD, records_at=base))
    assert view.check.code.partition("#")[0] == address


@pytest.mark.parametrize("letterhead", [None, replace(LETTERHEAD, records_at=None)])
def test_without_an_address_the_code_holds_the_rest_and_a_step_says_so(letterhead: object) -> None:
    view = certified(letterhead=letterhead)  # type: ignore[arg-type]
    assert view.check.code == f"MPS-2031-0418-r0#sha256={view.fingerprint}"
    assert "names no address" in view.check.steps[0]


def test_lines_and_ring_hold_the_digits_of_the_fingerprint_in_order() -> None:
    view = certified()
    assert "".join(view.check.lines).replace(" ", "") == view.fingerprint == view.ring.digits
    assert [len(line.split()) for line in view.check.lines] == [4, 4, 4, 4]
    assert not view.ring.sealed
    assert view.ring.words[0] == "not sealed"


# --- the chart --------------------------------------------------------------------------------------------------------


def test_the_chart_shows_what_is_allowed_and_every_part_that_was_tested() -> None:
    view, conformity = certified(), assessed().conformity
    assert conformity is not None
    assert [curve.name for curve in view.allowed.curves] == ["bushings", "all others"]
    tested = [one for one in conformity.components if one.probability is not None]
    assert len(view.allowed.stands) == len(tested)
    named = [one for one in view.allowed.stands if one.name]
    assert len(named) == 3
    assert {one.name for one in named if one.result is Result.FAILS} >= {"left links"}
    assert [plain(text) for _, text in view.allowed.hours] == ["0", "1 000", "2 000", "3 000", "4 000"]


def test_the_fingerprint_changes_with_the_verdict() -> None:
    assert certified().fingerprint != certified(Result.PASSES).fingerprint


@pytest.mark.parametrize(
    ("stands", "said"),
    [
        ([], "No part has a dot, as none could be tested."),
        ([(40, Result.PASSES)], "Open dot: passes."),
        ([(60, Result.UNDECIDED), (90, Result.FAILS), (95, Result.FAILS)], "Full dot: fails; barred dot: undecided."),
        (
            [(40, Result.PASSES), (150, Result.FAILS)],
            "Open dot: passes; pointer at the top: worn further than the chart goes.",
        ),
    ],
)
def test_the_words_of_the_chart_tell_of_what_occurs_alone(stands: list[tuple[float, Result]], said: str) -> None:
    context = context_for(Dossier(EXAMPLE, Path("MPS"), CHART, LETTERHEAD, digests=DIGESTS), assessed(), "en", "mm")
    shown = tuple(Stand(1000, percent, percent - 5, percent + 5, result) for percent, result in stands)
    assert dots(context, replace(certified().allowed, stands=shown)) == said


def test_the_legend_of_the_bars_tells_of_what_occurs_alone() -> None:
    verdicts = assessed().conformity
    assert verdicts is not None
    assert any(one.probability is not None for one in verdicts.components)
    assert "Percentage under a verdict" in certified().terms.legend
    untested = tuple(replace(one, probability=None) for one in verdicts.components)
    found = replace(assessed(), conformity=replace(verdicts, components=untested))
    dossier = Dossier(EXAMPLE, Path("MPS"), CHART, LETTERHEAD, terms=TERMS, digests=DIGESTS)
    view = certificate(dossier, found)
    assert "Percentage under a verdict" not in view.terms.legend
    assert view.dots == "No part has a dot, as none could be tested."
