"""Shop visits and what they cost, and what the undercarriage is worth beside them."""

from collections.abc import Iterable, Iterator, Sequence

from tracksworn.assessment.bushing import rails_outlast_a_turn
from tracksworn.assessment.decisions import Plan, PlannedWork, Swap, Visit
from tracksworn.assessment.forecast.dates import day_after
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.full.ahead import Ahead, PlanView, VisitRow
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.hours_left import hours_view, no_forecast
from tracksworn.documents.words import labels
from tracksworn.documents.words.forecast import NOW, work_words
from tracksworn.documents.words.language import N_, NP_
from tracksworn.documents.words.left_out import first_to_do, goes_with
from tracksworn.documents.words.rounding import three_figures
from tracksworn.inspection.prices import Work
from tracksworn.inspection.vocabulary import Component, Side

EARLY = 10.0
"""Hours before its limit from which work is told to be early."""
NAMED = 8
"""How many early parts are named before they are only counted."""


SWAP_SIDES = N_(
    "Left and right {parts} could change sides ({most} against {least}), so that the more worn wears on where wear is "
    "slower: {cost}, not in the plan."
)
WHY_DIFFERENT = N_(
    "Visits are whole jobs when they fall due, with set-up; cost to restore is the wear used so far of all that was "
    "seen, at prices of new parts."
)
SWAP_PLACES = N_(
    "{parts} could change places ({most} against {least}), so that the more worn wears on where wear is slower: "
    "{cost}, not in the plan."
)


def ahead(context: Context) -> Ahead:
    """Hours left and plan, or why there are none."""
    hours = hours_view(context)
    return Ahead(hours, "" if hours else no_forecast(context), plan_view(context))


def plan_view(context: Context) -> PlanView | None:
    """The plan in the reader's words; None without prices."""
    plan = context.assessment.plan
    if plan is None:
        return None
    visits = tuple(_visit(str(number), visit, context) for number, visit in enumerate(plan.visits, start=1))
    return PlanView(
        basis=_basis(plan, context),
        visits=visits,
        total=_total(plan, context) if len(visits) > 1 else None,
        value_left=context.figures.money(plan.value_left, plan.currency),
        to_restore=context.figures.money(plan.cost_to_restore, plan.currency),
        swaps=tuple(_swap(swap, plan, context) for swap in plan.swaps),
        remarks=tuple(_remarks(plan, context)),
        first=first_to_do(context.assessment, context.figures) if visits else "",
        left_out=tuple(_left_out(plan, context)),
    )


def _basis(plan: Plan, context: Context) -> str:
    guide = context.chart is not None and context.chart.stands_in_for is not None
    return context.say(
        N_(
            "as a guide, by a chart of another machine: {currency}, an estimate without tax; prices of {day}; labour "
            "{rate} an hour"
        )
        if guide
        else N_("{currency}, an estimate without tax; prices of {day}; labour {rate} an hour"),
        currency=plan.currency,
        day=context.figures.day(plan.as_of),
        rate=context.figures.exact(plan.labour_per_hour),
    )


# --- visits ---


def _visit(number: str, visit: Visit, context: Context) -> VisitRow:
    labour = visit.track_off + sum(work.labour for work in visit.work)
    parts = sum(work.parts for work in visit.work)
    return VisitRow(
        number,
        _when(visit, context),
        work_words(visit.work, context.figures),
        " ".join(filter(None, (_early(visit, context), _no_turn(visit, context)))),
        *_amounts((parts, labour, visit.set_up, visit.cost), context),
    )


def _amounts(amounts: Iterable[float], context: Context) -> Iterator[str]:
    return map(context.figures.amount_of_money, amounts)


def _total(plan: Plan, context: Context) -> VisitRow:
    work = [work for visit in plan.visits for work in visit.work]
    labour = sum(visit.track_off for visit in plan.visits) + sum(one.labour for one in work)
    sums = (sum(one.parts for one in work), labour, sum(visit.set_up for visit in plan.visits), plan.cost)
    count = len(plan.visits)
    said = context.say(N_("Both visits")) if count == 2 else context.say(N_("All {n} visits"), n=str(count))
    return VisitRow("", said, "", "", *_amounts(sums, context))


