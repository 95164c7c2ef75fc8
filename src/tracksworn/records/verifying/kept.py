"""Whether an archive knows a file, and whether it holds a newer revision."""

from dataclasses import replace

from tracksworn.inspection.faults import TrackswornError
from tracksworn.records.standing import Claim, Standing
from tracksworn.records.verifying.verdict import Answer, Archive, Name, State, Verdict


def with_archive(verdict: Verdict, archive: Archive) -> Verdict:
    """A verdict with what an archive says of the file; of one that claims to be no record it cannot be told."""
    if verdict.claim is None:
        return verdict
    others = [answer for answer in verdict.answers if answer.name is not Name.ARCHIVE]
    return replace(verdict, answers=(*others, _ask(verdict.claim, archive)))


def _ask(claim: Claim, archive: Archive) -> Answer:
    try:
        standing = archive.standing(claim)
    except TrackswornError as error:
        return _told(State.CANNOT_TELL, f"the archive gives no answer: {error}")
    return _answer(claim, standing)


def _answer(claim: Claim, standing: Standing) -> Answer:
    what = f"{claim.number}, revision {claim.revision}{claim.document and f', {claim.document}'}"
    if standing.newest is not None and standing.newest > claim.revision:
        return _told(State.FAILED, f"the archive holds a newer revision of {claim.number}: {standing.newest}")
    if standing.expired:
        return _of_expired(what, standing.expired[:10], standing)
    if standing.renewed:
        return _told(State.PASSED, f"the archive holds this very file as {what}; a renewed form is held too")
    if standing.same:
        return _told(State.PASSED, f"the archive holds this very file as {what}, and no newer one")
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
