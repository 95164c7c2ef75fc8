"""Headings and labels that stand on every comparison, in the reader's language."""

from dataclasses import dataclass
from typing import Annotated

from tracksworn.documents.words.language import N_, Language
from tracksworn.documents.words.translated import translated


@dataclass(frozen=True, slots=True)
class Headings:
    """Fixed words of the page. The defaults are English; `headings` gives those of a language."""

    side_by_side: Annotated[str, "heading of the columns, where these are not the first sheet"] = N_("Side by side")
    overall: Annotated[str, "label of the overall figures"] = N_("Overall, % worn")
    others: Annotated[str, "beneath it: what stands behind on the common axis"] = N_(
        "one axis for all; pale, with their numbers: the others"
    )
    worst: Annotated[str, "label of the most worn parts"] = N_("Worst, % worn")
    limit: Annotated[str, "label of what reaches its limit first"] = N_("First to limit")
    cost: Annotated[str, "label of costs"] = N_("Cost to restore")
    act: Annotated[str, "label of what asks for action, in brief"] = N_("To act on")
    no_act: Annotated[str, "where nothing does"] = N_("nothing")
    basis: Annotated[str, "label of what figures rest on"] = N_("Wear chart")
    rules: Annotated[str, "over the rules: how a bar is read"] = N_("% worn; hatched is gone")
    left: Annotated[str, "over the left halves"] = N_("left")
    right: Annotated[str, "over the right halves"] = N_("right")
    delta: Annotated[str, "over the middle: left less right"] = N_("left less right")
    machine: Annotated[str, "head of the first column, for where the table is heard"] = N_("Machine")
    identity: Annotated[str, "label of serial number, hours, day and inspector"] = N_(
        "Serial number, hours, day, inspector"
    )
    more: Annotated[str, "heading of what asks for action and what was not seen"] = N_(
        "What asks for action, what was not seen"
    )
    more_note: Annotated[str, "beside it"] = N_("Machine by machine")
    findings: Annotated[str, "heading of findings within a machine"] = N_("Findings")
    no_acts: Annotated[str, "where no finding asks for action"] = N_("No finding asks for action.")
    not_seen: Annotated[str, "heading of what was not seen within a machine"] = N_("Not seen")
    all_seen: Annotated[str, "where every part was seen"] = N_("Every part was seen.")
    record: Annotated[str, "label of the inspection that a column is made from"] = N_("Inspection")
    differences: Annotated[str, "heading of the differences"] = N_("Differences, two by two")
    differences_note: Annotated[str, "beside it"] = N_("First less second, in points of percent worn")
    pair: Annotated[str, "head of the column of pairs"] = N_("First less second")
    whole: Annotated[str, "head of the column of overall figures"] = N_("Overall")
    side: Annotated[str, "head of the column that says which line is which side"] = N_("Side")
    part: Annotated[str, "head of the column of parts"] = N_("Part")
    change: Annotated[str, "head of a column: later less earlier"] = N_("Change, points")
    rate: Annotated[str, "head of a column: the change in 100 of the hours between"] = N_("In 100 h")
    changed: Annotated[str, "heading of what changed between two inspections of one machine"] = N_("What changed")
    changed_note: Annotated[str, "beside it, where nothing else is compared"] = N_(
        "Later less earlier, in points of percent worn"
    )
    course: Annotated[str, "how the table of what changed is read"] = N_(
        "Bold where the change is larger than its uncertainty (95\u00a0%); of rollers the worst seen."
    )
    rate_legend: Annotated[str, "how its last column is read"] = N_(
        "In 100 h: the change over the hours between, where both times the same part was measured at the same place."
    )
    earlier: Annotated[str, "head of a column: percent worn at the earlier inspection"] = N_("Earlier, %")
    later: Annotated[str, "head of a column: percent worn at the later inspection"] = N_("Later, %")
    reading: Annotated[str, "heading of the legend"] = N_("Reading this sheet.")
    legend: Annotated[str, "how axis and rules are read"] = N_(
        "On the axis, 0 is as new and 100 the limit, where a part is turned, rebuilt or replaced; the bar is the "
        "95\u00a0% interval of the machine's own figure, dashed where all was judged by eye, the thin line runs from "
        "floor (all unseen as new) to ceiling (all unseen at the limit). In a rule hatched is metal gone, solid is "
        "metal left, the middle stroke the limit; whisker: 95\u00a0% interval; by eye: the dashed range alone; not "
        "seen: an empty outline. Of rollers the worst seen stands in the rule; left less right is the mean over "
        "all places seen on both sides, which need not be the difference of the two figures beside it; a dash: no side "
        "can be said to lead."
    )
    fingerprints: Annotated[str, "heading of the fingerprints of the parts"] = N_("Made from")
    cautions: Annotated[str, "heading of the cautions"] = N_("Cautions")
    signed: Annotated[str, "heading of the signature"] = N_("Signature")
    signature: Annotated[str, "under the ruled line"] = N_("signature")
    slide: Annotated[str, "over a table on a phone"] = N_("Wider than the screen: slide it sideways.")
    sheet: Annotated[str, "label of the sheet's number"] = N_("Sheet")
    of: Annotated[str, "between a sheet's number and their count"] = N_("of")
    fingerprint_of_data: Annotated[str, "head of the column of the fingerprints of the parts"] = N_(
        "Fingerprint of its data, SHA-256"
    )
    fingerprint: Annotated[str, "label of the whole fingerprint"] = N_("Fingerprint of the comparison, SHA-256")
    not_sealed: Annotated[str, "beside the fingerprint of an unsealed document"] = N_("not sealed")
    colon: Annotated[str, "between a label and what it says"] = N_(": ")
    semicolon: Annotated[str, "between what is said after one another"] = N_("; ")


def headings(language: Language) -> Headings:
    """The headings in the reader's language."""
    return translated(Headings(), language)
