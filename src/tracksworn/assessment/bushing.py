"""The life of a bushing that can be turned: each turn gives it a further side to wear."""

from collections.abc import Iterable

from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.fitting import fitting_of
from tracksworn.assessment.model import Turning
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component, Side, Track


def turning_of(inspection: Inspection, chart: WearChart | None, component: Component, side: Side) -> Turning | None:
    """Turns allowed and made; None for all but bushings, without `turns` in the chart, and for rotating bushings."""
    entry = chart.components.get(component) if chart else None
    if component is not Component.BUSHING or entry is None or entry.turns is None:
        return None
    if inspection.machine.track is Track.ROTATING_BUSHING:
        return None
    fitting = fitting_of(inspection, component, side)
    if fitting is not None and fitting.turned_at is not None:
        return Turning(entry.turns, made=min(1, entry.turns), known=True)
    if fitting is not None and fitting.not_turned:
        return Turning(entry.turns, made=0, known=True)
    return Turning(entry.turns, made=entry.turns, known=False)


def life_used(turning: Turning, percent_worn: float) -> float:
    """(k + w/100)/(T + 1), a fraction of 1, for k turns made of T; past the limit it can no longer be turned, so 1."""
    if exceeds(percent_worn, 100.0):
        return 1.0
    return (turning.made + percent_worn / 100.0) / (turning.allowed + 1)


def rails_outlast_a_turn(forecast: Iterable[ForecastRow], bushing: ForecastRow) -> bool | None:
    """Whether the links of its side last as long as the bushing's first side has left and its second side will.

    The second side is expected to last its whole life, at the rate of the first. None where nothing is forecast of
    those links.
    """
    links = (row for row in forecast if (row.component, row.side) == (Component.LINK, bushing.side))
    link = next(links, None)
    return None if link is None else reaches(link.hours_left, bushing.hours_left + bushing.whole_life)
