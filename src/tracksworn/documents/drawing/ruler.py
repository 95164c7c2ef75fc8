"""The overall ruler: floor, whole with its interval, ceiling, worst and limit on one line."""

from dataclasses import dataclass

from tracksworn.assessment.model import Stage
from tracksworn.documents.drawing.plain import Drawing


@dataclass(frozen=True, slots=True)
class Ruler:
    """The overall figure. `low` without `high` is `at least`; both None where nothing was seen or measured."""

    percent: float | None
    low: float | None
    high: float | None
    floor: float
    ceiling: float
    whole_text: str  # `whole 53`, `at least 50`; empty where there is none
    floor_text: str  # `floor 49`
    ceiling_text: str  # `ceiling 56`
    new_text: str  # `as new`
    limit_text: str  # `limit`
    alternative: str
    worst: float | None = None
    worst_text: str = ""  # `worst`
    worst_stage: Stage | None = None
    by_eye: bool = False  # no part was measured: the interval is dashed
    width: float = 182.0


def draw_ruler(ruler: Ruler) -> Drawing:
    """The ruler from 0 to 110, 182 × 12 mm."""
    return Drawing(ruler.width, 12.0, (), ruler.alternative)
