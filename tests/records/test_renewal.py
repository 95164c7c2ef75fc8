"""A seal that outlives its certificates: each archive timestamp is attested by the next, with the clock moved on."""

from datetime import UTC, datetime
from functools import cache

import pytest
import requests
import time_machine
from judges.specimen import sound
from records import authorities
from records.sealed import manner, sealed, signer
from records.verifying.test_people import judged, root

from tracksworn.inspection.faults import Failed
from tracksworn.records.countersigning import countersign
from tracksworn.records.renewal import renew
from tracksworn.records.sealing.authority import Authority
from tracksworn.records.sealing.field import ARCHIVE_TIMES
from tracksworn.records.sealing.seal import Manner, seal
from tracksworn.records.sealing.signer import Level, UnusableFile, UnusableKey
from tracksworn.records.verifying.integrity import judge_integrity
from tracksworn.records.verifying.verdict import State

SEALED = datetime(2031, 4, 20, 12, 30, tzinfo=UTC)
IN_TIME = datetime(2035, 6, 1, tzinfo=UTC)
TOO_LATE = datetime(2036, 6, 1, tzinfo=UTC)
DECADES_ON = datetime(2060, 1, 1, tzinfo=UTC)
ROOTS = (authorities.certificate("root"),)
TIME = Authority(authorities.TIME)


@cache
def kept(level: Level = Level.LTA, *, room: bool = False) -> bytes:
    """Sealed with a certificate for two years, and timestamps for five."""
    by = Manner(level, Authority(authorities.BRIEF), ROOTS)
    with time_machine.travel(SEALED, tick=False), authorities.answering():
        return seal(sound(), signer("for-two-years"), at=SEALED, manner=by, countersign=room)


def renewed(content: bytes, at: datetime = IN_TIME) -> bytes:
    with time_machine.travel(at, tick=False), authorities.answering():
        return renew(content, TIME, ROOTS)


@pytest.mark.parametrize("level", [Level.LT, Level.LTA])
def test_a_seal_that_was_renewed_in_time_is_trusted_decades_on(level: Level) -> None:
    who, when = judged(renewed(kept(level)), root(), DECADES_ON)
    assert who.state is State.PASSED, who
    assert when.because == "sealed by 2031-04-20 12:30:00 UTC, as Time attests"


def test_one_that_was_not_is_trusted_no_longer() -> None:
    assert judged(kept(), root(), IN_TIME)[0].state is State.PASSED
    who, when = judged(kept(), root(), DECADES_ON)
    assert who.state is State.FAILED
    assert "expired on 2033-01-01" in who.because
    assert when.state is State.CANNOT_TELL


def test_what_was_sealed_stays_as_it_is_and_is_told() -> None:
    again = renewed(kept())
    assert again.startswith(kept())
    answer, _ = judge_integrity(again)
    assert answer.because == (
        "every byte is as it was sealed; appended, as its seal allows: an archive timestamp, an archive timestamp, "
        "certificates and revocation data"
    )


def test_a_countersigned_file_is_renewed_too() -> None:
    with time_machine.travel(SEALED, tick=False), authorities.answering():
        both = countersign(kept(room=True), signer("client"), at=SEALED, manner=manner(Level.T))
    who, _ = judged(renewed(both), root(), DECADES_ON)
    assert who.state is State.PASSED, who


def test_too_late_is_told() -> None:
    with pytest.raises(UnusableFile, match="its last timestamp ended on 2036-01-01"):
        renewed(kept(), TOO_LATE)


def test_there_is_room_for_so_many_and_no_more() -> None:
    content = kept()
    for _ in ARCHIVE_TIMES[1:]:
        content = renewed(content)
    with pytest.raises(UnusableFile, match="no room for another archive timestamp"):
        renewed(content)


def test_only_what_is_as_it_was_sealed_is_renewed() -> None:
    with pytest.raises(UnusableFile, match="as it was sealed can be renewed: it bears no signature"):
        renewed(sound())
    with pytest.raises(UnusableFile, match="as it was sealed can be renewed"):
        renewed(kept() + b"\n")
    with pytest.raises(UnusableFile, match="no room for another"):
        renewed(sealed(Level.T))


def test_an_authority_that_nobody_named_vouches_for_nothing() -> None:
    with (
        time_machine.travel(IN_TIME, tick=False),
        authorities.answering(),
        pytest.raises(UnusableKey, match="with --trust"),
    ):
        renew(kept(), TIME, [authorities.certificate("signer")])
    with time_machine.travel(IN_TIME, tick=False), authorities.answering() as mocker:
        mocker.post(authorities.TIME, exc=requests.ConnectionError)
        with pytest.raises(Failed, match="no connection"):
            renew(kept(Level.LT), TIME, ROOTS)
