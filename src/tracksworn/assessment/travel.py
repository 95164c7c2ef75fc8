"""Adjuster and cushion by travel used, sag against its range: what moves but does not wear."""

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.model import Travel
from tracksworn.assessment.spread import mean
from tracksworn.inspection.chart import ChartComponent, WearChart
from tracksworn.inspection.model import Inspection, Reading
from tracksworn.inspection.values import ByPlace, SideReading, Sizes
from tracksworn.inspection.vocabulary import TRAVELS, Component, Side


def travel(inspection: Inspection, chart: WearChart | None) -> tuple[Travel, ...]:
    """An entry for each side with a size, in the order of a report."""
    entries = chart.components if chart else {}
    return tuple(
        _travel(reading, entries.get(component), side, mean(sizes))
        for component in Component
        if component in TRAVELS and (reading := inspection.readings.get(component)) is not None
        for side in Side
        if (sizes := _sizes(reading.sides[side]))
    )


def _sizes(value: SideReading | None) -> tuple[float, ...]:
    """All that was measured on one side, mm, at whichever place."""
    parts = tuple(value.entries.values()) if isinstance(value, ByPlace) else (value,)
    return tuple(size for part in parts if isinstance(part, Sizes) for size in part.measured)


def _travel(reading: Reading, entry: ChartComponent | None, side: Side, size: float) -> Travel:
    return Travel(reading.component, side, size, _percent_used(entry, size), _in_range(reading, entry, size))


def _percent_used(entry: ChartComponent | None, size: float) -> float | None:
    """100 (x − start)/(end − start)."""
    if entry is None or entry.start is None or entry.end is None:
        return None
    return 100.0 * (size - entry.start) / (entry.end - entry.start)


def _in_range(reading: Reading, entry: ChartComponent | None, size: float) -> bool | None:
    """None without a range, and where nobody told how the machine was stopped and whether the track was packed."""
    if entry is None or entry.range is None or reading.stopped is None or reading.packed is None:
        return None
    low, high = entry.range
    return not exceeds(low, size) and not exceeds(size, high)
