"""What is left in an undercarriage, and what it costs to make it new."""

import math
from dataclasses import dataclass

from tracksworn.assessment.overall import lives
from tracksworn.assessment.plan.work import money
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.prices import Prices, Work


@dataclass(frozen=True, slots=True)
class Worth:
    """Money: replacement costs by the life that is left, and by the life that is used."""

    left: float
    to_restore: float


def worth(so_far: SoFar, prices: Prices) -> Worth:
    """Over every part that was seen and can be replaced at a price; the two add up to replacing all of those.

    The life used is that of the overall figure, so a bushing's turns count, but never less than none. What was not
    seen counts in neither.
    """
    replaced = [
        (money(ways[Work.REPLACE], prices), max(used / 100.0, 0.0))
        for row, used in lives(so_far.components)
        if Work.REPLACE in (ways := prices.components.get(row.component, {}))
    ]
    return Worth(
        left=math.fsum(cost * (1.0 - used) for cost, used in replaced),
        to_restore=math.fsum(cost * used for cost, used in replaced),
    )
