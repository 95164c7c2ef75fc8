"""What a document carries beside its pages: the assessment, what its fingerprint is of, and every file behind them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from hashlib import sha256
from typing import Final

from tracksworn.assessment.model import Assessment
from tracksworn.documents.fingerprint import fingerprinted, fingerprinted_parts
from tracksworn.documents.statement import in_json, statement
from tracksworn.documents.words.language import N_, Language
from tracksworn.inspection.dossier import Dossier, Source
from tracksworn.inspection.vocabulary import Kind

ASSESSMENT: Final = "assessment.json"
FINGERPRINT: Final = "fingerprint.json"
YAML: Final = "application/yaml"  # RFC 9512
JSON: Final = "application/json"  # RFC 8259


class Relationship(StrEnum):
    """What a file is to the document that carries it (ISO 32000-2, table 43)."""

    SOURCE = "Source"
    DATA = "Data"


@dataclass(frozen=True, slots=True)
class Stated:
    """What a document says of its data: the assessment as JSON, and that of which the fingerprint is the SHA-256."""

    assessment: bytes
    fingerprinted: bytes

    @property
    def fingerprint(self) -> str:
        """Sixty-four hexadecimal digits."""
        return sha256(self.fingerprinted).hexdigest()


def state(dossier: Dossier, assessment: Assessment) -> Stated:
    """What is said of one inspection, worked out once for its pages and for what they carry."""
    stated = statement(assessment)
    return Stated(in_json(stated).encode("utf-8"), fingerprinted(stated, dossier.digests or {}))


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file that a document carries: its name, with `/` between folders, and in the reader's words what it is."""

    name: str
    content: bytes
    media_type: str
    relationship: Relationship
    what: str


_KINDS: Final = {
    Kind.INSPECTION: N_("Inspection: what was measured and seen"),
    Kind.CHART: N_("Wear chart"),
    Kind.LETTERHEAD: N_("Letterhead"),
    Kind.PRICES: N_("Prices"),
    Kind.TERMS: N_("Terms"),
}


def attachments(dossier: Dossier, stated: Stated, language: Language) -> tuple[Attachment, ...]:
    """What a document of one inspection carries.

    The fingerprint is the SHA-256 of `fingerprint.json`, which holds that of every file, photos too. The files lie to
    each other as they did where they were read, so that the assessment can be computed anew from them alone.
    """
    inspection, *others = dossier.sources or (None,)
    own = () if inspection is None else (_source(inspection, _KINDS[inspection.kind], language),)
    return (*_data(stated, language), *own, *(_source(one, _beside(one), language) for one in others))


def attachments_of_parts(parts: Sequence[tuple[Dossier, Stated]], language: Language) -> tuple[Attachment, ...]:
    """What a document of several inspections carries: all of each, in a folder named for its number and revision."""
    whole = _fingerprint(fingerprinted_parts([stated.fingerprint for _, stated in parts]), language)
    return (whole, *(one for dossier, stated in parts for one in _part(dossier, stated, language)))


def _part(dossier: Dossier, stated: Stated, language: Language) -> Iterator[Attachment]:
    folder = f"{dossier.inspection.number}-r{dossier.inspection.revision}"
    for one in attachments(dossier, stated, language):
        yield replace(one, name=f"{folder}/{one.name}", what=f"{folder}: {one.what}")


def _data(stated: Stated, language: Language) -> Iterator[Attachment]:
    what = language.say(N_("Assessment, in full precision"))
    yield Attachment(ASSESSMENT, stated.assessment, JSON, Relationship.DATA, what)
    yield _fingerprint(stated.fingerprinted, language)


def _fingerprint(content: bytes, language: Language) -> Attachment:
    what = language.say(N_("What the fingerprint is of: its SHA-256"))
    return Attachment(FINGERPRINT, content, JSON, Relationship.DATA, what)


def _source(source: Source, what: str, language: Language) -> Attachment:
    return Attachment(source.name, source.content, YAML, Relationship.SOURCE, language.say(what))


def _beside(source: Source) -> str:
    return N_("Earlier inspection") if source.kind is Kind.INSPECTION else _KINDS[source.kind]
