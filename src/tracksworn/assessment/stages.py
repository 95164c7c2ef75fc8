"""Stages of wear and where each begins, in percent worn."""

from collections.abc import Mapping
from typing import Final

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.model import Stage

BEGINS: Final[Mapping[Stage, float]] = {Stage.SECOND_HALF: 50.0, Stage.NEAR_LIMIT: 80.0, Stage.PAST_LIMIT: 100.0}
"""Percent worn from which a stage holds, in the order of wear; below all of them it is the first half."""


def stage(percent_worn: float) -> Stage:
    """The stage that a percent worn belongs to; on a boundary it is the stage above."""
    reached = Stage.FIRST_HALF
    for name, begin in BEGINS.items():
        if not reaches(percent_worn, begin):
            break
        reached = name
    return reached
