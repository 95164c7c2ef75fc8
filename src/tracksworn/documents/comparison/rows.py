"""Component by component over all machines, each left against right."""

from collections.abc import Sequence

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.model import Comparison, Row
from tracksworn.assessment.sides import leading
from tracksworn.documents.comparison.machine import Machine
from tracksworn.documents.comparison.view import CellView, HalfView, RowView
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.gauges import alternative, gauge, reason
from tracksworn.documents.full.parts import governing
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.language import N_
from tracksworn.inspection.vocabulary import ROLLERS, Component, Side


def rows(machines: Sequence[Machine]) -> tuple[RowView, ...]:
    """A row for every component that any of the machines has, in the trade's order."""
    present = {row.component for machine in machines for row in machine.context.assessment.components}
    return tuple(_row(component, machines) for component in Component if component in present)


def _row(component: Component, machines: Sequence[Machine]) -> RowView:
    language = machines[0].context.language
    name = labels.heading(component, language)
    if component in ROLLERS:
        name = language.say(N_("{rollers}, worst seen"), rollers=name)
    return RowView(component, name, tuple(_cell(component, machine.context) for machine in machines))


def _cell(component: Component, context: Context) -> CellView:
    left, right = (_half(component, side, context) for side in Side)
    if left is None and right is None:
        return CellView(None, None, "", False, context.say(N_("none on this machine")))
    entry = context.assessment.comparison(component)
    if entry is None or entry.delta is None or not _is_of_figures(entry):
        return CellView(left, right, "", False, "")
    return CellView(left, right, context.figures.delta(entry.delta), leading(entry) is not None, "")


def _is_of_figures(entry: Comparison) -> bool:
    """Whether the delta is that of the two figures beside it, not a mean over other positions or places."""
    left, right = (None if side is None else side.percent_worn for side in (entry.left, entry.right))
    if left is None or right is None or entry.delta is None:
        return False
    return not exceeds(abs(left - right - entry.delta), 0.0)


def _half(component: Component, side: Side, context: Context) -> HalfView | None:
    row = governing(component, side, context)
    if row is None:
        return None
    figured = row.percent_worn is not None or row.estimate is not None
    return HalfView(
        side=side,
        gauge=gauge(row, context),
        figure=worn.tight_figure(row, context.figures) if figured else "",
        past_limit=_is_past(row),
        reason=reason(row, context),
        alternative=alternative(row, context),
    )


def _is_past(row: Row) -> bool:
    return row.counted is not None and row.counted >= 100.0
