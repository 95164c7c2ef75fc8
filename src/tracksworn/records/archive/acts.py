"""Acts on the archive, as the log keeps them for good: what was done to which record, no names and no contents."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Final

import rfc8785

KIND: Final = "act 1"


class Deed(StrEnum):
    """What may be done."""

    ADD = "add"
    RENEW = "renew"
    HOLD = "hold"
    RELEASE = "release"
    EXPIRE = "expire"
    TOMBSTONE = "tombstone"  # of a record that expired elsewhere was taken in


@dataclass(frozen=True, slots=True)
class Act:
    """One act. `sha256` and `size` are of the document, `beside` is the SHA-256 of its facts, or of the tombstone."""

    deed: Deed
    at: str  # RFC 3339, UTC
    number: str
    revision: int | None = None
    sha256: str | None = None
    size: int | None = None
    beside: str | None = None
    reason: str | None = None
    hold: int | None = None  # which hold is released: the place of its act
    document: str | None = None  # which of the revision's documents, where it says
    since: str | None = None  # since when another archive has held a record for that reason (RFC 3339)
    former: str | None = None  # where it is renewed, the SHA-256 of the form before, with which it begins

    def canonical(self) -> bytes:
        """The act as it is logged: RFC 8785, without what it does not have."""
        said: dict[str, Any] = {"tracksworn": KIND, "act": str(self.deed), "at": self.at, "number": self.number}
        more = {
            "revision": self.revision, "document": self.document, "sha256": self.sha256, "bytes": self.size,
            "beside": self.beside, "reason": self.reason, "hold": self.hold, "since": self.since,
            "former": self.former,
        }  # fmt: skip
        return rfc8785.dumps(said | {key: value for key, value in more.items() if value is not None})


def read_act(plain: Mapping[str, Any]) -> Act:
    """An act of the log. Raises KeyError or ValueError for one that this program does not know."""
    return Act(
        deed=Deed(plain["act"]),
        at=plain["at"],
        number=plain["number"],
        revision=plain.get("revision"),
        sha256=plain.get("sha256"),
        size=plain.get("bytes"),
        beside=plain.get("beside"),
        reason=plain.get("reason"),
        hold=plain.get("hold"),
        document=plain.get("document"),
        since=plain.get("since"),
        former=plain.get("former"),
    )
