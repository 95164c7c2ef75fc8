"""What is known of a machine before anything is concluded from it."""

from dataclasses import dataclass

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.model import Comparison, Overall, Row, Travel
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component, Impact, Side


@dataclass(frozen=True, slots=True)
class SoFar:
    """The figures of an assessment and what they were computed from: all that a cross-check may look at."""

    inspection: Inspection
    chart: WearChart | None
    impact: Impact | None  # as told; None: limits by impact were taken nearer to the new size
    components: tuple[Row, ...]
    sides: tuple[Comparison, ...]
    overall: Overall
    travel: tuple[Travel, ...]
    assumed: Assumptions

    def row(self, component: Component, side: Side, position: int | None = None) -> Row | None:
        """The row of that part, or None where there is none."""
        wanted = (component, side, position)
        return next((row for row in self.components if (row.component, row.side, row.position) == wanted), None)

    def rows(self, component: Component, side: Side | None = None) -> tuple[Row, ...]:
        """All rows of a component, on one side or both."""
        return tuple(row for row in self.components if row.component is component and side in (None, row.side))

    def comparison(self, component: Component) -> Comparison | None:
        """Left against right for a component, or None where neither side was seen."""
        return next((entry for entry in self.sides if entry.component is component), None)

    def travelled(self, component: Component, side: Side) -> Travel | None:
        """Adjuster, cushion or sag of one side, or None where no size was taken."""
        return next((entry for entry in self.travel if (entry.component, entry.side) == (component, side)), None)
