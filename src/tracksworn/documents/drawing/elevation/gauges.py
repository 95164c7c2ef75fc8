"""Any part as a gauge: how deep its wear goes from the working face, and how that is painted.

Depth 0 is the working face as new, depth 1 the chart's limit.
"""

from dataclasses import dataclass
from typing import Final, Protocol

import numpy as np

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.elevation.canvas import Canvas, Layer
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import INK, LABEL, PAPER, STAGE_INKS
from tracksworn.documents.drawing.outline import Edges, edges_of_rings
from tracksworn.documents.drawing.plain import Circle, Drawn, Point, Shape, Stroke

FINE: Final = Stroke(0.12, INK)
BY_EYE: Final = Stroke(0.22, INK, dash=(0.9, 0.6))
NOT_SEEN: Final = Stroke(0.2, LABEL, dash=(1.1, 0.6))
_ANGLES: Final = np.linspace(0, 2 * np.pi, 96, endpoint=False)
_CIRCLE: Final = np.column_stack((np.cos(_ANGLES), np.sin(_ANGLES)))
_BREAKS_THROUGH: Final = 1.3  # how deep wear past the limit is drawn at most


class Depths(Protocol):
    """A part that can be cut at depths."""

    def outline(self) -> tuple[Drawn, ...]:
        """The whole of it as new."""

    def edges(self, start: float, end: float) -> Edges:
        """Round what lies between two depths."""

    def shapes(self, start: float, end: float) -> tuple[Drawn, ...]:
        """Its outlines."""

    def edge(self, depth: float) -> tuple[Drawn, ...]:
        """The line at one depth."""


@dataclass(frozen=True, slots=True)
class Wear:
    """What of a gauge is drawn: metal gone down to a depth, or only the ends of an estimate, or nothing."""

    gone: float | None = None
    ends: tuple[float, ...] = ()
    seen: bool = True
    stage: Stage | None = None

    @property
    def past(self) -> bool:
        """Whether it is past the limit."""
        return self.stage is Stage.PAST_LIMIT


def wear(gauge: Gauge | None) -> Wear:
    """How a gauge is drawn; a part without one, or without a percent, is plain metal."""
    if gauge is None:
        return Wear()
    if gauge.basis is Basis.NOT_SEEN:
        return Wear(seen=False)
    if gauge.basis is Basis.BY_EYE:
        ends = {end for end in (gauge.low, gauge.high) if end is not None}
        return Wear(ends=tuple(sorted(min(max(end / 100, 0.0), _BREAKS_THROUGH) for end in ends)))
    if gauge.percent is None:
        return Wear()
    return Wear(gone=min(max(gauge.percent / 100, 0.0), _BREAKS_THROUGH), stage=gauge.stage)


def paint(
    canvas: Canvas, layer: Layer, part: Depths, gauge: Gauge | None, limit: Stroke | None = None, pen: Stroke = FINE
) -> None:
    """A part as a gauge: its outline as new, metal gone hatched, metal left solid, and the limit as a stroke.

    `pen` draws the outlines, `limit` the line at depth 1.
    """
    state = wear(gauge)
    canvas.add(layer, part.outline(), fill=PAPER, stroke=pen if state.seen else NOT_SEEN)
    if state.gone is not None and state.stage is not None:
        _paint_measured(canvas, layer, part, state, pen)
    for depth in state.ends:
        canvas.add(layer, part.edge(depth), stroke=BY_EYE)
    if limit is not None and not state.seen:
        canvas.add(layer, part.edge(1), stroke=NOT_SEEN)
    elif limit is not None:
        opened = Stroke(limit.width, limit.colour, dash=(0.7, 0.5)) if state.past else limit
        canvas.add(layer, part.edge(1), stroke=opened)


def _paint_measured(canvas: Canvas, layer: Layer, part: Depths, state: Wear, pen: Stroke) -> None:
    assert state.gone is not None
    assert state.stage is not None
    if state.gone > 0:
        canvas.hatch(layer, part.edges(0, state.gone), state.stage, crossed=state.past)
    if state.gone < 1:
        canvas.add(layer, part.shapes(state.gone, 1), fill=STAGE_INKS[state.stage], stroke=pen)


@dataclass(frozen=True, slots=True)
class Ring:
    """A wheel: its tread is the working face, its hub the limit."""

    centre: Point
    tread: float
    hub: float

    def outline(self) -> tuple[Shape, ...]:
        """Its tread; the hub is paper too."""
        return self.edge(0)

    def radius(self, depth: float) -> float:
        """The radius worn to a depth."""
        return self.tread - (self.tread - self.hub) * depth

    def edges(self, start: float, end: float) -> Edges:
        """Round what lies between two depths."""
        radii = np.array((self.radius(start), self.radius(end)))
        return edges_of_rings(np.asarray(self.centre) + radii[:, None, None] * _CIRCLE)

    def shapes(self, start: float, end: float) -> tuple[Shape, ...]:
        """Two circles."""
        return (*self.edge(start), *self.edge(end))

    def edge(self, depth: float) -> tuple[Shape, ...]:
        """One circle."""
        return (Circle(self.centre, self.radius(depth)),)
