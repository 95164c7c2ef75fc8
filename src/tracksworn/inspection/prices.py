"""What work costs. Money in `currency`, labour in hours."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from tracksworn.inspection.vocabulary import Component


class Work(StrEnum):
    """Ways to deal with a worn component."""

    REPLACE = "replace"
    TURN = "turn"
    REBUILD = "rebuild"
    RE_SHELL = "re-shell"
    RE_GROUSER = "re-grouser"
    SWAP_SIDES = "swap sides"
    SWAP_POSITIONS = "swap positions"


@dataclass(frozen=True, slots=True)
class Price:
    """One way's parts and labour for a side, for rollers for each, and its window in percent worn."""

    parts: float = 0.0
    labour: float = 0.0
    from_percent: float | None = None
    until_percent: float | None = None


@dataclass(frozen=True, slots=True)
class Prices:
    """A price file."""

    as_of: date
    currency: str
    labour_per_hour: float
    visit_set_up: float
    track_off: float
    components: Mapping[Component, Mapping[Work, Price]]
    together: tuple[tuple[Component, ...], ...] = ()
