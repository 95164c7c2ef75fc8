"""What a reader sees of machines side by side. Every figure is text already, in the reader's units and language.

Every tuple that says `by machine` has one entry for each machine, in the order in which they were given. Numbers occur
only inside what a drawing is made from (`Gauge`, `CommonAxis`) and in drawings.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from tracksworn.documents.comparison.headings import Headings
from tracksworn.documents.drawing.axis import CommonAxis
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.full.view import Branding, Labelled, NotSeen, Signature, Summary
from tracksworn.documents.words.cautions import Caution
from tracksworn.inspection.vocabulary import Component, Side


@dataclass(frozen=True, slots=True)
class Identity:
    """Which document this is."""

    stem: Annotated[str, "the name of its files without format: `compare-MPS-2031-0418-OXB-0231`"]
    title: Annotated[str, "`Lots 118, 131 and 207, side by side`"]
    number: Annotated[str, "`Comparison of 3 machines`"]
    addressed: Annotated[str, "what it is for; may be empty"]
    strip: Annotated[tuple[Labelled, ...], "the strip under every sheet's head: which machines, when, by whom"]
    issued: Annotated[str, "the date of the document for its metadata, ISO 8601: that of the latest inspection"]


@dataclass(frozen=True, slots=True)
class OverallView:
    """One machine's overall figure, never without what qualifies it."""

    figure: Annotated[str, "`56`, without its sign; `–` where there is none"]
    bound: Annotated[str, "`at least` before the figure where it is only a bound, `≈` where all is by eye; else empty"]
    by_eye: Annotated[bool, "whether nothing was measured: the figure is lighter"]
    interval: Annotated[str, "`55 to 57`, or that the ends are those of estimates; empty where there is none"]
    seen: Annotated[str, "`94 % seen, floor 53, ceiling 58`"]
    axis: Annotated[CommonAxis, "what the common axis is drawn from: this machine, the others behind"]


@dataclass(frozen=True, slots=True)
class LimitView:
    """A part that is at its limit, or reaches it first."""

    part: Annotated[str, "`left bushings`; empty where nothing can be said of any part"]
    when: Annotated[str, "`now`, `610 to 980 h`, or why there are no hours"]
    caveat: Annotated[str, "`by the owner's word`, `as a guide`; may be empty"] = ""


@dataclass(frozen=True, slots=True)
class CostView:
    """What restoring would cost, and what is left in it; never without currency and the day of its prices."""

    restore: Annotated[str, "`EUR 30 100`; empty where there are no prices"]
    left: Annotated[str, "`value left EUR 41 200`; or that there are no prices"]
    visit: Annotated[str, "`first shop visit now: about EUR 2 680`; empty without one"]
    prices: Annotated[str, "`of what was seen, without tax, prices of 1 March 2031`; may be empty"]


@dataclass(frozen=True, slots=True)
class ActView:
    """A finding that asks for action."""

    title: Annotated[str, "the conclusion"]
    advice: Annotated[str, "what to do, in few words"]


