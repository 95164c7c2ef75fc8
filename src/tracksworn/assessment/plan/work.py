"""What will be done to each part that is forecast: the cheapest way that is priced and open."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.bushing import rails_outlast_a_turn
from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.prices import Price, Prices, Work

AT_THE_LIMIT = (Work.REPLACE, Work.TURN, Work.REBUILD, Work.RE_SHELL, Work.RE_GROUSER)
"""What can be planned; of equal costs the first. Swaps are advice."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of work, due when its part reaches the limit. Money; hours from the inspection."""

    row: ForecastRow
    way: Work
    parts: float
    labour: float

    @property
    def cost(self) -> float:
        """Parts and labour."""
        return self.parts + self.labour

    @property
    def per_hour(self) -> float:
        """What an hour of the part's life costs: its work over its whole life."""
        return self.cost / self.row.whole_life

    def life_lost(self, at: float) -> float:
        """The part of its cost that pays for life thrown away by working after `at` hours."""
        return self.per_hour * (self.row.hours_left - at)


def pieces(so_far: SoFar, prices: Prices) -> Iterator[Piece]:
    """One piece for each forecast row that has a way open, in their order. A roller's is of the governing one alone."""
    for row in so_far.forecast or ():
        found = _cheapest(so_far, row, prices)
        if found is not None:
            yield found


def money(price: Price, prices: Prices) -> float:
    """Parts and labour of one way."""
    return price.parts + price.labour * prices.labour_per_hour


def _cheapest(so_far: SoFar, row: ForecastRow, prices: Prices) -> Piece | None:
    priced: Mapping[Work, Price] = prices.components.get(row.component, {})
    ways = [way for way in AT_THE_LIMIT if way in priced and _is_open(so_far, row, way, priced[way])]
    best: Work | None = None
    for way in ways:
        if best is None or exceeds(money(priced[best], prices), money(priced[way], prices)):
            best = way
    if best is None:
        return None
    return Piece(row, best, priced[best].parts, priced[best].labour * prices.labour_per_hour)


def _is_open(so_far: SoFar, row: ForecastRow, way: Work, price: Price) -> bool:
    """Work is done at the limit, or at once where that is past, so that must lie in the way's window.

    Where its window begins (`from`) is not heeded: at the limit it always has.
    """
    worn = _percent_worn(so_far, row)
    in_window = price.until_percent is None or reaches(price.until_percent, max(worn, 100.0))
    return in_window and (way is not Work.TURN or _can_turn(so_far, row, worn))


def _percent_worn(so_far: SoFar, row: ForecastRow) -> float:
    part = so_far.row(row.component, row.side, row.position)
    assert part is not None
    assert part.percent_worn is not None
    return part.percent_worn


def _can_turn(so_far: SoFar, bushing: ForecastRow, worn: float) -> bool:
    """A turn is left, the bushing is not past its limit, and the rails outlive the side that a turn brings up.

    Rails of which nothing is forecast do not show that they do.
    """
    part = so_far.row(bushing.component, bushing.side)
    turning = part.turning if part else None
    if turning is None or turning.made >= turning.allowed or exceeds(worn, 100.0):
        return False
    return rails_outlast_a_turn(so_far.forecast or (), bushing) is True
