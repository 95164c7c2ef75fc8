"""The overall figure with all that qualifies it."""

from collections.abc import Iterator

from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.model import Basis, Bound, Overall
from tracksworn.assessment.sayings import Severity, Subject
from tracksworn.assessment.stages import stage
from tracksworn.documents.drawing.ruler import Ruler
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.view import Labelled, Whole
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.figures import DASH, NO_BREAK, THIN
from tracksworn.documents.words.forecast import first_limit, is_past, next_limit, told_end
from tracksworn.documents.words.language import N_
from tracksworn.documents.words.left_out import by_word

MOSTLY_SEEN = 0.9
"""Share of the cost from which a figure may be called that of the whole."""


def whole(context: Context) -> Whole:
    """The overall figure as page one shows it."""
    overall = context.assessment.overall
    known = overall.percent_worn is not None
    return Whole(
        figure=context.figures.percent(overall.percent_worn) if overall.percent_worn is not None else DASH,
        bound=labels.word(overall.bound, context.language) if overall.bound else "",
        sign="%" if known else "",
        caption=_caption(overall, context),
        interval=_interval(overall, context),
        shares=labels.word(overall.shares_from, context.language),
        facts=_facts(overall, context),
        counts=_counts(overall, context),
        ruler=_ruler(overall, context),
    )


def _caption(overall: Overall, context: Context) -> str:
    """What the figure is of: where much was not seen, of that part alone which was."""
    if overall.percent_worn is None:
        return context.say(N_("no overall figure: no part has one"))
    if overall.seen_share < MOSTLY_SEEN:
        return context.say(N_("worn, of the {share} by cost seen"), share=context.figures.share(overall.seen_share))
    return context.say(N_("worn as a whole, by cost"))


def _by_eye(context: Context) -> bool:
    """Whether no figure of the whole was measured."""
    return not any(
        row.basis is Basis.MEASURED and row.percent_worn is not None for row in context.assessment.components
    )


def _interval(overall: Overall, context: Context) -> str:
    if overall.low is None or overall.high is None or overall.bound is Bound.AT_LEAST:
        return ""
    ends = context.figures.interval(overall.low, overall.high)
    if _by_eye(context):
        return context.say(N_("range of the estimates {interval}"), interval=ends)
    return context.say(N_("{confidence} interval {interval}"), confidence=f"95{NO_BREAK}%", interval=ends)


def _facts(overall: Overall, context: Context) -> tuple[Labelled, ...]:
    say, figures = context.say, context.figures
    share = say(N_("{share} of the cost"), share=figures.share(overall.seen_share))
    facts = [
        Labelled(say(N_("Seen or measured")), share, labels.word(overall.shares_from, context.language)),
        Labelled(say(N_("Floor: all unseen as new")), figures.per_cent(overall.floor)),
        Labelled(say(N_("Ceiling: all unseen at the limit")), figures.per_cent(overall.ceiling)),
    ]
    worst = overall.worst
    if worst is None:
        facts.append(Labelled(say(N_("Worst")), say(N_("no part has a figure"))))
    else:
        part = context.figures.part(Subject(worst.component, worst.side, worst.position))
        facts.append(Labelled(say(N_("Worst: {part}"), part=part), _worst(context), strong=True))
    return (*facts, *_ahead(context))


def _ahead(context: Context) -> Iterator[Labelled]:
    """Hours to the first limit and cost to restore, where there are prices or a forecast."""
    say, figures = context.say, context.figures
    first = first_limit(context.assessment.forecast or ())
    if first is not None:
        yield Labelled(_first_limit_label(first, context), _first_limit(first, context))
    plan = context.assessment.plan
    if plan is not None:
        cost = figures.money(plan.cost_to_restore, plan.currency)
        yield Labelled(say(N_("Cost to restore what was seen")), cost)


