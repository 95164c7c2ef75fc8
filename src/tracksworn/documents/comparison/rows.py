"""Component by component over all machines, each left against right."""

from collections.abc import Sequence

from tracksworn.assessment.model import Row
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
    if entry is None or entry.delta is None:
        return CellView(left, right, "", False, "")
    said = worn.delta_words(entry, context.figures, context.assessment.assumptions)
    return CellView(left, right, said.figure, said.differs, "")


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
