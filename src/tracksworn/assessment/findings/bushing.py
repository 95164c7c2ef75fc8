"""Bushings: when to turn them, and which way the machine wore them."""

from collections.abc import Iterator

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.findings.chain import JOINT_PARTS, dry_sides
from tracksworn.assessment.findings.limits import is_turnable, rows_near_limit
from tracksworn.assessment.findings.telling import (
    Seen,
    finding,
    observations,
    part_of,
    percents_by_place,
    reading,
    seen,
    several,
    severity_by_grade,
)
from tracksworn.assessment.model import Row
from tracksworn.assessment.sayings import Amount, Finding, Percent, Saying, Severity, Subject
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Component, PartPlace, Sign, Track

REVERSE = {PartPlace.FORWARD_SIDE: PartPlace.REVERSE_SIDE, PartPlace.FORWARD_FACE: PartPlace.REVERSE_FACE}


def due_for_turning(so_far: SoFar) -> Iterator[Finding]:
    """A bushing near its limit with a turn left: turned before the limit, it wears a second side.

    Common practice, no source: past the limit, or on a rotating bushing, or with no turn left, there is nothing to
    turn; and a turn opens every joint, so where seals leak or joints run dry it wants new seals or is not worth it.
    """
    rows = [row for row in rows_near_limit(so_far, Component.BUSHING) if is_turnable(so_far, row)]
    if not rows:
        return
    leaking = [one for one in leaking_joints(so_far) if one.side in {None, *(row.side for row in rows)}]
    dry = [row for row in rows if row.side in dry_sides(so_far)]
    because = [reading(row) for row in rows]
    because += [_turns(row) for row in rows]
    because += [Saying("joint-dry", (part_of(row),), {"part": part_of(row)}) for row in dry]
    because += [reading(link) for row in rows for link in so_far.rows(Component.LINK, row.side) if link.counted]
    because += observations(leaking)
    advice = "turn-with-doubtful-seals" if leaking or dry else "bushing-due-for-turning"
    yield finding(
        "bushing-due-for-turning",
        Severity.WATCH,
        because,
        advice=advice,
        amounts={"parts": several(map(part_of, rows))},
        seen_there=leaking,
    )


def side_unknown(so_far: SoFar) -> Iterator[Finding]:
    """Nobody knows whether the bushings were turned, and it decides: unknown counts as no turn left.

    Common practice, no source: a turned bushing shows a worn side turned away from the sprocket, and the workshop's
    invoice names the work.
    """
    rows = [row for row in so_far.rows(Component.BUSHING) if row.turning and not row.turning.known and row.counted]
    if rows and so_far.inspection.machine.track is not Track.ROTATING_BUSHING:
        because = [Saying("turn-not-recorded", (part_of(row),), {"part": part_of(row)}) for row in rows]
        yield finding("bushing-side-unknown", Severity.NOTE, because)


def reverse_drive_wear(so_far: SoFar) -> Iterator[Finding]:
    """The reverse side of bushings or sprocket teeth further worn than the forward side: the machine backs a lot.

    Source: TM 5-3805-280-10, p. 21-16, read: the reverse-drive side generally wears more. Common practice, no source:
    backing under load turns the bushing against the sprocket, so many hours of fast reverse cost a chain early.
    """
    rows = [row for what in (Component.BUSHING, Component.SPROCKET) for row in so_far.rows(what)]
    pairs = [pair for row in rows for pair in _reverse_ahead(so_far, row)]
    told = seen(so_far, {Sign.REVERSE_WEAR})
    if pairs or told:
        yield finding(
            "reverse-drive-wear",
            severity_by_grade(told),
            (*pairs, *observations(told)),
            seen_there=told,
            decided_by=[Threshold.OUT_OF_STEP] if pairs else [],
        )


def leaking_joints(so_far: SoFar) -> tuple[Seen, ...]:
    """Leaks seen at the joints of the chain."""
    return seen(so_far, {Sign.LEAK}, JOINT_PARTS)


def _turns(row: Row) -> Saying:
    turning = row.turning
    left = turning.allowed - turning.made if turning else 0
    return Saying("turns-left", (part_of(row),), {"part": part_of(row), "left": left})


def _reverse_ahead(so_far: SoFar, row: Row) -> Iterator[Saying]:
    worn = percents_by_place(row)
    for forward, reverse in REVERSE.items():
        ahead, behind = worn.get(reverse), worn.get(forward)
        if ahead is not None and behind is not None and reaches(ahead - behind, so_far.assumed.out_of_step):
            parts = tuple(Subject(row.component, row.side, row.position, place) for place in (reverse, forward))
            amounts: dict[str, Amount] = {"part": part_of(row), "reverse": Percent(ahead), "forward": Percent(behind)}
            yield Saying("reverse-ahead", parts, amounts)
