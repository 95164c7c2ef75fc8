"""Which document this is, of which machine, by whom, for whom."""

from collections.abc import Iterator, Mapping
from typing import Final

from tracksworn.assessment.sayings import Subject
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.photos import machine_photos
from tracksworn.documents.full.view import Branding, Identification, Labelled
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_
from tracksworn.inspection.letterhead import Letterhead
from tracksworn.inspection.model import FittedPart, Fitting, Hours, Machine
from tracksworn.inspection.vocabulary import CHAINS, ROLLERS, Evidence, Impact, Side, Track

NEUTRAL_ACCENT = "#1b2329"
"""Without a letterhead: the ink itself."""

DOCUMENT = "full"

TRACK: Final[Mapping[Track, str]] = {
    Track.SEALED_AND_LUBRICATED: N_("sealed and lubricated"),
    Track.GREASED: N_("greased"),
    Track.DRY: N_("dry"),
    Track.ROTATING_BUSHING: N_("rotating bushing"),
    Track.RUBBER: N_("rubber"),
}
"""Kinds of track beside a label that says track already."""
IMPACT: Final[Mapping[Impact, str]] = {Impact.LOW: N_("low"), Impact.HIGH: N_("high")}
"""Impact beside its label."""


def branding(context: Context, paper: str | None) -> Branding:
    """The firm's letterhead, or a neutral one in the inspector's name."""
    letterhead = context.dossier.letterhead
    chosen = paper or (letterhead.paper if letterhead else "A4")
    return Branding(
        firm=firm(context),
        accent=letterhead.accent if letterhead else NEUTRAL_ACCENT,
        mark=context.dossier.mark,
        address=letterhead.address if letterhead else (),
        contact=_contact(letterhead),
        paper="letter" if chosen == "letter" else "A4",
        language=context.language.code,
        faces=context.faces,
    )


def firm(context: Context) -> str:
    """Whose document it is."""
    letterhead, inspector = context.dossier.letterhead, context.inspection.inspector
    return letterhead.firm if letterhead else inspector.organisation or inspector.name


def _contact(letterhead: Letterhead | None) -> tuple[str, ...]:
    if letterhead is None:
        return ()
    return tuple(one for one in (letterhead.email, letterhead.web, letterhead.telephone) if one)


def stem(context: Context) -> str:
    """The name of the document's files without format."""
    return f"{context.inspection.number}-r{context.inspection.revision}-{DOCUMENT}"


def revision_words(context: Context) -> str:
    """`revision 0`."""
    return context.say(N_("revision {revision}"), revision=str(context.inspection.revision))


def identification(context: Context) -> Identification:
    """The head, the strip and all else that identifies."""
    inspection = context.inspection
    return Identification(
        stem=stem(context),
        title=context.say(N_("Undercarriage condition report")),
        number=f"{inspection.number} · {revision_words(context)}",
        addressed=_addressed(context),
        strip=tuple(_strip(context)),
        details=tuple(_details(context)),
        revision=_replaces(context),
        fitted=_fitted(context),
        plates=machine_photos(context),
        issued=inspection.date_of_document.isoformat(),
    )


def _addressed(context: Context) -> str:
    inspection = context.inspection
    if inspection.inspector.engaged_by:
        return context.say(N_("For {client}"), client=inspection.inspector.engaged_by)
    return labels.opening(inspection.purpose or "")


def _replaces(context: Context) -> str:
    inspection = context.inspection
    if inspection.replaces is None:
        return ""
    return context.say(
        N_("This revision replaces revision {replaced} of {number}, because: {because}."),
        replaced=str(inspection.replaces),
        number=inspection.number,
        because=(inspection.because or "").rstrip("."),
    )


def machine_name(machine: Machine) -> str:
    """`Hollin H-640E, 2024`."""
    name = f"{machine.maker} {machine.model}"
    return name if machine.year is None else f"{name}, {machine.year}"


def _strip(context: Context) -> Iterator[Labelled]:
    inspection, say = context.inspection, context.say
    machine = inspection.machine
    yield Labelled(say(N_("Machine")), machine_name(machine), yields="partly")
    yield Labelled(say(N_("Serial number")), machine.serial)
    yield _hours(machine.hours, context)
    yield Labelled(say(N_("Inspected")), context.figures.day(inspection.inspected))
    yield Labelled(say(N_("Place")), inspection.place or say(N_("not recorded")), yields="wholly")
    yield Labelled(say(N_("Inspector")), inspection.inspector.name)


def _hours(hours: Hours | None, context: Context) -> Labelled:
    if hours is None:
        return Labelled(context.say(N_("Hours")), context.say(N_("not recorded")))
    shown = context.figures.hours(hours.shown)
    if hours.meter_replaced_at is not None:
        renewed = context.say(N_("the meter was replaced and shows {shown}"), shown=shown)
        evidence = [] if hours.known_from is Evidence.METER else [labels.word(hours.known_from, context.language)]
        machine = context.figures.hours(hours.machine)
        return Labelled(context.say(N_("Machine hours")), machine, ", ".join([renewed, *evidence]))
    if hours.known_from is Evidence.METER:
        return Labelled(context.say(N_("Machine hours")), shown)
    return Labelled(context.say(N_("Hours")), shown, labels.word(hours.known_from, context.language))


