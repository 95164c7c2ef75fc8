"""Each cross-check fires where it should, with reasons that name the right readings, and not on a near miss."""

import itertools

import pytest
from finding_cases import CASES
from finding_cases.case import Case
from finding_cases.walks import C, Walk, found, of_code, saw

from tracksworn.assessment.findings.codes import CODES
from tracksworn.inspection.vocabulary import Grade, Sign

WORN = (20, 60, 130)
"""Percent: in either half of a life, and past it."""


@pytest.mark.parametrize("case", CASES, ids=str)
def test_fires_for_these_reasons(case: Case) -> None:
    (finding,) = of_code(found(case.fires), case.code)
    assert finding.severity is case.severity
    assert tuple(reason.code for reason in finding.because) == case.because
    assert tuple(map(str, finding.about)) == case.about
    assert finding.advice.code == (case.advice or case.code)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_keeps_silent_on_a_near_miss(case: Case) -> None:
    assert of_code(found(case.near_miss), case.code) == ()


@pytest.mark.slow
@pytest.mark.parametrize("bushing", WORN)
@pytest.mark.parametrize("sprocket", WORN)
def test_whatever_was_seen_is_told_by_a_known_code_however_far_parts_are_worn(sprocket: int, bushing: int) -> None:
    worn = {C.SPROCKET: (sprocket, None), C.BUSHING: (bushing, None)}
    for sign, part in itertools.product(Sign, (C.SPROCKET, C.BUSHING, C.FRONT_IDLER, C.LINK)):
        findings = found(Walk(worn, [saw(f"left {part}", sign, Grade.MARKED)]))
        assert {one.code for one in findings} <= CODES.keys(), (sign, part)
        assert any(one.observations for one in findings), (sign, part)


def test_every_code_has_a_case() -> None:
    assert {case.code for case in CASES} == set(CODES)
