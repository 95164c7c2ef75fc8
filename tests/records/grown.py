"""A sealed document of a real record, and what may become of it: one file that begins with another."""

from datetime import UTC, datetime
from functools import cache
from typing import Final

import time_machine
from records import authorities
from records.sealed import AT, manner, signer
from records.verifying.recorded import NUMBER, carried_by, sheet_with

from tracksworn.records.countersigning import countersign
from tracksworn.records.renewal import renew
from tracksworn.records.sealing.authority import Authority
from tracksworn.records.sealing.seal import seal
from tracksworn.records.sealing.signer import Level

DOCUMENT: Final = "listing"
NAME: Final = f"{NUMBER}-r0-{DOCUMENT}.pdf"
LATER: Final = datetime(2035, 6, 1, tzinfo=UTC)


@cache
def sealed() -> bytes:
    """Sealed, with room for a countersignature and for archive timestamps."""
    with time_machine.travel(AT, tick=False), authorities.answering():
        return seal(sheet_with(carried_by(NUMBER)), signer(), at=AT, manner=manner(Level.LT), countersign=True)


def before_its_seal() -> bytes:
    """The same file without the update that seals it."""
    end = b"%%EOF\n"
    return sealed().partition(end)[0] + end


@cache
def countersigned() -> bytes:
    """The same file, countersigned."""
    with time_machine.travel(AT, tick=False), authorities.answering():
        return countersign(sealed(), signer("client"), at=AT, manner=manner(Level.T))


@cache
def renewed() -> bytes:
    """The same file, countersigned, and years later with an archive timestamp."""
    with time_machine.travel(LATER, tick=False), authorities.answering():
        return renew(countersigned(), Authority(authorities.TIME), [authorities.certificate("root")])
