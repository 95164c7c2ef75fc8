"""Who answers for the document, and what stands at the foot of every sheet."""

from typing import Final

from tracksworn.documents.fingerprint import fingerprint, first_digits
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.identification import firm, revision_words, stem
from tracksworn.documents.full.view import Labelled, Signature
from tracksworn.documents.statement import statement
from tracksworn.documents.words.language import N_

_NOT_SEALED: Final = N_(
    "This document relates only to the machine named in it, as it stood on the day of the inspection, and is not to be "
    "copied except in full. The file itself is not sealed: only the fingerprint at its foot ties it to the data that "
    "it was computed from."
)
_SEALED: Final = N_(
    "This document relates only to the machine named in it, as it stood on the day of the inspection, and is not to be "
    "copied except in full. The file is sealed: an electronic signature covers every page and all data in it. A print "
    "bears none; check the signature in the file."
)


def fingerprint_of(context: Context) -> str:
    """The fingerprint of the assessment and of all files that it was computed from."""
    if context.fingerprint is not None:
        return context.fingerprint
    return fingerprint(statement(context.computed or context.assessment), context.dossier.digests or {})


def signature(context: Context) -> Signature:
    """The signatory of the letterhead, else the inspector."""
    name, title = _signatory(context)
    owner = firm(context)
    return Signature(
        name=name,
        title=title,
        firm="" if owner == name else owner,
        day=context.figures.day(context.inspection.date_of_document),
        statement=context.say(_SEALED if context.sealed else _NOT_SEALED),
    )


def _signatory(context: Context) -> tuple[str, str]:
    letterhead, inspector = context.dossier.letterhead, context.inspection.inspector
    if letterhead is not None:
        return letterhead.signatory.name, letterhead.signatory.title or ""
    return inspector.name, inspector.qualification or ""


def foot(context: Context, digits: str) -> tuple[Labelled, ...]:
    """Document, arithmetic, chart, fingerprint and signatory; the sheet's number is the page's own."""
    say, chart = context.say, context.chart
    name, _ = _signatory(context)
    return (
        Labelled(say(N_("Document")), stem(context)),
        Labelled(say(N_("Arithmetic")), say(N_("method {number}"), number=str(context.assessment.method))),
        Labelled(say(N_("Chart")), chart.title if chart is not None else say(N_("none")), yields="partly"),
        Labelled(say(N_("Fingerprint")), first_digits(digits), seal_word(context)),
        Labelled(say(N_("Answers for it")), f"{name}, {context.figures.day(context.inspection.date_of_document)}"),
    )


def seal_word(context: Context) -> str:
    """What stands beside the fingerprint."""
    return context.say(N_("sealed file") if context.sealed else N_("not sealed"))


def end_mark(context: Context) -> str:
    """What stands after the last line."""
    return context.say(
        N_("End of report {number}, {revision}"),
        number=context.inspection.number,
        revision=revision_words(context),
    )
