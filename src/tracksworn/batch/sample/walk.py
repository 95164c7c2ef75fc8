"""One walk round a machine: who looked when, how, with which gauges, and what could not be seen."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from tracksworn.batch.sample.machine import SALE, SampleMachine
from tracksworn.batch.sample.shared import SURVEY, YARD
from tracksworn.inspection.vocabulary import Component, Evidence, Layout, Side, Unit

C = Component


@dataclass(frozen=True, slots=True)
class Person:
    """Who inspects, and how sure their eye is, in points."""

    name: str
    organisation: str
    qualification: str
    interest: str
    letterhead: str
    eye: float


_YARD_INTEREST: Final = "employed by the yard that sells"
_SURVEYORS: Final = (
    Person("Ines Marlow", "Millrace Plant Survey", "14 years in undercarriage repair", "none", SURVEY, 6.0),
    Person("Oda Fenn", "Millrace Plant Survey", "7 years in undercarriage repair", "none", SURVEY, 8.0),
)
_YARDMEN: Final = (
    Person("Tobias Wren", "Oxbow Sale Yard", "31 years on crawler undercarriages", _YARD_INTEREST, YARD, 6.0),
    Person("Bela Strand", "Oxbow Sale Yard", "4 years at the yard", _YARD_INTEREST, YARD, 10.0),
)


@dataclass(frozen=True, slots=True)
class Gauge:
    """A gauge: its step and how far off it may be, in mm, and its certificate."""

    step: float
    accuracy: float | None
    certificate: str | None = None


_MILLIMETRES: Final[Mapping[str, Gauge]] = {
    "depth gauge": Gauge(0.05, 0.1, "DG-118"),
    "caliper": Gauge(0.1, 0.1, "BC-031"),
    "large caliper": Gauge(0.1, 0.5, "LC-007"),
    "steel tape": Gauge(1.0, 0.5),
    "rule": Gauge(0.5, None),
}
_INCHES: Final[Mapping[str, Gauge]] = {
    "depth gauge": Gauge(25.4 / 64, 0.25, "E-41"),
    "caliper": Gauge(25.4 / 64, 0.2, "E-42"),
    "large caliper": Gauge(25.4 / 32, 0.5, "E-43"),
    "steel tape": Gauge(25.4 / 32, 25.4 / 64),
    "rule": Gauge(25.4 / 16, None),
}
_GAUGE_OF: Final = {
    C.LINK: "depth gauge",
    C.BUSHING: "caliper",
    C.PITCH: "steel tape",
    C.SHOE: "rule",
    C.LUG: "depth gauge",
    C.DRIVE_LUG: "caliper",
    C.SPROCKET: "caliper",
    C.FRONT_IDLER: "large caliper",
    C.REAR_IDLER: "large caliper",
    C.BOTTOM_ROLLER: "large caliper",
    C.TOP_ROLLER: "large caliper",
}
OTHER_GAUGE: Final = "rule"
"""For adjuster, cushion and sag."""


@dataclass(frozen=True, slots=True)
class Walk:
    """An inspection before it is written. `index` is 0 for the one before the sale, and counts back from there."""

    machine: SampleMachine
    index: int
    number: str
    inspected: date
    hours: float
    person: Person
    measures: bool
    unit: Unit
    guarded: Side | None  # the side with a guard over its middle rollers
    hidden: Side | None  # the side that hardly anything of was seen
    why_hidden: str
    evidence: Evidence | None  # of when parts were fitted
    hours_from: Evidence
    earlier: "tuple[Walk, ...]" = ()

    def gauge(self, component: Component) -> str:
        """The name of the gauge that a component is measured with."""
        if component is C.FRONT_IDLER and self.machine.kind.layout is Layout.EXCAVATOR:
            return "depth gauge"
        return _GAUGE_OF.get(component, OTHER_GAUGE)

    @property
    def gauges(self) -> Mapping[str, Gauge]:
        """All that were in the bag."""
        return _INCHES if self.unit is Unit.INCH else _MILLIMETRES


def walks(machine: SampleMachine, number: str) -> Walk:
    """The walk before the sale, with those that went before it on the same machine."""
    dice = machine.dice("walks")
    measures = dice.chance(0.62) and machine.kind.charted
    before: list[Walk] = []
    last = (SALE - timedelta(days=dice.whole(3, 24)), machine.hours)
    if measures and dice.chance(0.28):
        for back in range(dice.weighed({1: 6.0, 2: 2.0, 3: 1.0}), 0, -1):
            weeks = 26 * back + dice.whole(-4, 4)
            hours = float(round(last[1] - machine.hours_per_week * weeks * dice.between(0.8, 1.1)))
            if hours > 40.0:
                when = last[0] - timedelta(days=7 * weeks)
                before.append(_walk(machine, f"{number}-E{back}", when, hours, back, True))
    return _walk(machine, number, *last, 0, measures, tuple(reversed(before)))


def _walk(
    machine: SampleMachine,
    number: str,
    inspected: date,
    hours: float,
    index: int,
    measures: bool,
    earlier: tuple[Walk, ...] = (),
) -> Walk:
    dice, owner = machine.dice("walk", index), machine.dice("owner")
    surveyor = measures and dice.chance(0.8)
    return Walk(
        machine=machine,
        index=index,
        number=number,
        inspected=inspected,
        hours=hours,
        person=dice.weighed({one: 3.0 - n for n, one in enumerate(_SURVEYORS if surveyor else _YARDMEN)}),
        measures=measures,
        unit=machine.kind.unit,
        guarded=dice.among(tuple(Side)) if dice.chance(0.25) and machine.kind.bottom_rollers >= 5 else None,
        hidden=dice.among(tuple(Side)) if dice.chance(0.1) else None,
        why_hidden=dice.among(("beside a wall", "beside another lot", "standing in water")),
        evidence=owner.weighed(
            {Evidence.INVOICE: 3.0, Evidence.STAMP: 1.0, Evidence.OWNERS_WORD: 2.0, None: 4.0 if index == 0 else 0.5}
        ),
        hours_from=owner.weighed({Evidence.METER: 17.0, Evidence.TELEMATICS: 2.0, Evidence.OWNERS_WORD: 1.0}),
        earlier=earlier,
    )
