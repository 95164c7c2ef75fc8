"""Words of limits and sides."""

from collections.abc import Mapping
from typing import Final

from tracksworn.documents.words.findings.sentences import Sentence, Words
from tracksworn.documents.words.language import N_, NP_
from tracksworn.inspection.vocabulary import Component

FINDINGS: Final[Mapping[str, Words]] = {
    "past-destroyed": Words(
        "a size past the one at which the chart says the part may fail in use",
        NP_("{parts} may fail in use", "{parts} may fail in use"),
        by_component=True,
    ),
    "past-limit-and-leaking": Words(
        "a wheel past its limit that also loses oil",
        NP_("{parts} is past its limit and loses oil", "{parts} are past their limit and lose oil"),
        by_component=True,
    ),
    "past-limit": Words(
        "a part at its limit or past it",
        NP_("{parts} is past its limit", "{parts} are past their limit"),
        by_component=True,
    ),
    "near-limit": Words(
        "a part in the stage near limit",
        NP_("{parts} comes near its limit", "{parts} come near their limit"),
        by_component=True,
    ),
    "grouser-low": Words(
        "shoes in the stage near limit",
        NP_("{parts}: the grouser is low", "{parts}: the grousers are low"),
        N_("Bars rounded off and shallow, bright at the tips; plates that begin to bend at their ends."),
    ),
    "joint-past-limit": Words(
        "one joint of a chain past the limit by more than it can be misread, the mean not",
        N_("{parts}: at least one is past the limit"),
        by_component=True,
    ),
    "better-than-new": Words(
        "a reading better than new by more than its uncertainty",
        NP_("{parts} reads better than new", "{parts} read better than new"),
    ),
    "sides-differ": Words(
        "one side further worn than the other, told once for all components in which it leads",
        N_("The {side} side is worn further: {parts}"),
    ),
}

ADVICE: Final[Mapping[str, Sentence]] = {
    "past-destroyed": N_(
        "Stop and ask. Have it replaced before the machine works again; the maker's manual comes first."
    ),
    "past-limit-and-leaking": N_("Replace before the machine works again; a new shell or seal alone would not pay."),
    "past-limit": N_("Price a replacement now; whether the machine may work on until then, the maker's manual says."),
    "past-limit-turn": NP_(
        "It can no longer be turned. Price a replacement; the maker's manual says whether the machine may work on.",
        "They can no longer be turned. Price replacements; the maker's manual says whether the machine may work on.",
    ),
    "past-limit-rebuild": NP_(
        "It can no longer be rebuilt at a fair price. Price a replacement before the machine goes on working.",
        "They can no longer be rebuilt at a fair price. Price replacements before the machine goes on working.",
    ),
    "past-limit-replace": N_(
        "Replacement is due. Plan it before the next job, and measure what runs against the worn part."
    ),
    "past-limit-in-doubt": N_(
        "Measure again in more places before anything is priced: within the uncertainty it may be short of the limit."
    ),
    "near-limit": N_("Order parts and book the shop now, and measure again within a month's work."),
    "grouser-low": N_(
        "Weld new bars on or replace the shoes while the plates are sound; low bars spin and wear the rest."
    ),
    "joint-past-limit": N_("Measure the joints around it, and replace that one or the chain; the mean hides it."),
    "better-than-new": N_(
        "Check that the chart fits these parts, then measure again. Until then trust no figure of theirs."
    ),
    "sides-differ": N_(
        "Ask how it works: turning to one side, side slopes and parts renewed on one side alone do this. "
        "Measure the line of the frame before new parts go on."
    ),
}

LOOK_FOR: Final[Mapping[Component, str]] = {
    Component.LINK: N_("Rail tops go flat and wide, then lip over at the edges. A straight edge shows the hollows."),
    Component.BUSHING: N_(
        "Wear is a crescent on one side only; a worn-through case shows as a dull band with a sharp edge."
    ),
    Component.PITCH: N_("Drawn tight, a worn joint opens a gap between link and link; a good one does not."),
    Component.SHOE: N_("Bars round off and grow shallow; plates bend at their ends."),
    Component.LUG: N_("Lugs lose their edges, then their height, until they stand hardly above the band."),
    Component.DRIVE_LUG: N_("Drive lugs grow thin and rounded on the flank that is driven."),
    Component.SPROCKET: N_(
        "Flanks go hollow and tips hook; the thickness at the tooth's base tells more than the tip."
    ),
    Component.FRONT_IDLER: N_("Two troughs run round the tread with a shoulder left standing between them."),
    Component.REAR_IDLER: N_("Two troughs run round the tread with a shoulder left standing between them."),
    Component.BOTTOM_ROLLER: N_(
        "A new tread is flat between its shoulders. Worn, it dishes and leaves a lip at the flange."
    ),
    Component.TOP_ROLLER: N_("A worn tread dishes, and the chain sits deep between the flanges."),
}
"""What worn looks like, for someone who has never seen it."""
