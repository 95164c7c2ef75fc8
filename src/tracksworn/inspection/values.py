"""What a reading can say: sizes, an estimate by eye, or the reason why there is neither."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Generic, TypeVar

from tracksworn.inspection.vocabulary import PartPlace, Side, Unit

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Sizes:
    """Measured lengths in mm, in the order written; None stands for `-`, not measured."""

    values: tuple[float | None, ...]
    unit: Unit = Unit.MILLIMETRE  # as written; the values are millimetres whatever it is

    @property
    def measured(self) -> tuple[float, ...]:
        """The lengths without the gaps."""
        return tuple(value for value in self.values if value is not None)


class Estimate(StrEnum):
    """The four ways to judge by eye."""

    RANGE = "range"  # by eye A to B %
    ABOUT = "about"  # A, give or take an assumed half-width that the assessment adds
    AT_LEAST = "at least"
    AT_MOST = "at most"


@dataclass(frozen=True, slots=True)
class ByEye:
    """Percent worn as judged. `low` is A, `high` is B for a range; both are A otherwise."""

    kind: Estimate
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class NotSeen:
    """Nothing could be seen, and why."""

    reason: str


Value = Sizes | ByEye | NotSeen


@dataclass(frozen=True, slots=True)
class ByPosition:
    """Values of single positions, numbered from the front; `others` holds for those not named."""

    entries: Mapping[int, Value]
    others: Value | None = None


@dataclass(frozen=True, slots=True)
class ByPlace:
    """Values at the places of one part, in the order written."""

    entries: Mapping[PartPlace, Value | ByPosition]


SideReading = Value | ByPosition | ByPlace


@dataclass(frozen=True, slots=True)
class Temperatures:
    """Degrees Celsius in the order written; None stands for `-`."""

    values: tuple[float | None, ...]


@dataclass(frozen=True)  # no slots: Python 3.11 cannot make a generic one by its subscript
class PerSide(Generic[T]):
    """One thing for the left, one for the right."""

    left: T
    right: T

    def __getitem__(self, side: Side) -> T:
        return self.left if side is Side.LEFT else self.right
