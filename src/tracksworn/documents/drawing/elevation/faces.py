"""The chain's and the rubber track's faces as gauges: grousers and lugs, rails, and the faces of a plain band."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.elevation import link
from tracksworn.documents.drawing.elevation.canvas import outlines
from tracksworn.documents.drawing.elevation.view import Outline, View, along_chain
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.documents.drawing.outline import Edges, edges_of, edges_of_rings, rings, runs
from tracksworn.documents.drawing.plain import Drawn

_COARSE: Final = 0.15  # mm of the machine
_COARSE_LINK: Final = 0.25
_SLIVER: Final = 0.005  # square pitches: what cutting leaves beside a link


def at_links(chain: Chain, outline: Outline) -> Outline:
    """One outline, in pitches, at every link: (links, k, 2) in the machine's mm."""
    return along_chain(outline, chain.pins, chain.undercarriage.pitch)


@dataclass(frozen=True)
class Blocks:
    """Grousers or lugs, one set at every link."""

    view: View
    chain: Chain
    blocks: tuple[link.Block, ...]

    def _slices(self, start: float, end: float) -> Outline:
        cut = [at_links(self.chain, block.slice(start, end)) for block in self.blocks]
        return self.view.array(np.concatenate(cut))

    def outline(self) -> tuple[Drawn, ...]:
        """The whole of it as new."""
        return self.shapes(0, 1)

    def edges(self, start: float, end: float) -> Edges:
        """Round what lies between two depths."""
        return edges_of_rings(self._slices(start, end))

    def shapes(self, start: float, end: float) -> tuple[Drawn, ...]:
        """Their outlines."""
        return runs(self._slices(start, end), closed=True)

    def edge(self, depth: float) -> tuple[Drawn, ...]:
        """A line across each."""
        return runs(self._slices(depth, depth)[:, :2])


@dataclass(frozen=True)
class Rails:
    """The rails of all links, each from where the link before it ends to its own end."""

    view: View
    chain: Chain

    def _slices(self, start: float, end: float) -> Outline:
        starts, ends = (rail_lines(self.chain, depth) for depth in (start, end))
        return self.view.array(np.concatenate((starts, ends[:, ::-1]), axis=1))

    def outline(self) -> tuple[Drawn, ...]:
        """The whole of it as new."""
        return self.shapes(0, 1)

    def edges(self, start: float, end: float) -> Edges:
        """Round what lies between two depths."""
        return edges_of_rings(self._slices(start, end))

    def shapes(self, start: float, end: float) -> tuple[Drawn, ...]:
        """Their outlines."""
        return runs(self._slices(start, end), closed=True)

    def edge(self, depth: float) -> tuple[Drawn, ...]:
        """A line along each."""
        return runs(self.view.array(rail_lines(self.chain, depth)))


@dataclass(frozen=True)
class Strip:
    """A face of a band without links: from `face` as new to `limit`, both outwards from the pin line in mm."""

    view: View
    chain: Chain
    face: float
    limit: float

    def _offset(self, depth: float) -> BaseGeometry:
        return offset(self.chain, self.face + (self.limit - self.face) * depth)

    def outline(self) -> tuple[Drawn, ...]:
        """The whole of it as new."""
        return self.shapes(0, 1)

    def edges(self, start: float, end: float) -> Edges:
        """Round what lies between two depths."""
        lines = (edges_of(self.view.area(self._offset(depth))) for depth in (start, end))
        starts, ends = zip(*lines, strict=True)
        return np.concatenate(starts), np.concatenate(ends)

    def shapes(self, start: float, end: float) -> tuple[Drawn, ...]:
        """Its outlines."""
        return (*self.edge(start), *self.edge(end))

    def edge(self, depth: float) -> tuple[Drawn, ...]:
        """The line at one depth."""
        return outlines(self.view.area(self._offset(depth)))


@lru_cache(maxsize=64)
def rail_lines(chain: Chain, depth: float) -> Outline:
    """The visible rail of every link at one depth of its gauge, (links, 2, 2) in the machine's mm.

    It begins on the end of the link before it, which lies over it: where that end, a straight line in the plane of the
    drawing, meets the link's own line.
    """
    pitch = chain.undercarriage.pitch
    pins = np.asarray(chain.pins)
    along = (np.roll(pins, -1, axis=0) - pins) / pitch
    outwards = np.column_stack((along[:, 1], -along[:, 0]))
    before = np.roll(at_links(chain, link.END), 1, axis=0) - pins[:, None]
    x, y = ((before * axis[:, None]).sum(axis=2) / pitch for axis in (along, outwards))
    height = link.rail_height(depth)
    share = (height - y[:, 0]) / (y[:, 1] - y[:, 0])
    begins = np.minimum(x[:, 0] + share * (x[:, 1] - x[:, 0]), link.END[0, 0])
    at = np.stack((begins, np.full_like(begins, link.END[0, 0])), axis=1)[:, :, None] * pitch
    lines: Outline = pins[:, None] + at * along[:, None] + height * pitch * outwards[:, None]
    return lines


@lru_cache(maxsize=64)
def visible_links(chain: Chain) -> tuple[Outline, tuple[int, ...]]:
    """Of each link what the link before it does not hide: all corners in the machine's mm, and how many each has."""
    links = shapely.polygons(at_links(chain, link.LINK))
    cut = shapely.get_parts(shapely.simplify(shapely.difference(links, np.roll(links, 1)), _COARSE_LINK))
    return rings(cut[shapely.area(cut) > _SLIVER * chain.undercarriage.pitch**2])


@lru_cache(maxsize=64)
def band_line(chain: Chain) -> Polygon:
    """What the pin line encloses, in the machine's mm."""
    return Polygon(np.array(chain.line.points)).simplify(_COARSE)


@lru_cache(maxsize=64)
def offset(chain: Chain, by: float) -> BaseGeometry:
    """What a line encloses so far outside the pin line, or inside it where that is negative, in the machine's mm."""
    return band_line(chain).buffer(by)
