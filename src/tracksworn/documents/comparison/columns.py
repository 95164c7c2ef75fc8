"""A machine's column: which it is, how worn as a whole, its worst, its first limit, its cost, what was not seen."""

from collections.abc import Iterator, Sequence

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.model import Basis, Bound, Overall, Row
from tracksworn.assessment.sayings import Severity, Subject
from tracksworn.documents.comparison.machine import Machine
from tracksworn.documents.comparison.measures import GUTTER
from tracksworn.documents.comparison.view import ActView, CostView, LimitView, MachineView, OverallView
from tracksworn.documents.drawing.axis import CommonAxis, Span
from tracksworn.documents.drawing.elevation.draw import draw_elevation
from tracksworn.documents.drawing.elevation.sides import ElevationWords, SideElevation
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.full.closing import fingerprint_of
from tracksworn.documents.full.context import Context, subject
from tracksworn.documents.full.gauges import alternative, gauge
from tracksworn.documents.full.identification import machine_name, revision_words
from tracksworn.documents.full.parts import governing
from tracksworn.documents.full.seen import not_seen
from tracksworn.documents.full.view import Labelled, NotSeen
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.figures import DASH, NO_BREAK
from tracksworn.documents.words.findings import say_finding
from tracksworn.documents.words.findings.short import SHORT
from tracksworn.documents.words.forecast import first_limit
from tracksworn.documents.words.language import N_
from tracksworn.inspection.vocabulary import Component, Evidence, Side

HEIGHT = 24.0
"""Of an elevation at most, mm."""
NAMED = 2
"""How many parts past their limit are named before they are only counted."""


def machine_view(index: int, machines: Sequence[Machine], width: float) -> MachineView:
    """The column of one machine among all; `width` of a column, mm."""
    machine = machines[index]
    context = machine.context
    elevation, drawn = _elevation(context, width - GUTTER)
    return MachineView(
        name=machine.heading,
        machine=machine_name(context.inspection.machine),
        serial=context.inspection.machine.serial,
        hours=_hours(context),
        inspected=f"{context.figures.day(context.inspection.inspected)}, {context.inspection.inspector.name}",
        place=context.inspection.place or "",
        elevation=elevation,
        drawn=drawn,
        overall=_overall(index, machines, width - GUTTER),
        worst=_worst(context),
        limits=tuple(_limits(context)),
        cost=_cost(context),
        basis=_basis(context),
        counts=_counts(context),
        acts=tuple(_acts(context)),
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


# --- its left side ---


def _elevation(context: Context, width: float) -> tuple[Drawing, str]:
    machine, chart = context.inspection.machine, context.chart
    rows = [row for row in context.assessment.components if row.side is Side.LEFT]
    side = SideElevation(
        side=Side.LEFT,
        layout=machine.layout,
        worn=_worn_left(context),
        bottom_rollers=_rollers(Component.BOTTOM_ROLLER, context),
        top_rollers=_rollers(Component.TOP_ROLLER, context),
        alternative=" ".join(
            [labels.opening(context.say(labels.SIDES[Side.LEFT])) + ":", *(alternative(row, context) for row in rows)]
        ),
        words=ElevationWords(),
        suspension=machine.suspension,
        geometry=chart.geometry if chart is not None else None,
        links=machine.links[Side.LEFT],
        shoe=machine.shoe.kind,
        width=width,
        height=HEIGHT,
        small=True,
    )
    drawn = draw_elevation(side)
    return drawn.drawing, _drawn(drawn.scale, context)


def _drawn(scale: str | None, context: Context) -> str:
    if scale is None:
        return context.say(N_("drawn in proportions typical of the layout"))
    return context.say(N_("drawn to {scale}"), scale=scale)


def _worn_left(context: Context) -> dict[Component, Gauge]:
    components = dict.fromkeys(row.component for row in context.assessment.components if row.position is None)
    rows = {component: governing(component, Side.LEFT, context) for component in components}
    return {component: gauge(row, context) for component, row in rows.items() if row is not None}


def _rollers(component: Component, context: Context) -> tuple[Gauge, ...]:
    return tuple(gauge(row, context) for row in context.assessment.rows(component, Side.LEFT))


# --- the whole ---


def _overall(index: int, machines: Sequence[Machine], width: float) -> OverallView:
    context = machines[index].context
    overall, figures = context.assessment.overall, context.figures
    return OverallView(
        figure=DASH if overall.percent_worn is None else figures.percent(overall.percent_worn),
        bound=labels.word(overall.bound, context.language) if overall.bound else "",
        interval=_interval(overall, context),
        seen=context.say(
            N_("{share} seen, floor {floor}, ceiling {ceiling}"),
            share=figures.share(overall.seen_share),
            floor=figures.percent(overall.floor),
            ceiling=figures.percent(overall.ceiling),
        ),
        axis=_axis(index, machines, width),
    )


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
    spans = [_span(machine.context) for machine in machines]
    context = machines[index].context
    overall = context.assessment.overall
    said = [machines[index].heading, _interval(overall, context) or DASH]
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
    )


def _span(context: Context) -> Span:
    overall = context.assessment.overall
    return Span(
        overall.percent_worn, overall.low, overall.high, overall.floor, overall.ceiling, by_eye=is_by_eye(context)
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
        yield LimitView(part, _range(first, context))
    else:
        yield LimitView("", _why_no_hours(context))


def _few(rows: Sequence[Row], context: Context) -> str:
    if len(rows) <= NAMED:
        return context.figures.parts(map(subject, rows))
    return context.language.count(N_("{n} part"), N_("{n} parts"), len(rows))


def _range(row: ForecastRow, context: Context) -> str:
    return context.say(N_("{hours} h"), hours=context.figures.hours_between(row.hours_low, row.hours_high))


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
        return CostView("", context.say(N_("no prices")), "")
    left = context.figures.money(plan.value_left, plan.currency)
    return CostView(
        restore=context.figures.money(plan.cost_to_restore, plan.currency),
        left=context.say(N_("{amount} of wear left in it"), amount=left),
        prices=context.say(N_("of what was seen, at prices of {day}"), day=context.figures.day(plan.as_of)),
    )


# --- what was found, what was not seen ---


def _counts(context: Context) -> str:
    found = [finding.severity for finding in context.assessment.findings]
    return ", ".join(
        f"{found.count(severity)}{NO_BREAK}{labels.word(severity, context.language)}" for severity in Severity
    )


def _acts(context: Context) -> Iterator[ActView]:
    for finding in context.assessment.findings:
        if finding.severity is Severity.ACT:
            said = say_finding(finding, context.figures)
            short = SHORT.get(finding.advice.code)
            yield ActView(said.title.rstrip("."), context.say(short) if short else said.advice.rstrip("."))


def _not_seen(context: Context) -> NotSeen:
    """As in the full report, without what is true of every machine alike."""
    whole = not_seen(context)
    return NotSeen(whole.parts, whole.sentences[:-1])
