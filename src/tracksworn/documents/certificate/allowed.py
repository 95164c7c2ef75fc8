"""What the chart of allowances shows."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from tracksworn.assessment.decisions import Conformity, Verdict
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.drawing.allowed import Allowed, AllowedCurve, Stand
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.terms_view import TermsView
from tracksworn.documents.words import certificate as words
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_
from tracksworn.inspection.terms import Terms
from tracksworn.inspection.vocabulary import Component

NAMED: Final = 3
"""How many parts the chart names: those that are least likely to be within."""
FIGURES: Final = 4
"""Into how many steps its axis of hours is divided at most."""


def allowed_view(context: Context, conformity: Conformity, terms: Terms, shown: TermsView) -> Allowed:
    """Curves of all that is allowed for parts of this machine, and every part that has hours and a figure."""
    held = {verdict.component for verdict in conformity.components}
    stands = tuple(_stands(context, conformity.components))
    curves = tuple(_curves(context, terms, held))
    last = max((hours for curve in curves for hours, _ in curve.rows), default=1.0)
    named = [side.alternative for side in _named_sides(shown, conformity)]
    return Allowed(
        curves=curves,
        stands=stands,
        hours=tuple((at, context.figures.number(at)) for at in _axis(last)),
        alternative=" ".join([*shown.allowed, *named]),
    )


def dots(context: Context, chart: Allowed) -> str:
    """How the dots that it shows are read, in one sentence."""
    shown = {one.result for one in chart.stands if one.percent <= chart.top}
    said = [context.say(words.DOTS[result]) for result in words.DOTS if result in shown]
    if any(one.percent > chart.top for one in chart.stands):
        said.append(context.say(words.POINTER))
    return f"{labels.opening(labels.clauses(said or [context.say(words.NO_DOTS)], context.language))}."


def _curves(context: Context, terms: Terms, held: set[Component]) -> Iterator[AllowedCurve]:
    """Those named first, then that of all others."""
    named = [one for one in Component if one in terms.allowed and one in held]
    for component in named:
        yield AllowedCurve(labels.many(component, context.language), tuple(terms.allowed[component]))
    if None in terms.allowed and held.difference(named):
        name = context.say(N_("all others") if named else N_("all"))
        yield AllowedCurve(name, tuple(terms.allowed[None]))


def _stands(context: Context, verdicts: Sequence[Verdict]) -> Iterator[Stand]:
    """Estimates by eye have no middle figure and so no dot; those least likely to be within have a name."""
    named = _least_likely(verdicts)
    for verdict in verdicts:
        row = context.assessment.row(verdict.component, verdict.side, verdict.position)
        if verdict.probability is None or verdict.hours is None or row is None or row.percent_worn is None:
            continue
        low, high = verdict.guard_of_failure or 0.0, verdict.guard or 0.0
        stand = Stand(verdict.hours, row.percent_worn, row.percent_worn - low, row.percent_worn + high, verdict.result)
        yield replace(stand, name=_name(verdict, context)) if verdict in named else stand


def _least_likely(verdicts: Sequence[Verdict]) -> list[Verdict]:
    likely = [one for one in verdicts if one.probability is not None and one.hours is not None]
    return sorted(likely, key=lambda one: one.probability or 0.0)[:NAMED]


def _name(verdict: Verdict, context: Context) -> str:
    return context.figures.part(Subject(verdict.component, verdict.side, verdict.position))


def _named_sides(shown: TermsView, conformity: Conformity) -> Iterator:  # type: ignore[type-arg]
    named = {(one.component, one.side) for one in _least_likely(conformity.components)}
    yield from (side for row in shown.rows for side in row.sides if side and (row.component, side.side) in named)


def _axis(last: float) -> list[float]:
    """Round figures from nought to the last hours."""
    step = next(
        (step for step in (250, 500, 1000, 2000, 2500, 5000, 10000, 20000) if last / step <= FIGURES), last / FIGURES
    )
    return [step * k for k in range(int(last // step) + 1)]
