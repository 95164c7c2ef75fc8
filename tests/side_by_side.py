"""Inspections to be set side by side, and differences made by hand."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from itertools import combinations
from pathlib import Path
from typing import Any

from builders import chart, inspection, machine, reading, wears

from tracksworn.assessment.assess import assess
from tracksworn.assessment.comparing.model import Agreement, Difference, Gap, SideGap
from tracksworn.assessment.decisions import ForecastRow, Plan, RateFrom
from tracksworn.documents.comparison.between import Pair
from tracksworn.documents.comparison.build import Compared, comparison
from tracksworn.documents.comparison.machine import Machine, named
from tracksworn.documents.comparison.view import Comparison
from tracksworn.documents.full.context import Context
from tracksworn.documents.words.figures import Figures
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.letterhead import Letterhead, Signatory
from tracksworn.inspection.vocabulary import Component, Side

CHART = chart(
    wears(Component.LINK, 110.0, 10.0, share=0.6),
    wears(Component.SPROCKET, 110.0, 10.0, share=0.4),
)
"""1 mm is 1 point."""


def looked_at(lot: str, left: Any = 60.0, right: Any = 60.0, *, unlisted: bool = False, **more: Any) -> Compared:
    """A machine with links of these sizes, whose sprocket was seen unless it is told otherwise."""
    told = {
        "number": f"N-{lot}",
        "lot": None if unlisted else lot,
        "machine": replace(machine(), serial=f"S-{lot}"),
    }
    readings = [reading(Component.LINK, left, right), *more.pop("readings", [reading(Component.SPROCKET, 60.0, 60.0)])]
    letterhead, prices = more.pop("letterhead", None), more.pop("plan", None)
    seen = replace(inspection(*readings), **(told | more))
    assessment = replace(assess(seen, CHART), plan=prices)
    dossier = Dossier(seen, Path(lot), CHART, letterhead, digests={f"{lot}/inspection.yaml": lot.zfill(64)})
    return Compared(dossier, assessment)


def gap(points: float, within: float = 8.0, *, same: bool = False, agreement: tuple[Agreement, ...] = ()) -> Difference:
    """A difference of the whole, and of the left links alike."""
    sides = (
        SideGap(Component.LINK, Side.LEFT, Gap(points, within)),
        SideGap(Component.LINK, Side.RIGHT, None),
    )
    return Difference(Gap(points, within), sides, same, agreement)


def pairs_of(count: int, by: Mapping[tuple[int, int], Difference] | None = None) -> list[Pair]:
    """Differences of every two, made by hand; what is not given is 20 points less with an uncertainty of 8."""
    found = by or {}
    return [(one, other, found.get((one, other), gap(-20.0))) for one, other in combinations(range(count), 2)]


def machines_of(*compared: Compared) -> tuple[Machine, ...]:
    """The machines with their names, without a page."""
    return named([Context(one.dossier, one.assessment, Figures()) for one in compared])


def set_side_by_side(
    *compared: Compared, by: Mapping[tuple[int, int], Difference] | None = None, **asked: Any
) -> Comparison:
    """The whole view."""
    return comparison(compared, pairs_of(len(compared), by), **asked)


def plan(currency: str = "EUR", as_of: date = date(2031, 3, 1)) -> Plan:
    """A plan without visits."""
    return Plan(as_of, currency, 95.0, (), value_left=41_200.4, cost_to_restore=30_100.0)


def ahead(hours_left: float, low: float, high: float | None, side: Side = Side.LEFT) -> ForecastRow:
    """A forecast of links."""
    rates = {RateFrom.SINCE_FITTED: 2.0, RateFrom.BETWEEN: None}
    return ForecastRow(
        Component.LINK, side, None, 2.0, RateFrom.SINCE_FITTED, rates, hours_left, low, high, None, None, 5000.0, 2000.0
    )


def headed(firm: str, **more: Any) -> Letterhead:
    """A letterhead."""
    return Letterhead(firm, Signatory("Ines Marlow", "Surveyor"), **more)
