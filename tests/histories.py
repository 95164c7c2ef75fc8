"""Machines that were inspected more than once, for tests. Hours are machine hours; the day follows from them."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from builders import Said, chart, gauge, inspection, machine, reading, wears

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import ForecastRow
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.letterhead import Assumed
from tracksworn.inspection.model import Fitting, Hours, Inspection, Instrument
from tracksworn.inspection.vocabulary import Component, Evidence

LINKS: WearChart = chart(wears(Component.LINK, 200.0, 100.0, spread=1.0))
"""A millimetre is a percent."""

DEPTH_GAUGE = gauge("depth gauge", resolution=0.05, accuracy=0.1, calibrated=date(2030, 1, 14))
JOINTS = (3, 13, 23, 33)
NEW_MACHINE = date(2020, 1, 1)


def fitted_at(hours: float, **more: Any) -> Fitting:
    """On since then, by the invoice."""
    return Fitting(hours, Evidence.INVOICE, **more)


def walk(
    hours: float | Hours | None,
    left: Said,
    right: Said = None,
    *,
    component: Component = Component.LINK,
    joints: tuple[int, ...] | None = JOINTS,
    tool: Instrument | None = DEPTH_GAUGE,
    fitted: Mapping[Any, Fitting] | None = None,
    inspector: str = "Ines Marlow",
    **of_machine: Any,
) -> Inspection:
    """One walk round the machine at which one component was read."""
    meter = Hours(hours) if isinstance(hours, float | int) else hours
    name = tool.name if tool else None
    seen = inspection(
        reading(component, left, right, gauge=name, joints=joints),
        machine=machine(hours=meter, **of_machine),
        instruments=[tool] if tool else [],
        fitted=fitted,
        inspector=inspector,
    )
    return at_day(seen, meter.machine if meter else 9000.0)


def at_day(seen: Inspection, hours: float) -> Inspection:
    """The inspection on the day when a machine that works eight hours a day has so many hours."""
    day = min(int(hours / 8.0), 28_000)
    return replace(seen, number=f"AT-{hours:.0f}", inspected=NEW_MACHINE + timedelta(days=day))


def worn(percent: float, scatter: float = 0.5) -> tuple[float, ...]:
    """Four joints on `LINKS` with that mean."""
    return tuple(200.0 - percent + scatter * each for each in (-1.0, 1.0, 1.0, -1.0))


def forecast_of(
    now: Inspection,
    *earlier: Inspection,
    by: WearChart = LINKS,
    assumed: Assumed = Assumed(),  # noqa: B008 - frozen
) -> tuple[ForecastRow, ...] | None:
    """The forecast of an inspection with those before it."""
    return assess(now, by, assumed, earlier=earlier).forecast


def only_row(rows: Sequence[ForecastRow] | None) -> ForecastRow:
    """The one row of a forecast."""
    assert rows is not None
    assert len(rows) == 1
    return rows[0]
