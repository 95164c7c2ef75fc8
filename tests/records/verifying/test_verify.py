"""Whole files: a real document passes; what was wrong before it was sealed fails by the question it concerns."""

import json
from collections.abc import Sequence

import pytest
from records import authorities
from records.sealed import AT
from records.verifying.recorded import LONG, NUMBER, carried_by, document

from tracksworn.records.verifying.trust import Trust
from tracksworn.records.verifying.verdict import Name, State, Verdict
from tracksworn.records.verifying.verify import verify

pytestmark = pytest.mark.slow


def verdict_on(content: bytes) -> Verdict:
    return verify(content, at=AT, trust=Trust((authorities.certificate("root"),)))


def failed(verdict: Verdict) -> Sequence[Name]:
    return [answer.name for answer in verdict.answers if answer.failed]


def because(verdict: Verdict, name: Name) -> str:
    (answer,) = [answer for answer in verdict.answers if answer.name is name]
    return answer.because


def test_a_sealed_document_passes() -> None:
    verdict = verdict_on(document())
    assert verdict.passed, verdict
    assert {name: verdict.state(name) for name in (Name.TIME, Name.ARCHIVE)} == {
        Name.TIME: State.CANNOT_TELL,
        Name.ARCHIVE: State.CANNOT_TELL,
    }
    assert because(verdict, Name.PAGES) == "the text of its page is what the attached data give"


def test_it_does_not_without_anybody_to_trust() -> None:
    assert not verify(document(), at=AT).passed


def test_an_altered_file_is_not_looked_into() -> None:
    verdict = verdict_on(document()[:-1])
    assert failed(verdict) == [Name.INTEGRITY]
    assert because(verdict, Name.PAGES) == "it is not what was sealed"


def test_wrong_figures_with_a_right_signature_fail_by_arithmetic() -> None:
    assessment = json.loads(carried_by(NUMBER)["assessment.json"])
    assessment["overall"]["low"] = 1
    verdict = verdict_on(document((("assessment.json", json.dumps(assessment).encode()),)))
    assert failed(verdict) == [Name.ARITHMETIC]
    assert "overall.low is 1 there" in because(verdict, Name.ARITHMETIC)


def test_pages_of_other_data_with_a_right_signature_fail_by_pages() -> None:
    name = f"{NUMBER}/inspection.yaml"
    other = carried_by(NUMBER)[name].replace(b"6120", b"1000", 1)
    assert other != carried_by(NUMBER)[name]
    verdict = verdict_on(document(((name, other),)))
    assert failed(verdict) == [Name.ARITHMETIC, Name.PAGES]
    assert "stands where" in because(verdict, Name.PAGES)


def test_of_another_version_figures_alone_are_compared() -> None:
    making = json.loads(carried_by(NUMBER)["document.json"]) | {"program": "0.0.1"}
    verdict = verdict_on(document((("document.json", _canonical(making)),)))
    assert verdict.passed, verdict
    assert "version 0.0.1 made it" in because(verdict, Name.PAGES)


def test_another_kind_of_document_than_it_says_fails_by_pages() -> None:
    making = json.loads(carried_by(NUMBER)["document.json"]) | {"document": "full"}
    verdict = verdict_on(document((("document.json", _canonical(making)),)))
    assert failed(verdict) == [Name.PAGES]
    making["program"] = "0.0.1"
    assert failed(verdict_on(document((("document.json", _canonical(making)),)))) == [Name.PAGES]


@pytest.mark.parametrize("content", [b"", b"{}", b'{"tracksworn":"document 1"}', b"[1]"])
def test_a_document_that_does_not_say_how_it_was_made_fails_by_pages(content: bytes) -> None:
    assert failed(verdict_on(document((("document.json", content),)))) == [Name.PAGES]


def test_a_fingerprint_of_other_files_fails_by_arithmetic() -> None:
    verdict = verdict_on(document((("fingerprint.json", carried_by(LONG)["fingerprint.json"]),)))
    assert Name.ARITHMETIC in failed(verdict)


def _canonical(making: object) -> bytes:
    return json.dumps(making, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
