"""Words of shoes and rubber tracks."""

from collections.abc import Mapping
from typing import Final

from tracksworn.documents.words.findings.sentences import Sentence, Words
from tracksworn.documents.words.language import N_, NP_

FINDINGS: Final[Mapping[str, Words]] = {
    "shoe-too-wide": Words(
        "shoes wider than the chart's narrowest, on rock or firm ground",
        N_("The shoes are wider than this ground needs"),
        N_("Shoes bent at their ends, bolts that work loose, chipped link edges."),
    ),
    "shoe-bolts": Words(
        "shoe bolts seen loose or missing",
        N_("{parts}: {signs}"),
        N_("Rust streaks from under a head, a gap between shoe and link, holes worn long."),
    ),
    "re-grousered": Words(
        "shoes with welded grouser bars",
        NP_("{parts} carries welded bars", "{parts} carry welded bars"),
        N_("A weld seam along the foot of the bar, and a plate older than its edge."),
    ),
    "cord-showing": Words(
        "bare steel cord on a rubber track",
        N_("Steel cord shows at the {parts}"),
        N_("Strands of bright or rusty wire in the rubber, most often at an edge or a torn lug."),
    ),
    "rubber-cut": Words(
        "cuts seen in a rubber track",
        N_("{parts}: cuts in the rubber"),
        N_("Open the cut with a blunt tool: black all the way down is rubber, a glint is cord."),
    ),
    "lug-torn": Words(
        "lugs seen torn from a rubber track",
        N_("{parts}: torn lugs"),
        N_("A gap in the row of lugs, with rough rubber at the root."),
    ),
    "track-off": Words("a track seen off its wheels", N_("A track is off its wheels")),
}

ADVICE: Final[Mapping[str, Sentence]] = {
    "shoe-too-wide": N_(
        "Fit the narrowest shoe that still carries the machine; wide ones lever on pins, links and flanges."
    ),
    "shoe-bolts": N_(
        "Replace the bolts and tighten all by the maker's manual; look for worn holes and loose shoes beside them."
    ),
    "re-grousered": N_("Judge the plates by themselves: a welded bar restores grip, not the shoe."),
    "cord-showing": N_("Stop and ask. Replace the track before the machine works: it may part without warning."),
    "rubber-cut": N_(
        "Clean the cut and see how deep it goes; keep the machine off sharp stone. A cut to the cord ends the track."
    ),
    "lug-torn": N_(
        "Look for cord at the root, and for what tore it; with drive lugs gone the track jumps and comes off."
    ),
    "track-off": N_(
        "Do not move the machine. Trained people put the track on by the maker's manual; find out first what threw it."
    ),
}
