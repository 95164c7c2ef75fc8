"""The chain, or the rubber track, or where no pitch is known a plain band; its faces are gauges."""

from collections.abc import Mapping
from functools import lru_cache
from typing import Final

import numpy as np
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.elevation import link
from tracksworn.documents.drawing.elevation.canvas import Canvas, Layer
from tracksworn.documents.drawing.elevation.faces import (
    Blocks,
    Rails,
    Strip,
    at_links,
    band_line,
    offset,
    visible_links,
)
from tracksworn.documents.drawing.elevation.gauges import FINE, paint
from tracksworn.documents.drawing.elevation.typical import DRIVE_LUG, LUG
from tracksworn.documents.drawing.elevation.view import View
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import INK, LABEL, METAL, METAL_DARK, PAPER
from tracksworn.documents.drawing.outline import runs
from tracksworn.documents.drawing.plain import Circle, Runs, Stroke
from tracksworn.inspection.vocabulary import Component, Layout

_PLATE: Final = "#b4bbc0"
_BAND: Final = "#f1f4f5"
_LIMIT_OF_RAIL: Final = Stroke(0.16, INK)
_PEN_OF_RAIL: Final = Stroke(0.08, INK)
_CORDS: Final = Stroke(0.12, LABEL, dash=(1.1, 0.6))
_DETAILED: Final = 3.4  # mm of pitch on the sheet from which a link shows its windows and pin centres

Worn = Mapping[Component, Gauge]


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
    canvas.add(Layer.SHOES, runs(view.array(at_links(chain, link.PLATE)), closed=True), fill=_PLATE, stroke=FINE)
    corners, counts = visible_links(chain)
    links = Runs(tuple(view.array(corners).ravel().tolist()), counts, closed=True)
    canvas.add(Layer.CHAIN, [links], fill=PAPER, stroke=FINE)
    paint(canvas, Layer.CHAIN, Rails(view, chain), worn.get(Component.LINK), _LIMIT_OF_RAIL, _PEN_OF_RAIL)
    if view.length(it.pitch) < _DETAILED:
        return
    windows = np.concatenate([at_links(chain, part) for part in link.WINDOWS])
    canvas.add(Layer.CHAIN, runs(view.array(windows), closed=True), fill=METAL, stroke=FINE)
    heads = [Circle(view.point(pin), view.length(link.PIN_HEAD * it.pitch)) for pin in chain.pins]
    canvas.add(Layer.CHAIN, heads, fill=PAPER, stroke=FINE)
    centres = [Circle(view.point(pin), view.length(link.PIN_CENTRE * it.pitch)) for pin in chain.pins]
    canvas.add(Layer.CHAIN, centres, fill=INK)


def _draw_band(canvas: Canvas, view: View, chain: Chain, worn: Worn) -> None:
    it = chain.undercarriage
    plates, links = _bands(chain)
    canvas.area(Layer.CHAIN, view.area(plates), fill=_PLATE, stroke=FINE)
    canvas.area(Layer.CHAIN, view.area(links), fill=_BAND, stroke=FINE)
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
    canvas.area(Layer.CHAIN, view.area(_bands(chain)[1]), fill=METAL_DARK, stroke=FINE)
    canvas.area(Layer.CHAIN, view.area(band_line(chain)), stroke=_CORDS)


@lru_cache(maxsize=64)
def _bands(chain: Chain) -> tuple[BaseGeometry, BaseGeometry]:
    """The band of the shoes' plates, and that from their face to the rails, in the machine's mm."""
    it = chain.undercarriage
    face, plate = it.section.face * it.pitch, it.section.plate * it.pitch
    outside = offset(chain, face)
    return offset(chain, face + plate).difference(outside), outside.difference(offset(chain, -it.rail))


@lru_cache(maxsize=64)
def loop(chain: Chain) -> tuple[BaseGeometry, BaseGeometry]:
    """What the track encloses within its tips as new, and what within its rails or drive lugs, in the machine's mm."""
    it = chain.undercarriage
    inwards = it.rail + (DRIVE_LUG * it.pitch if it.layout is Layout.RUBBER and chain.pins else 0.0)
    return offset(chain, it.reach), offset(chain, -inwards)
