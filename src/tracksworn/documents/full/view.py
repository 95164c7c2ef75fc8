"""What a reader sees of a full report. Every figure is text already, in the reader's units and language.

Templates lay this out and do no arithmetic. Plain text is never markup; a field that is Markdown says so. Numbers occur
only inside what a drawing is made from (`Gauge`, `Ruler`, `Strip`, `Profile`) and in drawings.
"""

from dataclasses import dataclass
from typing import Annotated, Literal

from tracksworn.assessment.model import Basis, Stage
from tracksworn.assessment.sayings import Severity
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.profiles.profile import Profile
from tracksworn.documents.drawing.ruler import Ruler
from tracksworn.documents.drawing.strip import Strip
from tracksworn.documents.full.ahead import Ahead
from tracksworn.documents.full.headings import Headings
from tracksworn.documents.full.terms_view import TermsView
from tracksworn.documents.full.trend_views import Trends
from tracksworn.documents.typefaces import Face
from tracksworn.documents.words.cautions import Caution
from tracksworn.inspection.dossier import Picture
from tracksworn.inspection.vocabulary import Component, Side


@dataclass(frozen=True, slots=True)
class Labelled:
    """A small label with its value."""

    label: Annotated[str, "what it is: `Serial number`"]
    value: Annotated[str, "what it says: `HLN640E0K00412`"]
    note: Annotated[str, "what the value rests on or leaves open, lighter: `told by the owner`; may be empty"] = ""
    strong: Annotated[bool, "whether it stands out, as the worst component does"] = False
    yields: Annotated[
        Literal["never", "partly", "wholly"], "how it gives way where a sheet's head or foot has too little room"
    ] = "never"


@dataclass(frozen=True, slots=True)
class Branding:
    """How the firm's documents look."""

    firm: Annotated[str, "the firm; without a letterhead the inspector's organisation, or name"]
    accent: Annotated[str, "the one accent colour, `#rrggbb`: for the firm's name, advice, visits or seal"]
    mark: Annotated[Picture | None, "the firm's mark as a checked picture, or None"]
    address: Annotated[tuple[str, ...], "lines of the address; may be empty"]
    contact: Annotated[tuple[str, ...], "e-mail, web address, telephone: those that there are"]
    paper: Annotated[Literal["A4", "letter"], "the paper"]
    language: Annotated[str, "the language as a BCP 47 code, for the page's own attribute"]
    faces: Annotated[tuple[Face, ...], "faces of the firm's own fonts, with no more than this document needs"] = ()


@dataclass(frozen=True, slots=True)
class PhotoView:
    """A photo with its words."""

    picture: Annotated[Picture, "the picture, upright and without metadata"]
    name: Annotated[str, "a name for its file, without format, from `a-z0-9-`: `roller-l3`"]
    number: Annotated[str, "the number of its observation: `1`; empty for photos of their own"]
    title: Annotated[str, "what is seen: `Leak, slight`; may be empty"]
    about: Annotated[str, "where: `left bottom roller 3`; may be empty"]
    caption: Annotated[str, "the inspector's own caption; may be empty"]
    alternative: Annotated[str, "what it shows, for where it cannot be seen"]


@dataclass(frozen=True, slots=True)
class Identification:
    """Which document this is, of which machine."""

    stem: Annotated[str, "the name of its files without format: `MPS-2031-0418-r0-full`"]
    title: Annotated[str, "`Undercarriage condition report`"]
    number: Annotated[str, "`MPS-2031-0418 · revision 0`"]
    addressed: Annotated[str, "for whom or what for: `For Oxbow Sale Yard`; may be empty"]
    strip: Annotated[
        tuple[Labelled, ...], "the strip under every sheet's head: machine, serial, hours, day, place, inspector"
    ]
    details: Annotated[
        tuple[Labelled, ...], "all else that identifies: purpose, conditions, limits of access, shoes, track …"
    ]
    revision: Annotated[str, "what this revision replaces and why; empty at revision 0"]
    fitted: Annotated[
        tuple[Labelled, ...], "`Links and shoes`: `at 5 210 h (by invoice)`; parts of which the same is known together"
    ]
    plates: Annotated[tuple[PhotoView, ...], "photos of the plate and the hour meter"]
    issued: Annotated[str, "the date of the document for its metadata, ISO 8601: `2031-04-18`"]


