"""What a reader sees of a certificate. Every figure is text already, in the reader's units and language.

Numbers occur only inside what a drawing is made from (`Allowance`, `Allowed`, `Ring`).
"""

from dataclasses import dataclass
from typing import Annotated

from tracksworn.documents.certificate.headings import Headings
from tracksworn.documents.drawing.allowed import Allowed
from tracksworn.documents.drawing.strokes import Ring
from tracksworn.documents.full.terms_view import TermsView
from tracksworn.documents.full.view import Branding, InstrumentView, Labelled, NotSeen, Signature
from tracksworn.documents.words.cautions import Caution


@dataclass(frozen=True, slots=True)
class Identity:
    """Which document this is. Only what passes is called a certificate of conformity."""

    stem: Annotated[str, "the name of its files without format: `MPS-2031-0418-r0-certificate`"]
    title: Annotated[str, "`Certificate of conformity`, `Statement of nonconformity`, … by the verdict"]
    number: Annotated[str, "`MPS-2031-0418 · revision 0`"]
    addressed: Annotated[str, "for whom or what for: `For Lantern Mutual`; may be empty"]
    strip: Annotated[tuple[Labelled, ...], "the strip under every sheet's head: machine, serial, hours, day, inspector"]
    issued: Annotated[str, "the date of the document for its metadata, ISO 8601: `2031-04-19`"]


@dataclass(frozen=True, slots=True)
class Taken:
    """The sizes that decide for one component."""

    left: Annotated[str, "`131.1 mm`, `by eye`; empty where nothing was taken"]
    right: Annotated[str, "likewise"]
    sampled: Annotated[
        str, "which part, or a mean of how many: `roller 3 · roller 1`, `mean of 4 joints`; may be empty"
    ]


@dataclass(frozen=True, slots=True)
class Opinions:
    """What the inspector or the cross-checks conclude beyond the verdict."""

    acts: Annotated[tuple[Labelled, ...], "each finding that asks for action with its advice; may be empty"]
    sentence: Annotated[str, "that these are opinions, how many more there are, and where they stand in full"]


@dataclass(frozen=True, slots=True)
class Check:
    """How the document is checked."""

    code: Annotated[str, "what the QR code holds: address, number and revision, fingerprint"]
    code_alternative: Annotated[str, "the same in words, for where the code cannot be seen"]
    address: Annotated[str, "`millrace.example/r/MPS-2031-0418-r0`; without such an address number and revision"]
    steps: Annotated[tuple[str, ...], "what to do, one sentence or two each"]
    lines: Annotated[tuple[str, ...], "the fingerprint in four lines, each a quarter of the ring, in groups of four"]


@dataclass(frozen=True, slots=True)
class Certificate:
    """The certificate, or what is handed over in its stead where the machine does not pass."""

    branding: Annotated[Branding, "how it looks"]
    identification: Annotated[Identity, "which document, of which machine"]
    headings: Annotated[Headings, "headings and labels that stand on every such document"]
    revision: Annotated[str, "what this revision replaces and why; empty at revision 0"]
    terms: Annotated[TermsView, "verdict, every part against its allowance, rule, and what conformity is not"]
    allowed: Annotated[Allowed, "what the chart of allowances is drawn from"]
    dots: Annotated[str, "how its dots are read, of those that occur; or that there is none"]
    details: Annotated[tuple[Labelled, ...], "issuing body, client, place, machine, hours with evidence, conditions, …"]
    method: Annotated[tuple[str, ...], "how it was inspected and computed, sentence by sentence"]
    instruments: Annotated[tuple[InstrumentView, ...], "the gauges with their calibration; may be empty"]
    fitted: Annotated[tuple[Labelled, ...], "since when parts are on, and how that is known; may be empty"]
    taken: Annotated[tuple[Taken, ...], "the sizes that decide, by row of the terms"]
    read_with: Annotated[tuple[Labelled, ...], "which parts were read with which gauge, at which joints; may be empty"]
    not_seen: Annotated[NotSeen, "what was not seen, and what was left out"]
    opinions: Annotated[Opinions, "what is no part of the verdict"]
    statement: Annotated[
        tuple[str, ...], "what it relates to, that it is not to be copied in part, that it is not sealed"
    ]
    signature: Annotated[Signature, "who answers for it"]
    check: Annotated[Check, "how to check it"]
    ring: Annotated[Ring, "what the ring of the fingerprint is drawn from"]
    standing_terms: Annotated[str, "Markdown of the firm's own; may be empty"]
    cautions: Annotated[tuple[Caution, ...], "the cautions, all of them, in order"]
    foot: Annotated[
        tuple[Labelled, ...], "the strip at every sheet's foot: document, arithmetic, terms, fingerprint, …"
    ]
    fingerprint: Annotated[str, "the whole fingerprint, 64 hexadecimal digits"]
    sealed: Annotated[bool, "whether this is part of a sealed file; if not, it says so beside the fingerprint"]
    end: Annotated[str, "the end mark"]
