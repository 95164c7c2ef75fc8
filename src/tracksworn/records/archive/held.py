"""What the archive says of what it holds; what there are many of are named tuples, which are made quickest."""

import re
from dataclasses import dataclass
from datetime import date
from typing import Final, NamedTuple

from tracksworn.assessment.model import Stage
from tracksworn.inspection.faults import TrackswornError


class NotTaken(TrackswornError):  # noqa: N818 - named for what happened to the file
    """The archive does not take a file, or does not do what was asked; its text says why and what would be right."""


class Facts(NamedTuple):
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
    document: str = ""  # full, listing or certificate; empty where it does not say


class Held(NamedTuple):
    """One document of a revision of a record, as the archive holds it."""

    number: str
    revision: int
    sha256: str  # of the file, in hexadecimal
    size: int  # bytes
    added: str  # RFC 3339, UTC
    act: int  # its place in the log, from 0
    facts: Facts | None  # None where its files are gone or damaged
    expired: str | None = None  # when its files were removed by rule
    new: bool = False  # whether this call has put it there
    document: str = ""  # as in its facts
    renewed: bool = False  # if new, whether in the place of an earlier form; else, whether the file was such a form
    elsewhere: bool = False  # whether it expired in another archive, from which only its tombstone came

    @property
    def name(self) -> str:
        """What its file is called."""
        return file_name(self.number, self.revision, self.document)


class Form(NamedTuple):
    """An earlier form of a document: what was held before it was signed or timestamped further, and begins with."""

    number: str
    revision: int
    document: str
    sha256: str  # in hexadecimal
    size: int  # bytes; the later form begins with them
    added: str  # RFC 3339, UTC
    act: int  # its place in the log, from 0

    @property
    def name(self) -> str:
        """What its file is called, as the later form's is."""
        return file_name(self.number, self.revision, self.document)


@dataclass(frozen=True, slots=True)
class Hold:
    """Why a record may not expire, and since which act."""

    reason: str
    since: str  # RFC 3339, UTC; of a hold that came from another archive, since it was held there
    act: int


class TakenHold(NamedTuple):
    """A hold that came from another archive."""

    number: str
    hold: Hold
    new: bool  # whether this call has put it there


class TakenTombstone(NamedTuple):
    """A record that expired in another archive, and is known here by its tombstone alone."""

    number: str
    expired: str  # RFC 3339, UTC
    new: bool  # whether this call has put it there


@dataclass(frozen=True, slots=True)
class Record:
    """All documents of one record, by revision, their earlier forms by act, and what keeps it from expiring."""

    number: str
    documents: tuple[Held, ...]
    holds: tuple[Hold, ...]
    former: tuple[Form, ...] = ()

    @property
    def expired(self) -> str | None:
        """When its files were removed by rule."""
        return self.documents[0].expired

    def choose(self, revision: int | None, document: str | None) -> tuple[Held, ...]:
        """The documents of a revision, else of the newest, or the one of that kind. Raises NotTaken for none."""
        wanted = max(one.revision for one in self.documents) if revision is None else revision
        found = [one for one in self.documents if one.revision == wanted and document in (None, one.document)]
        if not found:
            what = "" if document is None else f", or no {document} of it,"
            raise NotTaken(f"record {self.number} has no revision {wanted}{what} here")
        return tuple(found)

    def choose_one(self, revision: int | None, document: str | None) -> Held:
        """As `choose`, where only one will do. Raises NotTaken where there are several."""
        found = self.choose(revision, document)
        if len(found) > 1:
            kinds = ", ".join(one.document or "one that does not say its kind" for one in found)
            raise NotTaken(f"{self.number}, revision {found[0].revision}, has several documents: {kinds}; name one")
        return found[0]


class Sought(NamedTuple):
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


MOMENT: Final = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}Z")
"""A time as it is logged: RFC 3339, UTC."""


def stem(number: str, revision: int, document: str = "") -> str:
    """What the files of a document are called, without their ending."""
    return f"{number}-r{revision}{document and f'-{document}'}"


def file_name(number: str, revision: int, document: str = "") -> str:
    """What a document's own file is called."""
    return f"{stem(number, revision, document)}.pdf"


def facts_name(number: str, revision: int, document: str = "") -> str:
    """What the file beside it is called, which says in short what it is."""
    return f"{stem(number, revision, document)}.json"
