"""From what was read and what follows from it to the view of the listing sheet."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from typing import Final

from tracksworn.assessment.model import Assessment
from tracksworn.documents.full.closing import fingerprint_of, signature
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.identification import branding, revision_words
from tracksworn.documents.full.reader import context_for
from tracksworn.documents.listing.glance import key_figures
from tracksworn.documents.listing.headings import headings
from tracksworn.documents.listing.height import LEAST_PITCH, pitch_that_fills
from tracksworn.documents.listing.identification import foot, identity
from tracksworn.documents.listing.room import LOWER, ROOMS, SHEET, Room, lines
from tracksworn.documents.listing.rows import rows
from tracksworn.documents.listing.sides import Drawn, sides
from tracksworn.documents.listing.structured import structured
from tracksworn.documents.listing.told import also_seen, found, headline, not_seen
from tracksworn.documents.listing.view import Also, Found, Listing
from tracksworn.documents.words import labels
from tracksworn.documents.words.cautions import SHORT_CAUTIONS, Caution, cautions
from tracksworn.documents.words.language import N_
from tracksworn.documents.words.whole import basis_words
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
    sealed: bool = False,
    fingerprint: str | None = None,
) -> Listing:
    """The listing sheet as a reader sees it. What is not asked for is the letterhead's, else English, mm and A4.

    `fingerprint` is that of what was read, where it is known already.
    """
    context = context_for(dossier, assessment, language, units, sealed=sealed, fingerprint=fingerprint)
    view = _sheet(context, paper, ROOMS[0])
    for room in ROOMS[1:]:
        if pitch_that_fills(view) >= LEAST_PITCH:
            break
        view = _in(room, view, context)
    return view


def _sheet(context: Context, paper: str | None, room: Room) -> Listing:
    firm, digits = branding(context, paper), fingerprint_of(context)
    told = _told(context, firm.paper, room)
    short, (terms, elsewhere) = cautions(context.language, SHORT_CAUTIONS), _terms(context)
    return Listing(
        branding=firm,
        identification=identity(context),
        headings=headings(context.language),
        headline=headline(context, room),
        figures=key_figures(context),
        sides=told.drawn.sides,
        drawn=told.drawn.how,
        rows=rows(context),
        basis=" ".join(basis_words(context.chart, context.assessment, context.figures)),
        found=told.acts,
        found_more=told.more,
        also=told.also,
        also_more=told.also_more,
        not_seen=not_seen(context, room),
        cautions=short,
        hazards=tuple(one for one in short if one.identity not in OF_THE_SHEET),
        limits=tuple(one for one in short if one.identity in OF_THE_SHEET),
        rules=_rules(short, context),
        standing_terms=terms,
        terms_elsewhere=elsewhere,
        source=_source(context),
        signature=replace(signature(context), statement=_statement(context)),
        foot=foot(context, digits),
        fingerprint=digits,
        sealed=context.sealed,
        structured=structured(context, digits),
    )


def _in(room: Room, view: Listing, context: Context) -> Listing:
    """The same sheet with less room for drawings and words."""
    told = _told(context, view.branding.paper, room)
    return replace(
        view,
        headline=headline(context, room),
        sides=told.drawn.sides,
        drawn=told.drawn.how,
        found=told.acts,
        found_more=told.more,
        also=told.also,
        also_more=told.also_more,
        not_seen=not_seen(context, room),
    )


@dataclass(frozen=True, slots=True)
class _Told:
    """Drawings and the words for what is pinned to them."""

    drawn: Drawn
    acts: tuple[Found, ...]
    more: str
    also: tuple[Also, ...]
    also_more: str


def _told(context: Context, paper: str, room: Room) -> _Told:
    """What has words on the drawings, under "act on" or after it; where they have no room, no pin stands either."""
    height, (acts, more) = room.elevation - LOWER[paper], found(context, room)
    of_acts = {pin for one in acts for pin in one.pins}
    pinned: Collection[str] | None = None
    while True:
        drawn = sides(context, height, pinned)
        also, also_more = also_seen(of_acts.union(drawn.named), context, room)
        pinned = of_acts.union(drawn.named, (one.pin for one in also))
        if pinned.issuperset(drawn.bare):
            return _Told(drawn, acts, more, also, also_more)


def _rules(short: Sequence[Caution], context: Context) -> str:
    return labels.clauses((one.references for one in short), context.language) + "."


def _terms(context: Context) -> tuple[str, str]:
    """The firm's terms where they are short, else that they stand elsewhere: never a part of them."""
    letterhead = context.dossier.letterhead
    terms = (letterhead.standing_terms or "").strip() if letterhead else ""
    if "\n\n" in terms or lines(terms, SHEET) > TERMS_LINES:
        return "", context.say(N_("The firm's standing terms hold; they stand in the full report."))
    return terms, ""


def _statement(context: Context) -> str:
    """What the signature stands for, in few words."""
    if context.sealed:
        return context.say(
            N_(
                "It relates only to this machine as it stood on that day, and is not to be copied except in full. The "
                "file is sealed: check the electronic signature in it; a print bears none."
            )
        )
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
