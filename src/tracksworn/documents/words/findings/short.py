"""The advice of what asks for action, in the few words that stand on the first sheet."""

from collections.abc import Mapping
from typing import Final

from tracksworn.documents.words.language import N_

SHORT: Final[Mapping[str, str]] = {
    "track-off": N_("do not move the machine"),
    "master-joint-loose": N_("stop and ask, do not drive on it"),
    "frame-cracked": N_("stop and ask"),
    "cracked": N_("stop and ask"),
    "cord-showing": N_("stop and ask"),
    "seized": N_("stop and ask"),
    "stuck": N_("stop and ask"),
    "pin-walk": N_("stop before the pin leaves"),
    "past-destroyed": N_("stop and ask"),
    "past-limit-and-leaking": N_("replace before the machine works again"),
    "past-limit": N_("price a replacement now"),
    "past-limit-turn": N_("price a replacement now"),
    "past-limit-rebuild": N_("price a replacement now"),
    "past-limit-replace": N_("replacement is due"),
    "past-limit-in-doubt": N_("measure again before anything is priced"),
    "joint-past-limit": N_("measure the joints around it"),
    "dry-joint": N_("have it opened and resealed"),
    "hot-joint": N_("stop and let it cool"),
    "roller-leak": N_("have it resealed or replaced"),
    "idler-leak": N_("have it resealed"),
    "final-drive-leak": N_("check the oil before the machine moves"),
    "adjuster-leak": N_("keep clear of it"),
    "joint-leak": N_("mark the joint and take its temperature"),
    "joint-leak-not-oiled": N_("find out what leaks"),
    "pivot-leak": N_("check its oil and look for play"),
    "frame-leak": N_("find where it comes from"),
    "adjuster-near-end": N_("measure the pitch"),
    "adjuster-near-end-oiled": N_("look for dry joints first"),
}
"""By the code of the advice, of all that may ask for action."""
