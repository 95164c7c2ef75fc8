"""What a warranty allows: percent worn against hours."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from tracksworn.inspection.vocabulary import Component


class Rule(StrEnum):
    """How a verdict deals with uncertainty."""

    GUARDED = "guarded"
    SIMPLE = "simple"


class Undecided(StrEnum):
    """What an undecided verdict leads to."""

    MEASURE_AGAIN = "measure again"
    COVER_STANDS = "cover stands"
    ADMINISTRATOR_DECIDES = "administrator decides"


@dataclass(frozen=True, slots=True)
class Terms:
    """A terms file. `allowed` maps hours to percent; the key None stands for `any`."""

    title: str
    rule: Rule
    allowed: Mapping[Component | None, tuple[tuple[float, float], ...]]
    confidence: float = 0.95
    undecided: Undecided | None = None
    hours_within: float = 0.0
