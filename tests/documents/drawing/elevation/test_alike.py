"""Machines beside each other: one scale, or tracks of one length."""

from dataclasses import replace

from tracksworn.documents.drawing.elevation.alike import draw_alike
from tracksworn.documents.drawing.elevation.sides import SideElevation
from tracksworn.inspection.vocabulary import Layout, Side

PLAIN = SideElevation(Side.LEFT, Layout.OVAL, {}, (), (), "left", width=77.0, height=21.0, small=True)


def test_without_a_scale_to_state_tracks_are_equally_long() -> None:
    alike = draw_alike([PLAIN, replace(PLAIN, layout=Layout.EXCAVATOR)], 30.0)
    assert not alike.one_scale
    assert [result.scale for result in alike.results] == [None, None]
    assert all(result.drawing.width == 77.0 for result in alike.results)
    assert all(0 < result.drawing.height <= 28.0 for result in alike.results)
