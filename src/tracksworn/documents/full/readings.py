"""Every reading as it was taken, the gauges and the chart."""

from collections.abc import Iterator

from tracksworn.assessment.model import AssumedValue, Basis
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.view import InstrumentView, Labelled, ReadingView
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import DASH, NO_BREAK, as_written
from tracksworn.documents.words.language import N_
from tracksworn.inspection.model import Instrument, JointTemperatures, Reading
from tracksworn.inspection.values import ByEye, ByPlace, ByPosition, NotSeen, SideReading, Sizes, Value
from tracksworn.inspection.vocabulary import CHAINS, Component, PartPlace, Side


def reading_views(context: Context) -> tuple[ReadingView, ...]:
    """All readings in the trade's order, left before right, place by place and position by position."""
    found = [
        view
        for component in Component
        if (reading := context.inspection.readings.get(component)) is not None
        for side in Side
        for view in _side(reading, side, context)
    ]
    temperatures = context.inspection.joint_temperatures
    return (*found, *(_temperatures(temperatures, context) if temperatures is not None else ()))


def _side(reading: Reading, side: Side, context: Context) -> Iterator[ReadingView]:
    said = reading.sides[side]
    if said is None:
        return
    kept = written_decimals(reading)
    for place, position, value in _values(said):
        number = 1 if position is None and reading.component in context.figures.lone else position
        subject = Subject(reading.component, side, number, place)
        yield ReadingView(
            part=labels.opening(context.figures.part(subject)),
            values=_said(value, kept, context),
            at=_joints(reading, side, value, context),
            gauge=reading.gauge[side] or "" if isinstance(value, Sizes) else "",
            basis=_basis(value),
        )


def written_decimals(reading: Reading) -> int:
    """The decimals with which all sizes of a component, both sides, say what was read."""
    sizes = [
        value
        for side in Side
        if (said := reading.sides[side]) is not None
        for _, _, value in _values(said)
        if isinstance(value, Sizes)
    ]
    return max((as_written(one) for one in sizes), default=0)


def _values(said: SideReading) -> Iterator[tuple[PartPlace | None, int | None, Value]]:
    if isinstance(said, ByPlace):
        for place, at_place in said.entries.items():
            for _, position, value in _values(at_place):
                yield place, position, value
    elif isinstance(said, ByPosition):
        for position, value in said.entries.items():
            yield None, position, value
        if said.others is not None:
            yield None, None, said.others
    else:
        yield None, None, said


def _said(value: Value, kept: int, context: Context) -> str:
    match value:
        case Sizes():
            return context.figures.as_taken(value, kept)
        case ByEye():
            estimate = context.figures.estimate(value) + NO_BREAK + "%"
            return context.say(N_("by eye {estimate}"), estimate=estimate)
        case NotSeen(reason):
            return context.say(N_("not seen: {reason}"), reason=reason)


def _basis(value: Value) -> Basis:
    match value:
        case Sizes():
            return Basis.MEASURED if value.measured else Basis.NOT_SEEN
        case ByEye():
            return Basis.BY_EYE
        case NotSeen():
            return Basis.NOT_SEEN


def _joints(reading: Reading, side: Side, value: Value, context: Context) -> str:
    joints = reading.joints[side]
    if joints is None or not isinstance(value, Sizes):
        return ""
    if reading.component not in CHAINS and reading.component is not Component.PITCH:
        return ""
    numbers = ", ".join(map(str, joints))
    return context.say(N_("joints {numbers}"), numbers=numbers)


def _temperatures(temperatures: JointTemperatures, context: Context) -> Iterator[ReadingView]:
    circumstances = []
    if temperatures.after:
        circumstances.append(context.say(N_("after {time}"), time=temperatures.after))
    if temperatures.ambient is not None:
        air = context.figures.temperature(temperatures.ambient)
        circumstances.append(context.say(N_("air {temperature}"), temperature=air))
    for side in Side:
        read, joints = temperatures.sides[side], temperatures.joints[side]
        if read is None:
            continue
        values = [DASH if one is None else context.figures.temperature(one) for one in read.values]
        at = [context.say(N_("joints {numbers}"), numbers=", ".join(map(str, joints)))] if joints else []
        name = context.say(labels.SIDED[side], part=context.say(N_("joint temperatures")))
        yield ReadingView(labels.opening(name), ", ".join(values), ", ".join([*at, *circumstances]), "", Basis.MEASURED)


# --- gauges ---


def instruments(context: Context) -> tuple[InstrumentView, ...]:
    """The gauges in the order of the inspection."""
    return tuple(_instrument(one, context) for one in context.inspection.instruments.values())


def _instrument(gauge: Instrument, context: Context) -> InstrumentView:
    unknown = context.say(N_("not recorded"))
    checked = [gauge.velocity] if gauge.velocity else []
    if gauge.checked_on:
        checked.append(context.say(N_("checked on {what}"), what=gauge.checked_on))
    return InstrumentView(
        name=labels.opening(gauge.name),
        resolution=unknown if gauge.resolution is None else context.figures.small_length(gauge.resolution),
        accuracy=_accuracy(gauge, context),
        calibrated=_calibrated(gauge, context),
        certificate=gauge.certificate or "",
        checked=", ".join(checked),
    )


def _accuracy(gauge: Instrument, context: Context) -> str:
    if gauge.uncertainty is not None:
        size = context.figures.small_length(gauge.uncertainty)
        return context.say(N_("U {size}, k {k}"), size=size, k=context.figures.exact(gauge.k))
    if gauge.accuracy is not None:
        return f"±{NO_BREAK}{context.figures.small_length(gauge.accuracy)}"
    letter = context.letters.get(AssumedValue.INSTRUMENT)
    return context.say(N_("assumed {letter}"), letter=letter) if letter else context.say(N_("not recorded"))


def _calibrated(gauge: Instrument, context: Context) -> str:
    if gauge.calibrated is None:
        return context.say(N_("not recorded"))
    day = context.figures.short_day(gauge.calibrated)
    if gauge.due is None:
        return day
    if gauge.due < context.inspection.inspected:
        return context.say(N_("{day}, overdue since {due}"), day=day, due=context.figures.short_day(gauge.due))
    return context.say(N_("{day}, due {due}"), day=day, due=context.figures.short_day(gauge.due))


# --- the chart ---


def chart_lines(context: Context) -> tuple[Labelled, ...]:
    """What the percents rest on, or why they rest on nothing."""
    chart, say = context.chart, context.say
    if chart is None:
        because = context.inspection.no_chart_because or say(N_("no reason recorded"))
        return (Labelled(say(N_("Wear chart")), say(N_("none")), because, strong=True),)
    lines = [Labelled(say(N_("Wear chart")), chart.title), Labelled(say(N_("Source")), chart.source)]
    if chart.stands_in_for is not None:
        lines.append(Labelled(say(N_("Not made for this machine; stands in for")), chart.stands_in_for, strong=True))
    return tuple(lines)
