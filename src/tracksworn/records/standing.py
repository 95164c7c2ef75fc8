"""How a file stands in an archive: what verifying asks, and the archive answers."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Claim:
    """Which document of which record a file says that it is, and the SHA-256 of its bytes in hexadecimal."""

    number: str
    revision: int
    document: str  # empty where it does not say
    sha256: str


@dataclass(frozen=True, slots=True)
class Standing:
    """What an archive knows of a record: whether it holds these very bytes, and the newest revision that it holds."""

    same: bool  # these bytes are held under this number and revision
    other: bool  # other bytes are held as the same document of this number and revision
    newest: int | None  # of this number; None where the number is not known
    expired: str | None = None  # when these very bytes were removed by rule (RFC 3339)
    renewed: bool = False  # whether they are an earlier form, held together with what was appended to it since