@dataclass(frozen=True, slots=True)
class MachineView:
    """One machine, or one inspection of it: a column."""

    name: Annotated[str, "what heads it: `Lot 118`, its number, of one machine `18 April 2031, 8 412 h`"]
    tag: Annotated[str, "what names its pale mark on the axes of the others; empty where the name does"]
    machine: Annotated[str, "maker, model and year, `Hollin H-640E, 2024`; of one machine number and inspector"]
    serial: Annotated[str, "the serial number"]
    hours: Annotated[str, "`8 412 h`, with what they rest on where that is not the meter"]
    inspected: Annotated[str, "`18 April 2031, Ines Marlow`"]
    place: Annotated[str, "where it stood; may be empty"]
    elevation: Annotated[Drawing, "its left side, small"]
    drawn: Annotated[str, "`1 : 60`, or that proportions are typical; empty where all stand to one scale"]
    overall: Annotated[OverallView, "the overall figure"]
    worst: Annotated[Labelled, "the most worn part: its name as label, its percent as value"]
    limits: Annotated[tuple[LimitView, ...], "what is at its limit, and what reaches it first"]
    cost: Annotated[CostView, "cost to restore and value left"]
    basis: Annotated[str, "what its figures rest on: the chart's title, that it stands in, or that there is none"]
    counts: Annotated[str, "`2 to act on, 3 to watch, 1 to note`"]
    acts: Annotated[tuple[ActView, ...], "the findings that ask for action; may be empty"]
    to_act_on: Annotated[tuple[str, ...], "the same in brief, the first few and how many more; may be empty"]
    not_seen: Annotated[NotSeen, "what was not seen and why; never left out"]
    record: Annotated[str, "`MPS-2031-0418, revision 0`"]
    fingerprint: Annotated[str, "the whole fingerprint of its own data, in groups of four"]


@dataclass(frozen=True, slots=True)
class HalfView:
    """One side of a component on one machine."""

    side: Annotated[Side, "which side it is"]
    gauge: Annotated[Gauge, "what its half of the rule is drawn from"]
    figure: Annotated[str, "percent worn without sign: `79`, `40–60`; empty where there is none"]
    past_limit: Annotated[bool, "whether the figure is past the limit, and heavier for that"]
    reason: Annotated[str, "why it was not seen; empty where it was"]
    alternative: Annotated[str, "the same as one sentence, for where the drawing cannot be seen"]


@dataclass(frozen=True, slots=True)
class CellView:
    """A component on one machine."""

    left: Annotated[HalfView | None, "the left side, or None where the machine has no such part there"]
    right: Annotated[HalfView | None, "the right side, likewise"]
    delta: Annotated[str, "left less right as the full report has it: `+12`; a dash where no side leads, else empty"]
    differs: Annotated[bool, "whether the sides are shown to differ: bold if so"]
    absent: Annotated[str, "`none on this machine`; empty where it has one"]


@dataclass(frozen=True, slots=True)
class RowView:
    """A component over all machines."""

    component: Annotated[Component, "which component it is"]
    name: Annotated[str, "`Track links`, `Bottom rollers, worst seen`"]
    cells: Annotated[tuple[CellView, ...], "by machine"]

    def stands_for(self, machines: Sequence[int]) -> bool:
        """Whether any of these has the component."""
        return any(not self.cells[index].absent for index in machines)


@dataclass(frozen=True, slots=True)
class GapView:
    """A difference of two figures, first less second."""

    figure: Annotated[str, "`+33 ± 5`, in points; or why the two make no pair: `other place`"]
    told_apart: Annotated[bool, "whether it is larger than its uncertainty: bold if so"]


@dataclass(frozen=True, slots=True)
class PairSides:
    """A component of two machines: left against left, right against right."""

    left: Annotated[GapView, "the left sides"]
    right: Annotated[GapView, "the right sides"]


@dataclass(frozen=True, slots=True)
class PairView:
    """Two machines against each other."""

    name: Annotated[str, "`Lot 118 less lot 131`"]
    overall: Annotated[GapView, "the overall figures"]
    verdict: Annotated[str, "`lot 118 is more worn`, `cannot be told apart`, or why there is no figure"]
    note: Annotated[str, "that what was not seen could make up the difference; may be empty"]
    sides: Annotated[tuple[PairSides | None, ...], "by component of the head; None where one of them has no such part"]


@dataclass(frozen=True, slots=True)
class DifferencesView:
    """Every two machines against each other."""

    components: Annotated[tuple[str, ...], "the components that stand at the head of a column"]
    pairs: Annotated[tuple[PairView, ...], "every two, in the order of the columns"]
    notes: Annotated[tuple[str, ...], "how to read it, and what chance alone would show"]


