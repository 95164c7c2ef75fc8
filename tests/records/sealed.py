"""Small documents, sealed once for all tests of a worker."""

from datetime import UTC, datetime
from functools import cache
from typing import Final

from judges.specimen import sound
from records import authorities

from tracksworn.records.sealing.authority import Authority
from tracksworn.records.sealing.pkcs12 import from_pkcs12
from tracksworn.records.sealing.seal import Manner, seal
from tracksworn.records.sealing.signer import Level, Signer

AT: Final = datetime(2031, 4, 20, 12, 30, tzinfo=UTC)


@cache
def signer(name: str = "signer") -> Signer:
    """A signer of the invented infrastructure."""
    return from_pkcs12(authorities.packed(name), authorities.PASSWORD)


def manner(level: Level) -> Manner:
    """A level with what it takes."""
    asked = None if level is Level.B else Authority(authorities.TIME)
    return Manner(level, asked, (authorities.certificate("root"),))


@cache
def sealed(level: Level = Level.B, *, countersign: bool = False, name: str = "signer") -> bytes:
    """A small sheet, sealed; an authority that is asked answers within the process."""
    with authorities.answering():
        return seal(sound(), signer(name), at=AT, manner=manner(level), countersign=countersign)
