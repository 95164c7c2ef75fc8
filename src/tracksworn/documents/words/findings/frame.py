"""Words of cracks, frames, adjusters and sag."""

from collections.abc import Mapping
from typing import Final

from tracksworn.documents.words.findings.sentences import Sentence, Words
from tracksworn.documents.words.language import N_, NP_

FINDINGS: Final[Mapping[str, Words]] = {
    "cracked": Words(
        "a crack in a part of the track",
        NP_("{parts} is cracked", "{parts} are cracked"),
        N_("A thin line of rust or oil across clean metal, most often from a bolt hole, a bore or a weld."),
    ),
    "frame-cracked": Words(
        "a crack in frame, equaliser bar, pivot, spring or bracket",
        NP_("{parts} is cracked", "{parts} are cracked"),
        N_("A line of rust or broken paint along a weld, at a bracket or from a corner."),
    ),
    "stuck": Words(
        "a part, no wheel, that should move and does not",
        NP_("{parts} is seized", "{parts} are seized"),
        N_("Rust where bright metal should slide; a kink in the chain as the joint comes off the wheel."),
    ),
    "pivot-leak": Words(
        "a leak at a pivot shaft or bogie pivot",
        N_("Oil at the {parts}"),
        N_("Wet dirt below the pivot's cover, or a clean streak down from it."),
    ),
    "frame-leak": Words(
        "a leak at a track frame, its spring or its brackets",
        N_("Oil at the {parts}"),
        N_("Oily dirt low on the track frame."),
    ),
    "equaliser-bar-damaged": Words(
        "an equaliser bar seen bent, loose or worn",
        N_("{parts}: {signs}"),
        N_("Pads beaten thin, pins that stand loose, one frame that hangs lower than the other."),
    ),
    "pivot-shaft-damaged": Words(
        "play or damage seen at the pivot shaft",
        N_("{parts}: {signs}"),
        N_("The frame moves in and out at the pivot when the machine turns on the spot."),
    ),
    "frame-bent": Words(
        "a track frame or adjuster bracket seen bent or loose",
        N_("{parts}: {signs}"),
        N_("Sight along the rollers: their flanges should stand in one line."),
    ),
    "adjuster-near-end": Words(
        "an adjuster near the end of its travel",
        NP_("{parts} is near the end of its travel", "{parts} are near the end of their travel"),
        N_("A long bright rod; rust or bare steel where the chrome has gone."),
    ),
    "adjuster-leak": Words(
        "grease seen at an adjuster or its seal",
        NP_("{parts} loses grease", "{parts} lose grease"),
        N_("Fresh grease along the rod or below the relief, and a track that slackens by itself."),
    ),
    "adjuster-ahead-of-pitch": Words(
        "rod further out than the growth of the pitch explains",
        NP_("{parts} is further out than the pitch explains", "{parts} are further out than the pitch explains"),
    ),
    "adjuster-behind-pitch": Words(
        "rod less far out than the growth of the pitch explains",
        NP_("{parts} is less far out than the pitch explains", "{parts} are less far out than the pitch explains"),
    ),
    "cushion-settled": Words(
        "a bogie cushion near the end of its travel, or seen squeezed",
        NP_("{parts} has settled", "{parts} have settled"),
        N_("The gap above the cushion closes; rubber bulges out of it."),
    ),
    "sag-out-of-range": Words(
        "sag outside the chart's range, validly taken",
        NP_("{parts} is out of range", "{parts} are out of range"),
        N_("A straight edge along the top of the track shows how far it hangs between its wheels."),
    ),
    "sag-not-valid": Words(
        "sag that cannot be judged, as the record lacks how it was taken", N_("Sag cannot be judged")
    ),
}

ADVICE: Final[Mapping[str, Sentence]] = {
    "cracked": N_("Stop and ask. No work before a licensed technician has judged the crack by the maker's manual."),
    "frame-cracked": N_(
        "Stop and ask. Block the machine; no weld, heat or hammer near spring or adjuster. "
        "The maker's manual says what may be repaired."
    ),
    "stuck": N_(
        "Stop and ask. Have it freed or replaced by the maker's manual, with the machine blocked. "
        "Keep clear of spring and adjuster."
    ),
    "pivot-leak": N_("Check its oil, and look for play at the pivot; a dry pivot lets the frame go out of line."),
    "frame-leak": N_(
        "Find where it comes from; many frames hold oil or grease for the spring. Keep clear of spring and adjuster."
    ),
    "equaliser-bar-damaged": N_(
        "Have it measured before anything new goes on: it strains the pivot shaft and the line of the frames."
    ),
    "pivot-shaft-damaged": N_("Have the play measured and put right first; no chain runs true on a frame that moves."),
    "frame-bent": N_("Have the frame measured from the middle of the machine before new parts go on."),
    "adjuster-near-end": N_(
        "Measure the pitch: on dry track this is ordinary stretch. "
        "Its remedy is in the maker's manual. Keep clear of the adjuster."
    ),
    "adjuster-near-end-oiled": N_(
        "Look for dry joints first: oiled track should not stretch so far. "
        "The remedy is in the maker's manual. Keep clear of the adjuster."
    ),
    "adjuster-leak": N_(
        "Keep clear: the grease stands under very high pressure. Only trained people work on it, by the maker's manual."
    ),
    "adjuster-ahead-of-pitch": N_(
        "Read more spans, and look for dry joints between them and for worn idlers and sprocket."
    ),
    "adjuster-behind-pitch": N_(
        "Count the links, look at the slack, and read the pitch again with the slack drawn out."
    ),
    "cushion-settled": N_(
        "Have the cushions renewed before the bogie strikes its stop; a stiff bogie loads single rollers."
    ),
    "sag-out-of-range": N_(
        "Have trained people set it by the maker's manual: too tight wears everything, too slack throws the track."
    ),
    "sag-too-slack": N_(
        "Have trained people tighten the track by the maker's manual: a slack track whips, jumps teeth and comes off."
    ),
    "sag-too-tight": N_(
        "Have trained people slacken the track by the maker's manual: a tight one loads every joint, wheel and bearing."
    ),
    "sag-after": N_(
        "Leave the tension alone until finding {first} is settled; then have trained people set it by the maker's "
        "manual."
    ),
    "sag-packed": N_("Clear the tracks and take it again before anyone sets their tension."),
    "sag-not-valid": N_("Take it again: coast to a stop, tracks clean, and write both down."),
}