@dataclass(frozen=True, slots=True)
class Whole:
    """The overall figure, never without what qualifies it."""

    figure: Annotated[str, "`53`, without its sign; `at least 50` has `50` here; `–` where there is none"]
    bound: Annotated[str, "`at least` before the figure where it is only a bound; else empty"]
    sign: Annotated[str, "the per cent sign; empty where there is no figure"]
    caption: Annotated[str, "`worn as a whole, by cost`"]
    interval: Annotated[str, "`95 % interval 51 to 55`, or what the estimates span; empty where there is none"]
    shares: Annotated[str, "where the shares come from"]
    facts: Annotated[tuple[Labelled, ...], "seen share, floor, ceiling, worst component"]
    counts: Annotated[tuple[Labelled, ...], "parts past limit, near limit, not seen"]
    ruler: Annotated[Ruler, "what the overall ruler is drawn from"]


@dataclass(frozen=True, slots=True)
class Summary:
    """Words first: what a reader needs before any picture."""

    headline: Annotated[str, "one bold sentence: `About half worn, and unevenly.`"]
    sentences: Annotated[tuple[str, ...], "two to five sentences after it"]
    beneath: Annotated[tuple[str, ...], "beside hours and costs, the caution first; empty without a forecast"] = ()

    @property
    def text(self) -> str:
        """The sentences after the headline as one paragraph."""
        return " ".join(self.sentences)


@dataclass(frozen=True, slots=True)
class PinView:
    """The square on a drawing that a pin's disc stands in."""

    number: Annotated[str, "that of its observation"]
    left: Annotated[float, "mm from the drawing's left"]
    top: Annotated[float, "mm from the drawing's top"]
    size: Annotated[float, "how wide and high it is, mm"]


@dataclass(frozen=True, slots=True)
class SideView:
    """One side of the machine in elevation."""

    side: Annotated[Side, "which side it is"]
    heading: Annotated[str, "`Left side`"]
    front: Annotated[str, "`front of the machine at left`"]
    drawing: Annotated[Drawing, "the elevation, drawn; both sides to one scale"]
    scale: Annotated[str, "`1 : 27`; empty where there is no scale to state"]
    unnamed: Annotated[tuple[str, ...], "pins whose words found no room on the drawing: `8 Cut, slight`; may be empty"]
    pins: Annotated[tuple[PinView, ...], "where pins stand on the drawing; may be empty"] = ()


@dataclass(frozen=True, slots=True)
class PartSide:
    """One side of a row: what was read and how worn that is."""

    side: Annotated[Side, "which side it is"]
    gauge: Annotated[Gauge, "what its half of the rule is drawn from"]
    basis: Annotated[Basis, "measured, by eye or not seen"]
    figure: Annotated[str, "percent worn without sign: `79`, `40–60`, `at least 50`; empty where there is none"]
    letters: Annotated[str, "letters of the assumed values in it: `a, c`; may be empty"]
    interval: Annotated[str, "under the figure: `75 to 84`, or `estimate`; may be empty"]
    reading: Annotated[str, "the size that was read, `131.1 mm`, or `by eye`, or empty"]
    details: Annotated[tuple[str, ...], "under the reading: `mean of 4 joints`, `joint 23: 81`, `others to 84`"]
    stage: Annotated[str, "under the bar: `second half, possibly near limit`; with the side and life of a bushing"]
    stage_strong: Annotated[bool, "whether the stage words stand out: past limit, or possibly the next stage"]
    past_limit: Annotated[bool, "whether the figure is past the limit, and heavier for that"]
    reason: Annotated[str, "why it was not seen; empty where it was"]
    alternative: Annotated[str, "the same as one sentence, for where the drawing cannot be seen"]


@dataclass(frozen=True, slots=True)
class Delta:
    """Left less right."""

    figure: Annotated[str, "`+12`, or `no delta`"]
    within: Annotated[str, "`± 4`; empty where there is no delta"]
    words: Annotated[
        str, "`left more worn`, `left just more worn`, `no difference shown`, `under 5 points`, or why there is none"
    ]
    note: Annotated[str, "before the figure where it is a mean: `over 4 places`; may be empty"]
    differs: Annotated[bool, "whether the sides are shown to differ: bold if so, grey if not"]


@dataclass(frozen=True, slots=True)
class PartRow:
    """One component, left against right."""

    component: Annotated[Component, "which component it is"]
    name: Annotated[str, "`Track links`, `Bottom rollers, worst`"]
    measured: Annotated[str, "what was measured, in the chart's words; may be empty"]
    sizes: Annotated[
        str,
        "`new 143, limit 128 mm`, for each gauge and the ends where they differ; may be empty",
    ]
    left: Annotated[PartSide | None, "the left side, or None where the machine has no such part there"]
    right: Annotated[PartSide | None, "the right side, likewise"]
    delta: Annotated[Delta, "left less right"]