def _details(context: Context) -> Iterator[Labelled]:
    """Everything told of machine and inspection; what was not told is left out, but interest and access never are."""
    inspection, say, figures = context.inspection, context.say, context.figures
    inspector, machine = inspection.inspector, inspection.machine
    unknown = say(N_("not recorded"))
    told = (
        (N_("Purpose"), inspection.purpose),
        (N_("Lot"), inspection.lot),
        (N_("Engaged by"), inspector.engaged_by),
        (N_("Inspector's organisation"), inspector.organisation),
        (N_("Qualification"), inspector.qualification),
        (N_("Interest in the sale"), inspector.interest_in_sale or unknown),
        (N_("Conditions"), inspection.conditions or unknown),
        (N_("Limits of access"), inspection.limits_of_access or unknown),
        (N_("Issued"), figures.day(inspection.date_of_document)),
        (N_("Kind of machine"), labels.opening(labels.word(machine.layout, context.language))),
        *_machine_details(context),
    )
    for label, value in told:
        if value:
            yield Labelled(say(label), value)


def _machine_details(context: Context) -> Iterator[tuple[str, str | None]]:
    machine, language, figures = context.inspection.machine, context.language, context.figures
    yield N_("Track"), context.say(TRACK[machine.track]) if machine.track is not None else ""
    yield N_("Suspension"), labels.word(machine.suspension, language) if machine.suspension is not None else ""
    rubber = machine.track is Track.RUBBER
    yield N_("Lugs, left and right") if rubber else N_("Links, left and right"), _link_counts(machine)
    yield N_("Rollers a side"), _roller_counts(context)
    width = figures.length(machine.shoe.width) if machine.shoe.width is not None else ""
    kind = labels.word(machine.shoe.kind, language) if machine.shoe.kind is not None else ""
    yield N_("Track width") if rubber else N_("Shoes"), ", ".join(word for word in (width, kind) if word)
    yield N_("Ground"), ", ".join(labels.word(one, language) for one in machine.ground)
    yield N_("Impact"), context.say(IMPACT[machine.impact]) if machine.impact is not None else ""
    if machine.hours_per_week is not None:
        yield N_("Hours a week"), figures.exact(machine.hours_per_week)
    if machine.travel_share is not None:
        yield N_("Share of travel"), figures.share(machine.travel_share)
    yield N_("Surface measured"), _surface(context)


def _link_counts(machine: Machine) -> str:
    counts = [machine.links[side] for side in Side]
    if all(count is None for count in counts):
        return ""
    return " · ".join("–" if count is None else str(count) for count in counts)


def _roller_counts(context: Context) -> str:
    machine = context.inspection.machine
    counts = []
    if machine.bottom_rollers is not None:
        counts.append(context.say(N_("{n} bottom"), n=str(machine.bottom_rollers)))
    if machine.top_rollers is not None:
        counts.append(context.say(N_("{n} top"), n=str(machine.top_rollers)))
    return ", ".join(counts)


def _surface(context: Context) -> str:
    surface = context.inspection.surface
    words = []
    if surface.cleaned is not None:
        words.append(context.say(N_("cleaned") if surface.cleaned else N_("not cleaned")))
    if surface.temperature is not None:
        words.append(context.figures.temperature(surface.temperature))
    return ", ".join(words)


# --- since when parts are on ---


def _fitted(context: Context) -> tuple[Labelled, ...]:
    """What is known of when parts went on and were turned, parts of which the same is known told together."""
    alike: dict[str, list[str]] = {}
    for part, fitting in context.inspection.fitted.items():
        for words in _fitting_words(fitting, context):
            alike.setdefault(words, []).append(_fitted_part(part, context))
    known: dict[str, list[str]] = {}
    for words, parts in alike.items():
        known.setdefault(labels.opening(labels.listed(parts, context.language)), []).append(words)
    return tuple(Labelled(parts, ", ".join(words)) for parts, words in known.items())


def _fitted_part(part: FittedPart, context: Context) -> str:
    if part.side is None and part.position is None:
        several = part.component in CHAINS or part.component in ROLLERS
        return (labels.many if several else labels.one)(part.component, context.language)
    return context.figures.part(Subject(part.component, part.side, part.position))


def _fitting_words(fitting: Fitting, context: Context) -> Iterator[str]:
    """Each thing that is known of a part; hours with what they rest on."""
    say, hours = context.say, context.figures.hours
    if fitting.original:
        yield say(N_("original, on since new"))
    if fitting.at is not None:
        yield _resting(say(N_("at {hours}"), hours=hours(fitting.at)), fitting, context)
    if fitting.turned_at is not None:
        yield _resting(say(N_("turned at {hours}"), hours=hours(fitting.turned_at)), fitting, context)
    if fitting.not_turned:
        words = say(N_("not turned"))
        yield words if fitting.known_from is None else _resting(words, fitting, context)
    if fitting.origin is not None:
        yield labels.word(fitting.origin, context.language)


def _resting(words: str, fitting: Fitting, context: Context) -> str:
    unknown = context.say(N_("no evidence recorded"))
    evidence = unknown if fitting.known_from is None else labels.word(fitting.known_from, context.language)
    return context.say(N_("{words} ({evidence})"), words=words, evidence=evidence)
