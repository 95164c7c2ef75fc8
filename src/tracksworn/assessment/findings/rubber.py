"""Rubber tracks, and tracks that have come off."""

from collections.abc import Iterator

from tracksworn.assessment.findings.telling import finding, observations, reading, seen, several, severity_by_grade
from tracksworn.assessment.sayings import Finding, Saying, Severity
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Component, Sign


def cord_showing(so_far: SoFar) -> Iterator[Finding]:
    """Bare steel cord: water rusts it and the track parts, whatever its lugs read.

    Common practice, no source: the cords carry all the pull of a rubber track; rubber only keeps them dry.
    """
    told = seen(so_far, {Sign.CORD_SHOWING})
    if told:
        sides = {one.side for one in told}
        because = list(observations(told))
        because += [reading(so_far, row) for row in so_far.rows(Component.LUG) if row.side in sides and row.counted]
        because.append(Saying("whatever-the-lugs-read"))
        parts = several(one.part for one in told)
        yield finding("cord-showing", Severity.ACT, because, amounts={"parts": parts}, seen_there=told)


def cuts(so_far: SoFar) -> Iterator[Finding]:
    """Cuts in a rubber track: the way for water and stones to the cord.

    Common practice, no source: a cut grows along the cord; one that reaches it is the end of the track.
    """
    told = tuple(one for one in seen(so_far, {Sign.CUT}) if Sign.CORD_SHOWING not in one.observation.seen)
    if told:
        parts = several(one.part for one in told)
        yield finding(
            "rubber-cut", severity_by_grade(told), observations(told), amounts={"parts": parts}, seen_there=told
        )


def lugs_torn(so_far: SoFar) -> Iterator[Finding]:
    """Lugs torn from the track: their neighbours take the load, and the steel beneath is no longer covered.

    Common practice, no source: torn drive lugs let the sprocket jump, and a track that jumps comes off.
    """
    told = seen(so_far, {Sign.LUG_TORN})
    if told:
        parts = several(one.part for one in told)
        yield finding(
            "lug-torn", severity_by_grade(told), observations(told), amounts={"parts": parts}, seen_there=told
        )


def track_off(so_far: SoFar) -> Iterator[Finding]:
    """A track off its wheels: the machine stands, and putting the track on again is dangerous work.

    Common practice, no source: a slack track, worn flanges and frames out of line throw tracks, so the cause comes
    first. Source for the danger: TM 5-2410-233-23, WP 0119: an opened track moves fast and uncontrolled.
    """
    told = seen(so_far, {Sign.TRACK_OFF})
    if told:
        yield finding("track-off", Severity.ACT, observations(told), seen_there=told)
