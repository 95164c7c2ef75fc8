"""An inspection, as plain frozen values. Lengths are mm, percents points, temperatures °C, hours machine hours."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import PurePosixPath

from tracksworn.inspection.values import PerSide, SideReading, Temperatures
from tracksworn.inspection.vocabulary import (
    Component,
    Evidence,
    Grade,
    Ground,
    Impact,
    Layout,
    ObservedPlace,
    Origin,
    PartPlace,
    ShoeKind,
    Side,
    Sign,
    Suspension,
    Track,
)


@dataclass(frozen=True, slots=True)
class Inspector:
    """Who looked, for whom, and with what interest."""

    name: str
    organisation: str | None = None
    qualification: str | None = None
    engaged_by: str | None = None
    interest_in_sale: str | None = None


@dataclass(frozen=True, slots=True)
class Hours:
    """The hour meter: `shown` plus the hours at which it was replaced are the machine's hours."""

    shown: float
    known_from: Evidence = Evidence.METER
    meter_replaced_at: float | None = None

    @property
    def machine(self) -> float:
        """Hours since the machine was new."""
        return self.shown + (self.meter_replaced_at or 0.0)


@dataclass(frozen=True, slots=True)
class Shoe:
    """The shoes fitted; width in mm."""

    width: float | None = None
    kind: ShoeKind | None = None


@dataclass(frozen=True, slots=True)
class Machine:
    """The machine as found. Counts of rollers are a side; links are counted on each."""

    maker: str
    model: str
    serial: str
    layout: Layout
    year: int | None = None
    hours: Hours | None = None
    hours_per_week: float | None = None
    travel_share: float | None = None  # a fraction of 1
    suspension: Suspension | None = None
    track: Track | None = None
    bottom_rollers: int | None = None
    top_rollers: int | None = None
    links: PerSide[int | None] = field(default_factory=lambda: PerSide[int | None](None, None))
    shoe: Shoe = Shoe()
    ground: tuple[Ground, ...] = ()
    impact: Impact | None = None
    plate_photo: PurePosixPath | None = None
    meter_photo: PurePosixPath | None = None


@dataclass(frozen=True, slots=True)
class Instrument:
    """A gauge; lengths in mm. `uncertainty` is a certificate's U at coverage factor `k`."""

    name: str
    resolution: float | None = None
    accuracy: float | None = None
    uncertainty: float | None = None
    k: float = 2.0
    calibrated: date | None = None
    due: date | None = None
    certificate: str | None = None
    velocity: str | None = None
    checked_on: str | None = None


@dataclass(frozen=True, slots=True)
class Reading:
    """What one component read on both sides; None where a side has no entry at all."""

    component: Component
    sides: PerSide[SideReading | None]
    gauge: PerSide[str | None] = field(default_factory=lambda: PerSide[str | None](None, None))
    joints: PerSide[tuple[int, ...] | None] = field(default_factory=lambda: PerSide[tuple[int, ...] | None](None, None))
    stopped: str | None = None  # sag only: how the machine came to rest
    packed: bool | None = None  # sag only


@dataclass(frozen=True, slots=True)
class JointTemperatures:
    """How hot joints were, in °C, and how long after work."""

    sides: PerSide[Temperatures | None]
    joints: PerSide[tuple[int, ...] | None] = field(default_factory=lambda: PerSide[tuple[int, ...] | None](None, None))
    after: str | None = None
    ambient: float | None = None


@dataclass(frozen=True, slots=True)
class Spot:
    """Where something was seen: as much as is known. `number` is a joint on a chain, a position on rollers."""

    part: Component | ObservedPlace | None
    side: Side | None = None
    number: int | None = None
    place: PartPlace | None = None


@dataclass(frozen=True, slots=True)
class Observation:
    """Something seen and graded. `size` in mm where one was taken; `note` is Markdown."""

    at: Spot
    seen: tuple[Sign, ...]
    grade: Grade | None = None
    size: float | None = None
    note: str | None = None
    photos: tuple[PurePosixPath, ...] = ()


@dataclass(frozen=True, slots=True)
class Photo:
    """A photo that belongs to no single observation. `file` is relative to the inspection's folder."""

    file: PurePosixPath
    shows: Spot | None = None
    caption: str | None = None


@dataclass(frozen=True, slots=True)
class Fitting:
    """Machine hours at which a part went on, or was turned, and what that rests on."""

    at: float | None = None
    known_from: Evidence | None = None
    turned_at: float | None = None
    not_turned: bool = False
    origin: Origin | None = None
    original: bool = False  # on since new


@dataclass(frozen=True, slots=True)
class FittedPart:
    """Which part a fitting speaks of: a component, one side of it, or one position."""

    component: Component
    side: Side | None = None
    position: int | None = None


@dataclass(frozen=True, slots=True)
class Surface:
    """The state of the surface that was measured; temperature in °C."""

    cleaned: bool | None = None
    temperature: float | None = None


@dataclass(frozen=True, slots=True)
class Inspection:
    """What one inspector recorded about one machine on one day. Paths are as written, relative to the file."""

    number: str
    inspected: date
    inspector: Inspector
    machine: Machine
    chart: PurePosixPath | None  # None: no chart, for the reason beside it
    no_chart_because: str | None = None
    readings: Mapping[Component, Reading] = field(default_factory=dict)
    joint_temperatures: JointTemperatures | None = None
    observations: tuple[Observation, ...] = ()
    photos: tuple[Photo, ...] = ()
    instruments: Mapping[str, Instrument] = field(default_factory=dict)
    surface: Surface = Surface()
    fitted: Mapping[FittedPart, Fitting] = field(default_factory=dict)
    revision: int = 0
    replaces: int | None = None
    because: str | None = None
    issued: date | None = None
    lot: str | None = None
    place: str | None = None
    purpose: str | None = None
    conditions: str | None = None
    limits_of_access: str | None = None
    notes: str | None = None
    letterhead: PurePosixPath | None = None
    prices: PurePosixPath | None = None
    terms: PurePosixPath | None = None
    earlier: tuple[PurePosixPath, ...] = ()

    @property
    def date_of_document(self) -> date:
        """The date that the document and its attachments bear."""
        return self.issued or self.inspected
