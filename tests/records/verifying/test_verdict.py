"""Nothing passes that was not proven; what an archive says is told, and decides nothing."""

from itertools import product

import pytest
from records.verifying.recorded import NUMBER, carried_by, sheet_with

from tracksworn.inspection.faults import Failed
from tracksworn.records.standing import Standing
from tracksworn.records.verifying.carried import read_carried
from tracksworn.records.verifying.kept import judge_archive
from tracksworn.records.verifying.verdict import NEEDED, Answer, Name, State, Verdict


def test_only_all_that_is_needed_passes() -> None:
    for states in product(State, repeat=len(NEEDED)):
        answers = tuple(Answer(name, state, "") for name, state in zip(NEEDED, states, strict=True))
        assert Verdict(answers).passed is (set(states) == {State.PASSED})


def test_no_answers_pass_nothing() -> None:
    assert not Verdict(()).passed
    assert not Verdict(tuple(Answer(name, State.PASSED, "") for name in NEEDED[1:])).passed


def test_a_question_answered_twice_is_not_answered() -> None:
    twice = tuple(Answer(name, State.PASSED, "") for name in (*NEEDED, NEEDED[0]))
    assert not Verdict(twice).passed


def test_it_is_published_with_every_question_and_why() -> None:
    verdict = Verdict((Answer(Name.INTEGRITY, State.FAILED, "it bears no signature"),))
    assert verdict.plain("./a b.pdf") == {
        "file": "./a b.pdf",
        "integrity": "failed",
        **dict.fromkeys(["signer", "time", "arithmetic", "pages", "archive"], "cannot tell"),
        "why": ["integrity: it bears no signature"],
    }


class Known:
    """An archive that answers what it is told to."""

    def __init__(self, standing: Standing | None) -> None:
        self.found = standing

    def standing(self, number: str, revision: int, digest: str) -> Standing:
        assert (number, revision, len(digest)) == (NUMBER, 0, 64)
        if self.found is None:
            raise Failed("its index is damaged")
        return self.found


@pytest.mark.parametrize(
    ("standing", "state", "because"),
    [
        (Standing(True, False, 0), State.PASSED, "holds this very file as OXB-0231, revision 0, and no newer one"),
        (Standing(True, False, 2), State.FAILED, "holds a newer revision of OXB-0231: 2"),
        (Standing(False, True, 0), State.FAILED, "holds another file as OXB-0231, revision 0"),
        (Standing(False, False, None), State.CANNOT_TELL, "does not hold OXB-0231, revision 0"),
        (None, State.CANNOT_TELL, "gives no answer: its index is damaged"),
    ],
)
def test_what_an_archive_says(standing: Standing | None, state: State, because: str) -> None:
    content = sheet_with(carried_by(NUMBER))
    answer = judge_archive(content, read_carried(content), Known(standing))
    assert (answer.state, answer.because) == (state, f"the archive {because}")


def test_without_an_archive_it_cannot_be_told() -> None:
    content = sheet_with(carried_by(NUMBER))
    assert judge_archive(content, read_carried(content), None).state is State.CANNOT_TELL
