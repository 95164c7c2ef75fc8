"""Roller flanges: down on the pin bosses, on the bushings, or nearly so."""

from collections.abc import Iterator, Sequence

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.boundaries import exceeds, first_highest
from tracksworn.assessment.findings.telling import (
    Part,
    Seen,
    finding,
    has_figure,
    observations,
    reading,
    seen,
    several,
    severity_by_grade,
    subject_of,
)
from tracksworn.assessment.findings.troubles import IDLERS, is_near_limit, is_past_limit
from tracksworn.assessment.model import Row
from tracksworn.assessment.sayings import Amount, Finding, Length, Saying, Severity
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Component, Grade, ObservedPlace, Side, Sign

PIN_BOSSES: frozenset[Part] = frozenset(
    {Component.BOTTOM_ROLLER, Component.TOP_ROLLER, Component.LINK, ObservedPlace.PIN, ObservedPlace.SEAL}
)


def flange_on_pin_boss(so_far: SoFar) -> Iterator[Finding]:
    """Roller flanges touching the pin bosses: rail and tread have worn so far that the flange stands on the joint.

    Source: TM 5-3805-280-10, p. 21-16, read: some contact is normal, excessive contact means excessive rail wear.
    """
    told = seen(so_far, {Sign.FLANGE_CONTACT}, PIN_BOSSES)
    if told:
        sides = {one.side for one in told}
        because = (
            *observations(told),
            *(saying for side in Side if side in sides for saying in _worn(so_far, side, told)),
        )
        yield finding("flange-on-pin-boss", severity_by_grade(told), because, seen_there=told)


def flange_near_pin_boss(so_far: SoFar) -> Iterator[Finding]:
    """Little room left between flange and pin bosses, measured or to be expected of a worn rail under a worn roller.

    Common practice, no source: as treads wear, flanges come down over the link sides and in time meet the pin bosses.
    Where contact was seen it is told there; where someone looked and saw room enough, there is nothing to fear yet.
    """
    close, because = [], []
    for side in Side:
        there = _close(so_far, side)
        rows = _worst(so_far, side)
        worn = len(rows) == 2 and all(is_near_limit(row) or is_past_limit(row) for row in rows)
        if there or (worn and not _was_looked_at(so_far, side)):
            because += [Saying("flange-clear-by", (one.part,), _clearance(one)) for one in there]
            because += [reading(row) for row in rows]
            close += there
    if because:
        yield finding(
            "flange-near-pin-boss",
            Severity.NOTE,
            because,
            seen_there=close,
            decided_by=[Threshold.FLANGE_CLEARANCE] if close else [],
        )


def flange_on_bushing(so_far: SoFar) -> Iterator[Finding]:
    """Bushings grooved or touched by inner flanges.

    Common practice, no source: with rail and tread far worn the inner flanges may groove the bushings, and a grooved
    bushing cracks there.
    """
    told = seen(so_far, {Sign.FLANGE_CONTACT, Sign.GROOVE}, {Component.BUSHING})
    if told:
        parts = several(one.part for one in told)
        yield finding(
            "flange-on-bushing", severity_by_grade(told), observations(told), amounts={"parts": parts}, seen_there=told
        )


def idler_on_bushing(so_far: SoFar) -> Iterator[Finding]:
    """An idler that rides on the bushings.

    Source: TM 5-3805-280-10, p. 21-16, read: it means excessive wear of rail and idler tread.
    """
    told = seen(so_far, {Sign.FLANGE_CONTACT}, IDLERS)
    if told:
        rows = [row for row in so_far.components if row.component in IDLERS and row.side in {one.side for one in told}]
        because = (*observations(told), *(reading(row) for row in rows if has_figure(row)))
        parts = several(one.part for one in told)
        yield finding("idler-on-bushing", severity_by_grade(told), because, amounts={"parts": parts}, seen_there=told)


def clearances(so_far: SoFar, side: Side) -> tuple[Seen, ...]:
    """Where one looked for contact, saw none, and noted how much room there was."""
    return tuple(
        Seen(index, one, subject_of(so_far, one))
        for index, one in enumerate(so_far.inspection.observations)
        if Sign.FLANGE_CONTACT in one.seen and one.grade is Grade.NONE and one.size is not None and one.at.side is side
    )


def _close(so_far: SoFar, side: Side) -> list[Seen]:
    """Clearances of that side at or under the threshold."""
    room = so_far.assumed.flange_clearance
    return [one for one in clearances(so_far, side) if not exceeds(one.observation.size or 0.0, room)]


def _clearance(one: Seen) -> dict[str, Amount]:
    return {"part": one.part, "size": Length(one.observation.size or 0.0)}


def _worst(so_far: SoFar, side: Side) -> list[Row]:
    """The links of a side and the most worn of its bottom rollers."""
    links, rollers = _with_figure(so_far, side)
    worst = first_highest(rollers, lambda row: row.counted or 0.0)
    return [*links, *([worst] if worst else [])]


def _worn(so_far: SoFar, side: Side, told: Sequence[Seen]) -> tuple[Saying, ...]:
    """The links of a side and the bottom rollers at which it was seen; the worst where none of these has a figure."""
    links, rollers = _with_figure(so_far, side)
    at = {one.part.number for one in told if one.side is side and one.part.what is Component.BOTTOM_ROLLER}
    there = [row for row in rollers if row.position in at]
    return tuple(reading(row) for row in ([*links, *there] if there else _worst(so_far, side)))


def _with_figure(so_far: SoFar, side: Side) -> tuple[list[Row], list[Row]]:
    """Links and bottom rollers of a side that have a figure."""
    links, rollers = (so_far.rows(one, side) for one in (Component.LINK, Component.BOTTOM_ROLLER))
    return [row for row in links if has_figure(row)], [row for row in rollers if has_figure(row)]


def _was_looked_at(so_far: SoFar, side: Side) -> bool:
    return any(
        Sign.FLANGE_CONTACT in observation.seen and observation.at.side in (None, side)
        for observation in so_far.inspection.observations
    )
