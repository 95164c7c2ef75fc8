"""Published straight lines, and what they foretell."""

import math

import pytest

from tracksworn.assessment.forecast.line import Line
from tracksworn.assessment.forecast.reach import Growth
from tracksworn.assessment.uncertainty import coverage_factor

NORRIS = (
    (0.2, 0.1), (337.4, 338.8), (118.2, 118.1), (884.6, 888.0), (10.1, 9.2), (226.5, 228.1), (666.3, 668.5),
    (996.3, 998.5), (448.6, 449.1), (777.0, 778.9), (558.2, 559.2), (0.4, 0.3), (0.6, 0.1), (775.5, 778.1),
    (666.9, 668.8), (338.0, 339.3), (447.5, 448.9), (11.6, 10.8), (556.0, 557.7), (228.1, 228.3), (995.8, 998.0),
    (887.6, 888.8), (120.2, 119.6), (0.3, 0.3), (0.3, 0.6), (556.8, 557.6), (339.1, 339.3), (887.2, 888.0),
    (999.0, 998.5), (779.0, 778.9), (11.1, 10.2), (118.3, 117.6), (229.2, 228.9), (669.1, 668.4), (448.9, 449.2),
    (0.5, 0.2),
)  # fmt: skip

NATRELLA_X = (30, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1100, 1200, 1300, 1400, 1500)
NATRELLA_Y = (
    4642, 4612, 4565, 4513, 4476, 4433, 4389, 4347, 4303, 4251, 4201, 4140, 4100, 4073, 4024, 3999,
)  # fmt: skip

THERMOMETER = (
    (21.521, -0.171), (22.012, -0.169), (22.512, -0.166), (23.003, -0.159), (23.507, -0.164), (23.999, -0.165),
    (24.513, -0.156), (25.002, -0.157), (25.503, -0.159), (26.010, -0.161), (26.511, -0.160),
)  # fmt: skip

CADMIUM = (
    (0.1, 0.028), (0.1, 0.029), (0.1, 0.029), (0.3, 0.084), (0.3, 0.083), (0.3, 0.081), (0.5, 0.135), (0.5, 0.131),
    (0.5, 0.133), (0.7, 0.180), (0.7, 0.181), (0.7, 0.183), (0.9, 0.215), (0.9, 0.230), (0.9, 0.216),
)  # fmt: skip


def natrella() -> Line:
    return Line.through([(float(x), float(y)) for x, y in zip(NATRELLA_X, NATRELLA_Y, strict=True)])


def of_the_line(line: Line, x: float) -> float:
    """Standard uncertainty of the line itself at x, without the scatter of one further observation."""
    return math.sqrt(line.variance_at(x) - line.deviation**2)


def test_norris() -> None:
    """NIST StRD, Norris: certified slope, intercept, their standard deviations, and the residual one."""
    line = Line.through(NORRIS)
    assert line.slope == pytest.approx(1.00211681802045, rel=1e-11)
    assert line.at(0.0) == pytest.approx(-0.262323073774029, rel=1e-10)
    assert line.deviation == pytest.approx(0.884796396144373, rel=1e-10)
    assert math.sqrt(line.slope_variance) == pytest.approx(0.000429796848199937, rel=1e-10)
    assert of_the_line(line, 0.0) == pytest.approx(0.232818234301152, rel=1e-10)
    assert line.dof == 34


def test_one_new_observation() -> None:
    """Natrella, NBS Handbook 91, 5-4.1: slope, intercept, s, and the 95 % prediction at 750."""
    line = natrella()
    assert line.slope == pytest.approx(-0.44985482, abs=5e-9)
    assert line.at(0.0) == pytest.approx(4654.9846, abs=5e-5)
    assert line.deviation == pytest.approx(9.277617, abs=1e-6)  # cut off, not rounded, here and below
    assert line.variance_at(750.0) == pytest.approx(91.45, abs=0.005)
    within = coverage_factor(line.dof) * math.sqrt(line.variance_at(750.0))
    ends = (line.at(750.0) - within, line.at(750.0) + within)
    assert ends == pytest.approx((4297.082, 4338.104), abs=0.001)


def test_where_its_bounds_meet_a_level() -> None:
    """Natrella's line turned to rise: its bounds at 750 meet those levels at 750, asked from any x before."""
    line = Line.through([(float(x), -float(y)) for x, y in zip(NATRELLA_X, NATRELLA_Y, strict=True)])
    for level, end in ((-4297.082, 0), (-4338.104, 1)):
        growth = Growth(
            level - line.at(100.0), line.slope, line.variance_at(100.0), line.covariance_at(100.0), line.slope_variance
        )
        assert growth.reached(coverage_factor(line.dof))[end] == pytest.approx(650.0, abs=0.002)


def test_inverse_question() -> None:
    """Eurachem/CITAC QUAM:2012 A5: two readings of mean .0714 meet the line at 0.260, u = 0.018 (0.0178446)."""
    line, read, level = Line.through(CADMIUM), 2, (0.0712 + 0.0716) / 2
    x = line.middle[0] + (level - line.middle[1]) / line.slope
    assert x == pytest.approx(0.260, abs=0.0005)
    of_two = math.sqrt(line.variance_at(x) - line.deviation**2 + line.deviation**2 / read)
    assert of_two / line.slope == pytest.approx(0.0178446, abs=5e-8)


def test_inverse_question_by_its_bounds() -> None:
    """The same by where the bounds are at that level, which lie about it unevenly since the slope is in doubt too."""
    line, level = Line.through(CADMIUM), 0.0714
    spared = line.deviation**2 / 2
    growth = Growth(
        level - line.at(0.0), line.slope, line.variance_at(0.0) - spared, line.covariance_at(0.0), line.slope_variance
    )
    first, last = growth.reached(1.0)
    assert last is not None
    assert (first, last) == pytest.approx((0.260 - 0.0178446, 0.260 + 0.0178446), abs=0.0006)


def test_thermometer() -> None:
    """GUM H.3: slope 0.00218 (0.00067), and the line at 30: −0.1494 (0.0041)."""
    line = Line.through([(reading - 20.0, correction) for reading, correction in THERMOMETER])
    assert line.slope == pytest.approx(0.00218, abs=5e-6)
    assert math.sqrt(line.slope_variance) == pytest.approx(0.00067, abs=5e-6)
    assert line.at(10.0) == pytest.approx(-0.1494, abs=5e-5)
    assert of_the_line(line, 10.0) == pytest.approx(0.0041, abs=5e-5)