def _when(visit: Visit, context: Context) -> str:
    at = context.figures.about_hours(visit.at_hours)
    if visit.after < NOW:
        return context.say(N_("now, {hours}"), hours=context.figures.hours(round(visit.at_hours)))
    inspection = context.inspection
    day = day_after(inspection.inspected, visit.after, inspection.machine.hours_per_week)
    if day is None:
        return at
    return context.say(N_("{hours}, {month}"), hours=at, month=context.figures.month(day, short=True))


def _early(visit: Visit, context: Context) -> str:
    """What is done before its limit to share the visit, how long before, and what that gives away."""
    plan = context.assessment.plan
    assert plan is not None
    early = [work for work in visit.work if work.hours_left - visit.after >= EARLY]
    if not early:
        return ""
    lost = context.figures.money(sum(work.life_lost for work in early), plan.currency)
    early.sort(key=lambda work: work.hours_left)
    named = [
        context.say(
            N_("{part} {hours}"),
            part=context.figures.part(_subject(work)),
            hours=context.figures.about_hours(work.hours_left - visit.after),
        )
        for work in early[:NAMED]
    ]
    if len(early) > NAMED:
        named.append(context.language.count(*NP_("{n} more part", "{n} more parts"), len(early) - NAMED))
    pattern = N_("Done early to share the visit: {parts}; unused wear worth {money}.")
    return context.say(pattern, parts=", ".join(named), money=lost)


def _no_turn(visit: Visit, context: Context) -> str:
    """Why bushings are replaced although a turn has a price."""
    prices, rows = context.dossier.prices, context.assessment.forecast or ()
    if prices is None or Work.TURN not in prices.components.get(Component.BUSHING, {}):
        return ""
    replaced = {work.side for work in visit.work if (work.component, work.way) == (Component.BUSHING, Work.REPLACE)}
    outlasted = [rails_outlast_a_turn(rows, row) for row in rows if row.component is Component.BUSHING
                 and row.side in replaced and _turn_left(row.side, context)]  # fmt: skip
    if False in outlasted:
        return context.say(N_("No turn of bushings: the links reach their limit before the second side would."))
    if None in outlasted:
        return context.say(N_("No turn of bushings: nothing shows that the links would outlast it."))
    return ""


def _turn_left(side: Side, context: Context) -> bool:
    row = context.assessment.row(Component.BUSHING, side)
    return row is not None and row.turning is not None and row.turning.made < row.turning.allowed


def _subject(work: PlannedWork) -> Subject:
    return Subject(work.component, work.side, work.position)


# --- beside the visits ---


def _swap(swap: Swap, plan: Plan, context: Context) -> str:
    """Advice, never planned work."""
    figures, language = context.figures, context.language
    most, least = (figures.per_cent(percent) for percent in swap.worn)
    cost = figures.money(swap.cost, plan.currency)
    if swap.way is Work.SWAP_SIDES or swap.positions is None:
        return context.say(SWAP_SIDES, parts=labels.many(swap.component, language), most=most, least=least, cost=cost)
    parts = figures.parts(Subject(swap.component, swap.side, position) for position in swap.positions)
    return labels.opening(context.say(SWAP_PLACES, parts=parts, most=most, least=least, cost=cost))


def _left_out(plan: Plan, context: Context) -> Iterator[str]:
    """What else of the parts that are in no visit; which they are stands beneath the hours."""
    if not plan.visits:
        return
    yield from goes_with(context.assessment, context.figures)
    if plan.unpriced:
        parts = labels.listed([labels.many(one, context.language) for one in plan.unpriced], context.language)
        pattern = N_("Not priced, or no priced way still open, and so in no visit: {parts}.")
        yield context.say(pattern, parts=parts)


def _remarks(plan: Plan, context: Context) -> Iterator[str]:
    """How its sums are to be read."""
    say = context.say
    if plan.visits:
        yield say(WHY_DIFFERENT)
        yield say(N_("Labour includes taking tracks off and putting them on."))
    else:
        yield say(N_("Without a forecast no visit can be planned."))
    if not all(_adds_up(visit) for visit in plan.visits):
        yield say(N_("Money is an estimate and rounded to three figures, so sums may differ in the last."))


def _adds_up(visit: Visit) -> bool:
    """Whether the amounts of a visit's row are printed as they are, and so add up."""
    amounts: Sequence[float] = (
        sum(work.parts for work in visit.work),
        visit.track_off + sum(work.labour for work in visit.work),
        visit.set_up,
        visit.cost,
    )
    return all(abs(amount - float(three_figures(amount))) < 1e-6 for amount in amounts)
