"""A finding names the assumed values that decide it: without them it is not raised, and no other touches it."""

import math
from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import pytest
from finding_cases import CASES
from finding_cases.case import Case
from finding_cases.walks import Walk, known

from tracksworn.assessment.assumed import Assumptions, Threshold
from tracksworn.assessment.findings import findings
from tracksworn.assessment.sayings import Finding

AT_MOST = (Threshold.FLANGE_CLEARANCE, Threshold.SOON_AFTER)
OUT_OF_REACH = dict.fromkeys(Threshold, math.inf) | dict.fromkeys(AT_MOST, -math.inf)
"""So far away that nothing is ever concluded from it."""


IN_STEP = {"sprocket-in-step": Threshold.OUT_OF_STEP, "lives-in-step": Threshold.LIVES_APART}
"""Concluded where two are no further apart than that."""


def raised(walk: Walk, table: Assumptions) -> tuple[Finding, ...]:
    return findings(known(walk, table))


def table(walk: Walk, moved: Mapping[str, Any] = MappingProxyType({})) -> Assumptions:
    return replace(Assumptions.set_by(walk.firm), **moved)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_stands_or_falls_with_just_the_thresholds_that_it_names(case: Case) -> None:
    walk = case.fires
    (finding,) = (one for one in raised(walk, table(walk)) if one.code == case.code)
    for threshold, far in OUT_OF_REACH.items():
        without = [(one.code, one.because) for one in raised(walk, table(walk, {threshold: far}))]
        stands = (finding.code, finding.because) in without
        in_step = (finding.code, threshold) in IN_STEP.items()
        assert stands == (in_step or threshold not in finding.decided_by), threshold


@pytest.mark.parametrize("code", IN_STEP)
def test_what_is_in_step_falls_with_a_threshold_below_nought(code: str) -> None:
    (case,) = (one for one in CASES if one.code == code)
    codes = {one.code for one in raised(case.fires, table(case.fires, {IN_STEP[code]: -1.0}))}
    assert code not in codes


def test_every_threshold_decides_some_finding() -> None:
    assert {by for case in CASES for one in raised(case.fires, table(case.fires)) for by in one.decided_by} == set(
        Threshold
    )
