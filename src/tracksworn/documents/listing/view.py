"""What a reader sees of a listing sheet. Every figure is text already, and all of it fits one page."""

from dataclasses import dataclass
from typing import Annotated

from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.full.view import Branding, Labelled, NotSeen, SideView, Signature
from tracksworn.documents.listing.headings import Headings
from tracksworn.documents.words.cautions import Caution
from tracksworn.inspection.vocabulary import Component, Side


@dataclass(frozen=True, slots=True)
class Identity:
    """Which sheet this is, of which lot and machine."""

    stem: Annotated[str, "the name of its files without format: `OXB-0227-r0-listing`"]
    title: Annotated[str, "`Undercarriage condition sheet`"]
    number: Annotated[str, "`OXB-0227 · revision 0`"]
    lot: Annotated[str, "the lot's number, `114`; empty where the inspection names none"]
    addressed: Annotated[str, "beside the number: place of the sale or the purpose; may be empty"]
    strip: Annotated[tuple[Labelled, ...], "machine, serial, hours with their evidence, day, inspector"]
    revision: Annotated[str, "what this revision replaces and why; empty at revision 0"]
    issued: Annotated[str, "the date of the document for its metadata, ISO 8601: `2031-04-18`"]


@dataclass(frozen=True, slots=True)
class KeyFigure:
    """One of the large figures with what it is and what qualifies it."""

    figure: Annotated[str, "`53 %`, `at least 80 %`, `620 to 1 070 h`, `EUR 2 680`, `not known`"]
    caption: Annotated[str, "what it is: `worn as a whole, by cost`"]
    notes: Annotated[tuple[str, ...], "interval, seen share, which part, why there is none: never left out"]


@dataclass(frozen=True, slots=True)
class Half:
    """One side of a component."""

    side: Annotated[Side, "which side it is"]
    gauge: Annotated[Gauge, "what its half of the rule is drawn from"]
    figure: Annotated[str, "percent worn without sign: `79`, `40–60`; empty where there is none"]
    interval: Annotated[str, "`75 to 84`, or `by eye`; may be empty"]
    past_limit: Annotated[bool, "whether the figure is past the limit, and heavier for that"]
    alternative: Annotated[str, "the same as one sentence, for where the drawing cannot be seen"]


@dataclass(frozen=True, slots=True)
class Row:
    """One component, left against right."""

    component: Annotated[Component, "which component it is"]
    name: Annotated[str, "`Track links`, `Bottom rollers, worst`"]
    note: Annotated[str, "stages that stand out: `left past limit`; may be empty"]
    left: Annotated[Half | None, "the left side, or None where the machine has no such part there"]
    right: Annotated[Half | None, "the right side, likewise"]
    difference: Annotated[str, "`left +12 ± 4`, `none shown`, `no delta`"]
    differs: Annotated[bool, "whether the sides are shown to differ: bold if so, grey if not"]


@dataclass(frozen=True, slots=True)
class Found:
    """A finding that asks for action."""

    pins: Annotated[tuple[str, ...], "numbers of its observations, as pinned to the drawings; may be empty"]
    title: Annotated[str, "the conclusion: `Left bottom roller 3 is past its limit and loses oil`"]
    advice: Annotated[str, "what to do in a few words: `replace before the machine works again`"]


@dataclass(frozen=True, slots=True)
class Also:
    """An observation that neither a drawing nor a finding on the sheet has words for."""

    pin: Annotated[str, "its number, as pinned to the drawings"]
    said: Annotated[str, "what it is and where: `Side wear (slight), left front idler`"]


@dataclass(frozen=True, slots=True)
class Listing:
    """The listing sheet."""

    branding: Annotated[Branding, "how it looks"]
    identification: Annotated[Identity, "which sheet, of which lot and machine"]
    headings: Annotated[Headings, "headings and labels that stand on every such sheet"]
    headline: Annotated[str, "the one sentence"]
    figures: Annotated[tuple[KeyFigure, ...], "the whole, the worst, hours to the first limit, cost where priced"]
    sides: Annotated[tuple[SideView, ...], "left, then right, in elevation"]
    drawn: Annotated[str, "how the elevations are drawn: scale, or that proportions are typical"]
    rows: Annotated[tuple[Row, ...], "component by component, in the trade's order"]
    basis: Annotated[str, "that there is no chart, or one of another machine; may be empty"]
    found: Annotated[tuple[Found, ...], "findings that ask for action, as many as there is room for; may be empty"]
    found_more: Annotated[str, "how many more there are, or that none asks for action; may be empty"]
    also: Annotated[tuple[Also, ...], "observations that the drawings have no words for; may be empty"]
    also_more: Annotated[str, "how many more of them stand elsewhere, unpinned here: `2 more in the full report`"]
    not_seen: Annotated[NotSeen, "what was not seen and why, with what that leaves open"]
    cautions: Annotated[tuple[Caution, ...], "the cautions in short, all of them"]
    hazards: Annotated[tuple[Caution, ...], "those of them that are about working on the machine"]
    limits: Annotated[tuple[Caution, ...], "those of them that say what the sheet is and what comes first"]
    rules: Annotated[str, "the published rules beside the hazards"]
    standing_terms: Annotated[str, "Markdown of the firm's own; may be empty"]
    terms_elsewhere: Annotated[str, "where the firm's terms stand that are too long for one sheet; may be empty"]
    source: Annotated[str, "where every reading stands: `Every reading and finding stands in the full report of …`"]
    signature: Annotated[Signature, "who answers for it"]
    foot: Annotated[tuple[Labelled, ...], "the strip at the sheet's foot"]
    fingerprint: Annotated[str, "the whole fingerprint, 64 hexadecimal digits"]
    sealed: Annotated[bool, "whether this is part of a sealed file; if not, `not sealed` stands beside the fingerprint"]
    structured: Annotated[str, "the same for machines, by schema.org: JSON-LD that no page can mistake for its end"]
