"""Which document this is, by whom and for whom, and what stands at the foot of every sheet."""

from collections.abc import Iterator
from typing import Final

from tracksworn.assessment.decisions import Conformity, Result
from tracksworn.documents.certificate.view import Identity
from tracksworn.documents.fingerprint import first_digits
from tracksworn.documents.full.closing import seal_word
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.identification import firm, revision_words
from tracksworn.documents.full.view import Branding, Identification, Labelled, Signature
from tracksworn.documents.words import certificate as words
from tracksworn.documents.words.language import N_

DOCUMENT: Final = "certificate"

OF_ITS_PARTS: Final = (
    N_("Suspension"),
    N_("Links, left and right"),
    N_("Lugs, left and right"),
    N_("Rollers a side"),
    N_("Shoes"),
    N_("Track width"),
    N_("Ground"),
    N_("Hours a week"),
    N_("Share of travel"),
)
"""What identifies parts and use rather than the machine: the condition report tells it."""


def record(context: Context) -> str:
    """Number and revision as one word, as a file or an address names them: `MPS-2031-0418-r0`."""
    return f"{context.inspection.number}-r{context.inspection.revision}"


def stem(context: Context) -> str:
    """The name of the document's files without format."""
    return f"{record(context)}-{DOCUMENT}"


def identity(context: Context, conformity: Conformity, known: Identification) -> Identity:
    """Title by the verdict, the rest as on every document of the inspection."""
    return Identity(
        stem=stem(context),
        title=context.say(words.TITLES[conformity.result]),
        number=known.number,
        addressed=known.addressed,
        strip=tuple(one for one in known.strip if one.yields != "wholly"),  # the place is told with the details
        issued=known.issued,
    )


def details(context: Context, known: Identification, branding: Branding) -> Iterator[Labelled]:
    """Issuing body, then what identifies machine, inspection and client; the client is named even if unknown."""
    say, inspection = context.say, context.inspection
    unknown, elsewhere = say(N_("not recorded")), set(map(say, OF_ITS_PARTS))
    yield Labelled(say(N_("Issued by")), ", ".join([firm(context), *branding.address]))
    yield Labelled(say(N_("Place of the inspection")), inspection.place or unknown)
    yield known.strip[2]  # the hours, with what they rest on
    if inspection.inspector.engaged_by is None:
        yield Labelled(say(N_("Engaged by")), unknown)
    yield from (one for one in known.details if one.label not in elsewhere)


def foot(context: Context, conformity: Conformity, digits: str, signature: Signature) -> tuple[Labelled, ...]:
    """Document, arithmetic, terms, fingerprint and signatory; the sheet's number is the page's own."""
    say = context.say
    return (
        Labelled(say(N_("Document")), stem(context)),
        Labelled(say(N_("Arithmetic")), say(N_("method {number}"), number=str(context.assessment.method))),
        Labelled(say(N_("Terms")), conformity.title, yields="partly"),
        Labelled(say(N_("Fingerprint")), first_digits(digits), seal_word(context)),
        Labelled(say(N_("Answers for it")), f"{signature.name}, {signature.day}"),
    )


def end_mark(context: Context, conformity: Conformity) -> str:
    """What stands after the last line."""
    passes = conformity.result is Result.PASSES
    return context.say(words.ENDS[passes], number=context.inspection.number, revision=revision_words(context))
