"""Worked examples of the guides to measurement uncertainty."""

import math

import numpy as np
import pytest
from builders import chart, gauge, inspection, machine, reading, wears
from numpy.random import Generator

from tracksworn.assessment.assess import assess
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.scale import Local
from tracksworn.assessment.spread import Read, mean, pooled_repeats
from tracksworn.assessment.uncertainty import (
    Budget,
    Contribution,
    Kind,
    Source,
    coverage_factor,
    weighted_sum,
)
from tracksworn.inspection.vocabulary import Component

TWENTY = (
    96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
    100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
)  # fmt: skip


def budget(*parts: tuple[float, float]) -> Budget:
    """Independent contributions with their degrees of freedom."""
    return Budget({Source(Kind.SPREAD, (i,)): Contribution(points, dof) for i, (points, dof) in enumerate(parts)})


def test_twenty_readings() -> None:
    """GUM (JCGM 100:2008) 4.4.3, Table 1."""
    reads = [Read(tuple(Local(each, -1.0, 0.0, 0.0) for each in TWENTY))]
    pooled = pooled_repeats(reads, Assumptions(prior_dof=0.0))
    assert mean(TWENTY) == pytest.approx(100.145, abs=0.0005)
    assert pooled.deviation == pytest.approx(1.48884, abs=0.000005)
    assert pooled.deviation / math.sqrt(20) == pytest.approx(0.332916, abs=0.0000005)
    assert pooled.dof == 19


def test_end_gauge() -> None:
    """GUM H.1. The guide prints ν 16.7, takes k at 16 and prints U 93 nm; 92.5 is U with that k, unrounded."""
    parts = budget((25.0, 18), (5.8, 24), (3.9, 5), (6.7, 8), (2.887, 50), (16.599, 2))
    assert parts.standard == pytest.approx(31.664, abs=0.0005)
    assert parts.dof == pytest.approx(16.752, abs=0.0005)
    assert coverage_factor(16, 0.99) == pytest.approx(2.92, abs=0.005)
    assert coverage_factor(16, 0.99) * parts.standard == pytest.approx(92.5, abs=0.05)


def test_three_relative_uncertainties() -> None:
    """GUM G.4.1; ν is not truncated, which would give 18."""
    parts = budget((0.25, 9), (0.57, 4), (0.82, 14))
    assert parts.standard == pytest.approx(1.03, abs=0.005)
    assert parts.dof == pytest.approx(18.9987, abs=0.00005)
    assert coverage_factor(parts.dof) == pytest.approx(2.09, abs=0.005)
    assert parts.expanded == pytest.approx(2.2, abs=0.05)


@pytest.mark.parametrize(
    ("dof", "t"),
    [(1, 12.71), (2, 4.30), (3, 3.18), (4, 2.78), (5, 2.57), (10, 2.23), (20, 2.09), (50, 2.01), (math.inf, 1.960)],
)
def test_students_t(dof: float, t: float) -> None:
    """GUM Table G.2, 95 %."""
    assert coverage_factor(dof) == pytest.approx(t, abs=0.005)


def test_ten_resistors_compared_with_one_standard() -> None:
    """GUM 5.2.2, example, from memory: shared errors add linearly, 1 Ω in series and not 0.32 Ω."""
    resistor = Budget({Source(Kind.INSTRUMENT, ("standard",)): Contribution(0.1)})
    apart = [Budget({Source(Kind.INSTRUMENT, (number,)): Contribution(0.1)}) for number in range(10)]
    assert weighted_sum([(1.0, resistor)] * 10).standard == pytest.approx(1.0)
    assert weighted_sum([(1.0, each) for each in apart]).standard == pytest.approx(0.32, abs=0.005)


def test_half_width_and_digital_step() -> None:
    """GUM 4.3.7 and F.2.2.1: a/√3, and r/√12 (0.01 gives 0.0028868)."""
    seen = inspection(
        reading(Component.PITCH, 100.0, gauge="caliper"), instruments=[gauge("caliper", resolution=0.01, accuracy=0.3)]
    )
    row = assess(seen, chart(wears(Component.PITCH, 50.0, 150.0))).components[0]
    assert row.budget is not None
    points = {source.kind: part.points for source, part in row.budget.contributions.items()}
    assert points[Kind.RESOLUTION] == pytest.approx(0.0028868, abs=5e-8)
    assert points[Kind.INSTRUMENT] == pytest.approx(0.3 / math.sqrt(3))


