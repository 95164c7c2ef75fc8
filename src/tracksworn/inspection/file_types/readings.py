"""What may stand under `readings`."""

from collections.abc import Callable, Iterator
from typing import Annotated

from pydantic import Field, PlainValidator, ValidationInfo, WithJsonSchema

from tracksworn.inspection import notation
from tracksworn.inspection.file_types.base import BY_SHAPE, AsMapping, AsText, FileType, faults_of, read_words
from tracksworn.inspection.file_types.fields import (
    SeveralTemperatures,
    ShortText,
    Temperature,
    YesOrNo,
    text_of,
)
from tracksworn.inspection.file_types.reading_schema import JOINT_LIST, MOST_POSITIONS, SIDE
from tracksworn.inspection.model import JointTemperatures, Reading
from tracksworn.inspection.numbers import whole
from tracksworn.inspection.values import (
    ByEye,
    ByPlace,
    ByPosition,
    PerSide,
    SideReading,
    Sizes,
    Temperatures,
    Value,
)
from tracksworn.inspection.vocabulary import ROLLERS, TRAVELS, Component, PartPlace, Side
from tracksworn.inspection.written import FaultList, Items, Record, Text, Wrong, quoted

MOST_JOINTS = 999
_OTHERS = "others"


def _value(node: object, faults: FaultList, *, nought: bool) -> Value | None:
    """One entry of a mapping, its fault noted."""
    if not isinstance(node, Text | Items | Record):
        return None
    try:
        if isinstance(node, Text) and not node.strip():
            raise Wrong("a value is missing here; write `-`, a size, an estimate or `not seen (reason)`")
        if isinstance(node, Items):
            raise Wrong("several values stand in one line without brackets, the unit at the end: `131.2, 131.0 mm`")
        return notation.value(text_of(node), nought=nought)
    except Wrong as error:
        faults.wrong(node, error)
        return None


def _by_position(record: Record, faults: FaultList, *, nought: bool) -> ByPosition:
    entries: dict[int, Value] = {}
    others: Value | None = None
    for key, node in record.items():
        if faults.full:
            break
        value = _value(node, faults, nought=nought)
        if key == _OTHERS:
            others = value
            continue
        try:
            position = whole(key, 1, MOST_POSITIONS)
        except Wrong:
            faults.add(
                record.keys_at[key], f"{quoted(key)} is no position; write a number from the front, or `{_OTHERS}`"
            )
            continue
        if value is not None:
            entries[position] = value
    return ByPosition(entries, others)


def _by_place(record: Record, faults: FaultList, *, nought: bool) -> ByPlace:
    entries: dict[PartPlace, Value | ByPosition] = {}
    for key, node in record.items():
        try:
            place = read_words(PartPlace, Text(key, record.keys_at[key]))
        except Wrong as error:
            faults.add(record.keys_at[key], error.what)
            continue
        if isinstance(node, Record):
            entries[place] = _by_position(node, faults, nought=nought)
        elif (value := _value(node, faults, nought=nought)) is not None:
            entries[place] = value
    return ByPlace(entries)


def _side(*, nought: bool) -> Callable[[object, ValidationInfo], SideReading | None]:
    def read(node: object, info: ValidationInfo) -> SideReading | None:
        faults = faults_of(info)
        if not isinstance(node, Record):
            return _value(node, faults, nought=nought)
        if not node:
            raise Wrong("a reading is missing here")
        by_position = any(key == _OTHERS or key[:1].isdigit() for key in node)
        return (_by_position if by_position else _by_place)(node, faults, nought=nought)

    return read


def _joints(node: object) -> tuple[int, ...]:
    if isinstance(node, Items):
        parts = [text_of(item) for item in node]
    else:
        text = text_of(node)
        notation.refuse_tight_commas(text)
        parts = [Text(part.strip(), text.mark) for part in text.split(",")]
    if any(" " in part for part in parts):
        raise Wrong("several joints have commas between them: `3, 13, 23`")
    numbers = tuple(whole(part, 1, MOST_JOINTS) for part in parts)
    if len(set(numbers)) < len(numbers):
        raise Wrong("a joint stands here twice")
    return numbers


