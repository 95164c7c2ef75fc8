"""Each cross-check fires where it should, with reasons that name the right readings, and not on a near miss."""

import pytest
from finding_cases import CASES
from finding_cases.case import Case
from finding_cases.walks import found, of_code

from tracksworn.assessment.findings.codes import CODES


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


def test_every_code_has_a_case() -> None:
    assert {case.code for case in CASES} == set(CODES)
