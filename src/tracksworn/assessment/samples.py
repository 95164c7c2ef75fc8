"""A reading spread out: what was said of each side, position and place."""

from collections.abc import Sequence
from dataclasses import dataclass

from tracksworn.inspection.chart import ChartComponent
from tracksworn.inspection.model import Machine, Reading
from tracksworn.inspection.values import ByPlace, ByPosition, SideReading, Sizes, Value
from tracksworn.inspection.vocabulary import ROLLERS, Component, PartPlace, Side


@dataclass(frozen=True, slots=True)
class Sample:
    """What was said of one part at one place."""

    side: Side
    position: int | None  # of rollers
    place: PartPlace | None
    value: Value
    joints: tuple[int, ...] | None = None  # as many as `value` has entries
    gauge: str | None = None


def positions(component: Component, machine: Machine, reading: Reading | None) -> tuple[int | None, ...]:
    """The positions on each side: rollers count from 1, all else is one part without a number.

    Without a count in the machine the highest position named on either side is the count, 1 where none is.
    """
    if component not in ROLLERS:
        return (None,)
    stated = machine.bottom_rollers if component is Component.BOTTOM_ROLLER else machine.top_rollers
    named = max((_highest(reading.sides[side]) for side in Side), default=0) if reading else 0
    count = max(named, 1) if stated is None else max(named, stated)
    return tuple(range(1, count + 1))


def place_order(reading: Reading | None, entry: ChartComponent | None) -> tuple[PartPlace | None, ...]:
    """All places that were read, in the order of the chart, then of the reading."""
    named: list[PartPlace | None] = list(entry.places) if entry else []
    for side in Side:
        value = reading.sides[side] if reading else None
        places = tuple(value.entries) if isinstance(value, ByPlace) else (None,)
        named += [place for place in places if place not in named]
    return tuple(named)


def samples(
    reading: Reading | None, where: Sequence[int | None], order: tuple[PartPlace | None, ...]
) -> tuple[Sample, ...]:
    """What the file says of each side, position and place: left before right, front before rear, places in order."""
    if reading is None:
        return ()
    return tuple(
        _sample(reading, side, position, place, value)
        for side in Side
        for position in where
        for place in order
        if (value := _at_position(_at_place(reading.sides[side], place), position)) is not None
    )


def _sample(reading: Reading, side: Side, position: int | None, place: PartPlace | None, value: Value) -> Sample:
    joints = reading.joints[side]
    numbered = joints is not None and isinstance(value, Sizes) and len(joints) == len(value.values)
    return Sample(side, position, place, value, joints if numbered else None, reading.gauge[side])


def _at_place(value: SideReading | None, place: PartPlace | None) -> Value | ByPosition | None:
    if isinstance(value, ByPlace):
        return value.entries.get(place) if place is not None else None
    return value if place is None else None


def _at_position(value: Value | ByPosition | None, position: int | None) -> Value | None:
    """On rollers a list goes by position, an estimate or a reason holds for each, a mapping may speak of the others."""
    match value:
        case ByPosition(entries, others):
            return None if position is None else entries.get(position, others)
        case Sizes(values, unit) if position is not None:
            size = values[position - 1] if position <= len(values) else None
            return None if size is None else Sizes((size,), unit)
        case _:
            return value


def _highest(value: SideReading | None) -> int:
    match value:
        case ByPlace(entries):
            return max(map(_highest, entries.values()), default=0)
        case ByPosition(entries):
            return max(entries, default=0)
        case Sizes(values):
            return len(values)
        case _:
            return 0
