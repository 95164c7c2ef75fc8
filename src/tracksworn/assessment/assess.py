"""From an inspection and its chart to everything that follows: percent worn, sides, overall, travel, findings."""

from collections.abc import Sequence
from dataclasses import replace

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.conformity.conformity import conformity
from tracksworn.assessment.findings import findings
from tracksworn.assessment.findings.foreign import with_foreign_marked
from tracksworn.assessment.forecast.courses import courses
from tracksworn.assessment.forecast.forecast import forecast
from tracksworn.assessment.model import Assessment, Parts, Row, SharesFrom
from tracksworn.assessment.occasions import Occasion
from tracksworn.assessment.overall import overall
from tracksworn.assessment.plan.plan import plan
from tracksworn.assessment.rows import components_in_order, rows_of
from tracksworn.assessment.samples import positions
from tracksworn.assessment.shares import shares
from tracksworn.assessment.sides import compare_sides
from tracksworn.assessment.so_far import SoFar
from tracksworn.assessment.sources import Circumstances
from tracksworn.assessment.travel import travel
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.letterhead import Assumed
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.prices import Prices
from tracksworn.inspection.terms import Terms

METHOD = 1
"""Raised by every change that alters a figure. The method before then moves aside whole and stays callable."""

NO_FIRM = Assumed()
"""No firm has set any value."""


def assess(
    inspection: Inspection,
    chart: WearChart | None,
    assumed: Assumed = NO_FIRM,
    *,
    earlier: Sequence[Inspection] = (),
    prices: Prices | None = None,
    terms: Terms | None = None,
) -> Assessment:
    """Assess one inspection by its chart; without one, estimates and observations stand and sizes have no percent.

    `assumed` are a firm's own values in place of the program's; `earlier` are older inspections of the same machine.
    All of these have been checked. Without prices there is no plan, without terms no verdict.
    """
    so_far = with_forecast(inspection, chart, Assumptions.set_by(assumed), earlier)
    return Assessment(
        method=METHOD,
        number=inspection.number,
        revision=inspection.revision,
        inspected=inspection.inspected,
        components=so_far.components,
        sides=so_far.sides,
        overall=so_far.overall,
        travel=so_far.travel,
        findings=findings(so_far),
        forecast=so_far.forecast,
        plan=plan(so_far, prices) if prices is not None else None,
        conformity=conformity(so_far, terms) if terms is not None else None,
        courses=tuple(courses(so_far)),
        assumptions=so_far.assumed,
    )


def with_forecast(
    inspection: Inspection, chart: WearChart | None, assumptions: Assumptions, earlier: Sequence[Inspection] = ()
) -> SoFar:
    """The figures with those of older inspections, by the same chart and assumed values, and what they foretell."""
    looks = (occasion_of(one, chart, assumptions) for one in earlier)
    oldest_first = sorted(looks, key=lambda one: (one.inspection.inspected, one.hours or 0.0))
    so_far = replace(figures(inspection, chart, assumptions), earlier=tuple(oldest_first))
    return replace(so_far, forecast=forecast(so_far))


def occasion_of(inspection: Inspection, chart: WearChart | None, assumptions: Assumptions) -> Occasion:
    """What one inspection found, part by part: all that a later one is set against."""
    components, _ = _components(inspection, chart, assumptions)
    return Occasion(inspection, Parts(components))


def figures(inspection: Inspection, chart: WearChart | None, assumptions: Assumptions) -> SoFar:
    """Everything that is computed before anything is concluded."""
    components, shares_from = _components(inspection, chart, assumptions)
    computed = SoFar(
        inspection=inspection,
        chart=chart,
        components=components,
        sides=compare_sides(components, assumptions),
        overall=overall(components, shares_from),
        travel=travel(inspection, chart),
        assumed=assumptions,
    )
    return with_foreign_marked(computed)


def _components(
    inspection: Inspection, chart: WearChart | None, assumptions: Assumptions
) -> tuple[tuple[Row, ...], SharesFrom]:
    """All rows. A side carries half of its component's share, each position an equal part of that."""
    machine, readings = inspection.machine, inspection.readings
    where = {
        component: positions(component, machine, readings.get(component))
        for component in components_in_order(inspection, chart)
    }
    shares_from, relative = shares(chart, machine.layout)
    whole = sum(relative.get(component, 0.0) for component in where if where[component])
    rows = (
        row
        for component, at in where.items()
        for row in rows_of(
            Circumstances(component, inspection, assumptions),
            chart,
            at,
            share=relative.get(component, 0.0) / whole / (2 * len(at)) if whole and at else 0.0,
        )
    )
    return tuple(rows), shares_from
