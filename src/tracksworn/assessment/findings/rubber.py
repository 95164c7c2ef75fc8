"""Rubber tracks, and tracks that have come off."""

from collections.abc import Iterator

from tracksworn.assessment.findings.telling import (
    finding,
    has_figure,
    observations,
    reading,
    seen,
    several,
    severity_by_grade,
)
from tracksworn.assessment.sayings import Finding, Saying, Severity
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Component, Side, Sign


def cord_showing(so_far: SoFar) -> Iterator[Finding]:
    """Bare steel cord: water rusts it and the track parts, whatever its lugs read. Cuts and torn lugs go with it.

    Common practice, no source: the cords carry all the pull of a rubber track; rubber only keeps them dry.
    """
    sides = corded_sides(so_far)
    told = tuple(one for one in seen(so_far, {Sign.CORD_SHOWING, Sign.CUT, Sign.LUG_TORN}) if one.side in sides)
    if told:
        because = list(observations(told))
        because += [reading(row) for row in so_far.rows(Component.LUG) if row.side in sides and has_figure(row)]
        because.append(Saying("whatever-the-lugs-read"))
        parts = several(one.part for one in told if Sign.CORD_SHOWING in one.observation.seen)
        yield finding("cord-showing", Severity.ACT, because, amounts={"parts": parts}, seen_there=told)


def cuts(so_far: SoFar) -> Iterator[Finding]:
    """Cuts in a rubber track: the way for water and stones to the cord.

    Common practice, no source: a cut grows along the cord; one that reaches it is the end of the track.
    """
    yield from _damaged("rubber-cut", so_far, Sign.CUT)


def lugs_torn(so_far: SoFar) -> Iterator[Finding]:
    """Lugs torn from the track: their neighbours take the load, and the steel beneath is no longer covered.

    Common practice, no source: torn drive lugs let the sprocket jump, and a track that jumps comes off.
    """
    yield from _damaged("lug-torn", so_far, Sign.LUG_TORN)


def track_off(so_far: SoFar) -> Iterator[Finding]:
    """A track off its wheels: the machine stands, and putting the track on again is dangerous work.

    Common practice, no source: a slack track, worn flanges and frames out of line throw tracks, so the cause comes
    first. Source for the danger: TM 5-2410-233-23, WP 0119: an opened track moves fast and uncontrolled.
    """
    told = seen(so_far, {Sign.TRACK_OFF})
    if told:
        yield finding("track-off", Severity.ACT, observations(told), seen_there=told)


def corded_sides(so_far: SoFar) -> frozenset[Side | None]:
    """The sides on which steel cord shows."""
    return frozenset(one.side for one in seen(so_far, {Sign.CORD_SHOWING}))


def _damaged(code: str, so_far: SoFar, sign: Sign) -> Iterator[Finding]:
    told = tuple(one for one in seen(so_far, {sign}) if one.side not in corded_sides(so_far))
    if told:
        parts = several(one.part for one in told)
        yield finding(code, severity_by_grade(told), observations(told), amounts={"parts": parts}, seen_there=told)
