"""Which errors two assessed inspections share, of two machines or of one.

An inspector and a gauge are the same wherever their names are. Doubts about a chart belong to the chart, so they are
shared where both charts have equal content; the part-to-part tolerance belongs to the part, so it is shared only by
two looks at one part.
"""

from collections.abc import Hashable
from dataclasses import dataclass

from tracksworn.assessment.comparing.agreement import is_renewed
from tracksworn.assessment.comparing.model import Assessed
from tracksworn.assessment.occasions import of_its_own, on_occasion, told_apart
from tracksworn.assessment.uncertainty import Budget, Kind, Source

OF_THE_CHART_ALONE = frozenset({Kind.NEW_DOUBT, Kind.LIMIT})
"""Errors of a chart, the same for every machine that it is read for."""


@dataclass(frozen=True, slots=True)
class Sharing:
    """How the budgets of two inspections are told apart before they are joined."""

    same_machine: bool
    same_chart: bool
    renewed: frozenset[tuple[Hashable, ...]]  # component, side and position of parts fitted between the two

    def first(self, budget: Budget) -> Budget:
        """A budget of the first, with all that the second does not share marked as its own."""
        return self._marked(budget, 1)

    def second(self, budget: Budget) -> Budget:
        """A budget of the second, likewise."""
        return self._marked(budget, 2)

    def _marked(self, budget: Budget, mark: int) -> Budget:
        marked = told_apart(on_occasion(budget, mark), mark, self._is_another_part)
        return marked if self.same_chart else of_its_own(marked, OF_THE_CHART_ALONE, mark)

    def _is_another_part(self, source: Source) -> bool:
        return source.kind is Kind.TOLERANCE and (not self.same_machine or source.of in self.renewed)


def sharing(first: Assessed, second: Assessed, *, same_machine: bool) -> Sharing:
    """What these two share."""
    parts = {(row.component, row.side, row.position) for row in first.assessment.components}
    renewed = (part for part in parts if is_renewed(first.occasion, second.occasion, *part, or_turned=False))
    return Sharing(same_machine, first.chart == second.chart, frozenset(renewed) if same_machine else frozenset())
