"""Lists and numbers held against how many there are: rollers, links, and entries altogether."""

import re
from collections.abc import Iterable, Iterator

from tracksworn.inspection.file_types.base import MOST_ENTRIES
from tracksworn.inspection.file_types.machine import MachineFile
from tracksworn.inspection.file_types.observations import ObservationFile
from tracksworn.inspection.file_types.readings import ChainReadingFile, JointsBySide, ReadingFile, ReadingsFile
from tracksworn.inspection.model import FittedPart
from tracksworn.inspection.spots import NUMBERED_BY_JOINT
from tracksworn.inspection.values import ByEye, ByPlace, ByPosition, SideReading, Sizes, Value
from tracksworn.inspection.vocabulary import ROLLERS, Component, ObservedPlace, Side
from tracksworn.inspection.written import TOP, FaultList, Mark, Record


def tell_readings(readings: ReadingsFile, machine: MachineFile, faults: FaultList) -> None:
    """Note positions and joints that the machine has not, and lists of another length."""
    for component, reading in readings.of_components():
        if component in ROLLERS:
            _tell_positions(component, reading, machine.count(component), faults)
        if isinstance(reading, ChainReadingFile) and component in NUMBERED_BY_JOINT:
            _tell_joints(reading, machine, faults)


def tell_observations(observations: Iterable[ObservationFile], machine: MachineFile, faults: FaultList) -> None:
    """Note observations at positions and joints that the machine has not."""
    for observation in observations:
        spot = observation.at
        if spot is not None and spot.number is not None and spot.part is not None:
            what = _not_there(spot.part, spot.number, spot.side, machine)
            if what:
                faults.add(observation.where("at"), what)


def tell_fitted(parts: Iterable[tuple[FittedPart, Mark]], machine: MachineFile, faults: FaultList) -> None:
    """Note parts fitted at positions that the machine has not; each with where it is named."""
    for part, mark in parts:
        what = None if part.position is None else _not_there(part.component, part.position, part.side, machine)
        if what:
            faults.add(mark, what)


def tell_total(readings: ReadingsFile | None, others: int, faults: FaultList) -> None:
    """Note more entries, readings and others together, than a file may have."""
    sides = (side for _, reading in (readings.of_components() if readings else ()) for _, side in reading.sides())
    entries = others + sum(_values(part) for side in sides for part in _parts(side))
    if entries > MOST_ENTRIES:
        faults.add(TOP, f"the file has {entries:,} readings, observations and photos; at most {MOST_ENTRIES:,}")


def _tell_positions(component: Component, file: ReadingFile, count: int | None, faults: FaultList) -> None:
    for side, reading in file.sides():
        lists = [_length(part) for part in _parts(reading) if isinstance(part, Sizes)]
        if count is None:
            continue
        for entries in lists:
            if entries != count:
                faults.add(
                    file.where(side),
                    f"for {count} {component}s a side the list has {count} entries, not {entries}; "
                    "`-` stands for what was not measured",
                )
        if count == 0 and any(isinstance(part, ByEye) for part in _parts(reading)):
            faults.add(file.where(side), f"the machine has no {component}s by its count")
        for position, mark in _positions(file, side):
            if position > count:
                faults.add(mark, f"position {position} is not there: the machine has {count} {component}s a side")


def _length(sizes: Sizes) -> int:
    return len(sizes.values)


def _parts(reading: SideReading) -> Iterator[Value | ByPosition]:
    yield from reading.entries.values() if isinstance(reading, ByPlace) else (reading,)


def _positions(file: ReadingFile, side: Side) -> Iterator[tuple[int, Mark]]:
    node = file.written(side)
    records = [node, *node.values()] if isinstance(node, Record) else []
    for record in records:
        if isinstance(record, Record):
            yield from ((int(key), mark) for key, mark in record.keys_at.items() if re.fullmatch("[0-9]{1,3}", key))


def _tell_joints(file: ChainReadingFile, machine: MachineFile, faults: FaultList) -> None:
    for side in Side:
        links = machine.links_on(side)
        joints = file.joints
        numbers = (joints.left if side is Side.LEFT else joints.right) if isinstance(joints, JointsBySide) else joints
        over = [joint for joint in numbers or () if links is not None and joint > links]
        if over and file.written(side) is not None:
            faults.add(file.where("joints"), f"joint {over[0]} is not there: {links} links were counted on the {side}")


def _not_there(part: Component | ObservedPlace, number: int, side: Side | None, machine: MachineFile) -> str | None:
    if isinstance(part, Component) and part in ROLLERS:
        count = machine.count(part)
        if count is not None and number > count:
            return f"position {number} is not there: the machine has {count} {part}s a side"
    links = machine.links_on(side)
    if part in NUMBERED_BY_JOINT and links is not None and number > links:
        return f"joint {number} is not there: {links} links were counted"
    return None


def _values(part: Value | ByPosition) -> int:
    if isinstance(part, ByPosition):
        return sum(_values(entry) for entry in part.entries.values())
    return len(part.values) if isinstance(part, Sizes) else 1
