"""The chain's faces from arrays, held against the same cut by shapely."""

import numpy as np
import pytest
import shapely
from documents.drawing.elevation.machines import HOLLIN, PITCHES

from tracksworn.documents.drawing.elevation import link
from tracksworn.documents.drawing.elevation.faces import at_links, rail_lines, visible_links
from tracksworn.documents.drawing.elevation.undercarriage import Fitted, undercarriage
from tracksworn.documents.drawing.elevation.walk import Chain, chain
from tracksworn.inspection.chart import Geometry
from tracksworn.inspection.vocabulary import Layout

STEEL = [layout for layout in Layout if layout is not Layout.RUBBER]


def chain_of(layout: Layout) -> Chain:
    geometry = HOLLIN if layout is Layout.ELEVATED_SPROCKET else Geometry(pitch=PITCHES[layout])
    return chain(undercarriage(Fitted(layout, False, geometry, 6, 1, None, None)))


def whole_rails(it: Chain) -> np.ndarray:
    """Every rail with both its overhangs, not cut."""
    overhang = link.END[0, 0] - 1
    top, low = link.rail_height(0), link.rail_height(1)
    corners = np.array([(-overhang, top), (1 + overhang, top), (1 + overhang, low), (-overhang, low)])
    return np.asarray(shapely.polygons(at_links(it, corners)))


@pytest.mark.parametrize("layout", STEEL)
def test_the_visible_rails_are_what_cutting_each_by_the_link_before_it_leaves(layout: Layout) -> None:
    it = chain_of(layout)
    quads = np.concatenate((rail_lines(it, 0), rail_lines(it, 1)[:, ::-1]), axis=1)
    links = shapely.polygons(at_links(it, link.LINK))
    cut = shapely.intersection(whole_rails(it), shapely.difference(links, np.roll(links, 1)))
    mean = shapely.area(cut).mean()
    assert shapely.area(shapely.difference(shapely.polygons(quads), cut)).max() < 0.02 * mean
    assert shapely.area(shapely.difference(cut, shapely.polygons(quads))).max() < 0.1 * mean  # a corner on a wheel


@pytest.mark.parametrize("layout", STEEL)
def test_rails_meet_without_a_gap_and_do_not_overlap(layout: Layout) -> None:
    it = chain_of(layout)
    quads = shapely.polygons(np.concatenate((rail_lines(it, 0), rail_lines(it, 1)[:, ::-1]), axis=1))
    assert shapely.area(shapely.intersection(quads, np.roll(quads, 1))).max() < 1e-3 * shapely.area(quads).mean()
    assert shapely.distance(quads, np.roll(quads, 1)).max() < 1e-6


@pytest.mark.parametrize("layout", STEEL)
def test_what_is_visible_of_the_links_covers_what_all_of_them_do(layout: Layout) -> None:
    it = chain_of(layout)
    corners, counts = visible_links(it)
    parts = [shapely.Polygon(each) for each in np.split(corners, np.cumsum(counts)[:-1])]
    whole = shapely.union_all(shapely.polygons(at_links(it, link.LINK)))
    assert sum(part.area for part in parts) == pytest.approx(whole.area, rel=0.01)
    assert len(parts) == len(it.pins)
