"""Bushings: when to turn them, and which way the machine wore them."""

from collections.abc import Iterator

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.bushing import rails_outlast_a_turn
from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.findings.chain import JOINT_PARTS, dry_sides
from tracksworn.assessment.findings.limits import is_turnable, rows_near_limit
from tracksworn.assessment.findings.telling import (
    Seen,
    finding,
    half_width,
    has_figure,
    hours_left,
    observations,
    part_of,
    percents_by_place,
    reading,
    seen,
    several,
    severity_by_grade,
)
from tracksworn.assessment.findings.troubles import is_near_limit, whole
from tracksworn.assessment.fitting import fitting_of
from tracksworn.assessment.model import Row, Stage
from tracksworn.assessment.sayings import Amount, Finding, Percent, Saying, Severity, Subject
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Component, PartPlace, Side, Sign, Track

WORN_TOGETHER = (Component.BUSHING, Component.LINK)
REVERSE = {PartPlace.FORWARD_SIDE: PartPlace.REVERSE_SIDE, PartPlace.FORWARD_FACE: PartPlace.REVERSE_FACE}


def due_for_turning(so_far: SoFar) -> Iterator[Finding]:
    """A bushing near its limit with a turn left: turned before the limit, it wears a second side.

    Common practice, no source: past the limit, or on a rotating bushing, or with no turn left, there is nothing to
    turn; a turn opens every joint, so where seals leak or joints run dry it wants new seals or is not worth it; and
    it is wasted where the links do not outlast the second side.
    """
    rows = [row for row in rows_near_limit(so_far, Component.BUSHING) if is_turnable(so_far, row)]
    if not rows:
        return
    leaking = [one for one in leaking_joints(so_far) if one.side in {None, *(row.side for row in rows)}]
    dry = [row for row in rows if row.side in dry_sides(so_far)]
    because = [reading(row) for row in rows]
    because += [_turns(row) for row in rows]
    because += [Saying("joint-dry", (part_of(row),), {"part": part_of(row)}) for row in dry]
    because += [reading(link) for row in rows for link in so_far.rows(Component.LINK, row.side) if has_figure(link)]
    because += [
        hours_left(each) for row in rows for what in WORN_TOGETHER for each in _foretold(so_far, what, row.side)
    ]
    because += observations(leaking)
    advice = "bushing-due-for-turning"
    if any(links_would_not_last(so_far, row) for row in rows):
        advice = "turn-with-worn-links"
    elif leaking or dry:
        advice = "turn-with-doubtful-seals"
    yield finding(
        "bushing-due-for-turning",
        Severity.WATCH,
        because,
        advice=advice,
        amounts={"parts": several(map(part_of, rows))},
        seen_there=leaking,
    )


def links_ahead(so_far: SoFar) -> Iterator[Finding]:
    """Links in their second half and worn further than bushings that could still be turned: a turn would not pay.

    Common practice, no source: a turn buys a second side, but rails at their limit end the chain before it is used up.
    """
    pairs = [
        (link, bushing)
        for side in Side
        for link in so_far.rows(Component.LINK, side)
        for bushing in so_far.rows(Component.BUSHING, side)
        if is_turnable(so_far, bushing) and not is_near_limit(bushing) and _is_ahead(so_far, link, bushing)
    ]
    if pairs:
        because = [saying for pair in pairs for saying in (*map(reading, pair), _turns(pair[1]))]
        parts = several(part_of(link) for link, _ in pairs)
        yield finding("links-ahead-of-bushings", Severity.NOTE, because, amounts={"parts": parts})


def links_would_not_last(so_far: SoFar, bushing: Row) -> bool:
    """Whether the links of that side reach their limit before a turned bushing does.

    By the forecast where there is one of both. Else by percents: at the same hours h a link at w has (100 − w)/w · h
    left, a bushing at b (100 − b)/b · h and then 100/b · h on its second side, so the links last only where b ≥ 2 w.
    Of parts fitted apart nothing is said.
    """
    foretold = next(_foretold(so_far, Component.BUSHING, bushing.side), None)
    outlast = None if foretold is None else rails_outlast_a_turn(so_far.forecast or (), foretold)
    if outlast is not None:
        return not outlast
    links = [row for row in so_far.rows(Component.LINK, bushing.side) if row.percent_worn is not None]
    worn = bushing.percent_worn
    return worn is not None and any(
        _same_age(so_far, link, bushing) and exceeds(2.0 * (link.percent_worn or 0.0), worn) for link in links
    )


def side_unknown(so_far: SoFar) -> Iterator[Finding]:
    """Nobody knows whether the bushings were turned, and it decides: unknown counts as no turn left.

    Common practice, no source: a turned bushing shows a worn side turned away from the sprocket, and the workshop's
    invoice names the work.
    """
    rows = [row for row in so_far.rows(Component.BUSHING) if has_figure(row) and row.turning and not row.turning.known]
    if rows and so_far.inspection.machine.track is not Track.ROTATING_BUSHING:
        parts = tuple(map(part_of, rows))
        because = [Saying("turn-not-recorded", parts, {"parts": several(parts)})]
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
        parts = several([*(whole(saying.about[0]) for saying in pairs), *(one.part for one in told)])
        yield finding(
            "reverse-drive-wear",
            severity_by_grade(told),
            (*pairs, *observations(told)),
            amounts={"parts": parts},
            seen_there=told,
            decided_by=[Threshold.OUT_OF_STEP] if pairs else [],
        )


def leaking_joints(so_far: SoFar) -> tuple[Seen, ...]:
    """Leaks seen at the joints of the chain."""
    return seen(so_far, {Sign.LEAK}, JOINT_PARTS)


def _foretold(so_far: SoFar, component: Component, side: Side) -> Iterator[ForecastRow]:
    yield from (row for row in so_far.forecast or () if (row.component, row.side) == (component, side))


def _is_ahead(so_far: SoFar, link: Row, bushing: Row) -> bool:
    """Whether a link in its second half or beyond leads the bushing by more than the doubt of both."""
    worn, beside, within = link.percent_worn, bushing.percent_worn, half_width(link, bushing)
    if worn is None or beside is None or link.stage in (None, Stage.FIRST_HALF):
        return False
    return exceeds(worn - beside, within) and _same_age(so_far, link, bushing)


def _same_age(so_far: SoFar, link: Row, bushing: Row) -> bool:
    """Whether nothing tells that one went on later than the other, and the bushing has not been turned."""
    fittings = [fitting_of(so_far.inspection, row.component, row.side) for row in (link, bushing)]
    hours = {0.0 if each.original else each.at for each in fittings if each is not None}
    turned = bushing.turning is not None and bushing.turning.made > 0
    return len(hours - {None}) < 2 and not turned


def _turns(row: Row) -> Saying:
    turning = row.turning
    left = turning.allowed - turning.made if turning else 0
    return Saying("turns-left", (part_of(row),), {"part": part_of(row), "count": left})


def _reverse_ahead(so_far: SoFar, row: Row) -> Iterator[Saying]:
    worn = percents_by_place(row)
    for forward, reverse in REVERSE.items():
        ahead, behind = worn.get(reverse), worn.get(forward)
        if ahead is not None and behind is not None and reaches(ahead - behind, so_far.assumed.out_of_step):
            parts = tuple(Subject(row.component, row.side, row.position, place) for place in (reverse, forward))
            amounts: dict[str, Amount] = {"part": part_of(row), "reverse": Percent(ahead), "forward": Percent(behind)}
            yield Saying("reverse-ahead", parts, amounts)
