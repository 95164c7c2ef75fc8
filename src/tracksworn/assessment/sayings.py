"""Findings as values: what is concluded, about what, why and what to do. Their words stand in documents/words."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from tracksworn.assessment.assumed import Threshold
from tracksworn.inspection.values import ByEye
from tracksworn.inspection.vocabulary import (
    Component,
    Grade,
    Layout,
    ObservedPlace,
    PartPlace,
    Side,
    Sign,
    Track,
)


class Severity(StrEnum):
    """How soon a finding asks for something."""

    ACT = "act"
    WATCH = "watch"
    NOTE = "note"


class Topic(StrEnum):
    """What a finding can be about that is neither component nor observed place."""

    JOINT_TEMPERATURE = "joint temperature"
    LINK_COUNT = "links"
    CHAIN = "chain"
    MACHINE = "machine"
    CHART = "chart"


@dataclass(frozen=True, slots=True)
class Subject:
    """What a finding or reason speaks of, as the files write it: `left bottom roller 3 inner tread`."""

    what: Component | ObservedPlace | Topic
    side: Side | None = None
    number: int | None = None
    place: PartPlace | None = None

    def __str__(self) -> str:
        parts = (self.side, self.what, self.number, self.place)
        return " ".join(str(part) for part in parts if part is not None)


@dataclass(frozen=True, slots=True)
class Percent:
    """Percent worn or used, with its interval where it has one; `said` for an estimate by eye, which prints as said."""

    value: float | None
    low: float | None = None
    high: float | None = None
    said: ByEye | None = None


@dataclass(frozen=True, slots=True)
class Points:
    """A difference of two percents, with its half-width where it has one; not `signed` prints how far apart alone."""

    value: float
    within: float | None = None
    signed: bool = True


@dataclass(frozen=True, slots=True)
class Length:
    """A length in mm; `decimals` as the reading deserves."""

    mm: float
    decimals: int | None = None


@dataclass(frozen=True, slots=True)
class Celsius:
    """A temperature, or with `difference` a difference of two."""

    degrees: float
    difference: bool = False


@dataclass(frozen=True, slots=True)
class HoursLeft:
    """Machine hours from the inspection on, as a range; no upper end is None."""

    low: float
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Rate:
    """How fast something wears, points of percent worn in 100 machine hours."""

    per_100_h: float


@dataclass(frozen=True, slots=True)
class Several:
    """Several parts or several signs, spoken as one list: `left bottom rollers 1, 3 and 8`."""

    items: tuple[Subject | Sign, ...]


Amount = (
    Subject | Several | Percent | Points | Length | Celsius | HoursLeft | Rate | Component | Side | Sign | Grade
    | PartPlace | Track | Layout | ObservedPlace | date | int | str | tuple[int, ...]
)  # fmt: skip
"""What can fill a place in a sentence. A `str` is text of the user's own, never of the program's."""


@dataclass(frozen=True, slots=True)
class Saying:
    """A sentence by its code, about these readings, with these amounts in its places."""

    code: str
    about: tuple[Subject, ...] = ()
    amounts: Mapping[str, Amount] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Finding:
    """A conclusion with its reasons and its advice. `code` is never renamed once it has been printed."""

    code: str
    severity: Severity
    about: tuple[Subject, ...]
    because: tuple[Saying, ...]
    advice: Saying
    amounts: Mapping[str, Amount] = field(default_factory=dict)  # for its title
    observations: tuple[int, ...] = ()  # indices into the inspection's observations, for their photos
    decided_by: tuple[Threshold, ...] = ()  # assumed values without which it would not be raised, or not so
