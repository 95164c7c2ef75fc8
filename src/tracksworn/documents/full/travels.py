"""Travel and range, which are not wear; and rollers by position."""

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.model import Basis, Row, Travel
from tracksworn.documents.drawing.strip import Strip, StripPlace
from tracksworn.documents.full.context import Context, decimals, sizes_read
from tracksworn.documents.full.gauges import alternative, gauge
from tracksworn.documents.full.view import StripView, TravelRow, TravelSide
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import NO_BREAK
from tracksworn.documents.words.language import N_
from tracksworn.inspection.chart import ChartComponent
from tracksworn.inspection.values import NotSeen, Sizes
from tracksworn.inspection.vocabulary import ROLLERS, TRAVELS, Component, Side

STRIP_HEADINGS = {
    Component.BOTTOM_ROLLER: N_("Bottom rollers by position"),
    Component.TOP_ROLLER: N_("Top rollers by position"),
}


def travel_rows(context: Context) -> tuple[TravelRow, ...]:
    """A row for adjuster, cushion and sag, as far as the inspection has an entry."""
    components = [one for one in Component if one in TRAVELS and one in context.inspection.readings]
    return tuple(
        TravelRow(
            component=component,
            name=labels.heading(component, context.language),
            measured=_measured(component, context),
            left=_side(component, Side.LEFT, context),
            right=_side(component, Side.RIGHT, context),
        )
        for component in components
    )


def _measured(component: Component, context: Context) -> str:
    entry = context.entry(component)
    words = [entry.measure] if entry is not None and entry.measure else []
    ends = _ends(entry)
    if entry is not None and ends is not None:
        low, high = (context.figures.length(end, among=ends, unit=False) for end in ends)
        pattern = N_("range {low} to {high}") if component is Component.SAG else N_("{low} to {high}")
        words.append(context.say(pattern, low=low, high=high).replace(" ", NO_BREAK) + context.figures.unit)
    told = ", ".join(words)
    return labels.clauses([told, *_circumstances(context)], context.language) if component is Component.SAG else told


def _ends(entry: ChartComponent | None) -> tuple[float, float] | None:
    if entry is None:
        return None
    if entry.start is not None and entry.end is not None:
        return entry.start, entry.end
    return entry.range


def _circumstances(context: Context) -> list[str]:
    """How the machine was stopped and whether its track was packed: without both, sag says nothing."""
    reading = context.inspection.readings[Component.SAG]
    stopped = reading.stopped or context.say(N_("how it was stopped is not recorded"))
    packing = {None: N_("packing not recorded"), True: N_("packed"), False: N_("not packed")}[reading.packed]
    return [f"{stopped}, {context.say(packing)}"]


def _side(component: Component, side: Side, context: Context) -> TravelSide | None:
    value = context.inspection.readings[component].sides[side]
    found = next((one for one in context.assessment.travel if (one.component, one.side) == (component, side)), None)
    if found is None:
        if not isinstance(value, NotSeen):
            return None
        words = context.say(N_("not seen: {reason}"), reason=value.reason)
        return TravelSide(side, "", words, False, None, None, _sentence(component, side, "", words, context))
    read = value.measured if isinstance(value, Sizes) else (found.size_mm,)
    size = context.figures.length(found.size_mm, among=read)
    words, strong = _words(found, context)
    return TravelSide(
        side=side,
        size=size,
        words=words,
        strong=strong,
        percent_used=found.percent_used,
        range=_range(found, context),
        alternative=_sentence(component, side, size, words, context),
    )


def _words(found: Travel, context: Context) -> tuple[str, bool]:
    """What stands beside a travel, and whether it stands out."""
    if found.component is Component.SAG:
        if found.in_range is None:
            return context.say(N_("no verdict")), False
        return context.say(N_("in range") if found.in_range else N_("out of range")), not found.in_range
    if found.percent_used is None:
        return context.say(N_("no travel in a chart")), False
    used = context.figures.travel(found.percent_used) + NO_BREAK + "%"
    near_end = reaches(found.percent_used, context.assessment.assumptions.near_end_of_travel)
    return context.say(N_("{percent} used"), percent=used), near_end


def _range(found: Travel, context: Context) -> tuple[float, float, float] | None:
    entry = context.entry(found.component)
    if found.component is not Component.SAG or entry is None or entry.range is None:
        return None
    return found.size_mm, *entry.range


def _sentence(component: Component, side: Side, size: str, words: str, context: Context) -> str:
    part = context.say(labels.SIDED[side], part=labels.one(component, context.language))
    said = ", ".join(text for text in (size, words) if text)
    return context.say(N_("{part}: {said}."), part=labels.opening(part), said=said)


# --- rollers by position ----------------------------------------------------------------------------------------------


def strips(context: Context) -> tuple[StripView, ...]:
    """A strip for rollers of which a side has several and any was seen."""
    return tuple(
        _strip(component, context)
        for component in Component
        if component in ROLLERS
        and max(len(context.assessment.rows(component, side)) for side in Side) > 1
        and any(row.basis is not Basis.NOT_SEEN for row in context.assessment.rows(component))
    )


def _strip(component: Component, context: Context) -> StripView:
    left, right = (context.assessment.rows(component, side) for side in Side)
    entry = context.entry(component)
    measured = entry.measure if entry is not None and entry.measure else ""
    notes = [measured] if measured and any(row.size_mm is not None for row in (*left, *right)) else []
    if notes:
        pattern = N_("{measured} in inches") if context.figures.units == "in" else N_("{measured} in mm")
        notes = [context.say(pattern, measured=measured)]
    heading = context.say(STRIP_HEADINGS[component])
    return StripView(
        component=component,
        heading=heading,
        note=labels.clauses([*notes, context.say(N_("worn from the top edge down"))], context.language),
        strip=Strip(
            left=tuple(_place(row, context) for row in left),
            right=tuple(_place(row, context) for row in right),
            left_text=labels.word(Side.LEFT, context.language),
            right_text=labels.word(Side.RIGHT, context.language),
            front_text=context.say(N_("front")),
            alternative=" ".join([heading + ".", *(alternative(row, context) for row in (*left, *right))]),
        ),
    )


def _place(row: Row, context: Context) -> StripPlace:
    size = ""
    if sizes_read(row) and row.size_mm is not None:
        size = context.figures.length(row.size_mm, decimals(context, row.component), unit=False)
    return StripPlace(number=str(row.position), gauge=gauge(row, context), size=size)
