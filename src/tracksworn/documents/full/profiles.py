"""What wear profiles are drawn from: one section for a component, with the sizes read, new and limit."""

from collections.abc import Mapping, Sequence
from typing import Final

from tracksworn.assessment.model import Basis, PlaceFigure, Row
from tracksworn.assessment.sayings import Subject
from tracksworn.assessment.scale import Scale
from tracksworn.assessment.stages import stage
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.profiles.profile import (
    USUAL_MEASURES,
    Flank,
    Measure,
    Profile,
    ProfileWords,
    Size,
    Worn,
    usual_measure,
)
from tracksworn.documents.full.context import Context, decimals, derived_decimals, size_decimals, sizes_in, subject
from tracksworn.documents.full.gauges import alternative, gauge
from tracksworn.documents.full.parts import governing
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.language import N_
from tracksworn.documents.words.rounding import deserved
from tracksworn.inspection.vocabulary import MILLIMETRES_PER, Component, Grade, PartPlace, Side, Sign, Unit

BOTH_SIDES: Final = frozenset({Component.LINK, Component.PITCH, Component.SHOE, Component.LUG, Component.DRIVE_LUG})
"""Drawn left beside right; all others show one part with its places."""

FLANK_SIGNS: Final[Mapping[Component, Sign]] = {
    Component.FRONT_IDLER: Sign.SIDE_WEAR,
    Component.REAR_IDLER: Sign.SIDE_WEAR,
    Component.SPROCKET: Sign.REVERSE_WEAR,
}
"""Wear of a flank that no reading of the part's size tells."""

WHEELS: Final = frozenset({Component.FRONT_IDLER, Component.REAR_IDLER, Component.BOTTOM_ROLLER, Component.TOP_ROLLER})
"""Worn all round: half of what has gone from the diameter has gone at the tread."""

HEIGHT: Final = 46.0
FLANKED: Final = 34.0
"""How high sections are at most, and those of a tooth whose flanks have words over them, mm."""
IDLER: Final = (N_("Idler rim"), N_("section"))
TITLES: Final[Mapping[Component, tuple[str, str]]] = {
    Component.LINK: (N_("Link rail"), N_("section")),
    Component.BUSHING: (N_("Bushing wall"), N_("section")),
    Component.PITCH: (N_("Pitch, internal wear"), N_("chain")),
    Component.SHOE: (N_("Shoe and grouser"), N_("section")),
    Component.LUG: (N_("Lug"), N_("section")),
    Component.DRIVE_LUG: (N_("Drive lug"), N_("section")),
    Component.SPROCKET: (N_("Sprocket tooth"), N_("from the side")),
    Component.FRONT_IDLER: IDLER,
    Component.REAR_IDLER: IDLER,
    Component.BOTTOM_ROLLER: (N_("Roller tread and flange"), N_("half section")),
    Component.TOP_ROLLER: (N_("Top roller tread"), N_("half section")),
}
"""Title and kind of section."""

SHORT_PLACES: Final[Mapping[PartPlace, str]] = {
    PartPlace.FORWARD_SIDE: N_("forward"),
    PartPlace.REVERSE_SIDE: N_("reverse"),
    PartPlace.RIGHT_ANGLES: N_("right angles"),
    PartPlace.INNER_TREAD: N_("inner"),
    PartPlace.OUTER_TREAD: N_("outer"),
    PartPlace.FORWARD_FACE: N_("forward"),
    PartPlace.REVERSE_FACE: N_("reverse"),
}


def section_of(about: Sequence[Subject], shown: set[Component], context: Context) -> Profile | None:
    """A section of the first component spoken of that no section has shown; it is then among those `shown`."""
    for component in dict.fromkeys(one.what for one in about):
        if not isinstance(component, Component) or component not in USUAL_MEASURES or component in shown:
            continue
        named = [one for one in about if one.what is component]
        sides = {one.side for one in named}
        profile = _profile(component, named[0] if len(sides) == 1 else Subject(component), context)
        if profile is not None:
            shown.add(component)
            return profile
    return None


def other_sections(shown: set[Component], context: Context) -> tuple[Profile, ...]:
    """Sections of measured components that no finding has shown."""
    measured = dict.fromkeys(row.component for row in context.assessment.components if _measured(row))
    profiles = [_profile(one, Subject(one), context) for one in measured if one not in shown]
    return tuple(profile for profile in profiles if profile is not None)


def _measured(row: Row) -> bool:
    return row.basis is Basis.MEASURED and row.percent_worn is not None


