"""Whether an archive knows a file, and whether it holds a newer revision."""

from hashlib import sha256

from tracksworn.inspection.faults import TrackswornError
from tracksworn.records.verifying.carried import Carried
from tracksworn.records.verifying.verdict import Answer, Archive, Name, State


def judge_archive(content: bytes, carried: Carried, archive: Archive | None) -> Answer:
    """What an archive says of a file; without one it cannot be told."""
    if archive is None:
        return _told(State.CANNOT_TELL, "no archive was asked")
    try:
        standing = archive.standing(carried.number, carried.revision, sha256(content).hexdigest())
    except TrackswornError as error:
        return _told(State.CANNOT_TELL, f"the archive gives no answer: {error}")
    what = f"{carried.number}, revision {carried.revision}"
    if standing.newest is not None and standing.newest > carried.revision:
        return _told(State.FAILED, f"the archive holds a newer revision of {carried.number}: {standing.newest}")
    if standing.same:
        return _told(State.PASSED, f"the archive holds this very file as {what}, and no newer one")
    if standing.other:
        return _told(State.FAILED, f"the archive holds another file as {what}")
    return _told(State.CANNOT_TELL, f"the archive does not hold {what}")


def _told(state: State, because: str) -> Answer:
    return Answer(Name.ARCHIVE, state, because)
