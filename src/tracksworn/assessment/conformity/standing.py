"""Where each side of a component stands before any verdict: its governing part, its hours, and what they allow."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.curves import Straight
from tracksworn.assessment.decisions import Why
from tracksworn.assessment.fitting import began, fitting_of, machine_hours
from tracksworn.assessment.model import Basis, Row
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.terms import Terms
from tracksworn.inspection.vocabulary import Component, Side

Allowance = tuple[tuple[float, float], ...]
"""Rows of (hours, percent worn), in the order of hours."""


@dataclass(frozen=True, slots=True)
class Standing:
    """One side of a component: `why` it cannot be measured against the terms, or what they allow it."""

    component: Component
    side: Side
    row: Row | None = None  # of the governing part; None where there is no figure
    hours: float | None = None  # since fitted or turned
    allowed: float | None = None
    slope: float = 0.0  # of what is allowed, points per hour
    why: Why | None = None

    @property
    def is_tested(self) -> bool:
        """Whether a measured figure decides."""
        return self.why is None


def standings(so_far: SoFar, terms: Terms) -> Iterator[Standing]:
    """Both sides of every component that has a row and is allowed for, by its name or by `any`."""
    for component in dict.fromkeys(row.component for row in so_far.components):
        rows = terms.allowed.get(component, terms.allowed.get(None))
        if rows is not None:
            yield from (_standing(so_far, Standing(component, side), rows) for side in Side)


def _standing(so_far: SoFar, part: Standing, allowance: Allowance) -> Standing:
    """The first reason that holds: no figure, then outside the terms, then whatever forbids a verdict by measure."""
    row = so_far.governing(part.component, part.side)
    if row is None:
        return replace(part, why=_without_figure(so_far, part))
    at_inspection = machine_hours(so_far.inspection, word_counts=False)
    since = began(fitting_of(so_far.inspection, part.component, part.side, row.position), word_counts=False)
    part = replace(part, row=row)
    if at_inspection is None or since is None:
        return replace(part, why=Why.HOURS if at_inspection is None else Why.FITTING)
    hours = at_inspection - since
    part = replace(part, hours=hours)
    if exceeds(allowance[0][0], hours) or exceeds(hours, allowance[-1][0]):
        return replace(part, why=Why.BEYOND)
    if _gauge_was_due(so_far, row):
        return replace(part, why=Why.GAUGE_DUE)
    allowed, slope = Straight(allowance).at(hours)
    return replace(part, allowed=allowed, slope=slope, why=_undecidable(so_far, row))


def _without_figure(so_far: SoFar, part: Standing) -> Why:
    rows = so_far.rows(part.component, part.side)
    return Why.NO_PERCENT if any(row.basis is Basis.MEASURED for row in rows) else Why.NOT_SEEN


def _gauge_was_due(so_far: SoFar, row: Row) -> bool:
    gauge = so_far.inspection.instruments.get(row.gauge or "")
    return gauge is not None and gauge.due is not None and so_far.inspection.inspected > gauge.due


def _undecidable(so_far: SoFar, row: Row) -> Why | None:
    if so_far.chart is None or so_far.chart.stands_in_for is not None:
        return Why.CHART
    return Why.BY_EYE if row.basis is Basis.BY_EYE else None