def _profile(component: Component, about: Subject, context: Context) -> Profile | None:
    rows = _rows(component, about, context)
    if not rows:
        return None
    scales = [scale for row in rows if (scale := row.scale) is not None and _measured(row)]
    scale = scales[0] if scales else None
    title, section = TITLES[component]
    entry = context.entry(component)
    described = entry.measure or "" if entry is not None else ""
    machine = context.inspection.machine
    destroyed = scale.dimensions.destroyed if scale is not None else None
    measure = usual_measure(
        component,
        described,
        grows=scale is not None and scale.limit > scale.new,
        new=scale.new if scale is not None else None,
    )
    now = tuple(_now(component, rows, scale, measure, context))
    flanks = _flanks(component, rows[0], scale, measure, context)
    notes = _notes(component, rows, scale, context)
    said = [*notes, *(one.gone for one in now if one.gone), *(one.text for one in flanks)]
    return Profile(
        component=component,
        title=context.say(title),
        about=_about(component, rows, context),
        section=context.say(section),
        now=now,
        words=_words(context),
        alternative=_alternative(component, rows, scale, said, context),
        new=_charted(scale.new, scale, component, context) if scale is not None else None,
        limit=_charted(scale.limit, scale, component, context) if scale is not None else None,
        destroyed=_charted(destroyed, scale, component, context)
        if scale is not None and destroyed is not None
        else None,
        measure=measure,
        flanks=flanks,
        notes=notes,
        dimension=_dimension(component, rows, context),
        shoe=machine.shoe.kind,
        segment="segment" in described.casefold(),
        over_links=(entry.over_links or 4) if entry is not None else 4,
        unit_mm=MILLIMETRES_PER[Unit.INCH] if context.figures.units == "in" else 1.0,
        height=FLANKED if len(flanks) > 1 else HEIGHT,
    )


def _rows(component: Component, about: Subject, context: Context) -> list[Row]:
    """Left and right, or the one part that is spoken of, else the most worn; parts without a figure are left out."""
    sides = [row for side in Side if (row := governing(component, side, context)) is not None and _has_figure(row)]
    if component in BOTH_SIDES:
        return sides
    if about.side is not None:
        named = context.assessment.row(component, about.side, about.number) or governing(component, about.side, context)
        return [named] if named is not None and _has_figure(named) else []
    return sorted(sides, key=lambda row: -(row.counted or 0.0))[:1]


def _has_figure(row: Row) -> bool:
    return row.percent_worn is not None or row.estimate is not None


def _about(component: Component, rows: list[Row], context: Context) -> str:
    return "" if component in BOTH_SIDES else context.figures.part(subject(rows[0]))


def _size(mm: float, component: Component, context: Context) -> Size:
    return Size(mm, sizes_in(context, component).length(mm, decimals(context, component), unit=False))


def _charted(mm: float, scale: Scale, component: Component, context: Context) -> Size:
    """A size of the chart, as fine as the chart has it and as those worked out from readings beside it."""
    kept = max(deserved((scale.new, scale.limit)), derived_decimals(context, component))
    return Size(mm, sizes_in(context, component).length(mm, kept, unit=False))


def _read_size(row: Row, context: Context) -> Size:
    assert row.size_mm is not None
    return Size(
        row.size_mm, sizes_in(context, row.component).length(row.size_mm, size_decimals(context, row), unit=False)
    )


# --- what is there now ---


def _now(component: Component, rows: list[Row], scale: Scale | None, measure: Measure, context: Context) -> list[Worn]:
    if component in BOTH_SIDES:
        return [_side_now(row, context) for row in rows]
    row = rows[0]
    if scale is None or len(row.places) < 2:
        return [_part_now(row, context)]
    return [_place_now(row, place, scale, measure, context) for place in row.places if place.percent_worn is not None]


def _side_now(row: Row, context: Context) -> Worn:
    size = _read_size(row, context) if row.size_mm is not None else None
    return Worn(gauge(row, context), size, labels.word(row.side, context.language), side=row.side)


def _part_now(row: Row, context: Context) -> Worn:
    size = _read_size(row, context) if row.size_mm is not None else None
    return Worn(gauge(row, context), size, side=row.side, place=row.place)


def _place_now(row: Row, place: PlaceFigure, scale: Scale, measure: Measure, context: Context) -> Worn:
    word = context.say(SHORT_PLACES[place.place]) if place.place is not None else ""
    gone, deep = abs(scale.new - place.size_mm), row.component in WHEELS and measure is Measure.DIAMETER
    size = sizes_in(context, row.component).length(
        gone / 2 if deep else gone, derived_decimals(context, row.component), unit=False
    )
    return Worn(
        gauge=_place_gauge(place, context),
        size=_size(place.size_mm, row.component, context),
        word=word,
        gone=context.say(N_("{place}, {size} deep") if deep else N_("{place}, {size} gone"), place=word, size=size),
        side=row.side,
        place=place.place,
    )


def _flanks(
    component: Component, row: Row, scale: Scale | None, measure: Measure, context: Context
) -> tuple[Flank, ...]:
    """Side wear of an idler and reverse wear of a tooth, as observed on this part."""
    sign = FLANK_SIGNS.get(component)
    seen = [
        one
        for one in context.inspection.observations
        if one.at.part is component and one.at.side is row.side and sign in one.seen and one.grade is not Grade.NONE
    ]
    if not seen or (len(row.places) > 1 and sign is Sign.REVERSE_WEAR):
        return ()
    worst = max(seen, key=lambda one: one.size or 0.0)
    if sign is Sign.SIDE_WEAR:
        text = _gone(context.say(N_("side wear")), worst.size, component, context)
        size = _size(worst.size, component, context) if worst.size is not None else None
        return (Flank(text, size, worst.at.place),)
    if measure is not Measure.THICKNESS or row.size_mm is None or scale is None:
        return ()
    return _tooth_flanks(worst.size, scale.new - row.size_mm, context)


