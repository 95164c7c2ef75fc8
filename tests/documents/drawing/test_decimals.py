"""Many coordinates at once come out as each would alone."""

import math

from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.decimals import decimals

HUNDREDTHS = st.integers(-30_000, 30_000).map(lambda whole: whole / 100)
MIDDLES = st.integers(-300_000, 300_000).map(lambda whole: whole / 1000)


@given(st.lists(st.floats(-1e6, 1e6) | st.floats(0, 300) | HUNDREDTHS | MIDDLES))
def test_as_each_alone(values: list[float]) -> None:
    """Also in the middle between two, under nought and beyond every sheet."""
    assert decimals(values) == [f"{value:.2f}" for value in values]


def test_ends_and_neighbours_of_middles() -> None:
    """One double more or less decides; a nought keeps its sign."""
    middles = [whole / 1000 for whole in range(5, 220_000, 1490)]
    near = [math.nextafter(value, way) for value in middles for way in (-math.inf, math.inf)]
    values = [*middles, *near, -0.0, 0.0, -0.001, 0.125, 219.99, 219.995, 219.996, 220.0, 1e15]
    assert decimals(values) == [f"{value:.2f}" for value in values]
