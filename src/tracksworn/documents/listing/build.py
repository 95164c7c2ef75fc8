"""From what was read and what follows from it to the view of the listing sheet."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from tracksworn.assessment.model import Assessment
from tracksworn.documents.full.closing import fingerprint_of, signature
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.identification import branding, revision_words
from tracksworn.documents.full.reader import context_for
from tracksworn.documents.listing.glance import key_figures
from tracksworn.documents.listing.headings import headings
from tracksworn.documents.listing.identification import foot, identity
from tracksworn.documents.listing.room import SHEET, lines
from tracksworn.documents.listing.rows import rows
from tracksworn.documents.listing.sides import sides
from tracksworn.documents.listing.structured import structured
from tracksworn.documents.listing.told import also_seen, found, headline, not_seen
from tracksworn.documents.listing.view import Listing
from tracksworn.documents.words.cautions import SHORT_CAUTIONS, Caution, cautions
from tracksworn.documents.words.language import N_
from tracksworn.documents.words.summary import basis_words
from tracksworn.inspection.dossier import Dossier

OF_THE_SHEET: Final = ("one-day", "first")
"""Cautions that say what the sheet is; the others are hazards."""
TERMS_LINES: Final = 2


def listing(
    dossier: Dossier,
    assessment: Assessment,
    *,
    language: str | None = None,
    units: str | None = None,
    paper: str | None = None,
) -> Listing:
    """The listing sheet as a reader sees it. What is not asked for is the letterhead's, else English, mm and A4."""
    context = context_for(dossier, assessment, language, units)
    firm, digits = branding(context, paper), fingerprint_of(context)
    drawn, acts = sides(context, firm.paper), found(context)
    short = cautions(context.language, SHORT_CAUTIONS)
    terms = _terms(context)
    return Listing(
        branding=firm,
        identification=identity(context),
        headings=headings(context.language),
        headline=headline(context),
        figures=key_figures(context),
        sides=drawn.sides,
        drawn=drawn.how,
        rows=rows(context),
        basis=" ".join(basis_words(context.chart, context.assessment, context.figures)),
        found=acts[0],
        found_more=acts[1],
        also=also_seen(drawn.named, context),
        not_seen=not_seen(context),
        cautions=short,
        hazards=tuple(one for one in short if one.identity not in OF_THE_SHEET),
        limits=tuple(one for one in short if one.identity in OF_THE_SHEET),
        rules=_rules(short),
        standing_terms=terms[0],
        terms_elsewhere=terms[1],
        source=_source(context),
        signature=replace(signature(context), statement=_statement(context)),
        foot=foot(context, digits),
        fingerprint=digits,
        sealed=False,
        structured=structured(context, digits),
    )


def _rules(short: Sequence[Caution]) -> str:
    return "; ".join(one.references for one in short if one.references) + "."


def _terms(context: Context) -> tuple[str, str]:
    """The firm's terms where they are short, else that they stand elsewhere: never a part of them."""
    letterhead = context.dossier.letterhead
    terms = (letterhead.standing_terms or "").strip() if letterhead else ""
    if "\n\n" in terms or lines(terms, SHEET) > TERMS_LINES:
        return "", context.say(N_("The firm's standing terms hold; they stand in the full report."))
    return terms, ""


def _statement(context: Context) -> str:
    """What the signature stands for, in few words."""
    return context.say(
        N_(
            "It relates only to this machine as it stood on that day, and is not to be copied except in full. The file "
            "is not sealed: only the fingerprint at its foot ties it to its data."
        )
    )


def _source(context: Context) -> str:
    return context.say(
        N_("Every reading, reason and assumed value stands in the full report of {number}, {revision}."),
        number=context.inspection.number,
        revision=revision_words(context),
    )
