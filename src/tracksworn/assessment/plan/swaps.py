"""Parts that would last longer in each other's place. Advice for the next visit; it is never planned work."""

import math
from collections.abc import Iterator, Mapping, Sequence

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.boundaries import exceeds, first_highest, reaches
from tracksworn.assessment.decisions import Swap
from tracksworn.assessment.model import Row
from tracksworn.assessment.plan.work import money
from tracksworn.assessment.sides import middle_of
from tracksworn.assessment.so_far import SoFar
from tracksworn.assessment.uncertainty import weighted_sum
from tracksworn.inspection.prices import Price, Prices, Work
from tracksworn.inspection.vocabulary import ROLLERS, Component, Grade, Side, Sign

UNSOUND = frozenset(
    {
        Sign.LEAK, Sign.CRACK, Sign.BENT, Sign.LOOSE, Sign.MISSING, Sign.SEIZED, Sign.FLAT_SPOT, Sign.END_PLAY,
        Sign.HOT, Sign.HEAT_MARK, Sign.SIDE_WEAR, Sign.FLANGE_WORN, Sign.FLANGE_CONTACT, Sign.WRONG_PART,
    }
)  # fmt: skip
"""What another place does not mend, or would carry to another place. Judgement."""


def swaps(so_far: SoFar, prices: Prices) -> tuple[Swap, ...]:
    """Every swap that is priced and would help, in the order of the prices.

    That a swap helps is judgement: a part that wears faster where it sits hands over to one that has worn less there,
    so that both come to their limit later than the worse would have. It is advised only where the two are shown to
    differ, while the more worn is within the window that the price file allows and short of its limit, and where
    nothing was seen on either that another place would not mend. Which flanges a roller must have at its place no file
    says: that is left to the maker's manual.
    """
    found: list[Swap] = []
    for component, ways in prices.components.items():
        if Work.SWAP_SIDES in ways:
            found.extend(_of_sides(so_far, component, ways[Work.SWAP_SIDES], prices))
        if Work.SWAP_POSITIONS in ways and component in ROLLERS:
            found.extend(_of_positions(so_far, component, ways[Work.SWAP_POSITIONS], prices))
    return tuple(found)


def _of_sides(so_far: SoFar, component: Component, price: Price, prices: Prices) -> Iterator[Swap]:
    """Left with right where the comparison of sides says that they differ; both sides' work is paid for."""
    entry = so_far.comparison(component)
    if entry is None or not entry.differs or entry.left is None or entry.right is None:
        return
    if not all(_sound(so_far, row) for row in so_far.rows(component)):
        return
    left, right = entry.left.percent_worn, entry.right.percent_worn
    if left is None or right is None or not _in_window(max(left, right), price):
        return
    cost = len(so_far.rows(component)) * money(price, prices)
    yield Swap(component, Work.SWAP_SIDES, None, None, (max(left, right), min(left, right)), cost)


def _of_positions(so_far: SoFar, component: Component, price: Price, prices: Prices) -> Iterator[Swap]:
    """The most worn roller of a side with its least worn, where these differ; both rollers' work is paid for.

    Only rollers of one size change places: the first and the last may be others than those between.
    """
    for side in Side:
        rows = [row for row in so_far.rows(component, side) if _sound(so_far, row)]
        for alike in _by_size(rows).values():
            most = first_highest(alike, _percent)
            least = first_highest(alike, lambda row: -_percent(row))
            if most is None or least is None or most.position is None or least.position is None:
                continue
            if _differ(most, least, so_far.assumed) and _in_window(_percent(most), price):
                between = (most.position, least.position)
                worn = (_percent(most), _percent(least))
                yield Swap(component, Work.SWAP_POSITIONS, side, between, worn, 2.0 * money(price, prices))


def _by_size(rows: Sequence[Row]) -> Mapping[tuple[float, float] | None, list[Row]]:
    """The positions seen with a middle figure, by new size and limit."""
    alike: dict[tuple[float, float] | None, list[Row]] = {}
    for row in rows:
        if row.percent_worn is not None:
            size = None if row.scale is None else (row.scale.new, row.scale.limit)
            alike.setdefault(size, []).append(row)
    return alike


def _percent(row: Row) -> float:
    assert row.percent_worn is not None
    return row.percent_worn


def _differ(most: Row, least: Row, table: Assumptions) -> bool:
    """By the least difference that matters, and by more than its own uncertainty, 95 %.

    Shared errors cancel; half-widths of estimates add up and are joined as they are for two sides.
    """
    one, other = middle_of(most), middle_of(least)
    if one is None or other is None:
        return False
    apart = one.percent - other.percent
    budget = weighted_sum(((1.0, one.budget), (-1.0, other.budget)))
    within = math.hypot(budget.expanded, one.half_width + other.half_width)
    return reaches(apart, table.least_difference) and exceeds(apart, within)


def _sound(so_far: SoFar, row: Row) -> bool:
    """Whether nothing was seen on a part, or on what may be it, that speaks against another place for it."""
    return not any(
        seen.grade is not Grade.NONE
        and not UNSOUND.isdisjoint(seen.seen)
        and seen.at.part is row.component
        and seen.at.side in (None, row.side)
        and (row.position is None or seen.at.number in (None, row.position))
        for seen in so_far.inspection.observations
    )


def _in_window(worn: float, price: Price) -> bool:
    """Whether the more worn part is within the way's window and short of its limit."""
    begins = -math.inf if price.from_percent is None else price.from_percent
    ends = math.inf if price.until_percent is None else price.until_percent
    return reaches(worn, begins) and reaches(ends, worn) and not reaches(worn, 100.0)
