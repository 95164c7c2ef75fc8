"""The arithmetic is computed anew: equal, or the first difference is named."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
import rfc8785
from records.verifying.recorded import DEMO, LONG, NUMBER, carried_by, sheet_with

from tracksworn.records.verifying.arithmetic import Arithmetic, first_difference, judge_arithmetic
from tracksworn.records.verifying.carried import read_carried
from tracksworn.records.verifying.pages import judge_pages
from tracksworn.records.verifying.verdict import State

NUMBERS = sorted(path.parent.name for path in DEMO.glob("*/inspection.yaml"))


def judged(files: Mapping[str, bytes], folder: Path) -> Arithmetic:
    return judge_arithmetic(read_carried(sheet_with(files)), folder)


def altered(number: str, **changes: object) -> dict[str, bytes]:
    """What is carried, with something else in the assessment, and in what its fingerprint is of."""
    files = dict(carried_by(number))
    assessment: dict[str, Any] = {**json.loads(files["assessment.json"]), **changes}
    of = {**json.loads(files["fingerprint.json"]), "assessment": assessment}
    return files | {"assessment.json": json.dumps(assessment).encode(), "fingerprint.json": rfc8785.dumps(of)}


@pytest.mark.parametrize("number", NUMBERS)
def test_every_demo_is_equal_when_computed_anew(number: str, tmp_path: Path) -> None:
    found = judged(carried_by(number), tmp_path)
    assert found.answer.state is State.PASSED, found.answer.because
    assert found.answer.because == "computed anew by method 1 from what is attached, and equal"
    assert found.assessed is not None
    assert found.assessed.dossier.inspection.number == number


def test_pages_that_cannot_be_read_fail(tmp_path: Path) -> None:
    carried = read_carried(sheet_with(carried_by(NUMBER)))
    assessed = judge_arithmetic(carried, tmp_path).assessed
    assert assessed is not None
    answer = judge_pages(b"no PDF", carried, assessed)
    assert answer.state is State.FAILED
    assert answer.because.startswith("its pages cannot be read: ")


def test_a_figure_that_does_not_follow_is_named(tmp_path: Path) -> None:
    overall = json.loads(carried_by(LONG)["assessment.json"])["overall"]
    found = judged(altered(LONG, overall={**overall, "percent_worn": 12.5}), tmp_path)
    assert found.answer.state is State.FAILED
    assert "overall.percent_worn is 12.5 there and 53.1" in found.answer.because


def test_so_is_the_last_digit_of_full_precision(tmp_path: Path) -> None:
    overall = json.loads(carried_by(LONG)["assessment.json"])["overall"]
    nearly = overall["percent_worn"] + 1e-13
    assert nearly != overall["percent_worn"]
    assert judged(altered(LONG, overall={**overall, "percent_worn": nearly}), tmp_path).answer.state is State.FAILED


def test_readings_that_were_changed_give_another_assessment(tmp_path: Path) -> None:
    name = f"{LONG}/inspection.yaml"
    other = carried_by(LONG)[name].replace(b"131.2", b"141.2", 1)
    assert other != carried_by(LONG)[name]
    found = judged({**carried_by(LONG), name: other}, tmp_path)
    assert found.answer.state is State.FAILED
    assert "when computed" in found.answer.because


def test_a_file_that_changes_no_figure_is_found_by_the_fingerprint(tmp_path: Path) -> None:
    name = f"{NUMBER}/inspection.yaml"
    found = judged({**carried_by(NUMBER), name: carried_by(NUMBER)[name] + b"# more\n"}, tmp_path)
    assert found.answer.state is State.FAILED
    assert found.answer.because == "fingerprint.json is not of the files that are carried"


def test_a_fingerprint_of_something_else_is_found(tmp_path: Path) -> None:
    of = json.loads(carried_by(NUMBER)["fingerprint.json"])
    files = dict(carried_by(NUMBER)) | {"fingerprint.json": rfc8785.dumps({**of, "more": 1})}
    assert judged(files, tmp_path).answer.because == "fingerprint.json is not that of the assessment and its files"


def test_a_method_that_is_not_known_cannot_be_told(tmp_path: Path) -> None:
    found = judged(altered(NUMBER, method=2), tmp_path)
    assert found.answer.state is State.CANNOT_TELL
    assert found.answer.because == "it was computed by method 2; this program has method 1"


def test_faults_in_what_is_carried_are_told_with_their_line(tmp_path: Path) -> None:
    name = f"{NUMBER}/inspection.yaml"
    found = judged({**carried_by(NUMBER), name: b"tracksworn: inspection 1\nnumber: [\n"}, tmp_path)
    assert found.answer.state is State.FAILED
    assert found.answer.because.startswith("what it carries has faults: line 3 of inspection.yaml: ")


@pytest.mark.parametrize(
    ("held", "anew", "said"),
    [
        ({"a": [1, 2]}, {"a": [1, 2]}, ""),
        ({"a": 1}, {"a": 1.0}, "a is 1 there and 1.0 when computed"),
        ({"a": True}, {"a": 1}, "a is true there and 1 when computed"),
        ({}, {"a": None}, "a is nothing there and null when computed"),
        ({"a": [1], "b": 2}, {"a": [1, 3]}, "a[1] is nothing there and 3 when computed"),
        ({"b": 2}, {}, "b is 2 there and nothing when computed"),
        ([], {}, "it is [] there and {} when computed"),
    ],
)
def test_where_two_values_first_differ(held: object, anew: object, said: str) -> None:
    assert first_difference(held, anew) == said
