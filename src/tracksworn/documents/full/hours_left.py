"""Hours left to each limit, as a chart and in words."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from tracksworn.assessment.decisions import ForecastRow, RateFrom
from tracksworn.assessment.forecast.dates import day_after
from tracksworn.assessment.model import Basis
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.drawing.hours.axis import axis_for
from tracksworn.documents.drawing.hours.chart import Bar, HoursChart, HoursRow, Tick, VisitLine
from tracksworn.documents.full.ahead import HoursLeft, HoursSide, HoursView
from tracksworn.documents.full.context import Context
from tracksworn.documents.words import labels
from tracksworn.documents.words.forecast import NO_PERMISSION, is_past, visit_due
from tracksworn.documents.words.language import N_
from tracksworn.documents.words.left_out import by_word, once_put_right, other_rollers, without_hours
from tracksworn.documents.words.rounding import upper_end
from tracksworn.inspection.vocabulary import ROLLERS, Component, Evidence, Layout, Side

NOT_SEEN = {Side.LEFT: N_("left not seen"), Side.RIGHT: N_("right not seen")}
BY_EYE = {Side.LEFT: N_("left by eye"), Side.RIGHT: N_("right by eye")}
NO_RATE = {Side.LEFT: N_("left: no rate known"), Side.RIGHT: N_("right: no rate known")}
WORST = {Side.LEFT: N_("left, the worst"), Side.RIGHT: N_("right, the worst")}
WORST_SEEN = {Side.LEFT: N_("left, the worst seen"), Side.RIGHT: N_("right, the worst seen")}
RATE_FROM = {
    RateFrom.SINCE_FITTED: N_("{rate} since fitted"),
    RateFrom.BETWEEN: N_("{rate} between inspections"),
    RateFrom.LINE: N_("{rate} by the line"),
}
SAID_OF = {Side.LEFT: N_("left: {words}"), Side.RIGHT: N_("right: {words}")}


def hours_view(context: Context) -> HoursView | None:
    """The chart of hours left, its figures in words, and what they leave open; None without a forecast."""
    if not context.assessment.forecast:
        return None
    together = _grouped(context)
    rows = tuple(_in_words(one, context) for one in together)
    return HoursView(
        _chart(together, rows, context),
        rows,
        _legend(context),
        _rates_said(context),
        tuple(_notes(context)),
        tuple(_foremost(context)),
    )


# --- which sides stand together ---


@dataclass(frozen=True, slots=True)
class _Together:
    """The forecasts of one component, or of one position of rollers."""

    component: Component
    position: int | None
    left: ForecastRow | None
    right: ForecastRow | None

    def __getitem__(self, side: Side) -> ForecastRow | None:
        return self.left if side is Side.LEFT else self.right

    @property
    def sides(self) -> tuple[ForecastRow, ...]:
        return tuple(row for row in (self.left, self.right) if row is not None)


def _grouped(context: Context) -> list[_Together]:
    """The rows of the forecast, sides of one part together: what is past its limit, then what may be soonest."""
    rows = sorted(context.assessment.forecast or (), key=_order)
    made = []
    for (component, position), sides in groupby(rows, key=lambda row: (row.component, row.position)):
        by_side = {row.side: row for row in sides}
        made.append(_Together(component, position, by_side.get(Side.LEFT), by_side.get(Side.RIGHT)))
    return sorted(made, key=lambda one: min((not is_past(row), row.hours_low, row.hours_left) for row in one.sides))


def _order(row: ForecastRow) -> tuple[int, int]:
    return list(Component).index(row.component), row.position or 0


# --- in words ---


def _in_words(one: _Together, context: Context) -> HoursLeft:
    left, right = (None if row is None else _side(row, context) for row in (one.left, one.right))
    return HoursLeft(_name(one, context), left, right, labels.clauses(_row_notes(one, context), context.language))


def _name(one: _Together, context: Context) -> str:
    if one.component not in ROLLERS:
        return labels.heading(one.component, context.language)
    return labels.opening(context.figures.part(Subject(one.component, None, one.position)))


def _side(row: ForecastRow, context: Context) -> HoursSide:
    figures, share = context.figures, context.inspection.machine.travel_share
    if is_past(row):
        return HoursSide(context.say(N_("none: past its limit")), "", "", _known_rates(row, context))
    high = _high(row, context)
    travelling = ""
    if share is not None:
        travelling = figures.hours_between(share * row.hours_low, None if high is None else share * high)
    months = "" if row.date_low is None else figures.months(row.date_low, None if high is None else row.date_high)
    return HoursSide(figures.hours_between(row.hours_low, high), months, travelling, _known_rates(row, context))


def _high(row: ForecastRow, context: Context) -> float | None:
    """The upper end of its hours, where that tells anything."""
    return upper_end(row.hours_low, row.hours_high, context.inspection.machine.hours_per_week)


def _known_rates(row: ForecastRow, context: Context) -> str:
    """What governs first, then the others that are known."""
    known = {row.rate_from: row.rate_per_100_h} | {basis: rate for basis, rate in row.rates.items() if rate is not None}
    said = (context.say(RATE_FROM[basis], rate=context.figures.rate(rate)) for basis, rate in known.items())
    return labels.clauses(said, context.language)


def _row_notes(one: _Together, context: Context) -> Iterator[str]:
    """Which roller it is, what rate governs where it is not that since fitting, and why a side is missing."""
    yield from _which_roller(one, context)
    yield from _possibly_past(one, context)
    yield from _by_side(one, _by_word, context)
    yield from _by_side(one, _rate, context)
    for side in Side:
        if one[side] is None:
            yield from _missing(one, side, context)


def _which_roller(one: _Together, context: Context) -> Iterator[str]:
    if one.component not in ROLLERS or len(one.sides) == len(Side):
        return
    side = one.sides[0].side
    rows = context.assessment.rows(one.component, side)
    if len(rows) > 1:
        all_seen = all(row.basis is not Basis.NOT_SEEN for row in rows)
        yield context.say((WORST if all_seen else WORST_SEEN)[side])


def _possibly_past(one: _Together, context: Context) -> Iterator[str]:
    for row in one.sides:
        if row.hours_left <= 0 and not is_past(row):
            yield context.say(SAID_OF[row.side], words=context.say(N_("past its limit, by its best value")))


def _by_side(one: _Together, told: Callable[[ForecastRow, Context], str], context: Context) -> Iterator[str]:
    """What is told of the sides, once where it is alike for all of them."""
    said = {row.side: words for row in one.sides if (words := told(row, context))}
    if len(one.sides) == len(said) and len(set(said.values())) == 1:
        yield next(iter(said.values()))
    else:
        yield from (context.say(SAID_OF[side], words=words) for side, words in said.items())


def _by_word(row: ForecastRow, context: Context) -> str:
    return context.say(N_("by the owner's word")) if by_word(row, context.inspection) else ""


def _rate(row: ForecastRow, context: Context) -> str:
    match row.rate_from:
        case RateFrom.SINCE_FITTED:
            return ""
        case RateFrom.BETWEEN:
            return context.say(N_("rate of the last {hours}"), hours=context.figures.hours(round(row.over)))
        case RateFrom.LINE:
            return context.say(N_("rate from {n} inspections"), n=str(_counted(row, context)))


def _counted(row: ForecastRow, context: Context) -> int:
    """How many inspections a line goes through."""
    wanted = (row.component, row.side, row.position)
    courses = (one for one in context.assessment.courses if (one.component, one.side, one.position) == wanted)
    return sum(point.counts and not point.by_eye for one in courses for point in one.points)


def _missing(one: _Together, side: Side, context: Context) -> Iterator[str]:
    """Why a side has no hours; nothing for rollers whose other side has a row of its own, or of which there is none."""
    rows = context.assessment.rows(one.component, side)
    forecast = context.assessment.forecast or ()
    if not rows or any((row.component, row.side) == (one.component, side) for row in forecast):
        return
    bases = {row.basis for row in rows}
    yield context.say((NO_RATE if Basis.MEASURED in bases else BY_EYE if Basis.BY_EYE in bases else NOT_SEEN)[side])


# --- the chart ---


def _chart(together: Sequence[_Together], rows: Sequence[HoursLeft], context: Context) -> HoursChart:
    drawn = tuple(_row(one, words, context) for one, words in zip(together, rows, strict=True))
    axis = axis_for([bar for row in drawn for bar in row.bars])
    scales = tuple(_scales(context))
    plan = context.assessment.plan
    visits = (
        ()
        if plan is None
        else tuple(VisitLine(str(number), visit.after) for number, visit in enumerate(plan.visits, start=1))
    )
    letterhead = context.dossier.letterhead
    return HoursChart(
        rows=drawn,
        visits=visits,
        ticks=tuple(_tick(hours, context) for hours in axis.ticks),
        end=axis.end,
        axis_text=context.say(N_("from now, hours")),
        visits_text=context.say(N_("shop visits")),
        scales=scales,
        alternative=_alternative(rows, context),
        **({"accent": letterhead.accent} if letterhead else {}),
    )


def _row(one: _Together, words: HoursLeft, context: Context) -> HoursRow:
    left, right = (None if row is None else _bar(row, context) for row in (one.left, one.right))
    return HoursRow(words.part, words.note, left, right)


def _bar(row: ForecastRow, context: Context) -> Bar:
    high = _high(row, context)
    text = context.figures.hours_between(row.hours_low, high)
    flag = context.say(N_("none: past its limit")) if is_past(row) else ""
    return Bar(row.hours_low, row.hours_left, high, text, flag)


def _scales(context: Context) -> Iterator[str]:
    machine, say = context.inspection.machine, context.say
    if machine.travel_share is not None:
        yield say(N_("of that travelling, {share}"), share=context.figures.share(machine.travel_share))
    if machine.hours is not None:
        yield say(N_("machine hours"))
    if machine.hours_per_week:
        yield say(N_("month, at {hours} a week"), hours=context.figures.hours(machine.hours_per_week))


def _tick(hours: float, context: Context) -> Tick:
    machine, figures = context.inspection.machine, context.figures
    below = []
    if machine.travel_share is not None:
        below.append(figures.number(machine.travel_share * hours))
    if machine.hours is not None:
        below.append(figures.number(machine.hours.machine + hours))
    if machine.hours_per_week:
        day = day_after(context.inspection.inspected, hours, machine.hours_per_week)
        below.append("" if day is None else figures.month(day, short=True))
    text = figures.exact(hours) if hours else context.say(N_("now"))
    return Tick(hours, text, tuple(below))


def _alternative(rows: Sequence[HoursLeft], context: Context) -> str:
    """The chart's figures as sentences."""
    say = context.say
    sentences = [say(N_("Hours left to each limit, from now."))]
    for row in rows:
        sides = [
            context.say(SAID_OF[side], words=said.hours)
            for side, said in ((Side.LEFT, row.left), (Side.RIGHT, row.right))
            if said is not None
        ]
        sentences.append(say(N_("{part}: {sides}."), part=row.part, sides=", ".join(sides)))
    plan = context.assessment.plan
    if plan is not None and plan.visits:
        due = [visit_due(visit, context.figures) for visit in plan.visits]
        sentences.append(say(N_("Shop visits: {due}."), due=labels.listed(due, context.language)))
    return " ".join(sentences)


