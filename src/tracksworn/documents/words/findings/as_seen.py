"""Words of what was seen and no other check has used."""

from collections.abc import Mapping
from typing import Final

from tracksworn.documents.words.findings.sentences import Sentence, Words
from tracksworn.documents.words.language import N_, NP_

_HAVE_IT_JUDGED = N_(
    "Have it judged at the machine by someone who repairs undercarriages, with the maker's manual at hand."
)

FINDINGS: Final[Mapping[str, Words]] = {
    "seen-leak": Words("a leak at a part that no other check covers", NP_("{parts} leaks", "{parts} leak")),
    "seen-bent": Words("a part seen bent", NP_("{parts} is bent", "{parts} are bent")),
    "seen-loose": Words("a part seen loose", NP_("{parts} is loose", "{parts} are loose")),
    "seen-missing": Words("a part seen to be missing", NP_("{parts} is missing", "{parts} are missing")),
    "seen-flat-spot": Words("a flat on a part that no other check covers", N_("{parts}: a flat spot")),
    "seen-end-play": Words(
        "end play within the chart's, or at a part that no other check covers", N_("{parts}: end play")
    ),
    "seen-hot": Words("a part, not a joint, found hot", NP_("{parts} runs hot", "{parts} run hot")),
    "seen-side-wear": Words("side wear, not of an idler", N_("{parts}: worn at the side")),
    "seen-tread-grooves": Words("grooves in a tread", N_("{parts}: grooves in the tread")),
    "seen-flange-worn": Words("worn flanges", N_("{parts}: worn flanges")),
    "seen-flange-contact": Words(
        "contact of flanges at a part that no other check covers", N_("{parts}: flange contact")
    ),
    "seen-groove": Words("a groove at a part that no other check covers", N_("{parts}: grooved")),
    "seen-rail-spalling": Words("metal flaking off the rail", N_("{parts}: the rail spalls")),
    "seen-chrome-loss": Words("chrome gone from a rod", N_("{parts}: chrome is lost")),
    "seen-dry-joint": Words("a dry joint at a part that is no joint of the chain", N_("{parts}: dry joint")),
    "seen-bolt-missing": Words("a bolt missing, not of a shoe", N_("{parts}: a bolt is missing")),
    "seen-packed": Words("packed with earth, stone or clay", NP_("{parts} is packed", "{parts} are packed")),
    "seen-corrosion": Words("corrosion", NP_("{parts} is corroded", "{parts} are corroded")),
    "seen-heat-mark": Words("marks of heat, not at a joint", N_("{parts}: marks of heat")),
    "seen-other": Words("something seen that has no word of its own", N_("{parts}: as the inspector notes")),
    "seen-ungraded": Words("what else was seen without being graded", N_("Also seen, not graded")),
    "seen-slight": Words("what else was seen and graded slight", N_("Also seen")),
}

ADVICE: Final[Mapping[str, Sentence]] = {
    "seen-leak": N_("Find where it comes from before the machine works on."),
    "seen-bent": _HAVE_IT_JUDGED,
    "seen-loose": N_("Find out why before it is tightened; what has worked loose once has worn."),
    "seen-missing": N_("Replace it; what it guarded or carried wears from now on."),
    "seen-flat-spot": _HAVE_IT_JUDGED,
    "seen-end-play": N_("Measure it again at the next service; it grows."),
    "seen-hot": N_("Let it cool and do not touch it. Check its oil and how it turns before the machine works on."),
    "seen-side-wear": N_("Look for what it rubs on, and for a frame or guide out of line."),
    "seen-tread-grooves": N_(
        "Look for packing and stone between chain and tread; measure at the bottom of the groove."
    ),
    "seen-flange-worn": N_("Look for a chain that runs out of line; thin flanges no longer guide it and break away."),
    "seen-flange-contact": _HAVE_IT_JUDGED,
    "seen-groove": _HAVE_IT_JUDGED,
    "seen-rail-spalling": N_(
        "Look at the rollers that run on it, and for cracks below the flakes; new rails only on sound rollers."
    ),
    "seen-chrome-loss": N_("Look for rust pits: a pitted rod cuts its seal. Keep clear of the adjuster."),
    "seen-dry-joint": _HAVE_IT_JUDGED,
    "seen-bolt-missing": N_("Replace it and check its neighbours by the maker's manual."),
    "seen-packed": N_(
        "Clear it out, daily where the ground packs: packing tightens the track, stops rollers and grinds teeth. "
        "Then look again at what it hid."
    ),
    "seen-corrosion": N_("Clean it and see how much sound metal is left."),
    "seen-heat-mark": N_("Find out what ran hot, and whether it still does."),
    "seen-other": _HAVE_IT_JUDGED,
    "seen-ungraded": N_("How far it has gone was not recorded: have it looked at again."),
    "seen-slight": N_("Nothing to do now; see at the next inspection whether it has grown."),
}
