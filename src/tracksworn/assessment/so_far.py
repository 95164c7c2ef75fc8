"""What is known of a machine before anything is concluded from it."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, wraps
from typing import Any, Concatenate, ParamSpec, TypeVar

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.model import Reckoning
from tracksworn.assessment.occasions import Occasion
from tracksworn.inspection.chart import ChartComponent, WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component

P = ParamSpec("P")
T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class SoFar(Reckoning):
    """The figures of an assessment and what they were computed from: all that a cross-check may look at."""

    inspection: Inspection
    chart: WearChart | None
    assumed: Assumptions
    earlier: tuple[Occasion, ...] = ()  # older inspections by the present chart and assumed values, oldest first
    forecast: tuple[ForecastRow, ...] | None = None

    @cached_property
    def concluded(self) -> dict[object, Any]:
        """What several cross-checks ask of it, by what works it out: see `once`."""
        return {}

    @property
    def occasion(self) -> Occasion:
        """This inspection as one look among others."""
        return Occasion(self.inspection, self)

    def entry(self, what: object) -> ChartComponent | None:
        """What the chart says of a component; None without a chart, and of all that is no component."""
        return self.chart.components.get(what) if self.chart and isinstance(what, Component) else None


def once(of: Callable[Concatenate[SoFar, P], T]) -> Callable[Concatenate[SoFar, P], T]:
    """A conclusion that is worked out once for one machine, however many cross-checks ask for it."""

    @wraps(of)
    def kept(so_far: SoFar, /, *args: P.args, **kwargs: P.kwargs) -> T:
        asked = (of, args, *kwargs.items())
        if asked not in so_far.concluded:
            so_far.concluded[asked] = of(so_far, *args, **kwargs)
        return so_far.concluded[asked]  # type: ignore[no-any-return]

    return kept
