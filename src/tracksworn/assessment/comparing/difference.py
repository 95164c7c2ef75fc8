"""How far two assessed inspections differ, and whether that is more than its uncertainty."""

import math
import unicodedata
from collections.abc import Iterator, Sequence
from itertools import combinations

from tracksworn.assessment.comparing.agreement import agreements
from tracksworn.assessment.comparing.model import Assessed, Difference, Gap, SideGap
from tracksworn.assessment.comparing.sharing import Sharing, sharing
from tracksworn.assessment.model import Overall, Reckoning
from tracksworn.assessment.sides import Middle, middle_of
from tracksworn.assessment.uncertainty import CERTAIN, weighted_sum
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component, PartPlace, Side


def differences(machines: Sequence[Assessed]) -> tuple[tuple[int, int, Difference], ...]:
    """Every two of several, by their indices, the first of each the earlier in the list."""
    pairs = combinations(range(len(machines)), 2)
    return tuple((one, other, difference(machines[one], machines[other])) for one, other in pairs)


def difference(first: Assessed, second: Assessed) -> Difference:
    """The first less the second, with the errors that both share (GUM 5.2.2).

    The sides are those of every component that both have rows for, in the first's order.
    """
    same = is_same_machine(first.inspection, second.inspection)
    shared = sharing(first, second, same_machine=same)
    return Difference(
        overall=_gap(_whole(first.assessment.overall), _whole(second.assessment.overall), shared),
        sides=tuple(_side_gaps(first.assessment, second.assessment, shared)),
        same_machine=same,
        agreement=agreements(first.occasion, second.occasion) if same else (),
    )


def is_same_machine(one: Inspection, other: Inspection) -> bool:
    """Whether maker, model and serial are the same, as written, after Unicode NFC."""
    return _identity(one) == _identity(other)


def _identity(inspection: Inspection) -> tuple[str, ...]:
    machine = inspection.machine
    return tuple(unicodedata.normalize("NFC", text) for text in (machine.maker, machine.model, machine.serial))


def _gap(first: Middle | None, second: Middle | None, shared: Sharing) -> Gap | None:
    """U² = U(measured)² + (half-width + half-width)²: each range was judged on its own."""
    if first is None or second is None:
        return None
    budget = weighted_sum([(1.0, shared.first(first.budget)), (-1.0, shared.second(second.budget))])
    within = math.hypot(budget.expanded, first.half_width + second.half_width)
    return Gap(first.percent - second.percent, within)


def _whole(overall: Overall) -> Middle | None:
    """The overall figure where it is more than a bound."""
    if overall.percent_worn is None or overall.high is None:
        return None
    return Middle(overall.percent_worn, overall.budget or CERTAIN, overall.half_width)


def _side_gaps(first: Reckoning, second: Reckoning, shared: Sharing) -> Iterator[SideGap]:
    for component in dict.fromkeys(row.component for row in first.components):
        if second.rows(component):
            for side in Side:
                yield SideGap(component, side, _side_gap(first, second, component, side, shared))


def _side_gap(first: Reckoning, second: Reckoning, component: Component, side: Side, shared: Sharing) -> Gap | None:
    """The governing figures; a place that only one of the two names makes no pair."""
    one, other = first.governing(component, side), second.governing(component, side)
    if one is None or other is None:
        return None
    if one.place not in _named(second, component, side) or other.place not in _named(first, component, side):
        return None
    return _gap(middle_of(one), middle_of(other), shared)


def _named(reckoning: Reckoning, component: Component, side: Side) -> set[PartPlace | None]:
    return {place for row in reckoning.rows(component, side) for place in row.place_order}
