"""Whether two inspections of one machine agree, part by part and place by place."""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tracksworn.assessment.comparing.model import Agreement
from tracksworn.assessment.fitting import fitting_of, is_fitted_after
from tracksworn.assessment.model import PlaceFigure, Row
from tracksworn.assessment.occasions import Occasion, without_chart
from tracksworn.inspection.vocabulary import Component, PartPlace, Side

Where = Callable[[float, float], bool]
"""Of the first's percent worn and the second's."""


@dataclass(frozen=True, slots=True)
class _Pair:
    """One place of one part, measured on two occasions; the row is the first's."""

    row: Row
    one: PlaceFigure
    other: PlaceFigure

    @property
    def percents(self) -> tuple[float, float]:
        """The two figures."""
        assert self.one.percent_worn is not None
        assert self.other.percent_worn is not None
        return self.one.percent_worn, self.other.percent_worn


def agreements(first: Occasion, second: Occasion, *, where: Where | None = None) -> tuple[Agreement, ...]:
    """E_n = |w₁ − w₂| / √(U₁² + U₂²) wherever both measured the same part at the same place, in the first's order.

    With `where`, of those places alone whose two percents it holds for. Each U is without the chart's own errors. A
    part fitted or turned between the two is no longer the same and has none. Source: ISO/IEC 17043, from memory.
    """
    return tuple(_agreement(each) for each in _twice_measured(first, second) if where is None or where(*each.percents))


def is_renewed(
    first: Occasion, second: Occasion, component: Component, side: Side, position: int | None, *, or_turned: bool
) -> bool:
    """Whether the later of two inspections of one machine tells that a part went on after the earlier one."""
    earlier, later = sorted((first, second), key=lambda one: (one.inspection.inspected, one.hours or 0.0))
    fitting = fitting_of(later.inspection, component, side, position)
    return is_fitted_after(fitting, earlier.hours, or_turned=or_turned)


def _twice_measured(first: Occasion, second: Occasion) -> Iterator[_Pair]:
    for row in first.parts.components:
        other = second.parts.row(row.component, row.side, row.position)
        if other is None or is_renewed(first, second, row.component, row.side, row.position, or_turned=True):
            continue
        ones, others = _measured(row), _measured(other)
        yield from (_Pair(row, ones[place], others[place]) for place in ones if place in others)


def _measured(row: Row) -> dict[PartPlace | None, PlaceFigure]:
    return {figure.place: figure for figure in row.places if figure.percent_worn is not None}


def _agreement(pair: _Pair) -> Agreement:
    (first, second), row = pair.percents, pair.row
    e_n = abs(first - second) / math.hypot(_without_chart(pair.one), _without_chart(pair.other))
    return Agreement(row.component, row.side, row.position, pair.one.place, first, second, e_n)


def _without_chart(figure: PlaceFigure) -> float:
    """U of all that two inspectors may differ by; never 0, for the inspector is always in it."""
    assert figure.budget is not None
    return without_chart(figure.budget).expanded