def _tooth_flanks(reverse: float | None, loss: float, context: Context) -> tuple[Flank, ...]:
    """Both flanks where the reverse one was measured: what it has not lost of the thickness the forward one has."""
    component, place = Component.SPROCKET, PartPlace.REVERSE_FACE
    if reverse is None or reverse > loss:
        return (Flank(_gone(context.say(SHORT_PLACES[place]), None, component, context), None, place),)
    sizes = {PartPlace.FORWARD_FACE: loss - reverse, place: reverse}
    return tuple(
        Flank(_gone(context.say(SHORT_PLACES[at]), mm, component, context), _size(mm, component, context), at)
        for at, mm in sizes.items()
    )


def _gone(word: str, mm: float | None, component: Component, context: Context) -> str:
    if mm is None:
        return context.say(N_("{place}: seen, not measured"), place=word)
    size = sizes_in(context, component).length(mm, derived_decimals(context, component), unit=False)
    return context.say(N_("{place}, {size} gone"), place=word, size=size)


def _place_gauge(place: PlaceFigure, context: Context) -> Gauge:
    assert place.percent_worn is not None
    within = place.uncertainty
    return Gauge(
        basis=Basis.MEASURED,
        figure=context.figures.percent(place.percent_worn),
        percent=place.percent_worn,
        low=None if within is None else place.percent_worn - within,
        high=None if within is None else place.percent_worn + within,
        stage=stage(place.percent_worn),
    )


# --- words beside it ---


def _notes(component: Component, rows: list[Row], scale: Scale | None, context: Context) -> tuple[str, ...]:
    notes = []
    for row in rows:
        if scale is not None and row.size_mm is not None:
            side = labels.word(row.side, context.language) if len(rows) > 1 else ""
            notes.append(_to_the_limit(row.size_mm, side, component, scale, context))
    if component not in BOTH_SIDES:
        other = governing(component, rows[0].side.other, context)
        if other is not None and _has_figure(other):
            part = context.figures.part(subject(other))
            figure = worn.with_interval(other, context.figures)
            notes.append(context.say(N_("{part}: {worn}"), part=part, worn=figure))
    return tuple(notes)


def _to_the_limit(size: float, side: str, component: Component, scale: Scale, context: Context) -> str:
    """How much is left before the limit, or how far past it, on the size that was read."""
    left = (size - scale.limit) if scale.limit < scale.new else (scale.limit - size)
    length = sizes_in(context, component).length(abs(left), derived_decimals(context, component))
    if left < 0.0:
        words = context.say(N_("{size} past the limit"), size=length)
    else:
        words = context.say(N_("{size} to the limit"), size=length)
    return context.say(N_("{side}: {words}"), side=side, words=words) if side else words


def _dimension(component: Component, rows: list[Row], context: Context) -> str:
    if component is not Component.PITCH:
        return ""
    longest = max((row.size_mm for row in rows if row.size_mm is not None), default=None)
    if longest is None:
        return ""
    size = sizes_in(context, component).length(longest, decimals(context, component))
    return context.say(N_("{size}, the longest span read"), size=size)


def _alternative(
    component: Component, rows: list[Row], scale: Scale | None, said: Sequence[str], context: Context
) -> str:
    """The figures of the parts, their sizes, and what stands beside the section."""
    sentences = [context.say(TITLES[component][0]) + ".", *(alternative(row, context) for row in rows)]
    if scale is not None:
        kept = decimals(context, component)
        sizes = ", ".join(
            f"{labels.word(row.side, context.language)} "
            f"{sizes_in(context, row.component).length(row.size_mm, size_decimals(context, row))}"
            for row in rows
            if row.size_mm is not None
        )
        sentences.append(
            context.say(
                N_("As new {new}, limit {limit}, now {sizes}."),
                new=sizes_in(context, component).length(scale.new, kept),
                limit=sizes_in(context, component).length(scale.limit, kept),
                sizes=sizes,
            )
        )
    if said:
        sentences.append(labels.opening(labels.clauses(said, context.language)) + ".")
    return " ".join(sentences)


def _words(context: Context) -> ProfileWords:
    say = context.say
    return ProfileWords(
        as_new=say(N_("as new")),
        now=say(N_("now")),
        limit=say(N_("limit")),
        destroyed=say(N_("may fail")),
        typical=say(N_("typical section, not to scale")),
        pin=say(N_("pin")),
        tread=say(N_("tread")),
        flange=say(N_("flange")),
        middle=say(N_("middle of the part")),
        bushing=say(N_("bushing")),
        cords=say(N_("cords")),
        not_drawn=say(N_("not drawn")),
        colon=say(N_(": ")),
        semicolon=say(N_("; ")),
        decimal=context.figures.decimal_mark,
    )
