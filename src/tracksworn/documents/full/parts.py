"""Part by part: each component, what was read on it, left against right."""

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.model import AssumedValue, Basis, Comparison, PlaceFigure, Row, Stage
from tracksworn.assessment.scale import Scale, scale_for
from tracksworn.documents.full.context import Context, derived_decimals, size_decimals, sizes_in
from tracksworn.documents.full.gauges import alternative, gauge, reason
from tracksworn.documents.full.view import Delta, PartRow, PartSide
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.language import N_, NP_
from tracksworn.documents.words.rounding import deserved
from tracksworn.inspection.vocabulary import CHAINS, ROLLERS, Component, Side

SAMPLED = {
    Component.SHOE: NP_("{n} shoe", "mean of {n} shoes"),
    Component.LUG: NP_("{n} place", "mean of {n} places"),
    Component.DRIVE_LUG: NP_("{n} lug", "mean of {n} lugs"),
}
JOINTS = NP_("{n} joint", "mean of {n} joints")
REPEATS = NP_("{n} reading", "mean of {n} readings")


def part_rows(context: Context) -> tuple[PartRow, ...]:
    """A row for every component of the assessment, in the trade's order."""
    components = {row.component for row in context.assessment.components}
    return tuple(_part_row(component, context) for component in Component if component in components)


def governing(component: Component, side: Side, context: Context) -> Row | None:
    """The row that stands for a side: the one that governs; without a figure a measured one, else the first."""
    rows = context.assessment.rows(component, side)
    entry = context.assessment.comparison(component)
    figure = entry[side] if entry is not None else None
    if figure is not None:
        return next((row for row in rows if row.position == figure.position), None)
    measured = [row for row in rows if row.basis is Basis.MEASURED]
    return next(iter(measured or rows), None)


def _part_row(component: Component, context: Context) -> PartRow:
    entry = context.entry(component)
    return PartRow(
        component=component,
        name=row_name(component, context),
        measured=(entry.measure or "") if entry is not None else "",
        sizes=_sizes(component, context),
        left=_side(component, Side.LEFT, context),
        right=_side(component, Side.RIGHT, context),
        delta=_delta(context.assessment.comparison(component), context),
    )


def row_name(component: Component, context: Context) -> str:
    """The head of a component's row: `Track links`, `Bottom rollers, worst seen` where not all of them were."""
    name = labels.heading(component, context.language)
    counts = [len(context.assessment.rows(component, side)) for side in Side]
    if component not in ROLLERS or max(counts) < 2:
        return labels.opening(labels.one(component, context.language)) if component in ROLLERS else name
    all_seen = all(row.basis is not Basis.NOT_SEEN for row in context.assessment.rows(component))
    return context.say(N_("{rollers}, worst") if all_seen else N_("{rollers}, worst seen"), rollers=name)


def _sizes(component: Component, context: Context) -> str:
    """New size and limit: for each way of measuring that was used, and for first and last where these differ."""
    entry = context.entry(component)
    rows = [row for row in context.assessment.rows(component) if row.basis is Basis.MEASURED]
    if entry is None:
        return ""
    impact, figures = context.inspection.machine.impact, sizes_in(context, component)
    texts: dict[str, None] = {}
    for gauge_name in dict.fromkeys(row.gauge if row.gauge in entry.ways else None for row in rows):
        words = _scale_words(scale_for(entry, gauge_name, False, impact), figures, context)
        if gauge_name is not None:
            words = context.say(N_("{place}: {values}"), place=gauge_name, values=words)
        texts[words] = None
    if entry.ends is not None:
        ends = _scale_words(scale_for(entry, None, True, impact), figures, context)
        texts[context.say(N_("first and last: {sizes}"), sizes=ends)] = None
    return labels.clauses((text for text in texts if text), context.language)


def _scale_words(scale: Scale | None, figures: Figures, context: Context) -> str:
    if scale is None:
        return ""
    kept = deserved((scale.new, scale.limit))
    return context.say(
        N_("new {new}, limit {limit}"),
        new=figures.length(scale.new, kept, unit=False),
        limit=figures.length(scale.limit, kept),
    )


# --- one side --------------------------------------------------------------------------------------------------------


def _side(component: Component, side: Side, context: Context) -> PartSide | None:
    row = governing(component, side, context)
    if row is None:
        return None
    figured = row.percent_worn is not None or row.estimate is not None
    return PartSide(
        side=side,
        gauge=gauge(row, context),
        basis=row.basis,
        figure=worn.figure(row, context.figures) if figured else "",
        letters=_letters(row.assumed, context),
        interval=_interval(row, context),
        reading=_reading(row, context),
        details=tuple(_details(row, context)),
        stage=_stage(row, context),
        stage_strong=row.stage is Stage.PAST_LIMIT or worn.possible_stage(row) is not None,
        past_limit=row.stage is Stage.PAST_LIMIT,
        reason=_reasons(component, side, context) if row.basis is Basis.NOT_SEEN else "",
        alternative=alternative(row, context),
    )


