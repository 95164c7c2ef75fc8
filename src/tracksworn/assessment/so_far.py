"""What is known of a machine before anything is concluded from it."""

from dataclasses import dataclass

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.model import Reckoning
from tracksworn.assessment.occasions import Occasion
from tracksworn.inspection.chart import ChartComponent, WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component


@dataclass(frozen=True, slots=True, kw_only=True)
class SoFar(Reckoning):
    """The figures of an assessment and what they were computed from: all that a cross-check may look at."""

    inspection: Inspection
    chart: WearChart | None
    assumed: Assumptions
    earlier: tuple[Occasion, ...] = ()  # older inspections by the present chart and assumed values, oldest first
    forecast: tuple[ForecastRow, ...] | None = None

    @property
    def occasion(self) -> Occasion:
        """This inspection as one look among others."""
        return Occasion(self.inspection, self)

    def entry(self, what: object) -> ChartComponent | None:
        """What the chart says of a component; None without a chart, and of all that is no component."""
        return self.chart.components.get(what) if self.chart and isinstance(what, Component) else None