# --- what is said of all of them ---


def _legend(context: Context) -> str:
    """How the chart is read."""
    said = [
        context.say(N_("Bar: 95\u00a0% interval; stroke in it: best value; left solid, right open. Arrow: goes on."))
    ]
    if context.assessment.plan is not None and context.assessment.plan.visits:
        said.append(context.say(N_("A visit stands at the best value of the first limit in it.")))
    return " ".join(said)


def _rates_said(context: Context) -> str:
    """Which rates of wear the hours rest on."""
    say, rows, said = context.say, context.assessment.forecast or (), []
    bases = {row.rate_from for row in rows}
    if RateFrom.SINCE_FITTED in bases:
        said.append(say(N_("Rate of wear since fitted or turned, unless a row names another.")))
    if any(row.rate_from is RateFrom.BETWEEN and row.rates.get(RateFrom.SINCE_FITTED) is not None for row in rows):
        said.append(say(N_("The rate between the last two inspections governs only where it is surely higher.")))
    if RateFrom.LINE in bases:
        said.append(say(N_("From four inspections on: the line through all of them.")))
    return " ".join(said)


def _foremost(context: Context) -> Iterator[str]:
    """What nobody may miss, the caution first."""
    say, assessment, figures = context.say, context.assessment, context.figures
    yield say(NO_PERMISSION)
    if context.chart is not None and context.chart.stands_in_for is not None:
        yield say(N_("The chart was made for another machine: take these hours as a guide."))
    first = once_put_right(assessment, figures)
    if first:
        yield labels.opening(say(N_("{condition}, these hours begin."), condition=first))
    yield from other_rollers(assessment, figures)
    lacking = list(without_hours(assessment, figures))
    if lacking:
        priced = assessment.plan is not None and bool(assessment.plan.visits)
        pattern = N_("Neither hours nor costs for: {parts}.") if priced else N_("No hours for: {parts}.")
        yield say(pattern, parts=labels.clauses(lacking, context.language))