@dataclass(frozen=True, slots=True)
class TravelSide:
    """One side of an adjuster, a cushion or the sag."""

    side: Annotated[Side, "which side it is"]
    size: Annotated[str, "the size that was read: `74 mm`"]
    words: Annotated[str, "`54 % used`, `in range`, `out of range`, or why neither can be said"]
    strong: Annotated[bool, "whether the words stand out: out of range, or near the end of travel"]
    percent_used: Annotated[float | None, "for the drawing: percent of travel used; None for sag or without a chart"]
    range: Annotated[
        tuple[float, float, float] | None, "for the drawing: sag's size and the ends of its range, mm; else None"
    ]
    alternative: Annotated[str, "the same as one sentence"]


@dataclass(frozen=True, slots=True)
class TravelRow:
    """Travel or range, not wear, left and right."""

    component: Annotated[Component, "which it is"]
    name: Annotated[str, "`Adjuster`"]
    measured: Annotated[str, "`rod showing, 40 to 140 mm`, `range 55 to 75 mm; coasting forward, not packed`"]
    left: Annotated[TravelSide | None, "the left side, None where no size was taken"]
    right: Annotated[TravelSide | None, "the right side, likewise"]


@dataclass(frozen=True, slots=True)
class StripView:
    """Rollers by position."""

    component: Annotated[Component, "which rollers they are"]
    heading: Annotated[str, "`Bottom rollers by position`"]
    note: Annotated[str, "what stands under the figures: `tread diameter in mm; worn from the top edge down`"]
    strip: Annotated[Strip, "what the strip is drawn from"]


@dataclass(frozen=True, slots=True)
class AssumedView:
    """An assumed value that was used."""

    letter: Annotated[str, "the letter at the figures that used it: `a`"]
    words: Annotated[str, "what it is and its size: `inspector: 2 points, one error for both sides`"]


@dataclass(frozen=True, slots=True)
class FindingView:
    """A conclusion, why, and what to do."""

    number: Annotated[str, "its number on the page: `1`"]
    code: Annotated[str, "its code, never renamed: `dry-joint`"]
    severity: Annotated[Severity, "how soon it asks for something; three, two or one stroke"]
    severity_word: Annotated[str, "`act`, `watch` or `note`"]
    title: Annotated[str, "the conclusion"]
    reasons: Annotated[tuple[str, ...], "what it rests on, one sentence each"]
    advice: Annotated[str, "what to do"]
    look_for: Annotated[str, "what it looks like, for someone who has never seen it; may be empty"]
    photos: Annotated[tuple[PhotoView, ...], "photos of its observations; each photo stands at its first finding only"]
    observations: Annotated[str, "`observations 1 and 3`; empty where it rests on none"]
    profile: Annotated[Profile | None, "the section that shows it; each section stands at its first finding only"]
    pins: Annotated[tuple[int, ...], "its observations, as indices into the view's"] = ()

    @property
    def brief(self) -> bool:
        """Whether it is a note with nothing to show, which a few lines say: such findings come last."""
        return self.severity is Severity.NOTE and not self.photos and self.profile is None


@dataclass(frozen=True, slots=True)
class ObservationView:
    """Something seen, numbered as on the elevations."""

    number: Annotated[str, "`1`; observations that saw nothing are numbered on but not pinned"]
    about: Annotated[str, "where: `left bottom roller 3`"]
    seen: Annotated[str, "what: `Leak`"]
    grade: Annotated[str, "`slight`, `looked for, none seen`; may be empty"]
    size: Annotated[str, "`1.2 mm`; may be empty"]
    note: Annotated[str, "Markdown of the inspector's own; may be empty"]
    looked: Annotated[bool, "whether one looked and saw nothing"]
    photos: Annotated[tuple[PhotoView, ...], "its photos, those that stand at a finding too"]
    findings: Annotated[tuple[str, ...], "numbers of the findings that rest on it; may be empty"] = ()


@dataclass(frozen=True, slots=True)
class NotSeenView:
    """What was not seen, and why."""

    parts: Annotated[str, "`right bottom rollers 3 to 6`"]
    reason: Annotated[str, "`guard fitted`, or that no entry was made"]


@dataclass(frozen=True, slots=True)
class NotSeen:
    """What was not seen; it has the same weight as what was."""

    parts: Annotated[tuple[NotSeenView, ...], "part by part; may be empty"]
    sentences: Annotated[tuple[str, ...], "what that means for the whole; what a look of this kind can never see"]


