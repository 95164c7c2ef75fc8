"""Reading between the rows of a table, beside published values and beside a library's faults."""

import numpy as np
import pytest

from tracksworn.assessment.curves import Straight
from tracksworn.assessment.monotone import Monotone

ROWS = tuple(
    zip(
        (7.99, 8.09, 8.19, 8.70, 9.20, 10.0, 12.0, 15.0, 20.0),
        (0.0, 0.27643e-4, 0.4375e-1, 0.16918, 0.46943, 0.94374, 0.99864, 0.99992, 0.99999),
        strict=True,
    )
)


@pytest.mark.parametrize(("at", "value"), [(9.191, 0.4640), (10.392, 0.9645), (11.593, 0.9965)])
def test_monotone(at: float, value: float) -> None:
    """NAG e01bec example."""
    assert Monotone(ROWS).at(at)[0] == pytest.approx(value, abs=0.00005)


def test_monotone_shrinking() -> None:
    """The same example with the size falling: mirrored, the values stay."""
    mirrored = Monotone(tuple((-size, percent) for size, percent in ROWS))
    assert mirrored.at(-9.191)[0] == pytest.approx(0.4640, abs=0.00005)


def test_monotone_never_overshoots() -> None:
    """NAG e01bec example: no overshoot, monotone."""
    curve = Monotone(ROWS)
    values = [curve.at(at)[0] for at in np.linspace(7.99, 20.0, 500)]
    assert values == sorted(values)
    assert max(values) <= 0.99999


def test_past_the_table_and_falling_sizes() -> None:
    """numpy.interp clamps outside its table and wants increasing x: both wrong for percent worn past a limit."""
    rows = ((84.0, 0.0), (82.0, 20.0), (79.5, 55.0), (76.5, 100.0))
    sizes, percents = zip(*rows, strict=True)
    assert np.interp(75.5, sizes[::-1], percents[::-1]) == 100.0
    assert np.interp(80.0, sizes, percents) != pytest.approx(48.0)
    assert Straight(rows).at(75.5)[0] == pytest.approx(115.0)
    assert Straight(rows).at(80.0)[0] == pytest.approx(48.0)
    assert Straight(rows).at(80.7)[0] == pytest.approx(float(np.interp(80.7, sizes[::-1], percents[::-1])))
