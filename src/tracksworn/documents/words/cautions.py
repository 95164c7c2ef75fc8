"""What every document says about safety and about its own reach. No template, letterhead or option can drop it.

A comment names the published source, which is paraphrased. Where no source stands, it is common practice.
"""

from dataclasses import dataclass
from typing import Annotated, Final

from tracksworn.documents.words.language import N_, Language


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution. `identity` never changes, so that a document can be held against the whole list."""

    identity: Annotated[str, "its name, never changed: `grease`"]
    title: Annotated[str, "`Grease under very high pressure`"]
    text: Annotated[str, "what it says, plain text"]
    references: Annotated[str, "published rules beside it; may be empty"] = ""


CAUTIONS: Final = (
    Caution(  # HSE Safety Alert STSU 2-2017; injection injury: from memory
        "grease",
        N_("Grease under very high pressure"),
        N_(
            "Keep clear of the track adjuster, its fitting and its relief valve: a fitting that blows out kills. Only "
            "competent people adjust a track; a fitting that has come out is never refitted. Grease injected under the "
            "skin is a surgical emergency: go to hospital at once, however small the mark."
        ),
        N_("See HSE Safety Alert STSU 2-2017."),
    ),
    Caution(  # 29 CFR 1910.147(d)(5)
        "spring",
        N_("Stored force"),
        N_(
            "The recoil spring holds energy that kills; it is relieved or made safe before anything near it is taken "
            "apart. No heat, welding or hammering near the spring or the adjuster, and none on hardened pins."
        ),
        N_("See 29 CFR 1910.147(d)(5)."),
    ),
    Caution(  # 29 CFR 1926.600(a)(3)(i); 30 CFR 56.14105, 57.14105, 56.14211
        "block",
        N_("Before any work"),
        N_(
            "Level ground, equipment lowered, engine off; block, lock out and tag. Never go under or between parts "
            "that are held up until they are blocked, and never under a machine raised on its own boom or blade."
        ),
        N_("See 29 CFR 1926.600(a)(3)(i), 29 CFR 1910.147, 30 CFR 56.14105, 56.14211 and 57.14105."),
    ),
    Caution(  # TM 5-2410-233-23, WP 0119
        "moving",
        N_("While anyone moves the machine"),
        N_(
            "Stay out of the track's path and outside an excavator's swing. An opened track moves fast and out of "
            "control: keep 6 m (20 ft) clear of both ends. No hands between chain, roller and sprocket."
        ),
        N_("See TM 5-2410-233-23, WP 0119."),
    ),
    Caution(  # common practice, no source
        "hot",
        N_("Hot joints"),
        N_("Joints, pins and rollers may be burning hot after travel: never feel for a dry joint with the bare hand."),
    ),
    Caution(
        "one-day",
        N_("What this is"),
        N_(
            "A look at wear on one day and at the hours stated, with the machine not dismantled. It is no safety "
            "certificate, and hours left, wherever they are given, are no permission to run a part past its limit."
        ),
    ),
    Caution(
        "stop",
        N_("Stop and ask"),
        N_("A part that is cracked or seized, or a rubber track whose cord shows, means: stop the machine and ask."),
    ),
    Caution(
        "first",
        N_("What comes first"),
        N_(
            "The maker's manual, local codes and a licensed technician come before anything in this document. The "
            "rules named here are examples from two countries; local rules differ and come first."
        ),
    ),
)
"""All of them, in the order of every page."""

SHORT_CAUTIONS: Final = (
    Caution(
        "grease",
        "",
        N_(
            "Keep clear of the track adjuster and its relief: grease under very high pressure; under the skin it is a "
            "surgical emergency."
        ),
        N_("HSE Safety Alert STSU 2-2017"),
    ),
    Caution(
        "spring",
        "",
        N_("The recoil spring kills. No heat, welding or hammering near either, none on hardened pins."),
        N_("29 CFR 1910.147(d)(5)"),
    ),
    Caution(
        "block",
        "",
        N_("Block, lock out and tag first; never under a machine raised on its own boom or blade."),
        N_("29 CFR 1926.600(a)(3)(i); 30 CFR 56.14105, 56.14211, 57.14105"),
    ),
    Caution(
        "moving",
        "",
        N_(
            "Out of the track's path and outside an excavator's swing while it moves; no hands between chain, roller "
            "and sprocket."
        ),
        N_("TM 5-2410-233-23, WP 0119"),
    ),
    Caution("hot", "", N_("Joints may be burning hot.")),
    Caution(
        "one-day",
        "",
        N_(
            "A look at wear on one day and at the hours stated, machine not dismantled. It is no safety certificate, "
            "and hours left are no permission to run a part past its limit."
        ),
    ),
    Caution("stop", "", N_("Cracked, seized or cord showing: stop and\u00a0ask.")),
    Caution(
        "first",
        "",
        N_(
            "The maker's manual, local codes and a licensed technician come first; local rules differ from those named."
        ),
    ),
)
"""The same cautions for a document of one sheet: fewer words, no hazard and no rule fewer."""


def cautions(language: Language, among: tuple[Caution, ...] = CAUTIONS) -> tuple[Caution, ...]:
    """All cautions in the reader's language; `among` is one of the two lists."""
    return tuple(
        Caution(
            one.identity,
            language.say(one.title) if one.title else "",
            language.say(one.text),
            language.say(one.references) if one.references else "",
        )
        for one in among
    )
