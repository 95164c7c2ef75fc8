"""One figure for the whole undercarriage by shares of cost, and what must never be missing beside it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from tracksworn.assessment.bushing import life_used
from tracksworn.assessment.estimates import within_scale
from tracksworn.assessment.model import Basis, Bound, Overall, Row, SharesFrom, Stage, Worst
from tracksworn.assessment.sides import most_worn
from tracksworn.assessment.stages import stage
from tracksworn.assessment.uncertainty import CERTAIN, Budget, weighted_sum
from tracksworn.inspection.values import Estimate


@dataclass(frozen=True, slots=True)
class Weighed:
    """What one seen row counts in the overall figure, 0 to 100 of its life, by its share of the whole."""

    share: float
    percent: float
    half_width: float = 0.0  # of an estimate's range
    budget: Budget = CERTAIN  # of a measured figure


def overall(rows: Sequence[Row], shares_from: SharesFrom) -> Overall:
    """O = Σ share · min(w, 100) / Σ share over what was seen, with its 95 % interval.

    Floor and ceiling are what it would be if every unseen part were as new, or at its limit. The rows' shares are
    parts of the whole.
    """
    at_least = _only_at_least(rows)
    seen = [weighed for _, weighed in _seen(rows, at_least=at_least)]
    whole = math.fsum(row.share for row in rows)
    seen_share = math.fsum(each.share for each in seen)
    worn_share = math.fsum(each.share * each.percent for each in seen)
    stages = [stage(row.counted) for row in rows if row.counted is not None]
    worst = most_worn(rows)
    figures = Overall(
        percent_worn=None,
        low=None,
        high=None,
        bound=None,
        seen_share=seen_share / whole if whole else 0.0,
        floor=worn_share / whole if whole else 0.0,
        ceiling=(worn_share + 100.0 * (whole - seen_share)) / whole if whole else 100.0,
        shares_from=shares_from,
        past_limit=stages.count(Stage.PAST_LIMIT),
        near_limit=stages.count(Stage.NEAR_LIMIT),
        unseen=sum(row.basis is Basis.NOT_SEEN for row in rows),
        worst=None if worst is None else Worst(worst.component, worst.side, worst.position, worst.counted or 0.0),
    )
    if not seen_share:
        return figures
    percent = worn_share / seen_share
    if at_least:
        return replace(figures, percent_worn=percent, low=percent, bound=Bound.AT_LEAST, ceiling=100.0)
    return _with_interval(replace(figures, percent_worn=percent), percent, seen)


def _with_interval(figures: Overall, percent: float, seen: Sequence[Weighed]) -> Overall:
    """U² = U(measured)² + (Σ share · half-width / Σ share)²: one inspector's estimates share one error."""
    seen_share = math.fsum(each.share for each in seen)
    budget = weighted_sum((each.share / seen_share, each.budget) for each in seen)
    by_eye = math.fsum(each.share * each.half_width for each in seen) / seen_share
    uncertainty, dof = budget.interval()
    within = math.hypot(uncertainty, by_eye)
    return replace(figures, low=percent - within, high=percent + within, dof=dof, budget=budget, half_width=by_eye)


def lives(rows: Sequence[Row]) -> Iterator[tuple[Row, float]]:
    """Every row that was seen, with the percent of its life that the overall figure counts as used."""
    for row, weighed in _seen(rows, at_least=_only_at_least(rows)):
        yield row, weighed.percent


def _seen(rows: Sequence[Row], *, at_least: bool) -> Iterator[tuple[Row, Weighed]]:
    for row in rows:
        if _is_known(row):
            yield row, _weighed(row, at_least=at_least)


def _is_known(row: Row) -> bool:
    return (row.percent_worn, row.low, row.high) != (None, None, None)


def _only_at_least(rows: Sequence[Row]) -> bool:
    """Whether nothing was measured and every estimate that has a share is a lower bound."""
    if any(row.basis is Basis.MEASURED for row in rows):
        return False
    kinds = {row.estimate.kind for row in rows if row.estimate is not None and row.share > 0.0}
    return kinds == {Estimate.AT_LEAST}


def _weighed(row: Row, *, at_least: bool) -> Weighed:
    """A bushing counts by the life used; of an estimate the middle of its range, or with `at_least` its lower end."""
    if row.basis is Basis.MEASURED and row.percent_worn is not None:
        per_side = 1.0 if row.turning is None else 1.0 / (row.turning.allowed + 1)
        worn = min(_life_percent(row, row.percent_worn), 100.0)
        return Weighed(row.share, worn, budget=row.budget.times(per_side) if row.budget else CERTAIN)
    low, high = (_life_percent(row, percent) for percent in within_scale(row.low, row.high))
    if at_least:
        return Weighed(row.share, low)
    return Weighed(row.share, (low + high) / 2.0, half_width=(high - low) / 2.0)


def _life_percent(row: Row, percent_worn: float) -> float:
    return percent_worn if row.turning is None else 100.0 * life_used(row.turning, percent_worn)
