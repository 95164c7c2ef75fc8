"""The chain, or the rubber track, or where no pitch is known a plain band; its faces are gauges."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.elevation import link
from tracksworn.documents.drawing.elevation.canvas import Canvas, Layer, gathered, outlines
from tracksworn.documents.drawing.elevation.gauges import FINE, paint
from tracksworn.documents.drawing.elevation.typical import DRIVE_LUG, LUG
from tracksworn.documents.drawing.elevation.view import Outline, View, along_chain
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import INK, LABEL, METAL, METAL_DARK, PAPER
from tracksworn.documents.drawing.plain import Circle, Line, Shape, Stroke
from tracksworn.inspection.vocabulary import Component, Layout

_PLATE: Final = "#b4bbc0"
_BAND: Final = "#f1f4f5"
_LIMIT_OF_RAIL: Final = Stroke(0.16, INK)
_PEN_OF_RAIL: Final = Stroke(0.08, INK)
_CORDS: Final = Stroke(0.12, LABEL, dash=(1.1, 0.6))
_DETAILED: Final = 3.4  # mm of pitch on the sheet from which a link shows its windows and pin centres
_COARSE: Final = 0.15  # mm of the machine

Worn = Mapping[Component, Gauge]


@dataclass(frozen=True)
class Blocks:
    """Grousers or lugs, one set at every link."""

    view: View
    chain: Chain
    blocks: tuple[link.Block, ...]

    def _cut(self, start: float, end: float) -> NDArray[np.object_]:
        cut = [_at_links(self.chain, block.slice(start, end)) for block in self.blocks]
        return np.asarray(shapely.polygons(np.concatenate(cut)))

    def outline(self) -> tuple[Shape, ...]:
        """The whole of it as new."""
        return self.shapes(0, 1)

    def area(self, start: float, end: float) -> BaseGeometry:
        """What lies between two depths."""
        return self.view.area(gathered(self._cut(start, end)))

    def shapes(self, start: float, end: float) -> tuple[Shape, ...]:
        """Their outlines."""
        return outlines(self.area(start, end))

    def edge(self, depth: float) -> tuple[Shape, ...]:
        """A line across each."""
        lines = [line for block in self.blocks for line in _at_links(self.chain, block.slice(depth, depth)[:2])]
        return tuple(Line(self.view.points(map(tuple, line))) for line in lines)


@dataclass(frozen=True)
class Rails:
    """The rails of all links, each cut to what is visible of it."""

    view: View
    chain: Chain

    def outline(self) -> tuple[Shape, ...]:
        """The whole of it as new."""
        return self.shapes(0, 1)

    def area(self, start: float, end: float) -> BaseGeometry:
        """What lies between two depths."""
        rails = shapely.polygons(_at_links(self.chain, link.rail(start, end)))
        return self.view.area(gathered(shapely.intersection(visible_links(self.chain), rails)))

    def shapes(self, start: float, end: float) -> tuple[Shape, ...]:
        """Their outlines."""
        return outlines(self.area(start, end))

    def edge(self, depth: float) -> tuple[Shape, ...]:
        """A line along each."""
        lines = shapely.linestrings(_at_links(self.chain, link.rail(depth, depth)[:2]))
        pieces = shapely.get_parts(shapely.intersection(visible_links(self.chain), lines))
        return tuple(Line(self.view.points(piece.coords)) for piece in pieces if piece.geom_type == "LineString")


@dataclass(frozen=True)
class Strip:
    """A face of a band without links: from `face` as new to `limit`, both outwards from the pin line in mm."""

    view: View
    chain: Chain
    face: float
    limit: float

    def _offset(self, depth: float) -> Polygon:
        return band_line(self.chain).buffer(self.face + (self.limit - self.face) * depth)

    def outline(self) -> tuple[Shape, ...]:
        """The whole of it as new."""
        return self.shapes(0, 1)

    def area(self, start: float, end: float) -> BaseGeometry:
        """What lies between two depths."""
        return self.view.area(self._offset(start).symmetric_difference(self._offset(end)))

    def shapes(self, start: float, end: float) -> tuple[Shape, ...]:
        """Its outlines."""
        return outlines(self.area(start, end))

    def edge(self, depth: float) -> tuple[Shape, ...]:
        """The line at one depth."""
        return outlines(self.view.area(self._offset(depth)))


def draw_track(canvas: Canvas, view: View, chain: Chain, worn: Worn) -> None:
    """The whole track."""
    if chain.undercarriage.layout is Layout.RUBBER:
        _draw_rubber(canvas, view, chain, worn)
    elif chain.pins:
        _draw_links(canvas, view, chain, worn)
    else:
        _draw_band(canvas, view, chain, worn)


def _draw_links(canvas: Canvas, view: View, chain: Chain, worn: Worn) -> None:
    it = chain.undercarriage
    paint(canvas, Layer.SHOES, Blocks(view, chain, link.GRIPS[it.shoe]), worn.get(Component.SHOE))
    plates = gathered(shapely.polygons(_at_links(chain, link.PLATE)))
    canvas.area(Layer.SHOES, view.area(plates), fill=_PLATE, stroke=FINE)
    canvas.area(Layer.CHAIN, view.area(gathered(visible_links(chain))), fill=PAPER, stroke=FINE)
    paint(canvas, Layer.CHAIN, Rails(view, chain), worn.get(Component.LINK), _LIMIT_OF_RAIL, _PEN_OF_RAIL)
    if view.length(it.pitch) < _DETAILED:
        return
    windows = [
        Line(view.points(map(tuple, outline)), closed=True)
        for part in link.WINDOWS
        for outline in _at_links(chain, part)
    ]
    canvas.add(Layer.CHAIN, windows, fill=METAL, stroke=FINE)
    heads = [Circle(view.point(pin), view.length(link.PIN_HEAD * it.pitch)) for pin in chain.pins]
    canvas.add(Layer.CHAIN, heads, fill=PAPER, stroke=FINE)
    centres = [Circle(view.point(pin), view.length(link.PIN_CENTRE * it.pitch)) for pin in chain.pins]
    canvas.add(Layer.CHAIN, centres, fill=INK)


def _draw_band(canvas: Canvas, view: View, chain: Chain, worn: Worn) -> None:
    it = chain.undercarriage
    face, plate = it.section.face * it.pitch, it.section.plate * it.pitch
    line = band_line(chain)
    outside = line.buffer(face)
    canvas.area(Layer.CHAIN, view.area(line.buffer(face + plate).difference(outside)), fill=_PLATE, stroke=FINE)
    canvas.area(Layer.CHAIN, view.area(outside.difference(line.buffer(-it.rail))), fill=_BAND, stroke=FINE)
    rail = Strip(view, chain, -it.rail, -it.rail + it.section.rail_depth * it.pitch)
    paint(canvas, Layer.CHAIN, rail, worn.get(Component.LINK), _LIMIT_OF_RAIL, _PEN_OF_RAIL)


def _draw_rubber(canvas: Canvas, view: View, chain: Chain, worn: Worn) -> None:
    it = chain.undercarriage
    face = it.section.face * it.pitch
    if chain.pins:
        paint(canvas, Layer.DRIVE_LUGS, Blocks(view, chain, link.DRIVE_LUGS), worn.get(Component.DRIVE_LUG))
        paint(canvas, Layer.SHOES, Blocks(view, chain, link.GRIPS[None]), worn.get(Component.LUG))
    else:
        paint(canvas, Layer.SHOES, Strip(view, chain, face + LUG * it.pitch, face), worn.get(Component.LUG))
    line = band_line(chain)
    carcass = line.buffer(face).difference(line.buffer(-it.rail))
    canvas.area(Layer.CHAIN, view.area(carcass), fill=METAL_DARK, stroke=FINE)
    canvas.area(Layer.CHAIN, view.area(line), stroke=_CORDS)


def _at_links(chain: Chain, outline: Outline) -> Outline:
    return along_chain(outline, chain.pins, chain.undercarriage.pitch)


@lru_cache(maxsize=64)
def visible_links(chain: Chain) -> NDArray[np.object_]:
    """Of each link what the link before it does not hide, in the machine's mm."""
    links = shapely.polygons(_at_links(chain, link.LINK))
    return np.asarray(shapely.difference(links, np.roll(links, 1)))


@lru_cache(maxsize=64)
def band_line(chain: Chain) -> Polygon:
    """What the pin line encloses, in the machine's mm."""
    return Polygon(chain.line.points).simplify(_COARSE)


@lru_cache(maxsize=64)
def loop(chain: Chain) -> tuple[BaseGeometry, BaseGeometry]:
    """What the track encloses within its tips as new, and what within its rails or drive lugs, in the machine's mm."""
    it = chain.undercarriage
    inwards = it.rail + (DRIVE_LUG * it.pitch if it.layout is Layout.RUBBER and chain.pins else 0.0)
    return band_line(chain).buffer(it.reach), band_line(chain).buffer(-inwards)
