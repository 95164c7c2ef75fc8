"""Hatching by scan lines, held against clipping by Shapely."""

import math

import pytest
from shapely import LineString, MultiPolygon, box
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.outline import disc, hatch, ring

SHAPES: dict[str, BaseGeometry] = {
    "square": box(3, 5, 23, 17),
    "ring": ring((20.0, 20.0), 4.0, 15.0),
    "apart": MultiPolygon([box(0, 0, 4, 9), box(10, 2, 19, 8)]),
    "touching": MultiPolygon([box(0, 0, 5, 10), box(5, 0, 12, 10)]),
}


@pytest.mark.parametrize("area", SHAPES.values(), ids=SHAPES)
@pytest.mark.parametrize("angle", [0.0, 30.0, 45.0, 90.0])
def test_every_line_lies_within_and_their_length_is_the_area_over_the_spacing(area: BaseGeometry, angle: float) -> None:
    pieces = [LineString(line.points) for line in hatch(area, 0.05, angle=angle)]
    assert sum(piece.length for piece in pieces) == pytest.approx(area.area / 0.05, rel=0.01)
    grown = area.buffer(1e-3)
    assert all(grown.covers(piece) for piece in pieces)


def test_lines_stand_on_a_grid_of_the_sheet() -> None:
    across = (math.sin(math.radians(45)), math.cos(math.radians(45)))
    for area in (disc((11.3, 7.9), 4.0), box(40.2, 3.3, 47.7, 9.1)):
        for line in hatch(area, 0.6):
            offsets = [(x * across[0] + y * across[1]) / 0.6 for x, y in line.points]
            assert offsets == pytest.approx([round(offset) for offset in offsets], abs=1e-3)


def test_a_line_runs_on_through_parts_that_touch() -> None:
    assert len(hatch(SHAPES["touching"], 1.0, angle=0.0)) == len(hatch(box(0, 0, 12, 10), 1.0, angle=0.0))


def test_crossed_hatching_has_both_ways_and_nothing_has_none() -> None:
    square = SHAPES["square"]
    assert set(hatch(square, 0.5, crossed=True)) == {*hatch(square, 0.5), *hatch(square, 0.5, angle=-45.0)}
    assert hatch(box(0, 0, 1, 1).intersection(box(5, 5, 6, 6)), 0.5) == ()
