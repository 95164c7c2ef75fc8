"""What a reader sees of a sale: every lot, all lots together. Every figure is text already, in the reader's language.

Numbers occur only inside what a drawing is made from, and as places by which a page sorts.
"""

from dataclasses import dataclass
from typing import Annotated

from tracksworn.documents.comparison.view import Identity
from tracksworn.documents.drawing.distribution import Distribution
from tracksworn.documents.drawing.whole_bar import WholeBar
from tracksworn.documents.full.view import Branding, Labelled, Signature, Summary
from tracksworn.documents.sale.headings import Headings
from tracksworn.documents.words.cautions import Caution


@dataclass(frozen=True, slots=True)
class WholeView:
    """One machine's overall figure, never without what qualifies it."""

    figure: Annotated[str, "`56`, without its sign; `–` where there is none"]
    bound: Annotated[str, "`at least` before the figure where it is only a bound, `≈` where all is by eye; else empty"]
    by_eye: Annotated[bool, "whether nothing was measured: the figure is lighter"]
    interval: Annotated[str, "`55 to 57`; empty where there is none"]
    stage: Annotated[str, "`second half, possibly near limit`; empty without a figure"]
    seen: Annotated[str, "how much of the cost was seen: `94 %`"]
    reach: Annotated[str, "`unseen as new 53, at limit 58`; empty where that makes no difference"]
    bar: Annotated[WholeBar, "what its line is drawn from"]


@dataclass(frozen=True, slots=True)
class LeftView:
    """Hours until a part reaches its limit."""

    known: Annotated[bool, "whether anything is known of them"]
    hours: Annotated[str, "`620 to 1 070 h`; `now; next 620 to 1 070 h` where a part is past its limit; `not known`"]
    now: Annotated[str, "the same in two lines, the first: `now`; else empty"] = ""
    next: Annotated[str, "the second: `next 620 to 1 070 h`"] = ""
    part: Annotated[str, "which part reaches its limit then; empty where that may be another one"] = ""
    rest_on: Annotated[str, "what makes these hours less sure: `by the owner's word`; may be empty"] = ""


@dataclass(frozen=True, slots=True)
class LinkView:
    """A file of a document of the lot."""

    place: Annotated[int, "which of the documents it is, from 0: files of one stand together"]
    name: Annotated[str, "`Sheet`, `Report`, `Certificate`"]
    format: Annotated[str, "`PDF`"]
    address: Annotated[str, "where it lies, from the index, as an address"]


@dataclass(frozen=True, slots=True)
class ReadView:
    """What is told of a lot of which the files could be read."""

    machine: Annotated[str, "`Hollin H-640E`"]
    year: Annotated[str, "`2024`; may be empty"]
    serial: Annotated[str, "the serial number"]
    hours: Annotated[str, "`8 412 h`; `–` where they were not recorded"]
    hours_note: Annotated[str, "what they rest on where that is not the meter; may be empty"]
    inspected: Annotated[str, "`18 Apr 2031`"]
    by: Annotated[str, "the inspector"]
    whole: Annotated[WholeView, "the overall figure"]
    worst: Annotated[str, "percent of the most worn part: `105`, `40 to 60`; empty where no part has a figure"]
    worst_part: Annotated[str, "`left bottom roller 3`, or that no part has a figure"]
    past: Annotated[bool, "whether that is past its limit: heavier"]
    past_limit: Annotated[str, "`2 parts past limit`; empty where there are none"]
    left: Annotated[LeftView, "hours to the next limit"]
    unseen: Annotated[str, "`3 parts not seen`; empty where all were"]
    chart: Annotated[str, "the wear chart, or that there is none"]
    acts: Annotated[tuple[str, ...], "findings that ask for action, but for parts past their limit"]
    acts_language: Annotated[str, "the language of these, where it is not the page's; else empty"]
    verdict: Annotated[str, "`passes Lantern Plan`; empty without terms"]


@dataclass(frozen=True, slots=True)
class LotView:
    """One lot."""

    anchor: Annotated[str, "its name within the page: `lot-12`, by its place in the list"]
    lot: Annotated[str, "its number, `101`; empty without one"]
    name: Annotated[str, "what it is called where lots are named: its number, else that of its inspection"]
    record: Annotated[str, "`OXB-0231, revision 0`; of one that could not be read its file"]
    read: Annotated[ReadView | None, "what its files say; None where they have faults"]
    unread: Annotated[str, "why there is no figure; empty of one that was read"]
    faults: Annotated[tuple[str, ...], "what is wrong with them, each with its place"]
    looks: Annotated[tuple[str, ...], "why it needs another look, in few words, beside its findings; may be empty"]
    every_look: Annotated[tuple[str, ...], "the same with those of which its findings tell more"]
    look_codes: Annotated[str, "the same as words for a filter, a blank between"]
    stage_code: Annotated[str, "the stage for a filter; `not known` without a figure, `faults` or `unmade` unread"]
    documents: Annotated[tuple[LinkView, ...], "its documents"]
    ranks: Annotated[str, "its place by each column that sorts, a blank between; `-` where that is not known"]


@dataclass(frozen=True, slots=True)
class CountView:
    """How many lots are so."""

    code: Annotated[str, "a word for a filter"]
    name: Annotated[str, "what they have in common: `second half`"]
    range: Annotated[str, "from where to where, `50 to under 80 %`; may be empty"]
    count: Annotated[str, "how many"]
    lots: Annotated[str, "which, as a list of numbers; may be empty"] = ""
    short: Annotated[str, "the name in few words"] = ""


@dataclass(frozen=True, slots=True)
class MachinesView:
    """Lots of one maker and model."""

    name: Annotated[str, "`Hollin H-640E`"]
    count: Annotated[str, "how many lots"]
    lots: Annotated[str, "which, as a list of numbers"]


@dataclass(frozen=True, slots=True)
class Sale:
    """All lots of a sale."""

    branding: Annotated[Branding, "how it looks"]
    identification: Annotated[Identity, "which document this is"]
    headings: Annotated[Headings, "headings and labels that stand on every index and catalogue"]
    summary: Annotated[Summary, "words first: how many lots, what is known of them"]
    lots: Annotated[tuple[LotView, ...], "the lots, in the order of the list"]
    distribution: Annotated[Distribution, "what the drawing of their wear is made from"]
    stages: Annotated[tuple[CountView, ...], "how many lots are in each stage, not known, or unread"]
    looks: Annotated[tuple[CountView, ...], "why lots need another look, those reasons that occur"]
    thresholds: Annotated[str, "that these are judgement, and how lots are counted"]
    legend: Annotated[str, "how lines and figures are read"]
    no_permission: Annotated[str, "what hours left do not allow"]
    machines: Annotated[tuple[MachinesView, ...], "lots by maker and model"]
    standing_terms: Annotated[str, "Markdown of the firm's own; may be empty"]
    whose_terms: Annotated[str, "the heading over it"]
    cautions: Annotated[tuple[Caution, ...], "the cautions, all of them, in order"]
    signature: Annotated[Signature, "who answers for it"]
    foot: Annotated[tuple[Labelled, ...], "the strip at every sheet's foot"]
    fingerprint: Annotated[str, "the fingerprint of all lots, 64 hexadecimal digits"]
    end: Annotated[str, "the end mark"]