def _first_limit_label(first: ForecastRow, context: Context) -> str:
    """Beside hours that are a guide only, or rest on what the owner told, stands that they do."""
    told = next_limit(context.assessment) or first
    if context.chart is not None and context.chart.stands_in_for is not None:
        return context.say(N_("First limit, as a guide"))
    if by_word(told, context.inspection):
        return context.say(N_("First limit, by owner's word"))
    return context.say(N_("First limit"))


def _first_limit(first: ForecastRow, context: Context) -> str:
    """`580 to 1 120 h`; `now; next 580 to 1 120 h` where a part is past its limit."""
    told = next_limit(context.assessment)
    if not is_past(first) or told is None:
        return context.say(N_("now: past it")) if is_past(first) else _hours(first, context)
    return context.say(N_("now; next {hours}"), hours=_hours(told, context))


def _hours(row: ForecastRow, context: Context) -> str:
    high = told_end(row, context.assessment.forecast or (), context.inspection.machine.hours_per_week)
    return context.figures.hours_between(row.hours_low, high) + THIN + "h"


def _worst(context: Context) -> str:
    worst = context.assessment.overall.worst
    assert worst is not None
    row = context.assessment.row(worst.component, worst.side, worst.position)
    if row is not None and row.estimate is not None:
        return f"{worn.figure(row, context.figures)}{NO_BREAK}%"
    return context.figures.per_cent(worst.percent_worn)


def _counts(overall: Overall, context: Context) -> tuple[Labelled, ...]:
    named = (
        (N_("To act\u00a0on"), sum(one.severity is Severity.ACT for one in context.assessment.findings)),
        (N_("Past\u00a0limit"), overall.past_limit),
        (N_("Near\u00a0limit"), overall.near_limit),
        (N_("Not\u00a0seen"), overall.unseen),
    )
    return tuple(
        Labelled(context.say(label), context.figures.number(count), strong=count > 0) for label, count in named
    )


def _ruler(overall: Overall, context: Context) -> Ruler:
    say, figures = context.say, context.figures
    worst = overall.worst.percent_worn if overall.worst else None
    return Ruler(
        percent=overall.percent_worn,
        low=overall.low,
        high=overall.high,
        floor=overall.floor,
        ceiling=overall.ceiling,
        whole_text=_whole_text(overall, context),
        floor_text=say(N_("floor {percent}"), percent=figures.percent(overall.floor)),
        ceiling_text=say(N_("ceiling {percent}"), percent=figures.percent(overall.ceiling)),
        new_text=say(N_("as new")),
        limit_text=say(N_("limit")),
        alternative=_alternative(overall, context),
        worst=worst,
        worst_text=say(N_("worst")) if worst is not None else "",
        worst_stage=stage(worst) if worst is not None else None,
        by_eye=_by_eye(context),
    )


def _whole_text(overall: Overall, context: Context) -> str:
    if overall.percent_worn is None:
        return ""
    percent = context.figures.percent(overall.percent_worn)
    if overall.bound is Bound.AT_LEAST:
        return context.say(N_("at least {value}"), value=percent)
    return context.say(N_("whole {percent}"), percent=percent)


def _alternative(overall: Overall, context: Context) -> str:
    say, figures = context.say, context.figures
    ends = say(
        N_("floor {floor}, ceiling {ceiling}"),
        floor=figures.per_cent(overall.floor),
        ceiling=figures.per_cent(overall.ceiling),
    )
    if overall.percent_worn is None:
        return say(N_("Ruler of the whole undercarriage: no figure; {ends}."), ends=ends)
    percent = figures.per_cent(overall.percent_worn)
    if overall.bound is Bound.AT_LEAST:
        return say(N_("Ruler of the whole undercarriage: at least {percent} worn; {ends}."), percent=percent, ends=ends)
    return say(
        N_("Ruler of the whole undercarriage: {percent} worn, {interval}; {ends}."),
        percent=percent,
        interval=figures.interval(overall.low, overall.high),
        ends=ends,
    )
