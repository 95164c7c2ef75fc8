"""What holds for all findings together."""

import time

import pytest
from finding_cases.walks import C, G, S, T, Walk, found, of_code, saw, written

from tracksworn.assessment.assess import assess
from tracksworn.assessment.findings.codes import CODES
from tracksworn.assessment.sayings import Severity

MUCH = Walk(
    {
        C.LINK: (85, 60),
        C.BUSHING: (70, 40),
        C.SPROCKET: (95, 90),
        C.BOTTOM_ROLLER: ([105, 40, 85], [30, 40, 40]),
        C.SAG: (80, 60),
    },
    [
        saw("left bottom roller 1", S.LEAK, G.MARKED),
        saw("left sprocket", S.WORN_TO_A_POINT, G.SLIGHT),
        saw("left guard", S.BENT, G.SEVERE),
        saw("right shoe 3", S.BENT, G.SLIGHT),
    ],
)


def test_what_asks_for_action_comes_first_and_within_that_the_table_decides() -> None:
    findings = found(MUCH)
    severities, codes = list(Severity), list(CODES)
    keys = [(severities.index(one.severity), codes.index(one.code)) for one in findings]
    assert keys == sorted(keys)
    assert {one.severity for one in findings} == set(Severity)


def test_every_observation_is_told_and_none_twice() -> None:
    told = [index for finding in found(MUCH) for index in finding.observations]
    assert sorted(told) == [0, 1, 2, 3]


def test_what_was_looked_for_and_not_found_is_never_told() -> None:
    clean = Walk(saw=[saw("left guard", S.BENT, G.NONE), saw("left lug", [S.CORD_SHOWING, S.CRACK], G.NONE)])
    assert [finding for finding in found(clean) if finding.observations] == []


def test_a_roller_with_many_troubles_is_one_finding_under_the_gravest() -> None:
    walk = Walk(
        {C.BOTTOM_ROLLER: ([104, 20], [20, 20])},
        [
            saw("left bottom roller 1", S.LEAK, G.MARKED),
            saw("left bottom roller 1", [S.FLAT_SPOT, S.END_PLAY], G.MARKED, 3.0),
            saw("left bottom roller 1", S.CRACK, G.SLIGHT),
        ],
    )
    about_it = [one for one in found(walk) if "left bottom roller 1" in map(str, one.about)]
    assert [one.code for one in about_it] == ["cracked"]
    assert [reason.code for reason in about_it[0].because] == [
        "measured",
        "seen-graded",
        "seen-graded-sized",
        "seen-graded",
    ]


def test_rollers_near_their_limit_are_told_beside_those_past_it() -> None:
    findings = found(Walk({C.BOTTOM_ROLLER: ([104, 85], [20, 20])}))
    assert of_code(findings, "near-limit") == ()
    (past,) = of_code(findings, "past-limit")
    assert [str(part) for part in past.because[-1].about] == ["left bottom roller 2"]


def test_a_machine_that_is_nearly_new_and_wholly_seen_has_no_finding() -> None:
    new = {C.LINK: (5, 6), C.SPROCKET: (4, 5), C.BOTTOM_ROLLER: ([5, 6], [6, 5])}
    walk = Walk(new, track=T.DRY, links=(40, 40))
    inspection, chart = written(walk)
    assert chart is not None
    seen_alone = type(chart)(
        chart.title, chart.source, chart.layout, {c: chart.components[c] for c in new}, chart.geometry
    )
    assert assess(inspection, seen_alone).findings == ()


def test_an_observation_without_a_side_is_told_once() -> None:
    findings = found(Walk(saw=[saw("pin", S.DRY_JOINT, G.SLIGHT)]))
    assert [one.code for one in findings if one.observations] == ["dry-joint"]


@pytest.mark.slow
def test_thousands_of_observations_take_no_more_than_moments() -> None:
    many = [saw(f"left bottom roller {number}", [S.LEAK, S.BENT], G.SLIGHT) for number in range(1, 1501)]
    slight = [saw(f"left link {number}", S.CORROSION, G.SLIGHT) for number in range(1, 1501)]
    began = time.process_time()
    findings = found(Walk({C.BOTTOM_ROLLER: ([85] * 20, [105] * 20)}, many + slight))
    assert {"roller-leak", "seen-slight"} <= {finding.code for finding in findings}
    assert time.process_time() - began < 15.0
