"""What the archive says of what it holds."""

from dataclasses import dataclass
from datetime import date

from tracksworn.assessment.model import Stage
from tracksworn.inspection.faults import TrackswornError


class NotTaken(TrackswornError):  # noqa: N818 - named for what happened to the file
    """The archive does not take a file, or does not do what was asked; its text says why and what would be right."""


@dataclass(frozen=True, slots=True)
class Facts:
    """What a document says of itself, as far as the archive finds it by that. `words` is for free text."""

    number: str
    revision: int
    maker: str
    model: str
    serial: str
    inspector: str
    firm: str | None  # of its letterhead, else the inspector's organisation
    inspected: date
    issued: date
    stage: Stage | None  # of the component that is worn furthest
    words: str = ""


@dataclass(frozen=True, slots=True)
class Held:
    """One revision of a record, as the archive holds it."""

    number: str
    revision: int
    sha256: str  # of the file, in hexadecimal
    size: int  # bytes
    added: str  # RFC 3339, UTC
    act: int  # its place in the log, from 0
    facts: Facts | None  # None where its files are gone or damaged
    expired: str | None = None  # when its files were removed by rule
    new: bool = False  # whether this call has put it there

    @property
    def name(self) -> str:
        """What its file is called."""
        return file_name(self.number, self.revision)


@dataclass(frozen=True, slots=True)
class Hold:
    """Why a record may not expire, and since which act."""

    reason: str
    since: str
    act: int


@dataclass(frozen=True, slots=True)
class Record:
    """All revisions of one record, the oldest first, and what keeps it from expiring."""

    number: str
    revisions: tuple[Held, ...]
    holds: tuple[Hold, ...]


@dataclass(frozen=True, slots=True)
class Sought:
    """What records are looked for by; what is None does not narrow. Days are those of the inspection."""

    number: str | None = None
    machine: str | None = None  # a part of maker and model
    serial: str | None = None  # whole; blanks, hyphens and case do not count
    firm: str | None = None  # a part
    since: date | None = None
    until: date | None = None
    stage: Stage | None = None
    text: str | None = None  # every word of it


@dataclass(frozen=True, slots=True)
class Damage:
    """Something that is not as it was put: which file, of which record, and what is wrong with it."""

    file: str  # from the archive's folder
    number: str | None
    what: str

    def __str__(self) -> str:
        return f"{self.file}: {self.what}"


def file_name(number: str, revision: int) -> str:
    """What the file of a revision is called."""
    return f"{number}-r{revision}.pdf"


def facts_name(number: str, revision: int) -> str:
    """What the file beside it is called, which says in short what it is."""
    return f"{number}-r{revision}.json"
