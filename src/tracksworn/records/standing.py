"""How a file stands in an archive: what verifying asks, and the archive answers."""

from dataclasses import dataclass
from typing import NamedTuple


@dataclass(frozen=True, slots=True)
class Claim:
    """Which document of which record a file says that it is, and its bytes' SHA-256 in hexadecimal and number."""

    number: str
    revision: int
    document: str  # empty where it does not say
    sha256: str
    size: int


class Bytes(NamedTuple):
    """So many, with that SHA-256 in hexadecimal."""

    size: int
    sha256: str


@dataclass(frozen=True, slots=True)
class Standing:
    """What an archive knows of a record: whether it holds these very bytes, and the newest revision that it holds."""

    same: bool  # these bytes are held under this number and revision
    other: bool  # other bytes are held as the same document of this number and revision
    newest: int | None  # of this number; None where the number is not known
    earlier: bool = False  # if other, whether these begin with the file's, of which it is an earlier state
    expired: str | None = None  # when these very bytes, else the other ones, were removed by rule (RFC 3339)
    elsewhere: bool = False  # if expired, whether in another archive, of which this one knows no more
    held: Bytes | None = None  # if other, what is held instead and has not expired
    renewed: bool = False  # whether they are an earlier form, held together with what was appended to it since
