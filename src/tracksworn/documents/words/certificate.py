"""What a certificate says of itself. Standards are paraphrased: ISO/IEC 17020:2012, 7.4.2, read; Annex B, from memory;
ISO/IEC 17025:2017, 7.8, from memory."""

from collections.abc import Mapping
from typing import Final

from tracksworn.assessment.decisions import Result
from tracksworn.documents.words.language import N_, NP_

TITLES: Final[Mapping[Result, str]] = {
    Result.PASSES: N_("Certificate of conformity"),
    Result.FAILS: N_("Statement of nonconformity"),
    Result.UNDECIDED: N_("Inspection statement: undecided"),
    Result.OUTSIDE: N_("Inspection statement: no verdict"),
}
"""Only what passes is called a certificate, so that no other sheet can be taken or quoted for one."""

ENDS: Final[Mapping[bool, str]] = {
    True: N_("End of certificate {number}, {revision}"),
    False: N_("End of statement {number}, {revision}"),
}
"""By whether it passes."""

METHOD: Final = N_(
    "Wear was measured with the gauges named here, or judged by eye where a reading says so; nothing was dismantled. A "
    "chain was sampled at the joints named, and its mean stands for it; pitch by its longest span; rollers, idlers and "
    "sprockets by the most worn. Uncertainty by JCGM 100:2008, at {confidence}; arithmetic method {number}, which "
    "anyone can repeat from the inspection's files."
)
NO_CHART: Final = N_("There is no wear chart: {because}.")
CHART: Final = N_("Wear chart: {title}; {source}.")
STANDS_IN: Final = N_("It was not made for this machine and stands in for {machine}.")
ASSUMED: Final = N_("Assumed: {values}.")

NOT_HELD: Final = N_("Not held against the terms, which do not speak of them: {parts}.")

DOTS: Final[Mapping[Result, str]] = {
    Result.FAILS: N_("full dot: fails"),
    Result.PASSES: N_("open dot: passes"),
    Result.UNDECIDED: N_("barred dot: undecided"),
}
"""How the chart of allowances marks where a part stands."""
POINTER: Final = N_("pointer at the top: worn further than the chart goes")
NO_DOTS: Final = N_("no part has a dot, as none could be tested")

NO_OPINION: Final = N_(
    "Beside the verdict, which rests on measurement and rule alone, no finding asks for action. What the signs say "
    "together is told in the condition report of the same number."
)
OPINIONS: Final = N_(
    "The verdict rests on measurement and rule alone. These are conclusions drawn from the signs; the condition report "
    "of the same number tells their reasons."
)
OTHERS: Final = NP_("{opinions} It has {n} more that asks for less.", "{opinions} It has {n} more that ask for less.")

RELATES: Final = N_(
    "This document relates only to the machine named in it, as inspected on {day}, and is not to be copied except in "
    "full."
)
NOT_SEALED: Final = N_(
    "Not sealed: the file bears no electronic signature. The fingerprint shows which data it was made from, not who "
    "made it."
)
SEALED: Final = N_(
    "Sealed: an electronic signature covers every page of the file and all data in it. A print bears none; check the "
    "signature in the file."
)

SCAN: Final = N_("Scan the code or type the line below: {firm} keeps there what belongs to this number.")
NO_ADDRESS: Final = N_("The code holds number, revision and fingerprint; {firm} names no address where records lie.")
COMPARE: Final = N_(
    "Compare code, digits and ring: the same 64 digits. From the mark clockwise a longer stroke is a higher digit; "
    "each line is a quarter."
)
REPEAT: Final = N_(
    "Made anew from the inspection's files, the document has the same digits; one changed figure gives others."
)
CODE: Final = N_("QR code of {address} with the fingerprint {digits}.")
RING: Final = N_(
    "Fingerprint as a ring of 64 strokes, clockwise from the mark, a longer one for a higher digit: {digits}; not "
    "sealed."
)
RING_SEALED: Final = N_(
    "Fingerprint as a ring of 64 strokes, clockwise from the mark, a longer one for a higher digit: {digits}; sealed "
    "file."
)
