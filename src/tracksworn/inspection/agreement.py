"""What must hold between files: an inspection and its chart, and an inspection and the earlier ones it names."""

import re
from collections.abc import Iterable, Iterator
from datetime import date
from itertools import pairwise

from tracksworn.inspection.chart import ChartComponent, WearChart
from tracksworn.inspection.file_types.inspection import InspectionFile
from tracksworn.inspection.file_types.readings import GaugesBySide, ReadingFile
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.values import ByPlace, ByPosition, SideReading, Sizes
from tracksworn.inspection.vocabulary import TRAVELS, Component, Side
from tracksworn.inspection.written import FaultList, Mark, one_of, quoted, suggestion

_PIN = re.compile(r"[A-HJ-NPR-Z0-9]{8}[A-HJ-NPR-Z][A-HJ-NPR-Z0-9]{8}")
_HOURS_A_DAY = 24.0


def tell_doubts(file: InspectionFile, faults: FaultList) -> None:
    """Warn of what is allowed in an inspection and likely a slip: a serial's form, a gauge that is not listed."""
    if (
        file.machine
        and file.machine.serial
        and len(file.machine.serial) == 17
        and not _PIN.fullmatch(file.machine.serial)
    ):
        faults.warn(
            file.machine.where("serial"),
            f"{quoted(file.machine.serial)} has 17 characters and not the form of a PIN (ISO 10261): "
            "capital letters but I, O and Q, digits, and a letter in the ninth place",
        )
    known = tuple(file.instruments or {})
    for _, reading in file.readings.of_components() if file.readings else ():
        for side, gauge in _gauges(reading):
            if gauge not in known and known:
                faults.warn(
                    _gauge_mark(reading, side),
                    f"{quoted(gauge)} is not listed under `instruments`, so its error is assumed; "
                    f"{suggestion(gauge, known)}",
                )


def tell_against_chart(file: InspectionFile, chart: WearChart, faults: FaultList) -> None:
    """Note a gauge that no way of the chart matches; warn of sizes without a chart entry and of another layout."""
    layout = file.machine.layout if file.machine else None
    if layout is not None and layout is not chart.layout:
        faults.warn(file.where("chart"), f"the chart is for the layout `{chart.layout}`, the machine is `{layout}`")
    for component, reading in file.readings.of_components() if file.readings else ():
        entry = chart.components.get(component)
        measured = [side for side, values in reading.sides() if _has_sizes(values)]
        if not measured:
            continue
        if entry is None or not _has_scale(entry):
            what = "no entry for it" if entry is None else "no sizes for it"
            kept = "print without travel used" if component in TRAVELS else "print without percent"
            faults.warn(reading.where(measured[0]), f"the chart has {what}; the sizes of the {component} {kept}")
        elif entry.ways:
            _tell_ways(component, reading, entry, measured, faults)


def _tell_ways(
    component: Component, reading: ReadingFile, entry: ChartComponent, measured: list[Side], faults: FaultList
) -> None:
    gauges = dict(_gauges(reading))
    for side in measured:
        gauge = gauges.get(side)
        if gauge is None:
            faults.add(
                reading.where(side),
                f"the chart has several ways to measure the {component}; write `with:` {one_of(entry.ways)}",
            )
        elif gauge not in entry.ways:
            faults.add(
                _gauge_mark(reading, side),
                f"the chart has no way to measure the {component} with {quoted(gauge)}; "
                f"{suggestion(gauge, entry.ways)}",
            )