@dataclass(frozen=True, slots=True)
class ReadingView:
    """What was read at one place of a component, as it was taken, left beside right."""

    part: Annotated[str, "`Links`, `Front idler, inner tread`"]
    left: Annotated[
        str, "`131.2, 131.0, 130.8, 131.4 mm`, `by eye 40 to 60 %`, `not seen: mud`, `no entry`; rollers by position"
    ]
    right: Annotated[str, "likewise: `224.4, 229.5, –, –, –, –, 229.0, 225.2 mm; 3 to 6 not seen: guard fitted`"]
    how: Annotated[str, "with what and where: `depth gauge; joints 3, 13, 23, 33`; may be empty"]


@dataclass(frozen=True, slots=True)
class InstrumentView:
    """A gauge that was used."""

    name: Annotated[str, "`depth gauge`"]
    resolution: Annotated[str, "`0.05 mm`, or that it was not recorded"]
    accuracy: Annotated[str, "`± 0.1 mm`, `U 0.05 mm, k 2`, or which assumed value stands for it"]
    calibrated: Annotated[str, "`12 Jan 2031, due 12 Jan 2032`, or that it was not recorded"]
    certificate: Annotated[str, "`DG-118`; may be empty"]
    checked: Annotated[str, "velocity and what it was checked on; may be empty"]


@dataclass(frozen=True, slots=True)
class Signature:
    """Who answers for the document: a ruled line, never an invented hand."""

    name: Annotated[str, "`Ines Marlow`"]
    title: Annotated[str, "`Surveyor`; may be empty"]
    firm: Annotated[str, "the firm, if it is not the name itself"]
    day: Annotated[str, "the date of the document"]
    statement: Annotated[str, "what the signature stands for, and that the file itself is not sealed"]


NOTHING_AHEAD = Ahead(None, "", None)
"""No forecast and no plan, and nothing said of that."""


@dataclass(frozen=True, slots=True)
class FullReport:
    """The full report."""

    branding: Annotated[Branding, "how it looks"]
    identification: Annotated[Identification, "which document, of which machine"]
    headings: Annotated[Headings, "headings and labels that stand on every such report"]
    summary: Annotated[Summary, "words first"]
    whole: Annotated[Whole, "the overall figure"]
    sides: Annotated[tuple[SideView, ...], "left, then right"]
    drawn: Annotated[str, "how the elevations are drawn: scale, sizes, or that proportions are typical"]
    parts: Annotated[tuple[PartRow, ...], "part by part, in the trade's order"]
    travel: Annotated[tuple[TravelRow, ...], "adjuster, cushion, sag; may be empty"]
    strips: Annotated[tuple[StripView, ...], "bottom rollers, top rollers where there are several; may be empty"]
    assumed: Annotated[tuple[AssumedView, ...], "assumed values used, by letter; may be empty"]
    assumed_basis: Annotated[str, "what the assumed values rest on: judgement, or the firm's own study"]
    findings: Annotated[tuple[FindingView, ...], "the most pressing first, those in brief last; may be empty"]
    profiles: Annotated[tuple[Profile, ...], "sections of components that no finding shows; may be empty"]
    observations: Annotated[tuple[ObservationView, ...], "all, numbered as pinned"]
    photos: Annotated[tuple[PhotoView, ...], "photos that belong to no single observation"]
    not_seen: Annotated[NotSeen, "what was not seen and why"]
    readings: Annotated[tuple[ReadingView, ...], "every reading as it was taken"]
    instruments: Annotated[tuple[InstrumentView, ...], "the gauges"]
    chart: Annotated[
        tuple[Labelled, ...], "the chart: title, source, what it stands in for; or that there is none and why"
    ]
    remarks: Annotated[str, "Markdown of the inspector's own; may be empty"]
    standing_terms: Annotated[str, "Markdown of the firm's own; may be empty"]
    cautions: Annotated[tuple[Caution, ...], "the cautions, all of them, in order"]
    signature: Annotated[Signature, "who answers for it"]
    foot: Annotated[
        tuple[Labelled, ...], "the strip at every sheet's foot: document, arithmetic, chart, fingerprint, signatory"
    ]
    fingerprint: Annotated[str, "the whole fingerprint, 64 hexadecimal digits"]
    sealed: Annotated[bool, "whether this is part of a sealed file; if not, `not sealed` stands beside the fingerprint"]
    end: Annotated[str, "the end mark"]
    stages: Annotated[tuple[tuple[Stage, str], ...], "the four stages with their words, for the legend"]
    terms: Annotated[TermsView | None, "the machine against its terms; None where the inspection names none"] = None
    ahead: Annotated[Ahead, "hours left, shop visits and cost, or why there are none"] = NOTHING_AHEAD
    trends: Annotated[Trends | None, "how each part wore; None where no earlier inspection is known"] = None

    @property
    def has_sheet_ahead(self) -> bool:
        """Whether there is anything to say of hours to come, or of the way there."""
        return self.ahead.has_sheet or self.trends is not None
