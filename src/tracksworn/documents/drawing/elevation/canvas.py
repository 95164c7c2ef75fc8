"""Collects what is drawn, layer by layer, so that all that shares fill and stroke becomes one path."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum, auto
from typing import Final

import numpy as np
from shapely.geometry.base import BaseGeometry

from tracksworn.assessment.model import Stage
from tracksworn.documents.drawing.inks import STAGE_INKS
from tracksworn.documents.drawing.outline import Edges, hatch_within, lines
from tracksworn.documents.drawing.plain import Drawn, Path, Stroke

_HATCH_SPACING: Final = 0.6
_CROSSED_SPACING: Final = 0.55
_HATCH_PEN: Final = 0.14
_SIMPLER: Final = 0.02
_WHOLE: Final = 1e-4  # mm²: what cutting leaves behind of nothing


class Layer(IntEnum):
    """From back to front."""

    BRACKETS = auto()
    FRAME = auto()
    FITTINGS = auto()
    BOSSES = auto()
    FLANGES = auto()
    TEETH = auto()
    DRIVE_LUGS = auto()
    WHEELS = auto()
    SHOES = auto()
    CHAIN = auto()
    ROLLER_FLANGES = auto()
    ROLLERS = auto()
    GROUND = auto()
    LEADERS = auto()
    DISCS = auto()


@dataclass(frozen=True, slots=True)
class _Style:
    fill: str | None = None
    stroke: Stroke | None = None
    hatched: Stage | None = None
    crossed: bool = False


class Canvas:
    """Shapes by layer and style. Within a layer a style is painted where it was first used."""

    def __init__(self) -> None:
        self._shapes: dict[tuple[Layer, _Style], list[Drawn]] = {}
        self._hatched: dict[tuple[Layer, _Style], list[Edges]] = {}

    def add(
        self, layer: Layer, shapes: Iterable[Drawn], *, fill: str | None = None, stroke: Stroke | None = None
    ) -> None:
        """Shapes of one style. Filled ones of one layer and style must not overlap, for the even-odd rule."""
        self._shapes.setdefault((layer, _Style(fill, stroke)), []).extend(shapes)

    def area(self, layer: Layer, area: BaseGeometry, *, fill: str | None = None, stroke: Stroke | None = None) -> None:
        """An area of one style."""
        self.add(layer, outlines(area), fill=fill, stroke=stroke)

    def hatch(self, layer: Layer, edges: Edges, stage: Stage, *, crossed: bool) -> None:
        """Metal gone within edges, not overlapping others; all hatching of one layer and style is clipped at once."""
        key = (layer, _Style(hatched=stage, crossed=crossed))
        self._shapes.setdefault(key, [])
        self._hatched.setdefault(key, []).append(edges)

    def paths(self) -> tuple[Path, ...]:
        """All of it, from back to front."""
        made = (self._path(key) for key in sorted(self._shapes, key=lambda key: key[0]))
        return tuple(path for path in made if path.drawn)

    def _path(self, key: tuple[Layer, _Style]) -> Path:
        style = key[1]
        if style.hatched is None:
            return Path(tuple(self._shapes[key]), style.fill, style.stroke)
        spacing = _CROSSED_SPACING if style.crossed else _HATCH_SPACING
        starts, ends = zip(*self._hatched[key], strict=True)
        strokes = hatch_within((np.concatenate(starts), np.concatenate(ends)), spacing, crossed=style.crossed)
        return Path(strokes, stroke=Stroke(_HATCH_PEN, STAGE_INKS[style.hatched]))


def outlines(area: BaseGeometry) -> tuple[Drawn, ...]:
    """The outlines of an area as coarse as print allows: so little that none comes to cross another."""
    return lines(area.simplify(_SIMPLER, preserve_topology=False)) if area.area > _WHOLE else ()