def _notes(context: Context) -> Iterator[str]:
    """What else the hours leave open."""
    say, machine = context.say, context.inspection.machine
    rows = context.assessment.forecast or ()
    ignoring = [row for row in rows if row.hardening_ignored]
    if ignoring and len(ignoring) == len(rows):
        yield say(N_("Hours may be shorter: the chart ignores hardening."))
    elif ignoring:
        parts = dict.fromkeys(labels.many(row.component, context.language) for row in ignoring)
        yield say(
            N_("Hours may be shorter where the chart ignores hardening: {parts}."),
            parts=labels.listed(list(parts), context.language),
        )
    if machine.layout is Layout.EXCAVATOR:
        if machine.travel_share is None:
            yield say(N_("An excavator's meter hours are mostly not travel, and how much it travels is not known."))
        else:
            share = context.figures.share(machine.travel_share)
            yield say(
                N_("An excavator's meter hours are mostly not travel: its share of travel was told as {share}."),
                share=share,
            )
    if context.assessment.plan is None:
        yield say(N_("No prices were given: no visits are planned."))


# --- why there is none ---


def no_forecast(context: Context) -> str:
    """Why there is no forecast and what to record for one, in two short sentences."""
    missing = tuple(_lacking(context))
    if not missing:
        return context.say(
            N_("No hours left are given: from what was measured no rate of wear follows. Measure again at the next "
               "inspection with the same gauges at the same places.")
        )  # fmt: skip
    whys, remedies = zip(*missing, strict=True)
    return context.say(
        N_("No hours left are given: {why}. For a forecast, {remedy}."),
        why=labels.listed(list(whys), context.language),
        remedy=labels.listed(list(remedies), context.language),
    )


def why_no_forecast(context: Context) -> str:
    """Why there is no forecast, as a part of a sentence."""
    whys = [why for why, _ in _lacking(context)]
    return (
        labels.listed(whys, context.language) if whys else context.say(N_("no rate of wear follows from what was read"))
    )


def _lacking(context: Context) -> Iterator[tuple[str, str]]:
    """Each thing that a forecast lacks, and how it comes to be had."""
    say, hours = context.say, context.inspection.machine.hours
    if context.chart is None:
        yield say(N_("there is no wear chart")), say(N_("find the wear chart of this machine"))
    if hours is None:
        yield say(N_("the machine's hours are not known")), say(N_("record the hour meter"))
    elif hours.known_from is Evidence.OWNERS_WORD:
        yield say(N_("the machine's hours were only told")), say(N_("record the hour meter"))
    if not _fitting_evidenced(context) and not context.inspection.earlier:
        yield (
            say(N_("nothing shows since when parts are on")),
            say(N_("record the hours at fitting with what shows them, or name an earlier inspection")),
        )


def _fitting_evidenced(context: Context) -> bool:
    return any(one.original or one.known_from is not None for one in context.inspection.fitted.values())
