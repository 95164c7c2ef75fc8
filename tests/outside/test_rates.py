"""Worked answers for corrosion rates and remaining life, by the arithmetic of wear. Sizes are inches, time is years.

API 510 (10th ed.) 7.1.1, 7.2.1 and API 570 (4th ed.) 7.1, 7.2 have the formulas: long-term rate (first − now)/time,
short-term rate (previous − now)/time, remaining life (now − required)/rate, the larger rate governs. The answers are
those of a published study key. Here the larger governs only beyond the uncertainty of the difference, so these readings
are made all but certain.
"""

import pytest
from builders import chart, gauge, wears
from histories import fitted_at, walk

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import ForecastRow, RateFrom
from tracksworn.inspection.letterhead import Assumed
from tracksworn.inspection.vocabulary import Component

CERTAIN = Assumed(inspector=1e-6, seat=1e-6)
PROBE = gauge("probe", accuracy=1e-9)


def inspected(*thicknesses: tuple[float, float], first: float | None, required: float) -> tuple[ForecastRow, ...]:
    """Readings as (thickness, year), the last one now; `first` is the thickness at year 0, None where unknown."""
    new = 1.0 if first is None else first
    source = chart(wears(Component.SPROCKET, new, required))
    fitted = {} if first is None else {Component.SPROCKET: fitted_at(0.0)}
    *before, now = (
        walk(year, thickness, component=Component.SPROCKET, joints=None, tool=PROBE, fitted=fitted)
        for thickness, year in thicknesses
    )
    return assess(now, source, CERTAIN, earlier=before).forecast or ()


def lost_in_a_year(row: ForecastRow, rate: float | None, new: float, required: float) -> float:
    """From points in 100 h to inches a year."""
    assert rate is not None
    return rate / 100.0 * (new - required) / 100.0


def test_long_term_rate() -> None:
    """API 570 7.1: .400 to .260 in 20 years is 0.007 a year."""
    (row,) = inspected((0.260, 20.0), first=0.400, required=0.100)
    assert row.rate_from is RateFrom.SINCE_FITTED
    assert lost_in_a_year(row, row.rate_per_100_h, 0.400, 0.100) == pytest.approx(0.007)


def test_short_term_rate() -> None:
    """API 570 7.1: .565 to .521 in 4.42 years is 0.010 a year."""
    (row,) = inspected((0.565, 10.0), (0.521, 14.42), first=None, required=0.100)
    assert row.rate_from is RateFrom.BETWEEN
    assert lost_in_a_year(row, row.rate_per_100_h, 1.0, 0.100) == pytest.approx(0.010, abs=0.0005)


@pytest.mark.parametrize(("now", "required", "rate", "life"), [(0.198, 0.150, 0.007, 6.9), (0.211, 0.150, 0.003, 20.3)])
def test_remaining_life(now: float, required: float, rate: float, life: float) -> None:
    """API 570 7.2: .198 at .007 a year reaches .150 in 6.9 years; .211 at .003 in 20.3."""
    (row,) = inspected((now, 20.0), first=now + 20.0 * rate, required=required)
    assert row.hours_left == pytest.approx(life, abs=0.05)


def test_the_larger_rate_governs() -> None:
    """API 510 7.1.1: .742 to .718 in 6 years, 0.004, governs .750 to .718 in 13 years, 0.0025."""
    (row,) = inspected((0.742, 7.0), (0.718, 13.0), first=0.750, required=0.500)
    assert row.rate_from is RateFrom.BETWEEN
    short, long = row.rates[RateFrom.BETWEEN], row.rates[RateFrom.SINCE_FITTED]
    assert lost_in_a_year(row, short, 0.750, 0.500) == pytest.approx(0.004)
    assert lost_in_a_year(row, long, 0.750, 0.500) == pytest.approx(0.0025, abs=0.00005)


def test_remaining_life_by_the_larger_rate() -> None:
    """API 510 7.2.1: .210 with .150 required, at .010 and not .005 a year, is 6 years."""
    (row,) = inspected((0.220, 19.0), (0.210, 20.0), first=0.310, required=0.150)
    assert row.rate_from is RateFrom.BETWEEN
    assert row.hours_left == pytest.approx(6.0)


def test_no_time_gives_no_rate() -> None:
    """A zero interval is no rate, never an infinite one."""
    assert inspected((0.300, 0.0), first=0.400, required=0.100) == ()
    assert inspected((0.310, 5.0), (0.300, 5.0), first=None, required=0.100) == ()


def test_past_the_limit_no_life_is_left() -> None:
    """Nought, never less than nought."""
    (row,) = inspected((0.140, 20.0), first=0.400, required=0.150)
    assert (row.hours_left, row.hours_low, row.hours_high) == (0.0, 0.0, 0.0)


def test_what_grows_back_has_no_forecast() -> None:
    assert inspected((0.300, 5.0), (0.310, 9.0), first=None, required=0.100) == ()
