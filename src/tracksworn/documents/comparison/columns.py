"""A machine's column: which it is, how worn as a whole, its worst, its first limit, its cost, what was not seen."""

from collections.abc import Iterator, Sequence

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.decisions import ForecastRow, Plan, RateFrom
from tracksworn.assessment.fitting import fitting_of
from tracksworn.assessment.forecast.dates import day_after
from tracksworn.assessment.model import Basis, Bound, Overall, Row
from tracksworn.assessment.sayings import Severity, Subject
from tracksworn.documents.comparison.acts import acts, in_brief
from tracksworn.documents.comparison.elevations import Elevation
from tracksworn.documents.comparison.machine import Machine, is_one_machine
from tracksworn.documents.comparison.measures import GUTTER
from tracksworn.documents.comparison.view import CostView, LimitView, MachineView, OverallView
from tracksworn.documents.drawing.axis import CommonAxis, Span
from tracksworn.documents.full.closing import fingerprint_of
from tracksworn.documents.full.context import Context, subject
from tracksworn.documents.full.identification import revision_words
from tracksworn.documents.full.seen import not_seen
from tracksworn.documents.full.view import Labelled, NotSeen
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.figures import DASH
from tracksworn.documents.words.forecast import NOW, first_limit, visit_due
from tracksworn.documents.words.language import N_, NP_
from tracksworn.inspection.vocabulary import Evidence

ROUGHLY = "≈"
COUNTED = {
    Severity.ACT: N_("{n} to act on"),
    Severity.WATCH: N_("{n} to watch"),
    Severity.NOTE: N_("{n} to note"),
}
NAMED = 2
"""How many parts past their limit are named before they are only counted."""


def machine_view(index: int, machines: Sequence[Machine], elevation: Elevation, width: float) -> MachineView:
    """The column of one machine among all, with its left side; `width` of a column, mm."""
    machine = machines[index]
    context = machine.context
    return MachineView(
        name=machine.head,
        tag="" if machine.tag == machine.lot or is_one_machine(machines) else machine.tag,
        machine=machine.beside,
        serial=context.inspection.machine.serial,
        hours=_hours(context),
        inspected=f"{context.figures.day(context.inspection.inspected)}, {context.inspection.inspector.name}",
        place=context.inspection.place or "",
        elevation=elevation.drawing,
        drawn=elevation.drawn,
        overall=_overall(index, machines, width - GUTTER),
        worst=_worst(context),
        limits=tuple(_limits(context)),
        cost=_cost(context),
        basis=_basis(context),
        counts=_counts(context),
        acts=tuple(acts(context)),
        to_act_on=in_brief(context),
        not_seen=_not_seen(context),
        record=f"{context.inspection.number}, {revision_words(context)}",
        fingerprint=_in_groups(fingerprint_of(context)),
    )


def _hours(context: Context) -> str:
    hours = context.inspection.machine.hours
    if hours is None:
        return context.say(N_("hours not recorded"))
    text = context.figures.hours(hours.machine)
    if hours.known_from is Evidence.METER:
        return text
    return f"{text}, {labels.word(hours.known_from, context.language)}"


def _basis(context: Context) -> str:
    chart = context.chart
    if chart is None:
        return context.say(N_("none"))
    if chart.stands_in_for is None:
        return chart.title
    return context.say(N_("{chart}, made for another machine"), chart=chart.title)


def _in_groups(digits: str) -> str:
    return " ".join(digits[start : start + 4] for start in range(0, len(digits), 4))


# --- the whole ---


def _overall(index: int, machines: Sequence[Machine], width: float) -> OverallView:
    context = machines[index].context
    overall, figures = context.assessment.overall, context.figures
    return OverallView(
        figure=DASH if overall.percent_worn is None else figures.percent(overall.percent_worn),
        bound=_bound(context),
        by_eye=is_by_eye(context),
        interval=_interval(overall, context),
        seen=context.say(
            N_("{share} seen, floor {floor}, ceiling {ceiling}"),
            share=figures.share(overall.seen_share),
            floor=figures.percent(overall.floor),
            ceiling=figures.percent(overall.ceiling),
        ),
        axis=_axis(index, machines, width),
    )


def _bound(context: Context) -> str:
    overall = context.assessment.overall
    if overall.bound:
        return labels.word(overall.bound, context.language)
    return ROUGHLY if overall.percent_worn is not None and is_by_eye(context) else ""


def is_by_eye(context: Context) -> bool:
    """Whether no figure of the whole was measured."""
    rows = context.assessment.components
    return not any(row.basis is Basis.MEASURED and row.percent_worn is not None for row in rows)


def _interval(overall: Overall, context: Context) -> str:
    if overall.low is None or overall.high is None or overall.bound is Bound.AT_LEAST:
        return ""
    ends = context.figures.interval(overall.low, overall.high)
    return context.say(N_("{interval}, all by eye"), interval=ends) if is_by_eye(context) else ends


