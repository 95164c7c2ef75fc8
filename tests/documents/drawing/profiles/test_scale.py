"""Scales of two figures."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.profiles.scale import fitting, ratio


@pytest.mark.parametrize(
    ("scale", "decimal", "said"),
    [
        (1 / 2.8, ".", "1 : 2.8"),
        (1 / 2.8, ",", "1 : 2,8"),
        (1 / 13, ".", "1 : 13"),
        (4.0, ".", "4 : 1"),
        (1.0, ".", "1 : 1"),
    ],
)
def test_a_scale_is_written_as_draughtsmen_do(scale: float, decimal: str, said: str) -> None:
    assert ratio(scale, decimal) == said.replace(" ", "\u00a0")


@given(st.floats(0.2, 5000), st.floats(20, 90))
def test_the_largest_scale_that_fits_wastes_little(length: float, room: float) -> None:
    used = length * fitting(length, room)
    assert used <= room
    assert used >= 0.9 * room or fitting(length, room) >= 990
