"""How each component wore from inspection to inspection, where there is more than the present one."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.decisions import Course, CoursePoint, ForecastRow, RateFrom
from tracksworn.assessment.forecast.even import EvenWear
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.drawing.plain import Point
from tracksworn.documents.drawing.trend.trend import LEAST_TOP, MOST_TOP, Outlook, Trend, TrendPoint, TrendSide
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.parts import row_name
from tracksworn.documents.full.trend_views import TrendRow, Trends, TrendView
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import NO_BREAK
from tracksworn.documents.words.language import N_, NP_
from tracksworn.inspection.vocabulary import Component, Side

IN_WORDS: Final[Mapping[int, str]] = {
    2: N_("Two inspections, one machine"),
    3: N_("Three inspections, one machine"),
    4: N_("Four inspections, one machine"),
    5: N_("Five inspections, one machine"),
    6: N_("Six inspections, one machine"),
}
COUNTED: Final = NP_("{n} inspection, one machine", "{n} inspections, one machine")

BOTH_RATES: Final = N_("{left} left, {right} right, % in 100\u202fh")
RATES: Final[Mapping[Side, str]] = {
    Side.LEFT: N_("{rate} left, % in 100\u202fh"),
    Side.RIGHT: N_("{rate} right, % in 100\u202fh"),
}

READ: Final = N_(
    "Per cent worn against machine hours. Left full dots, right open, a hair before and after their hours; "
    "whisker: 95\u00a0% interval."
)
AS_NEW: Final = N_("Square: as new.")
BY_EYE: Final = N_("Dashes alone: by eye.")
ASIDE: Final = N_("Lighter: read in another way, or on the part before, so that no rate rests on it.")
AHEAD: Final = N_(
    "Heavy stroke: the limit; fan: on to it, from the soonest to the latest, where that is not too far for this scale."
)
LIMIT: Final = N_("Heavy stroke: the limit.")
LIMIT_AT: Final = 100.0
ROOM_FOR_HOURS: Final = 0.22
"""Share of the width that hours need beside others."""
BASES: Final[Mapping[RateFrom, str]] = {
    RateFrom.SINCE_FITTED: N_("since fitted"),
    RateFrom.BETWEEN: N_("last {hours}"),
    RateFrom.LINE: N_("line"),
}


def trends(context: Context) -> Trends | None:
    """A trend for each component that an earlier inspection saw too; None where there is no such component."""
    courses = context.assessment.courses
    found = [_view(component, courses, context) for component in Component]
    shown = [view for view in found if view is not None]
    if not shown:
        return None
    top = min(max(LEAST_TOP, *(_highest(view.trend) + 2.0 for view in shown)), MOST_TOP)
    views = tuple(replace(view, trend=replace(view.trend, top=top)) for view in shown)
    return Trends(_heading(courses, context), _note([view.trend for view in shown], context), views)


def _highest(trend: Trend) -> float:
    return max(point.high for side in trend.sides for point in side.points)


def _heading(courses: Sequence[Course], context: Context) -> str:
    count = len({(point.number, point.inspected) for course in courses for point in course.points})
    if count in IN_WORDS:
        return context.say(IN_WORDS[count])
    return context.language.count(*COUNTED, count)


def _note(shown: Sequence[Trend], context: Context) -> str:
    sides = [side for trend in shown for side in trend.sides]
    points = [point for side in sides for point in side.points]
    sentences = (
        (READ, True),
        (AS_NEW, any(side.began is not None for side in sides)),
        (BY_EYE, any(point.by_eye for point in points)),
        (ASIDE, any(not point.counts and not point.by_eye for point in points)),
        (AHEAD if any(side.outlook for side in sides) else LIMIT, True),
    )
    return " ".join(context.say(sentence) for sentence, stands in sentences if stands)


# --- one component ---------------------------------------------------------------------------------------------------


def _view(component: Component, courses: Sequence[Course], context: Context) -> TrendView | None:
    """The trend of a component that was seen at least twice, at different hours."""
    own = [course for course in courses if course.component is component]
    if not any(len(course.points) > 1 for course in own):
        return None
    own.sort(key=lambda one: list(Side).index(one.side))
    bare = _with_what_arrives(Trend(tuple(_side(course, context) for course in own), (), ""))
    if bare.span[0] == bare.span[1]:
        return None
    name, rate = row_name(component, context), _rate(own, context)
    rows = tuple(_rows(own, context))
    named = tuple(_named_hours(bare, context))
    said = " ".join([f"{name}.", *(_told(course, context) for course in own), f"{rate}." if rate else ""]).strip()
    return TrendView(name, replace(bare, labels=named, alternative=said), rate, rows, _which(own, context))


def _with_what_arrives(trend: Trend) -> Trend:
    """Without an outlook that does not come to the limit within the frame."""
    sides = tuple(
        replace(side, outlook=None)
        if side.outlook and (side.outlook.latest[-1][1] < LIMIT_AT or side.outlook.latest[-1][0] > trend.farthest)
        else side
        for side in trend.sides
    )
    return replace(trend, sides=sides)


def _named_hours(trend: Trend, context: Context) -> Iterator[tuple[float, str]]:
    """The first, the present, and about the last of what is ahead where it has room beside the present."""
    first, now = trend.span
    yield from ((hours, context.figures.number(hours)) for hours in (first, now))
    if trend.end - now >= ROOM_FOR_HOURS * (trend.end - first):
        yield trend.end, context.figures.number(round(trend.end, -1))


def _which(courses: Sequence[Course], context: Context) -> str:
    """Which rollers, and when one went on later than the others: the square of its own."""
    numbered = [one for one in courses if one.position is not None and one.component not in context.figures.lone]
    began = [one.began for one in courses if one.began is not None]
    said = []
    for course in numbered:
        pattern = N_("{side} roller {number}")
        roller = context.say(pattern, side=labels.word(course.side, context.language), number=str(course.position))
        if course.began is not None and course.began > min(began):
            hours = context.figures.hours(course.began)
            roller = context.say(N_("{roller}, renewed at {hours}"), roller=roller, hours=hours)
        said.append(roller)
    return labels.clauses(said, context.language)


def _side(course: Course, context: Context) -> TrendSide:
    points = tuple(
        TrendPoint(one.hours, one.percent_worn, one.low, one.high, one.counts, one.by_eye) for one in course.points
    )
    return TrendSide(course.side, course.began, points, _outlook(course, context))


def _forecast(course: Course, context: Context) -> ForecastRow | None:
    wanted = (course.component, course.side, course.position)
    rows = context.assessment.forecast or ()
    return next((row for row in rows if (row.component, row.side, row.position) == wanted), None)


def _outlook(course: Course, context: Context) -> Outlook | None:
    """From the present figure on to the limit; nothing past it or without a forecast."""
    row, now = _forecast(course, context), course.points[-1]
    if row is None or not row.hours_left or now.by_eye:
        return None
    start, limit = (now.hours, now.percent_worn), 100.0
    never = (now.hours + 100.0 * row.whole_life, now.percent_worn)
    latest = never if row.hours_high is None else (now.hours + row.hours_high, limit)
    return Outlook(
        best=(start, *_case_ends(course, row, context), (now.hours + row.hours_left, limit)),
        soonest=(start, (now.hours + row.hours_low, limit)),
        latest=(start, latest),
    )


def _case_ends(course: Course, row: ForecastRow, context: Context) -> tuple[Point, ...]:
    """Where the hardened case will have worn through and wear goes on faster."""
    part, now = context.assessment.row(course.component, course.side, course.position), course.points[-1]
    case = EvenWear.on(part.scale).case if part is not None and part.scale is not None else None
    if case is None or reaches(now.percent_worn, case.ends_at):
        return ()
    until = 100.0 * (case.ends_at - now.percent_worn) / row.rate_per_100_h
    return ((now.hours + until, case.ends_at),) if until < row.hours_left else ()


def _rate(courses: Sequence[Course], context: Context) -> str:
    rows = [row for course in courses if (row := _forecast(course, context)) is not None]
    rates = dict(zip((row.side for row in rows), _evenly(rows, context), strict=True))
    if len({row.rate_from for row in rows}) > 1:
        rates = {row.side: f"{rates[row.side]} ({_basis(row, context)})" for row in rows}
    if len(rates) > 1:
        return context.say(BOTH_RATES, left=rates[Side.LEFT], right=rates[Side.RIGHT])
    return next((context.say(RATES[side], rate=rate) for side, rate in rates.items()), "")


def _basis(row: ForecastRow, context: Context) -> str:
    return context.say(BASES[row.rate_from], hours=context.figures.hours(round(row.over)))


def _evenly(rows: Sequence[ForecastRow], context: Context) -> list[str]:
    """Rates with the decimals of the coarsest of them, or each with its own where one would print as none."""
    own = [context.figures.rate(row.rate_per_100_h) for row in rows]
    decimals = min((len(one.partition(context.figures.decimal_mark)[2]) for one in own), default=0)
    even = [context.figures.number(row.rate_per_100_h, decimals) for row in rows]
    return own if any(float(one.replace(context.figures.decimal_mark, ".")) == 0.0 for one in even) else even


# --- the same in words -----------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, order=True)
class _When:
    """A line of the table: hours first, and the beginning before an inspection at the same hours."""

    hours: float
    inspected: date
    number: str


def _rows(courses: Sequence[Course], context: Context) -> Iterator[TrendRow]:
    cells: dict[_When, dict[Side, str]] = {}
    for course in courses:
        if course.began is not None:
            cells.setdefault(_When(course.began, date.min, ""), {})[course.side] = context.say(N_("as new"))
        for point in course.points:
            when = _When(point.hours, point.inspected, point.number)
            cells.setdefault(when, {})[course.side] = _cell(course, point, context)
    for when in sorted(cells):
        left, right = (cells[when].get(side, "") for side in Side)
        day = context.figures.short_day(when.inspected) if when.number else ""
        yield TrendRow(when.number, day, context.figures.hours(when.hours), left, right)


def _cell(course: Course, point: CoursePoint, context: Context) -> str:
    worn = ", ".join(filter(None, (_worn(point, context), _remark(course, point, context))))
    if course.position is not None and course.component not in context.figures.lone:
        return context.say(N_("no. {number}: {worn}"), number=str(course.position), worn=worn)
    return worn


def _worn(point: CoursePoint, context: Context) -> str:
    """`61 % (56 to 66)`; an estimate by its range alone."""
    between = context.figures.interval(point.low, point.high)
    if point.by_eye:
        return context.say(N_("{range}, by eye"), range=between + NO_BREAK + "%")
    return f"{context.figures.per_cent(point.percent_worn)} ({between})"


def _remark(course: Course, point: CoursePoint, context: Context) -> str:
    """Why no rate rests on a figure; empty where one may, and by eye, which says it already."""
    if course.began is not None and exceeds(course.began, point.hours):
        return context.say(N_("the part before"))
    return "" if point.counts or point.by_eye else context.say(N_("not for a rate"))


def _told(course: Course, context: Context) -> str:
    """One side as a sentence: `Left links: as new at 5 210 h; 61 % (56 to 66) at 7 660 h; limit in 620 to 1 070 h.`."""
    say = context.say
    said = [(point.hours, _point_told(course, point, context)) for point in course.points]
    if course.began is not None:
        said.append((course.began, say(N_("as new at {hours}"), hours=context.figures.hours(course.began))))
    told = [words for _, words in sorted(said, key=lambda one: one[0])]
    row = _forecast(course, context)
    if row is not None and row.hours_left:
        left = context.figures.hours_left(row.hours_low, row.hours_high)
        told.append(say(N_("limit in {hours}\u202fh"), hours=left))
    part = labels.opening(context.figures.part(Subject(course.component, course.side, course.position)))
    return say(N_("{part}: {course}."), part=part, course=labels.clauses(told, context.language))


def _point_told(course: Course, point: CoursePoint, context: Context) -> str:
    hours = context.figures.hours(point.hours)
    words = context.say(N_("{worn} at {hours}"), worn=_worn(point, context), hours=hours)
    return ", ".join(filter(None, (words, _remark(course, point, context))))