def _letters(assumed: tuple[AssumedValue, ...], context: Context) -> str:
    return ", ".join(letter for value, letter in context.letters.items() if value in assumed)


def _interval(row: Row, context: Context) -> str:
    if row.estimate is not None:
        return context.say(N_("estimate"))
    if row.percent_worn is None:
        return ""
    return context.figures.interval(row.low, row.high)


def _reading(row: Row, context: Context) -> str:
    if row.basis is Basis.BY_EYE:
        return labels.word(row.basis, context.language)
    if row.size_mm is None:
        return ""
    return sizes_in(context, row.component).length(row.size_mm, size_decimals(context, row))


def _details(row: Row, context: Context) -> list[str]:
    """What stands under a reading: place and number of readings, the worst joint, the position."""
    details: list[str] = []
    if row.basis is Basis.NOT_SEEN:
        return details
    if row.position is not None and len(context.assessment.rows(row.component, row.side)) > 1:
        details.append(context.say(N_("roller {number}"), number=str(row.position)))
    sampled = _sampled(row, context)
    place = "" if row.place is None else labels.word(row.place, context.language)
    together = ", ".join(text for text in (place, sampled) if text)
    if together:
        details.append(together)
    if row.worst_joint is not None and row.component in CHAINS:
        details += _worst_joint(row, context)
    return details


def _sampled(row: Row, context: Context) -> str:
    if row.basis is not Basis.MEASURED:
        return ""
    if row.component is Component.PITCH:
        return _span(row, context)
    if row.component in CHAINS:
        return context.language.count(*SAMPLED.get(row.component, JOINTS), row.readings)
    if row.position is not None and row.readings == 1:
        return ""
    return context.language.count(*REPEATS, row.readings)


def _span(row: Row, context: Context) -> str:
    """Which span governs: the longest of those read, by the joint at which it begins where joints are named."""
    place = _governing_place(row)
    if place is None or row.size_mm is None:
        return ""
    size = row.size_mm
    longest = next((single for single in place.singles if abs(single.size - size) < 1e-9), None)
    if longest is not None and longest.joint is not None:
        return context.say(N_("span at joint {joint}"), joint=str(longest.joint))
    return context.language.count(*NP_("{n} span", "longest of {n} spans"), row.readings)


def _governing_place(row: Row) -> PlaceFigure | None:
    return next((place for place in row.places if place.place is row.place), None)


def _worst_joint(row: Row, context: Context) -> tuple[str, str]:
    """The most worn joint of a chain, and how far one that was not read may be worn."""
    assert row.worst_joint is not None
    percent = context.figures.percent(row.worst_joint.percent_worn)
    unread = context.say(
        N_("others to {percent}"), percent=context.figures.percent_at_most(row.worst_joint.further_high)
    )
    if row.worst_joint.joint is None:
        return context.say(N_("worst {percent}"), percent=percent), unread
    pattern = N_("shoe {joint}: {percent}") if row.component is Component.SHOE else N_("joint {joint}: {percent}")
    return context.say(pattern, joint=str(row.worst_joint.joint), percent=percent), unread


def _stage(row: Row, context: Context) -> str:
    words = [worn.stage_words(row, context.language)]
    entry = context.entry(row.component)
    if entry is not None:
        words.append(worn.lost_words(row, entry.limit_means, context.language))
    words.append(_destroyed(row, context))
    if row.turning is not None and words[0]:
        words.append(worn.turning_words(row, row.turning, context.figures))
    return labels.clauses((word for word in words if word), context.language)


def _destroyed(row: Row, context: Context) -> str:
    """How far destruction is, past the limit and only where the chart says at what size it comes."""
    scale = row.scale
    if row.stage is not Stage.PAST_LIMIT or scale is None or row.size_mm is None:
        return ""
    destroyed = scale.dimensions.destroyed
    if destroyed is None:
        return ""
    shrinks = scale.limit < scale.new
    left = row.size_mm - destroyed if shrinks else destroyed - row.size_mm
    if reaches(-left, 0.0):
        return context.say(N_("at the size at which it may fail in use"))
    size = sizes_in(context, row.component).length(left, derived_decimals(context, row.component))
    return context.say(N_("{size} before it may fail in use"), size=size)


def _reasons(component: Component, side: Side, context: Context) -> str:
    """Why a side was not seen; several positions may have several reasons."""
    reasons = dict.fromkeys(reason(row, context) for row in context.assessment.rows(component, side))
    return labels.clauses((text for text in reasons if text), context.language)


def _delta(entry: Comparison | None, context: Context) -> Delta:
    words = worn.delta_words(entry, context.figures, context.assessment.assumptions)
    return Delta(words.figure, words.within, words.words, words.note, words.differs)
