"""The cheapest grouping of work into shop visits."""

from collections.abc import Sequence

from tracksworn.assessment.decisions import Plan, PlannedWork, Visit
from tracksworn.assessment.plan.grouping import grouped
from tracksworn.assessment.plan.joining import Job, joined
from tracksworn.assessment.plan.swaps import swaps
from tracksworn.assessment.plan.value import worth
from tracksworn.assessment.plan.work import Piece, pieces
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.prices import Prices


def plan(so_far: SoFar, prices: Prices) -> Plan:
    """The plan by these prices for the forecast in `so_far`; without a forecast it has no visits.

    Least is the cost of all visits and of the life that working early throws away, over every grouping of the work.
    Each part's way is chosen before that, by its own cost alone.
    """
    work = tuple(pieces(so_far, prices))
    jobs = joined(work, prices.together)
    value = worth(so_far, prices)
    planned = {(piece.row.component, piece.row.side) for piece in work}
    missed = (row.component for row in so_far.forecast or () if (row.component, row.side) not in planned)
    return Plan(
        as_of=prices.as_of,
        currency=prices.currency,
        labour_per_hour=prices.labour_per_hour,
        visits=tuple(
            _visit(of_one, prices, so_far)
            for of_one in grouped(jobs, prices.visit_set_up, prices.track_off * prices.labour_per_hour)
        ),
        value_left=value.left,
        cost_to_restore=value.to_restore,
        swaps=swaps(so_far, prices),
        unpriced=tuple(dict.fromkeys(missed)),
    )


def _visit(jobs: Sequence[Job], prices: Prices, so_far: SoFar) -> Visit:
    hours = so_far.inspection.machine.hours
    assert hours is not None  # no part has a rate without them
    after = min(job.due for job in jobs)
    sides = frozenset[object]().union(*(job.off for job in jobs))
    order = {(row.component, row.side): index for index, row in enumerate(so_far.forecast or ())}
    work = [piece for job in jobs for piece in job.pieces]
    work.sort(key=lambda piece: order[piece.row.component, piece.row.side])
    return Visit(
        after=after,
        at_hours=hours.machine + after,
        work=tuple(_planned(piece, after) for piece in work),
        set_up=prices.visit_set_up,
        track_off=len(sides) * prices.track_off * prices.labour_per_hour,
    )


def _planned(piece: Piece, after: float) -> PlannedWork:
    row = piece.row
    return PlannedWork(
        component=row.component,
        side=row.side,
        position=row.position,
        way=piece.way,
        parts=piece.parts,
        labour=piece.labour,
        hours_left=row.hours_left,
        life_lost=piece.life_lost(after),
    )