JointList = Annotated[
    tuple[int, ...],
    PlainValidator(_joints),
    WithJsonSchema(JOINT_LIST),
]
SideEntry = Annotated[SideReading, PlainValidator(_side(nought=False)), WithJsonSchema(SIDE)]
TravelEntry = Annotated[SideReading, PlainValidator(_side(nought=True)), WithJsonSchema(SIDE)]


class GaugesBySide(FileType):
    """A gauge for each side."""

    left: ShortText | None = Field(None, description="the gauge used on the left")
    right: ShortText | None = Field(None, description="the gauge used on the right")


class JointsBySide(FileType):
    """Numbers of joints for each side."""

    left: JointList | None = Field(None, description="joints measured on the left, counted from the master joint")
    right: JointList | None = Field(None, description="joints measured on the right, counted from the master joint")


GaugeNames = Annotated[AsText[ShortText] | AsMapping[GaugesBySide], BY_SHAPE]
JointNumbers = Annotated[AsText[JointList] | AsMapping[JointsBySide], BY_SHAPE]


def _joints_a_side(numbers: tuple[int, ...] | JointsBySide | None) -> PerSide[tuple[int, ...] | None]:
    if isinstance(numbers, JointsBySide):
        return PerSide(numbers.left, numbers.right)
    return PerSide(numbers, numbers)


class ReadingFile(FileType):
    """A component's readings on both sides."""

    with_: GaugeNames | None = Field(None, description="the gauge, as named under instruments; or one a side")
    left: SideEntry | None = Field(None, description="what the left side read")
    right: SideEntry | None = Field(None, description="what the right side read")

    def sides(self) -> Iterator[tuple[Side, SideReading]]:
        """The sides that have a reading."""
        for side, reading in ((Side.LEFT, self.left), (Side.RIGHT, self.right)):
            if reading is not None:
                yield side, reading

    def rules(self, faults: FaultList) -> None:
        """At least one side."""
        if self.written("left") is None and self.written("right") is None:
            faults.add(self.begins, "a reading is missing here: `left`, `right` or both")

    def reading(self, component: Component) -> Reading:
        """The plain value."""
        gauge = self.with_
        by_side = PerSide(gauge.left, gauge.right) if isinstance(gauge, GaugesBySide) else PerSide(gauge, gauge)
        return Reading(component, PerSide(self.left, self.right), by_side)


class ChainReadingFile(ReadingFile):
    """Readings at joints of the chain, or at places along a rubber track."""

    joints: JointNumbers | None = Field(
        None, description="numbers counted from the master joint; for pitch the first joint of each span; or one a side"
    )

    def rules(self, faults: FaultList) -> None:
        """As many joints as a side has entries."""
        super().rules(faults)
        for side, reading in self.sides():
            count_joints(_joints_a_side(self.joints)[side], reading, side, self, faults)

    def reading(self, component: Component) -> Reading:
        """The plain value."""
        read = super().reading(component)
        return Reading(component, read.sides, read.gauge, _joints_a_side(self.joints))


def count_joints(
    joints: tuple[int, ...] | None, reading: SideReading | Temperatures, side: Side, file: FileType, faults: FaultList
) -> None:
    """Note lists that are longer or shorter than the list of their joints."""
    if joints is None:
        return
    lists = [reading] if not isinstance(reading, ByPlace) else list(reading.entries.values())
    for values in lists:
        if isinstance(values, Sizes | Temperatures) and len(values.values) != len(joints):
            faults.add(
                file.where("joints"),
                f"one number belongs to each value; `joints` has {len(joints)}, the {side} side {len(values.values)}",
            )


class TravelReadingFile(ReadingFile):
    """Rod showing, or a cushion's gap."""

    left: TravelEntry | None = Field(None, description="what the left side read")
    right: TravelEntry | None = Field(None, description="what the right side read")


