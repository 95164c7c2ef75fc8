"""Words of chains: joints, pitch, links, bushings."""

from collections.abc import Mapping
from typing import Final

from tracksworn.documents.words.findings.sentences import Sentence, Words
from tracksworn.documents.words.language import N_, NP_

FINDINGS: Final[Mapping[str, Words]] = {
    "dry-joint": Words(
        "one long span, a hot joint or a blued pin end on sealed and lubricated track, or a joint seen dry",
        N_("A dry joint in the {chain} is likely"),
        N_("One long pitch among short ones, a warm or blued pin end, rust-red dust at the seal."),
    ),
    "hot-joint": Words(
        "a joint far above the middle of its side, on track without oil or of an unknown kind",
        N_("A joint of the {chain} runs hot"),
        N_("Blued steel, burnt paint or grease, rust-red dust; the joint may still burn the hand."),
    ),
    "long-span": Words(
        "one span longer than the others, on track that should grow evenly or is of an unknown kind",
        N_("One span of the {chain} stands out"),
        N_("Drawn tight, one joint gapes while its neighbours do not."),
    ),
    "even-growth-doubtful": Words(
        "sealed and lubricated track whose pitch has grown alike at every span",
        NP_(
            "{parts} has grown evenly, which oiled joints do not",
            "{parts} have grown evenly, which oiled joints do not",
        ),
    ),
    "even-growth": Words(
        "dry or greased track whose pitch has grown alike at every span: the wear to be expected",
        NP_("{parts} has grown evenly, as {track} does", "{parts} have grown evenly, as {track} does"),
        N_("Drawn tight, every joint shows the same small gap."),
    ),
    "link-taken-out": Words("a link was seen to be taken out", N_("A link has been taken out")),
    "links-unequal": Words("the sides have different counts of links", N_("The sides have different counts of links")),
    "links-short": Words("fewer links than the chart's geometry", N_("Fewer links than the chart has")),
    "links-over": Words("more links than the chart's geometry", N_("More links than the chart has")),
    "master-joint-loose": Words(
        "a master joint seen loose",
        NP_("{parts} is loose", "{parts} are loose"),
        N_("Bright, fretted faces, rust at the bolt heads, a gap that opens and shuts as the joint goes round."),
    ),
    "pin-walk": Words(
        "a pin creeping out of its link",
        NP_("{parts}: a pin is walking out", "{parts}: pins are walking out"),
        N_("A pin end that stands out on one side and is sunk on the other, with bright metal round it."),
    ),
    "joint-leak": Words(
        "a leak at a joint of the chain",
        NP_("{parts} loses oil", "{parts} lose oil"),
        N_("A dark, wet fan on the link side beside the pin, with dust stuck to it."),
    ),
    "bushing-due-for-turning": Words(
        "bushings near their limit with a turn left",
        NP_("{parts} is due for turning", "{parts} are due for turning"),
        N_("Wear is a crescent on one side only; the other side still has its round shape."),
    ),
    "links-ahead-of-bushings": Words(
        "links in their second half and worn further than bushings that could still be turned",
        NP_("{parts} comes to its limit before its bushings", "{parts} come to their limit before their bushings"),
        N_("Rail tops flat and wide over bushings that are still round on their far side."),
    ),
    "bushing-side-unknown": Words(
        "not recorded whether the bushings were turned, so no turn is counted",
        N_("Whether the bushings were turned is not known"),
        N_("A turned bushing has a second worn crescent, on the side away from the sprocket teeth."),
    ),
    "reverse-drive-wear": Words(
        "the reverse side of bushings or teeth further worn than the forward side, or seen so",
        NP_("{parts} shows wear from reverse", "{parts} show wear from reverse"),
        N_("Teeth hollow on their rear flank too; a crescent on the side of the bushing that reverse loads."),
    ),
}

ADVICE: Final[Mapping[str, Sentence]] = {
    "dry-joint": N_(
        "With the chain cold and slack, find the joint; have it opened and resealed, or a new chain priced. "
        "The maker's manual comes first."
    ),
    "hot-joint": N_("Stop and let it cool; never touch it by hand. Find out why it binds before the machine works on."),
    "long-span": N_(
        "Measure that span again with the slack drawn out, then look at its joints for cracks and new parts."
    ),
    "even-growth-doubtful": N_(
        "Check chart and method: pin to pin, slack drawn out. If the figures stand, the joints have lost their oil."
    ),
    "even-growth": N_("Judge pins and bushings by it: turn or replace them at the limit, and the sprocket with them."),
    "even-growth-no-turn": N_(
        "Judge pins and bushings by it: with no turn left, replace them at the limit, and the sprocket with them."
    ),
    "link-taken-out": N_(
        "Count both chains, and judge the stretch by pitch alone: adjuster and sag look better than they are."
    ),
    "links-unequal": N_(
        "Count again. A shortened chain hides its stretch; adjuster and sag look better than they are."
    ),
    "links-short": N_("Ask whether links were taken out. If so, adjuster and sag look better than they are."),
    "links-over": N_("Count again, and check that the chart is of this track group."),
    "master-joint-loose": N_(
        "Stop and ask: do not drive on it. Only a licensed technician opens it, by the maker's manual, for a parted "
        "chain runs off under force."
    ),
    "pin-walk": N_(
        "Stop before the pin leaves. Have the joint rebuilt with new links, for a pin pressed back walks out again. "
        "Never hammer a hardened pin."
    ),
    "joint-leak": N_("Mark the joint and take its temperature after work: without oil it runs dry, hot and long."),
    "joint-leak-not-oiled": N_("Find out what leaks there: this track has no oil in its joints."),
    "bushing-due-for-turning": N_(
        "Have them turned before the limit, where the links will outlast the second side; a turn opens every joint."
    ),
    "turn-with-worn-links": N_(
        "Price a turn against a new chain: at this wear the links may not outlast the second side of the bushings."
    ),
    "links-ahead-of-bushings": N_(
        "Run links and bushings out together; put the price of a turn towards the next chain. "
        "The maker's manual says how far."
    ),
    "turn-with-doubtful-seals": N_(
        "Price a turn with new seals against a new chain: a turn opens every joint, and these seals are in doubt."
    ),
    "bushing-side-unknown": N_(
        "Ask for the invoice, or look for the second crescent: a turn that is left is half their life."
    ),
    "reverse-drive-wear": N_(
        "Ask how the machine is worked: less travel in reverse, and slower, saves bushings and sprocket."
    ),
}