def tell_against_earlier(file: InspectionFile, earlier: Inspection, mark: Mark, faults: FaultList) -> None:
    """Note an earlier inspection of another machine or a later day, and hours that cannot have grown so.

    Another revision of the inspection itself is no earlier one.
    """
    if file.machine is None:
        return
    if file.machine.serial is not None and earlier.machine.serial != file.machine.serial:
        faults.add(
            mark,
            f"this earlier inspection is of the serial {quoted(earlier.machine.serial)}, "
            f"not {quoted(file.machine.serial)}",
        )
        return
    if earlier.number == file.number:
        faults.add(mark, f"this is revision {earlier.revision} of {earlier.number} itself, not an earlier inspection")
        return
    if file.inspected is None:
        return
    if earlier.inspected > file.inspected:
        faults.add(mark, f"this inspection is dated {earlier.inspected}, later than the one that calls it earlier")
        return
    hours = file.machine.machine_hours
    if hours is not None and earlier.machine.hours is not None:
        what = _hours_against(hours, file.inspected, earlier.machine.hours.machine, earlier)
        if what:
            faults.add(file.machine.where("hours"), f"the hours are {what}")


def tell_among_earlier(earlier: Iterable[tuple[Mark, Inspection]], faults: FaultList) -> None:
    """Note two revisions of one inspection among those named as earlier, and hours that cannot have grown so.

    Each stands with the place that names it. A line through the readings would count a revision as one look more.
    """
    named: dict[str, tuple[Mark, Inspection]] = {}
    for mark, one in earlier:
        first, other = named.setdefault(one.number, (mark, one))
        if other is not one:
            faults.add(
                mark,
                f"this is revision {one.revision} of {one.number}, of which line {first.line} names "
                f"revision {other.revision}; name the latest alone",
            )
    _tell_hours_among(named.values(), faults)


def _tell_hours_among(earlier: Iterable[tuple[Mark, Inspection]], faults: FaultList) -> None:
    """Told at the later of two that follow each other; of one day the one with fewer hours goes before."""
    known = [(one.inspected, one.machine.hours.machine, mark, one) for mark, one in earlier if one.machine.hours]
    in_time = sorted(known, key=lambda each: each[:2])
    for (_, before, _, older), (day, hours, mark, newer) in pairwise(in_time):
        what = _hours_against(hours, day, before, older)
        if what:
            faults.add(mark, f"the hours of {newer.number} are {what}")


def _hours_against(hours: float, on: date, before: float, earlier: Inspection) -> str | None:
    """Hours never fall, and rise by at most 24 a day (ISO 15143-3); within one day by 24."""
    grown = round(hours - before, 6)  # the sum of 7000.7 and 999.4 is no less than 8000.1
    if grown < 0.0:
        return (
            f"fewer than the {before:.10g} of {earlier.number}; where the meter was replaced, "
            "write `hours: {shown: …, meter replaced at: …}`"
        )
    most = _HOURS_A_DAY * max((on - earlier.inspected).days, 1)
    if grown > most:
        return (
            f"{grown:.10g} more than in {earlier.number}, and since {earlier.inspected} "
            f"at most {most:g} can have passed"
        )
    return None


def _gauges(reading: ReadingFile) -> Iterator[tuple[Side, str]]:
    gauge = reading.with_
    for side in Side:
        name = getattr(gauge, side.value) if isinstance(gauge, GaugesBySide) else gauge
        if isinstance(name, str) and reading.written(side) is not None:
            yield side, name


def _gauge_mark(reading: ReadingFile, side: Side) -> Mark:
    gauge = reading.with_
    return gauge.where(side) if isinstance(gauge, GaugesBySide) else reading.where("with")


def _has_sizes(values: SideReading) -> bool:
    if isinstance(values, Sizes):
        return bool(values.measured)
    if isinstance(values, ByPlace):
        return any(_has_sizes(value) for value in values.entries.values())
    if isinstance(values, ByPosition):
        return any(_has_sizes(value) for value in (*values.entries.values(), values.others) if value is not None)
    return False


def _has_scale(entry: ChartComponent) -> bool:
    if entry.component is Component.SAG:
        return entry.range is not None
    if entry.component in TRAVELS:
        return entry.start is not None
    return entry.dimensions is not None or bool(entry.ways)
