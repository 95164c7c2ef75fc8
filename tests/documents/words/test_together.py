"""What is said of several parts in the same words is said once; what differs in anything stands alone."""

from dataclasses import replace

import pytest
from builders import about
from finding_cases.walks import C, G, S, Walk, found, of_code, saw

from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.findings import say_finding
from tracksworn.documents.words.findings.reasons import REASONS
from tracksworn.documents.words.findings.together import JOINED, told_together
from tracksworn.documents.words.language import Language

LEAKS = Walk(
    saw=(
        saw("left bottom roller 3", S.LEAK, G.MARKED),
        saw("left bottom roller 4", S.LEAK, G.MARKED),
        saw("left bottom roller 5", S.LEAK, G.SLIGHT),
        saw("left bottom roller 6", S.LEAK, G.MARKED),
    )
)


def reasons(walk: Walk, code: str, language: str = "en") -> tuple[str, ...]:
    (finding,) = of_code(found(walk), code)
    told = replace(finding, because=told_together(finding.because))
    return say_finding(told, Figures(language=Language(language))).reasons


@pytest.mark.parametrize(
    ("language", "together", "alone"),
    [
        ("en", "Left bottom rollers 3, 4 and 6: leak (marked).", "Left bottom roller 5: leak (slight)."),
        ("de", "Laufrollen 3, 4 und 6 links: Leckage (deutlich).", "Laufrolle 5 links: Leckage (leicht)."),
        (
            "es",
            "Rodillos inferiores 3, 4 y 6 del lado izquierdo: fuga (notable).",
            "Rodillo inferior 5 del lado izquierdo: fuga (leve).",
        ),
        (
            "fr",
            "Galets inférieurs 3, 4 et 6 à gauche\u202f: fuite (notable).",
            "Galet inférieur 5 à gauche\u202f: fuite (faible).",
        ),
    ],
)
def test_rollers_that_differ_by_their_station_alone_stand_in_one_sentence(
    language: str, together: str, alone: str
) -> None:
    assert reasons(LEAKS, "roller-leak", language) == (together, alone)


def test_estimates_alike_stand_in_one_sentence_too() -> None:
    walk = Walk({C.SPROCKET: (about(85), about(85))})
    assert reasons(walk, "near-limit") == ("Left and right sprockets: worn about 85\u00a0% by eye.",)


def test_measurements_stand_alone() -> None:
    assert len(reasons(Walk({C.SPROCKET: (85, 85)}), "near-limit")) == 2


def test_what_is_joined_says_nothing_new() -> None:
    (finding,) = of_code(found(LEAKS), "roller-leak")
    told = told_together(finding.because)
    assert {subject for one in told for subject in one.about} == set(finding.about)
    assert told_together(told) == told
    assert set(REASONS) >= JOINED


@pytest.mark.parametrize(
    "other",
    [
        saw("left bottom roller 4", S.LEAK),
        saw("left bottom roller 4", (S.LEAK, S.FLANGE_WORN), G.MARKED),
        saw("left bottom roller 4", S.LEAK, G.MARKED, 2.0),
    ],
    ids=["not graded", "another sign", "a size"],
)
def test_what_differs_in_anything_stands_alone(other: object) -> None:
    walk = Walk(saw=(saw("left bottom roller 3", S.LEAK, G.MARKED), other))  # type: ignore[arg-type]
    assert len(reasons(walk, "roller-leak")) == 2
