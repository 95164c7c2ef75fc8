"""Headings and labels of the full report that stand on every such report, in the reader's language."""

from dataclasses import dataclass
from typing import Annotated

from tracksworn.documents.words.language import N_, Language
from tracksworn.documents.words.translated import translated


@dataclass(frozen=True, slots=True)
class Headings:
    """Fixed words of the page. The defaults are English; `headings` gives those of a language."""

    part_by_part: Annotated[str, "heading of the rows"] = N_("Part by part")
    left_against_right: Annotated[str, "beside it"] = N_("Left against right")
    component: Annotated[str, "head of the first column"] = N_("Component, what was measured")
    reading: Annotated[str, "head of a column of readings"] = N_("Reading")
    left: Annotated[str, "head of the left half"] = N_("Left")
    right: Annotated[str, "head of the right half"] = N_("Right")
    percent_worn: Annotated[str, "what figures of a rule are"] = N_("percent worn")
    difference: Annotated[str, "head of the middle"] = N_("left less right")
    travel: Annotated[str, "heading of adjuster, cushion and sag"] = N_("Travel and range, not wear")
    travel_note: Annotated[str, "beside it"] = N_("no part in the overall figure")
    on_neither_side: Annotated[str, "before components that were seen on neither side"] = N_("Seen on neither side:")
    reading_a_rule: Annotated[str, "heading of the legend"] = N_("Reading a rule.")
    rule_legend: Annotated[str, "how a rule is read"] = N_(
        "Outer end as new, middle stroke the limit, which the bar breaks through when past it. Hatched is metal gone, "
        "solid is metal left. Whisker: 95\u00a0% interval; pointer: best value. By eye: the dashed range alone. Not "
        "seen: an empty outline. First half: under 50; second half: to 79; near limit: to 99; past limit: from 100. "
        "Possibly: the interval reaches the next stage. Points are per cent of the wear from new to limit. A "
        "difference over several places is the mean of theirs, not that of the two figures beside it. A bushing that "
        "can be turned counts in the whole by its life used."
    )
    hatched: Annotated[str, "legend of the elevations: metal gone"] = N_("Hatched: metal gone")
    solid: Annotated[str, "legend of the elevations: metal left"] = N_("Solid: metal left")
    limit: Annotated[str, "legend of the elevations: limit, where nothing is past it"] = N_("Inner ring: the limit")
    past: Annotated[str, "legend of the elevations: limit"] = N_("Inner ring: the limit. Crossed hatch: past it")
    by_eye: Annotated[str, "legend of the elevations: by eye"] = N_("By eye: between the dashed lines")
    not_seen_key: Annotated[str, "legend of the elevations: not seen"] = N_("Not seen: empty, dashed")
    findings: Annotated[str, "heading of the findings"] = N_("What the signs say together")
    findings_note: Annotated[str, "beside it"] = N_("Findings, and what worn looks like")
    also_noted: Annotated[str, "over notes without a picture"] = N_("Also noted")
    no_findings: Annotated[str, "where there is none"] = N_("The signs recorded together lead to no finding.")
    advice: Annotated[str, "before the advice"] = N_("Advice")
    look_for: Annotated[str, "before what worn looks like"] = N_("Look for")
    sections: Annotated[str, "heading of sections that no finding shows"] = N_("Other parts in section")
    sections_legend: Annotated[str, "how a section is read"] = N_(
        "Hatched: metal gone. Solid: left above the limit. Grey: below the limit, not for wear. Drawings to the "
        "scale stated; the worn shape is drawn from the readings, its curve is typical."
    )
    ahead: Annotated[str, "heading of hours left, visits and what goes with them"] = N_("Forecast and plan")
    ahead_note: Annotated[str, "beside it"] = N_("Hours left, work and cost")
    ahead_alone: Annotated[str, "the same without prices"] = N_("Forecast")
    ahead_alone_note: Annotated[str, "beside it"] = N_("Hours left; no prices were given")
    hours_left: Annotated[str, "heading of the chart"] = N_("Hours left to each limit")
    rates: Annotated[str, "head of rates of wear"] = N_("% worn in 100\u202fh, what governs first")
    travelling: Annotated[str, "before the hours of them that are travel"] = N_("of that travelling")
    shop_visits: Annotated[str, "heading of the plan"] = N_("Shop visits and what they cost")
    when: Annotated[str, "head of a column: when a visit is due"] = N_("when")
    work: Annotated[str, "head of a column: what is done"] = N_("work")
    parts_cost: Annotated[str, "head of a column: money for parts"] = N_("parts")
    labour: Annotated[str, "head of a column: money for labour"] = N_("labour")
    set_up: Annotated[str, "head of a column: money for setting up"] = N_("set-up")
    visit: Annotated[str, "head of a column: money for a visit"] = N_("visit")
    value_left: Annotated[str, "beside money"] = N_("Value left in what was seen")
    to_restore: Annotated[str, "beside money"] = N_("Cost to restore it")
    swaps: Annotated[str, "before advice on swapping parts"] = N_("Advice")
    record: Annotated[str, "heading of all that follows the findings"] = N_("What was seen and read")
    record_note: Annotated[str, "beside it"] = N_("Observations, readings, cautions")
    number: Annotated[str, "head of a column: an observation's number"] = N_("No.")
    seen: Annotated[str, "head of a column: what was seen"] = N_("Seen")
    note: Annotated[str, "head of a column: the inspector's note"] = N_("Note")
    observations: Annotated[str, "heading of the observations"] = N_("Observations")
    photos: Annotated[str, "heading of photos of their own"] = N_("Photos")
    finding: Annotated[str, "head of a column: which findings rest on an observation"] = N_("Finding")
    observation: Annotated[str, "before an observation's number"] = N_("observation")
    not_seen: Annotated[str, "heading of what was not seen"] = N_("Not seen")
    readings: Annotated[str, "heading of all readings"] = N_("Readings as taken")
    instruments: Annotated[str, "heading of the gauges"] = N_("Instruments")
    instrument: Annotated[str, "head of a column: the gauge"] = N_("Instrument")
    resolution: Annotated[str, "head of a column"] = N_("resolution")
    accuracy: Annotated[str, "head of a column"] = N_("accuracy")
    calibrated: Annotated[str, "head of a column"] = N_("calibrated")
    certificate: Annotated[str, "head of a column"] = N_("certificate")
    part: Annotated[str, "head of a column: which part"] = N_("Part")
    gauge: Annotated[str, "head of a column: read with which gauge, at which joints"] = N_("With")
    assumed: Annotated[str, "heading of the assumed values"] = N_("Assumed: judgement, no source")
    chart: Annotated[str, "heading of the wear chart"] = N_("Wear chart")
    machine: Annotated[str, "heading of what identifies machine and inspection"] = N_("Machine and inspection")
    fitted: Annotated[str, "heading of when parts went on"] = N_("Fitted")
    machine_hours: Annotated[str, "head of a column: of an inspection, or when a part went on"] = N_("Machine hours")
    inspection: Annotated[str, "head of a column: number and day of an inspection"] = N_("Inspection")
    in_figures: Annotated[str, "opens the figures that the trends are drawn from"] = N_("The same in figures")
    remarks: Annotated[str, "heading of the remarks"] = N_("Remarks")
    cautions: Annotated[str, "heading of the cautions"] = N_("Cautions")
    standing_terms: Annotated[str, "heading of the firm's terms"] = N_("Standing terms")
    signed: Annotated[str, "heading of the signature"] = N_("Signature")
    signature: Annotated[str, "under the ruled line"] = N_("signature")
    slide: Annotated[str, "over a drawing on a phone"] = N_("Wider than the screen: slide it sideways.")
    sheet: Annotated[str, "label of the sheet's number"] = N_("Sheet")
    of: Annotated[str, "between a sheet's number and their count"] = N_("of")
    fingerprint: Annotated[str, "label of the whole fingerprint"] = N_("Fingerprint of the data, SHA-256")
    not_sealed: Annotated[str, "beside the fingerprint of an unsealed document"] = N_("not sealed")
    colon: Annotated[str, "between a label and what it says"] = N_(": ")
    semicolon: Annotated[str, "between what is said after one another"] = N_("; ")


def headings(language: Language) -> Headings:
    """The headings in the reader's language."""
    return translated(Headings(), language)