def _axis(index: int, machines: Sequence[Machine], width: float) -> CommonAxis:
    spans = [_span(machine) for machine in machines]
    context = machines[index].context
    overall = context.assessment.overall
    said = [machines[index].head, _interval(overall, context) or DASH]
    return CommonAxis(
        own=spans[index],
        others=tuple(span for other, span in enumerate(spans) if other != index),
        alternative=context.say(
            N_("{machine} on the axis of all: {interval}, floor {floor}, ceiling {ceiling}."),
            machine=said[0],
            interval=said[1],
            floor=context.figures.percent(overall.floor),
            ceiling=context.figures.percent(overall.ceiling),
        ),
        width=width,
        limit=context.say(N_("limit")),
    )


def _span(machine: Machine) -> Span:
    overall = machine.context.assessment.overall
    return Span(
        percent=overall.percent_worn,
        low=overall.low,
        high=overall.high,
        floor=overall.floor,
        ceiling=overall.ceiling,
        by_eye=is_by_eye(machine.context),
        tag=machine.tag,
    )


def _worst(context: Context) -> Labelled:
    worst = context.assessment.overall.worst
    if worst is None:
        return Labelled(context.say(N_("no part has a figure")), "")
    row = context.assessment.row(worst.component, worst.side, worst.position)
    assert row is not None
    return Labelled(context.figures.part(subject(row)), worn.figure(row, context.figures))


# --- the first limit ---


def _limits(context: Context) -> Iterator[LimitView]:
    """What is past its limit already, and then what reaches it first; or why that cannot be said."""
    past = [row for row in context.assessment.components if row.counted is not None and reaches(row.counted, 100.0)]
    if past:
        yield LimitView(_few(past, context), context.say(N_("now")))
    forecast = context.assessment.forecast
    first = first_limit([row for row in forecast or () if row.hours_left > 0.0])
    if first is not None:
        part = context.figures.part(Subject(first.component, first.side, first.position))
        yield LimitView(part, _range(first, context), ", ".join(_caveats(first, context)))
    else:
        yield LimitView("", _why_no_hours(context))


def _few(rows: Sequence[Row], context: Context) -> str:
    if len(rows) <= NAMED:
        return context.figures.parts(map(subject, rows))
    return context.language.count(*NP_("{n} part", "{n} parts"), len(rows))


def _range(row: ForecastRow, context: Context) -> str:
    return context.say(N_("{hours} h"), hours=context.figures.hours_between(row.hours_low, row.hours_high))


def _caveats(row: ForecastRow, context: Context) -> Iterator[str]:
    """What the hours rest on that a reader would not expect."""
    if _is_told(row, context):
        yield context.say(N_("by the owner's word"))
    if context.chart is not None and context.chart.stands_in_for is not None:
        yield context.say(N_("as a guide"))


def _is_told(row: ForecastRow, context: Context) -> bool:
    """Whether the hours of the machine, or those at which the part was fitted, were only told by the owner."""
    fitting = fitting_of(context.inspection, row.component, row.side, row.position)
    hours = context.inspection.machine.hours
    evidence: list[Evidence | None] = [] if hours is None else [hours.known_from]
    if row.rate_from is RateFrom.SINCE_FITTED and fitting is not None and not fitting.original:
        evidence.append(fitting.known_from)
    return Evidence.OWNERS_WORD in evidence


def _why_no_hours(context: Context) -> str:
    forecast = context.assessment.forecast
    if forecast is None:
        return context.say(N_("no hours: neither an earlier inspection nor evidence of when parts were fitted"))
    if not forecast:
        return context.say(N_("no hours: no rate of wear could be found"))
    return context.say(N_("no hours for what is not yet at its limit"))


# --- money ---


def _cost(context: Context) -> CostView:
    plan = context.assessment.plan
    if plan is None:
        return CostView("", context.say(N_("no prices")), "", "")
    left = context.figures.money(plan.value_left, plan.currency)
    return CostView(
        restore=context.figures.money(plan.cost_to_restore, plan.currency),
        left=context.say(N_("value left {amount}"), amount=left),
        visit=_first_visit(plan, context),
        prices=context.say(N_("of what was seen, without tax, prices of {day}"), day=context.figures.day(plan.as_of)),
    )


def _first_visit(plan: Plan, context: Context) -> str:
    """When the first shop visit is due and what it costs; empty without one."""
    if not plan.visits:
        return ""
    first, inspection = plan.visits[0], context.inspection
    day = day_after(inspection.inspected, first.after, inspection.machine.hours_per_week)
    when = visit_due(first, context.figures)
    if day is not None and first.after >= NOW:
        when = context.say(N_("{when}, {month}"), when=when, month=context.figures.month(day, short=True))
    money = context.figures.money(first.cost, plan.currency)
    return context.say(N_("first shop visit {when}: about {money}"), when=when, money=money)


# --- what was found, what was not seen ---


def _counts(context: Context) -> str:
    found = [finding.severity for finding in context.assessment.findings]
    return ", ".join(context.say(said, n=str(found.count(severity))) for severity, said in COUNTED.items())


def _not_seen(context: Context) -> NotSeen:
    """As in the full report, without what is true of every machine alike."""
    whole = not_seen(context)
    return NotSeen(whole.parts, whole.sentences[:-1])