class SagReadingFile(ReadingFile):
    """Sag, which counts only with how the machine was stopped and whether the track was packed."""

    stopped: ShortText | None = Field(None, description="how the machine came to rest, such as coasting forward")
    packed: YesOrNo | None = Field(None, description="whether the track was packed")

    def reading(self, component: Component) -> Reading:
        """The plain value."""
        read = super().reading(component)
        return Reading(component, read.sides, read.gauge, stopped=self.stopped, packed=self.packed)


class JointTemperatureFile(FileType):
    """How hot joints were."""

    joints: JointNumbers | None = Field(None, description="numbers counted from the master joint; or one list a side")
    left: SeveralTemperatures | None = Field(None, description="temperatures on the left, with C or F at the end")
    right: SeveralTemperatures | None = Field(None, description="temperatures on the right, with C or F at the end")
    after: ShortText | None = Field(None, description="how long after work, such as 30 min")
    ambient: Temperature | None = Field(None, description="temperature of the air")

    def rules(self, faults: FaultList) -> None:
        """At least one side, and as many joints as it has entries."""
        if self.written("left") is None and self.written("right") is None:
            faults.add(self.begins, "a reading is missing here: `left`, `right` or both")
        for side, read in ((Side.LEFT, self.left), (Side.RIGHT, self.right)):
            if read is not None:
                count_joints(_joints_a_side(self.joints)[side], read, side, self, faults)

    def temperatures(self) -> JointTemperatures:
        """The plain value."""
        return JointTemperatures(PerSide(self.left, self.right), _joints_a_side(self.joints), self.after, self.ambient)


class ReadingsFile(FileType):
    """Everything that was measured or judged, by component."""

    link: ChainReadingFile | None = Field(None, description="link rail height")
    bushing: ChainReadingFile | None = Field(None, description="bushing, by joint and place")
    pitch: ChainReadingFile | None = Field(None, description="spans of several links")
    shoe: ChainReadingFile | None = Field(None, description="grouser height")
    lug: ChainReadingFile | None = Field(None, description="lug height of a rubber track")
    drive_lug: ChainReadingFile | None = Field(None, description="drive lugs of a rubber track")
    sprocket: ReadingFile | None = Field(None, description="sprocket teeth")
    front_idler: ReadingFile | None = Field(None, description="front idler tread")
    rear_idler: ReadingFile | None = Field(None, description="rear idler tread")
    bottom_roller: ReadingFile | None = Field(None, description="bottom rollers, by position from the front")
    top_roller: ReadingFile | None = Field(None, description="top rollers, by position from the front")
    adjuster: TravelReadingFile | None = Field(None, description="rod showing at the track adjuster")
    cushion: TravelReadingFile | None = Field(None, description="what is left of a cushion's travel")
    sag: SagReadingFile | None = Field(None, description="sag of the track")
    joint_temperature: JointTemperatureFile | None = Field(None, description="temperatures of joints after work")

    def of_components(self) -> Iterator[tuple[Component, ReadingFile]]:
        """The components that have a reading, in the order of the vocabulary."""
        for component in Component:
            read = getattr(self, component.value.replace(" ", "_"))
            if isinstance(read, ReadingFile):
                yield component, read

    def rules(self, faults: FaultList) -> None:
        """What may be said of which component."""
        for component, file in self.of_components():
            for side, reading in file.sides():
                what = _out_of_place(component, reading)
                if what:
                    faults.add(file.where(side), what)


def _out_of_place(component: Component, reading: SideReading) -> str | None:
    parts: tuple[object, ...] = tuple(reading.entries.values()) if isinstance(reading, ByPlace) else (reading,)
    if component not in ROLLERS and any(isinstance(part, ByPosition) for part in parts):
        return f"only rollers have positions; a {component} goes by place, such as `forward side`"
    if component in TRAVELS and any(isinstance(part, ByEye) for part in parts):
        return f"{component} has travel, not wear; write its size, or `not seen (reason)`"
    return None