def half_interval(figures: "np.ndarray[tuple[int], np.dtype[np.float64]]") -> float:
    """Half of the shortest-tailed 95 % interval, 2.5 % on each side."""
    low, high = np.quantile(figures, (0.025, 0.975))
    return float(high - low) / 2


def rectangular(rng: Generator, standard: float, count: int) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    half = standard * math.sqrt(3)
    return rng.uniform(-half, half, count)


@pytest.mark.parametrize(
    ("standards", "true", "linear", "slack"),
    [((1.0, 1.0, 1.0, 1.0), 3.8794, 3.92, 0.02), ((1.0, 1.0, 1.0, 10.0), 17.0, 19.9, 0.05)],
)
def test_rectangular_errors(standards: tuple[float, ...], true: float, linear: float, slack: float) -> None:
    """JCGM 101:2008 9.2.3 and 9.2.4, from memory: the linear way is never narrower than the propagated distribution."""
    rng = np.random.default_rng(101)
    simulated = half_interval(sum(rectangular(rng, each, 200_000) for each in standards))  # type: ignore[arg-type]
    assert simulated == pytest.approx(true, abs=slack)
    expanded = budget(*((each, math.inf) for each in standards)).expanded
    assert expanded == pytest.approx(linear, abs=0.05)
    assert expanded > simulated


@pytest.mark.slow
def test_overall_figure_by_monte_carlo() -> None:
    """In the manner of JCGM 101:2008: the linear interval of the overall figure beside whole distributions."""
    entries = (
        wears(Component.LINK, 143.0, 128.0, tolerance=0.6, limit_tolerance=0.8, share=60.0),
        wears(Component.SPROCKET, 40.0, 45.0, new_doubt=0.4, share=40.0),
    )
    seen = inspection(
        reading(Component.LINK, (131.0, 131.6, 131.2), (133.0, 133.4, 133.1), gauge="caliper"),
        reading(Component.SPROCKET, 42.0, 42.6, gauge="caliper"),
        instruments=[gauge("caliper", accuracy=0.3)],
        machine=machine(),
    )
    overall = assess(seen, chart(*entries)).overall
    assert overall.percent_worn is not None
    assert overall.high is not None
    rng, count = np.random.default_rng(7), 400_000
    tool = rng.uniform(-0.3, 0.3, count)
    limit = 128.0 + rng.uniform(-0.8, 0.8, count)
    shared_new = 40.0 + rng.uniform(-0.4, 0.4, count)
    squares = [
        np.var([100 * (143 - x) / 15 for x in side]) * 3 for side in ((131.0, 131.6, 131.2), (133, 133.4, 133.1))
    ]
    scatter = math.sqrt((3 * 9 + sum(squares)) / 7)
    sigma = scatter * np.sqrt(7 / rng.chisquare(7, count))
    seats = np.sqrt(3 / rng.chisquare(3, count))
    parts = []
    for size in (131.0 + 0.8 / 3, 133.0 + 0.5 / 3):
        new = 143.0 + rng.uniform(-0.6, 0.6, count)
        parts.append(
            (30.0, 100 * (new - size + tool) / (new - limit) + sigma / math.sqrt(3) * rng.standard_normal(count))
        )
    link_inspector, sprocket_inspector = 2.0 * rng.standard_normal((2, count))
    for size in (42.0, 42.6):
        percent = 100 * (shared_new - size + tool) / (shared_new - 45.0)
        parts.append((20.0, percent + seats * rng.standard_normal(count)))
    figures = sum(share * percent for share, percent in parts) / 100.0 + 0.6 * link_inspector + 0.4 * sprocket_inspector
    assert float(np.mean(figures)) == pytest.approx(overall.percent_worn, abs=0.15)
    assert overall.high - overall.percent_worn == pytest.approx(half_interval(figures), rel=0.03)
