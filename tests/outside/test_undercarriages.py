"""Published new sizes and wear limits of undercarriage parts."""

import math

import pytest
from builders import chart, gauge, inspection, machine, reading, wears

from tracksworn.assessment.assess import assess
from tracksworn.assessment.model import Row, Stage
from tracksworn.inspection.chart import ChartComponent
from tracksworn.inspection.model import Machine
from tracksworn.inspection.vocabulary import Component, Impact

INCH = 25.4


def row(entry: ChartComponent, *sizes: float, found: Machine | None = None, position: int | None = None) -> Row:
    seen = inspection(reading(entry.component, sizes), machine=found or machine())
    return next(each for each in assess(seen, chart(entry)).components if each.position == position)


@pytest.mark.parametrize(
    ("low", "high", "limit"),
    [
        (1.7580, 1.7600, 1.7560),
        (1.9940, 1.9970, 1.9930),
        (1.7620, 1.7650, 1.7670),
        (1.4990, 1.5010, 1.4980),
        (1.5200, 1.5300, 1.5450),
    ],
    ids=["plunger", "bearing", "bearing bore", "piston", "sleeve bore"],
)
def test_track_tension_adjuster(low: float, high: float, limit: float) -> None:
    """TM 9-2350-261-34, WP 0037, Table 1, inch: new sizes are ranges, limits lie below them or, for bores, above."""
    middle, half = (low + high) / 2 * INCH, (high - low) / 2 * INCH
    entry = wears(Component.FRONT_IDLER, middle, limit * INCH, tolerance=half)
    at_limit = row(entry, limit * INCH)
    assert at_limit.percent_worn == pytest.approx(100.0)
    assert at_limit.stage is Stage.PAST_LIMIT
    as_new = row(entry, low * INCH if limit < low else high * INCH)
    assert as_new.percent_worn == pytest.approx(100 * half / abs(middle - limit * INCH))
    assert as_new.budget is not None
    tolerance = next(p.points for s, p in as_new.budget.contributions.items() if s.kind == "tolerance")
    worn = as_new.percent_worn or 0.0
    assert abs(tolerance) == pytest.approx((100 - worn) * half / math.sqrt(3) / abs(middle - limit * INCH))


@pytest.mark.parametrize(("size", "percent"), [(101.0, 50.0), (99.2, 70.0), (105.5, 0.0), (96.5, 100.0)])
def test_link_height(size: float, percent: float) -> None:
    """A maker's published track specification: new 105.5 mm, 100 % at 96.5 mm."""
    assert row(wears(Component.LINK, 105.5, 96.5), size).percent_worn == pytest.approx(percent)


def test_link_height_uncertainty() -> None:
    """The same: u(w) = 100 u(x)/|new − limit|, 2.22 points for 0.2 mm."""
    seen = inspection(
        reading(Component.LINK, 101.0, gauge="gauge"), instruments=[gauge("gauge", uncertainty=0.4, k=2.0)]
    )
    budget = assess(seen, chart(wears(Component.LINK, 105.5, 96.5))).components[0].budget
    assert budget is not None
    instrument = next(p.points for s, p in budget.contributions.items() if s.kind == "instrument")
    assert abs(instrument) == pytest.approx(2.22, abs=0.005)


@pytest.mark.parametrize(("impact", "percent"), [(Impact.LOW, 72.5), (Impact.HIGH, 100.0)])
def test_bushing_limits_by_impact(impact: Impact, percent: float) -> None:
    """A maker's published track specification: 60.70 ± 0.13 mm new, 51.6 mm on low impact, 54.1 mm on higher."""
    entry = wears(Component.BUSHING, 60.70, (51.6, 54.1), tolerance=0.13)
    assert row(entry, 54.1, found=machine(impact=impact)).percent_worn == pytest.approx(percent, abs=0.05)


@pytest.mark.parametrize(("new", "limit", "size", "percent"), [(40, 45, 42.5, 50.0), (83, 73, 75, 80.0)])
def test_excavator_sprockets(new: float, limit: float, size: float, percent: float) -> None:
    """A published excavator inspection table: one dimension grows with wear, another shrinks."""
    assert row(wears(Component.SPROCKET, new, limit), size).percent_worn == pytest.approx(percent)


def test_grouser_and_roller() -> None:
    """A maker's maintenance manual: grouser 57.5 to 16.5 mm, roller tread 200 to 164 mm."""
    assert row(wears(Component.SHOE, 57.5, 16.5), 37.0).percent_worn == pytest.approx(50.0)
    roller = wears(Component.BOTTOM_ROLLER, 200.0, 164.0)
    assert row(roller, 182.0, position=1).percent_worn == pytest.approx(50.0)


def test_limits_by_position() -> None:
    """A maker's maintenance manual, a larger machine: end rollers 280 to 200 mm, the rest 270 to 210 mm."""
    entry = wears(Component.BOTTOM_ROLLER, 270.0, 210.0, ends=(280.0, 200.0))
    seen = inspection(reading(Component.BOTTOM_ROLLER, (240.0,) * 4), machine=machine(bottom_rollers=4))
    percents = [each.percent_worn for each in assess(seen, chart(entry)).components[:4]]
    assert percents == pytest.approx([50.0] * 4)
    seen = inspection(reading(Component.BOTTOM_ROLLER, (220.0,) * 4), machine=machine(bottom_rollers=4))
    percents = [each.percent_worn for each in assess(seen, chart(entry)).components[:4]]
    assert percents == pytest.approx([75.0, 250 / 3, 250 / 3, 75.0])


def test_chart_and_reading_in_inches_or_millimetres() -> None:
    """Inch and millimetre give the same percent: 1.5450 in is 39.243 mm."""
    inch = row(wears(Component.SPROCKET, 1.5250 * INCH, 1.5450 * INCH), 1.5350 * INCH)
    metric = row(wears(Component.SPROCKET, 38.735, 39.243), 38.989)
    assert inch.percent_worn == pytest.approx(metric.percent_worn)
    assert inch.uncertainty == pytest.approx(metric.uncertainty)
