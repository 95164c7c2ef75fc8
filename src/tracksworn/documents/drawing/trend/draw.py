"""Trends as drawings."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.plotting import Chart, plot
from tracksworn.documents.drawing.trend.trend import Trend

if TYPE_CHECKING:
    from matplotlib.figure import Figure


def draw_trends(trends: Sequence[Trend]) -> tuple[Drawing, ...]:
    """Each trend as a drawing of its width and height."""
    return plot([Chart(one.width, one.height, partial(_compose, one), one.alternative) for one in trends])


def _compose(trend: Trend, figure: "Figure") -> None:
    from tracksworn.documents.drawing.trend.figure import compose  # noqa: PLC0415 - it imports matplotlib

    compose(trend, figure)