@dataclass(frozen=True, slots=True)
class ReadingView:
    """A reading that stands in two inspections of one machine."""

    part: Annotated[str, "`Left bottom roller 3`"]
    earlier: Annotated[str, "percent worn at the earlier: `68`"]
    later: Annotated[str, "percent worn at the later: `71`"]
    e_n: Annotated[str, "their difference over the uncertainty of both, in agreement up to 1: `1.40`"]
    agrees: Annotated[bool, "whether they agree: bold if not"]


@dataclass(frozen=True, slots=True)
class AgreementView:
    """Readings of two inspections of one machine against each other."""

    heading: Annotated[str, "whether these are all, or those that wear cannot explain"]
    sentence: Annotated[str, "what the last column says"]
    readings: Annotated[tuple[ReadingView, ...], "the readings, part by part and place by place"]


@dataclass(frozen=True, slots=True)
class CourseView:
    """What changed on one side of a component from the earlier inspection to the later."""

    part: Annotated[str, "`Left links`; `Overall`"]
    earlier: Annotated[str, "percent worn at the earlier: `61`"]
    later: Annotated[str, "percent worn at the later: `79`"]
    change: Annotated[GapView, "later less earlier"]
    rate: Annotated[str, "points in 100 h of the hours between: `2.5 ± 0.5`; or that it was renewed; may be empty"]


@dataclass(frozen=True, slots=True)
class TwiceView:
    """Two inspections of one machine: what changed between them, and what of that wear cannot explain."""

    heading: Annotated[str, "`From 20 November 2030, 7 660 h, to 18 April 2031, 8 412 h`"]
    sentences: Annotated[tuple[str, ...], "what lies between and changed as a whole; empty where the lead says it"]
    earlier: Annotated[str, "head of the column of the earlier: `20 November 2030, 7 660 h, %`"]
    later: Annotated[str, "head of the column of the later"]
    course: Annotated[tuple[CourseView, ...], "the whole, then side by side; may be empty"]
    agreement: Annotated[AgreementView | None, "reading by reading; None where nothing is to be listed"]

    @property
    def has_rates(self) -> bool:
        """Whether any part has a rate, or was renewed."""
        return any(one.rate for one in self.course)


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two to eight machines side by side."""

    branding: Annotated[Branding, "how it looks"]
    identification: Annotated[Identity, "which document this is"]
    headings: Annotated[Headings, "headings and labels that stand on every comparison"]
    summary: Annotated[Summary, "words first: which can be told apart and which not"]
    machines: Annotated[tuple[MachineView, ...], "the machines, in the order in which they were given"]
    left_sides: Annotated[str, "beside the elevations: that all stand to one scale, or are equally long"]
    hours_caution: Annotated[str, "that hours left are no permission; empty where no hours are given"]
    rows: Annotated[tuple[RowView, ...], "component by component, in the trade's order"]
    sets: Annotated[tuple[tuple[int, ...], ...], "which machines stand on one sheet, as indices"]
    column: Annotated[float, "for drawings: how wide a machine's column is, mm"]
    differences: Annotated[DifferencesView, "every two against each other"]
    twice: Annotated[tuple[TwiceView, ...], "inspections of one machine against each other; may be empty"]
    money: Annotated[str, "whether costs can be set against each other; may be empty"]
    standing_terms: Annotated[str, "Markdown of the firm's own; may be empty"]
    whose_terms: Annotated[str, "the heading over it: whose terms they are, and of what"]
    cautions: Annotated[tuple[Caution, ...], "the cautions, all of them, in order"]
    signature: Annotated[Signature, "who answers for it"]
    foot: Annotated[tuple[Labelled, ...], "the strip at every sheet's foot"]
    fingerprint: Annotated[str, "the fingerprint of the comparison, 64 hexadecimal digits"]
    sealed: Annotated[bool, "whether this is part of a sealed file"]
    end: Annotated[str, "the end mark"]
