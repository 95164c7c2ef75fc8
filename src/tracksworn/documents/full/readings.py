"""Every reading as it was taken, the gauges and the chart."""

from collections.abc import Iterator

from tracksworn.assessment.model import AssumedValue
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.taken import Taken, no_entry, values_of
from tracksworn.documents.full.view import InstrumentView, Labelled, ReadingView
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import NO_BREAK
from tracksworn.documents.words.language import N_
from tracksworn.documents.words.rounding import FINEST, as_written, in_fractions
from tracksworn.inspection.model import Inspection, Instrument, JointTemperatures, Reading
from tracksworn.inspection.values import ByPlace, Sizes
from tracksworn.inspection.vocabulary import CHAINS, Component, PartPlace, Side


def reading_views(context: Context) -> tuple[ReadingView, ...]:
    """All readings in the trade's order, one row a component and place, left beside right."""
    found = [
        view
        for component in Component
        if (reading := context.inspection.readings.get(component)) is not None
        for view in _rows(reading, context)
    ]
    temperatures = context.inspection.joint_temperatures
    return (*found, *(() if temperatures is None else (_temperatures(temperatures, context),)))


def _rows(reading: Reading, context: Context) -> Iterator[ReadingView]:
    left, right = (Taken(reading.component, written_decimals(reading), context, reading.sides[side]) for side in Side)
    for place in _places(reading):
        yield ReadingView(
            part=labels.opening(context.figures.part(Subject(reading.component, place=place))),
            left=left.at(place),
            right=right.at(place),
            how=_how(reading, place, context),
        )


def _places(reading: Reading) -> tuple[PartPlace | None, ...]:
    """The places that have a row each: none where a side tells no places, as its words hold for all of them."""
    told = [said for side in Side if (said := reading.sides[side]) is not None]
    by_place = [said for said in told if isinstance(said, ByPlace)]
    if len(by_place) < len(told):
        return (None,)
    return tuple(dict.fromkeys(place for said in by_place for place in said.entries))


def written_decimals(reading: Reading) -> int:
    """The decimals with which all sizes of a component, both sides, say what was read."""
    sizes = [value for side in Side for _, value in values_of(reading.sides[side]) if isinstance(value, Sizes)]
    return max((as_written(one) for one in sizes), default=0)


def written_in_fractions(inspection: Inspection) -> bool:
    """Whether inches were read in fractions: some size is one that nobody writes in decimals."""
    return any(
        isinstance(value, Sizes) and in_fractions(value) and as_written(value) == FINEST
        for reading in inspection.readings.values()
        for side in Side
        for _, value in values_of(reading.sides[side])
    )


def _how(reading: Reading, place: PartPlace | None, context: Context) -> str:
    """With what and where both sides were measured, each side for itself where they differ."""
    gauges: list[str | None] = []
    joints: list[str | None] = []
    for side in Side:
        measured = any(
            isinstance(value, Sizes) and value.measured
            for there, value in values_of(reading.sides[side])
            if place in (None, there)
        )
        gauges.append((reading.gauge[side] or "") if measured else None)
        joints.append(_joints(reading, side, context) if measured else None)
    return labels.clauses(
        (words for words in (_of_both(gauges, context), _of_both(joints, context)) if words), context.language
    )


def _of_both(told: list[str | None], context: Context) -> str:
    """What holds for left and right, once where it is the same; None where a side has nothing to tell."""
    known = {side: words for side, words in zip(Side, told, strict=True) if words is not None}
    if len(set(known.values())) <= 1:
        return next(iter(known.values()), "")
    return ", ".join(context.say(labels.SIDED[side], part=words) for side, words in known.items() if words)


def _joints(reading: Reading, side: Side, context: Context) -> str:
    joints = reading.joints[side]
    if joints is None or (reading.component not in CHAINS and reading.component is not Component.PITCH):
        return ""
    return context.say(N_("joints {numbers}"), numbers=", ".join(map(str, joints)))


def _temperatures(temperatures: JointTemperatures, context: Context) -> ReadingView:
    circumstances = []
    if temperatures.after:
        circumstances.append(context.say(N_("after {time}"), time=temperatures.after))
    if temperatures.ambient is not None:
        air = context.figures.temperature(temperatures.ambient)
        circumstances.append(context.say(N_("air {temperature}"), temperature=air))
    joints: list[str | None] = []
    for side in Side:
        read, at = temperatures.sides[side], temperatures.joints[side]
        numbers = context.say(N_("joints {numbers}"), numbers=", ".join(map(str, at))) if at else ""
        joints.append(None if read is None else numbers)
    how = labels.clauses(
        (words for words in (_of_both(joints, context), ", ".join(circumstances)) if words), context.language
    )
    left, right = (
        no_entry(context) if read is None else context.figures.temperatures(read.values)
        for read in (temperatures.sides[side] for side in Side)
    )
    return ReadingView(labels.opening(context.say(N_("joint temperatures"))), left, right, how)


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
