"""Whether an archive knows a file, and whether it holds a newer revision."""

from collections.abc import Callable
from dataclasses import replace
from hashlib import sha256

from tracksworn.inspection.faults import TrackswornError
from tracksworn.records.standing import Bytes, Claim, Standing
from tracksworn.records.verifying.verdict import Answer, Archive, Name, State, Verdict

Beginning = Callable[[int], bytes]
"""So many bytes from the beginning of the file that is asked about."""


def with_archive(verdict: Verdict, archive: Archive, beginning: Beginning) -> Verdict:
    """A verdict with what an archive says of the file; of one that claims to be no record it cannot be told."""
    if verdict.claim is None:
        return verdict
    others = [answer for answer in verdict.answers if answer.name is not Name.ARCHIVE]
    return replace(verdict, answers=(*others, _ask(verdict.claim, archive, beginning)))


def _ask(claim: Claim, archive: Archive, beginning: Beginning) -> Answer:
    try:
        standing = archive.standing(claim)
        goes_on = _goes_on(claim, standing.held, beginning)
    except TrackswornError as error:
        return _told(State.CANNOT_TELL, f"the archive gives no answer: {error}")
    return _answer(claim, standing, goes_on=goes_on)


def _goes_on(claim: Claim, held: Bytes | None, beginning: Beginning) -> bool:
    """Whether the file begins with what is held in its place."""
    if held is None or held.size >= claim.size:
        return False
    return sha256(beginning(held.size)).hexdigest() == held.sha256


def _answer(claim: Claim, standing: Standing, *, goes_on: bool) -> Answer:
    what = f"{claim.number}, revision {claim.revision}{claim.document and f', {claim.document}'}"
    if standing.newest is not None and standing.newest > claim.revision:
        return _told(State.FAILED, f"the archive holds a newer revision of {claim.number}: {standing.newest}")
    if standing.expired:
        return _of_expired(what, standing.expired[:10], standing)
    if standing.renewed:
        return _told(State.PASSED, f"the archive holds this very file as {what}; a renewed form is held too")
    if standing.same:
        return _told(State.PASSED, f"the archive holds this very file as {what}, and no newer one")
    if goes_on:
        return _told(
            State.CANNOT_TELL,
            f"the archive holds an earlier state of this file as {what}, with which it begins; `tracksworn archive "
            "add` puts this one in its place",
        )
    if standing.earlier:
        return _told(
            State.CANNOT_TELL,
            f"the archive holds a later state of this file as {what}, which begins with these very bytes; this state "
            "itself was never put there",
        )
    if standing.other:
        return _told(State.FAILED, f"the archive holds another file as {what}")
    return _told(State.CANNOT_TELL, f"the archive does not hold {what}")


def _of_expired(what: str, on: str, standing: Standing) -> Answer:
    file = "this very file" if standing.same else "another file"
    if standing.elsewhere:
        because = f"the archive knows only by another's tombstone that {file} was held there as {what} until {on}"
        return _told(State.CANNOT_TELL, because)
    if standing.same:
        return _told(State.PASSED, f"the archive held {file} as {what} until {on}")
    because = f"the archive held {file} as {what} until {on}; whether this is a state of it cannot be seen any more"
    return _told(State.CANNOT_TELL, because)


def _told(state: State, because: str) -> Answer:
    return Answer(Name.ARCHIVE, state, because)
