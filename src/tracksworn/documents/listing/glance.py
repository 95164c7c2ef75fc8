"""The large figures: the whole, the worst, hours to the first limit, and cost where there are prices."""

from collections.abc import Iterator

from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.model import Row
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.full.context import Context, subject
from tracksworn.documents.full.hours_left import why_no_forecast
from tracksworn.documents.full.whole import whole
from tracksworn.documents.listing.room import clipped
from tracksworn.documents.listing.view import KeyFigure
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.figures import NO_BREAK, THIN
from tracksworn.documents.words.forecast import first_limit, is_past, next_limit, visit_cost
from tracksworn.documents.words.language import N_
from tracksworn.documents.words.left_out import by_word

NOTE_WIDTH = 44.0
"""Room for the notes of a figure, mm."""


def key_figures(context: Context) -> tuple[KeyFigure, ...]:
    """Three, or four where there are prices."""
    return (_whole(context), _worst(context), _hours(context), *_cost(context))


def _whole(context: Context) -> KeyFigure:
    """Never without its interval and the share of cost that was seen."""
    told, overall = whole(context), context.assessment.overall
    figure = f"{told.figure}{NO_BREAK}{told.sign}" if told.sign else told.figure
    seen = context.say(N_("{share} of the cost seen"), share=context.figures.share(overall.seen_share))
    notes = tuple(filter(None, (told.interval, seen)))
    return KeyFigure(f"{told.bound} {figure}" if told.bound else figure, told.caption, notes)


def worst_row(context: Context) -> Row | None:
    """The most worn part; None where no part has a figure."""
    worst = context.assessment.overall.worst
    return None if worst is None else context.assessment.row(worst.component, worst.side, worst.position)


def _worst(context: Context) -> KeyFigure:
    row, say = worst_row(context), context.say
    if row is None:
        return KeyFigure(say(N_("not known")), say(N_("worst part")), (say(N_("no part has a figure")),))
    caption = say(N_("the worst: {part}"), part=context.figures.part(subject(row)))
    stage = worn.stage_words(row, context.language)
    if row.estimate is not None or row.percent_worn is None:
        figure = f"{worn.figure(row, context.figures)}{NO_BREAK}%"
        return KeyFigure(figure, caption, tuple(filter(None, (say(N_("by eye")), stage))))
    ends = context.figures.interval(row.low, row.high)
    interval = say(N_("{confidence} interval {interval}"), confidence=f"95{NO_BREAK}%", interval=ends)
    return KeyFigure(context.figures.per_cent(row.percent_worn), caption, tuple(filter(None, (interval, stage))))


# --- hours ---


def _hours(context: Context) -> KeyFigure:
    first, say = first_limit(context.assessment.forecast or ()), context.say
    if first is None:
        why = clipped(labels.opening(why_no_forecast(context)), 3, NOTE_WIDTH)
        return KeyFigure(say(N_("not known")), say(N_("hours to the first limit")), (why,))
    if not is_past(first):
        return KeyFigure(_between(first, context), say(N_("to the first limit")), _notes(first, None, context))
    following = next_limit(context.assessment)
    if following is None:
        past = say(N_("{part}: past it"), part=_part(first, context))
        return KeyFigure(say(N_("none")), say(N_("hours to the first limit")), (past,))
    return KeyFigure(_between(following, context), say(N_("to the next limit")), _notes(following, first, context))


def _between(row: ForecastRow, context: Context) -> str:
    return context.figures.hours_between(row.hours_low, row.hours_high) + THIN + "h"


def _part(row: ForecastRow, context: Context) -> str:
    return context.figures.part(Subject(row.component, row.side, row.position))


def _rests_on(row: ForecastRow, context: Context) -> str:
    """The part, and that its hours are a guide only or rest on what the owner told."""
    part = _part(row, context)
    if context.chart is not None and context.chart.stands_in_for is not None:
        return context.say(N_("{part}, as a guide"), part=part)
    if by_word(row, context.inspection):
        return context.say(N_("{part}, by the owner's word"), part=part)
    return part


def _notes(row: ForecastRow, past: ForecastRow | None, context: Context) -> tuple[str, ...]:
    said = [_rests_on(row, context)]
    if past is not None:
        said.append(context.say(N_("{part}: past its limit"), part=_part(past, context)))
    elif row.date_low is not None:
        said.append(context.figures.months(row.date_low, row.date_high))
    share = context.inspection.machine.travel_share
    if share is not None:
        high = None if row.hours_high is None else share * row.hours_high
        travelling = context.figures.hours_between(share * row.hours_low, high) + THIN + "h"
        said.append(context.say(N_("of that travelling {hours}"), hours=travelling))
    return tuple(said)


# --- cost ---


def _cost(context: Context) -> Iterator[KeyFigure]:
    plan, say = context.assessment.plan, context.say
    if plan is None:
        return
    day = context.figures.short_day(plan.as_of)
    notes = [say(N_("an estimate, no offer")), say(N_("prices of {day}, without tax"), day=day)]
    if plan.visits:
        cost = visit_cost(plan.visits[0], plan.currency, context.figures, context.inspection)
        notes.insert(0, say(N_("first shop visit: {cost}"), cost=cost))
    yield KeyFigure(
        context.figures.money(plan.cost_to_restore, plan.currency), say(N_("to restore what was seen")), tuple(notes)
    )
