"""Nothing passes that was not proven; what an archive says is told, and decides nothing."""

from hashlib import sha256
from itertools import product

import pytest
from records.verifying.recorded import NUMBER

from tracksworn.inspection.faults import Failed
from tracksworn.records.standing import Bytes, Claim, Standing
from tracksworn.records.verifying.kept import with_archive
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


FILE = b"x" * 1000
CLAIM = Claim(NUMBER, 0, "listing", "ab" * 32, len(FILE))


class Known:
    """An archive that answers what it is told to."""

    def __init__(self, standing: Standing | None) -> None:
        self.found = standing

    def standing(self, claim: Claim) -> Standing:
        assert claim == CLAIM
        if self.found is None:
            raise Failed("its index is damaged")
        return self.found


@pytest.mark.parametrize(
    ("standing", "state", "because"),
    [
        (
            Standing(True, False, 0),
            State.PASSED,
            "holds this very file as OXB-0231, revision 0, listing, and no newer one",
        ),
        (Standing(True, False, 2), State.FAILED, "holds a newer revision of OXB-0231: 2"),
        (Standing(False, True, 0), State.FAILED, "holds another file as OXB-0231, revision 0, listing"),
        (Standing(False, False, None), State.CANNOT_TELL, "does not hold OXB-0231, revision 0, listing"),
        (
            Standing(True, False, 0, expired="2041-05-04T09:30:00Z"),
            State.PASSED,
            "held this very file as OXB-0231, revision 0, listing until 2041-05-04",
        ),
        (
            Standing(True, False, 0, renewed=True),
            State.PASSED,
            "holds this very file as OXB-0231, revision 0, listing; a renewed form is held too",
        ),
        (
            Standing(False, True, 0, held=Bytes(999, sha256(b"x" * 999).hexdigest())),
            State.CANNOT_TELL,
            (
                "holds an earlier state of this file as OXB-0231, revision 0, listing, with which it begins; "
                "`tracksworn archive add` puts this one in its place"
            ),
        ),
        (
            Standing(False, True, 0, held=Bytes(999, sha256(b"y" * 999).hexdigest())),
            State.FAILED,
            "holds another file as OXB-0231, revision 0, listing",
        ),
        (
            Standing(False, True, 0, held=Bytes(1000, sha256(FILE).hexdigest())),
            State.FAILED,
            "holds another file as OXB-0231, revision 0, listing",
        ),
        (
            Standing(False, True, 0, earlier=True),
            State.CANNOT_TELL,
            (
                "holds a later state of this file as OXB-0231, revision 0, listing, which begins with these very "
                "bytes; this state itself was never put there"
            ),
        ),
        (
            Standing(False, True, 0, expired="2041-05-04T09:30:00Z"),
            State.CANNOT_TELL,
            (
                "held another file as OXB-0231, revision 0, listing until 2041-05-04; whether this is a state of "
                "it cannot be seen any more"
            ),
        ),
        (
            Standing(True, False, 0, expired="2041-05-04T09:30:00Z", elsewhere=True),
            State.CANNOT_TELL,
            (
                "knows only by another's tombstone that this very file was held there as OXB-0231, revision 0, listing "
                "until 2041-05-04"
            ),
        ),
        (None, State.CANNOT_TELL, "gives no answer: its index is damaged"),
    ],
)
def test_what_an_archive_says(standing: Standing | None, state: State, because: str) -> None:
    others = Answer(Name.INTEGRITY, State.PASSED, "")
    verdict = with_archive(
        Verdict((others, Answer(Name.ARCHIVE, State.CANNOT_TELL, "")), CLAIM), Known(standing), lambda size: FILE[:size]
    )
    assert verdict.answers == (others, Answer(Name.ARCHIVE, state, f"the archive {because}"))


def test_of_a_file_that_claims_nothing_no_archive_is_asked() -> None:
    verdict = Verdict((Answer(Name.ARCHIVE, State.CANNOT_TELL, "it says of no record that it is one"),))
    assert with_archive(verdict, Known(None), lambda size: FILE[:size]) is verdict
