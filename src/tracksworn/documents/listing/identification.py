"""Which listing sheet this is, and what stands at its foot."""

from collections.abc import Iterator
from dataclasses import replace

from tracksworn.documents.full import closing
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.identification import machine_name, revision_words
from tracksworn.documents.full.view import Labelled
from tracksworn.documents.listing.room import SHEET, clipped
from tracksworn.documents.listing.view import Identity
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_
from tracksworn.inspection.vocabulary import Evidence

DOCUMENT = "listing"


def stem(context: Context) -> str:
    """The name of the sheet's files without format."""
    return f"{context.inspection.number}-r{context.inspection.revision}-{DOCUMENT}"


def identity(context: Context) -> Identity:
    """The head and the strip beneath it."""
    inspection = context.inspection
    return Identity(
        stem=stem(context),
        title=context.say(N_("Undercarriage condition sheet")),
        number=f"{inspection.number} · {revision_words(context)}",
        lot=inspection.lot or "",
        addressed=labels.opening(inspection.place or inspection.purpose or ""),
        strip=tuple(_strip(context)),
        revision=clipped(_replaces(context), 2, SHEET),
        issued=inspection.date_of_document.isoformat(),
    )


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


def _strip(context: Context) -> Iterator[Labelled]:
    inspection, say = context.inspection, context.say
    machine, inspector = inspection.machine, inspection.inspector
    name = machine_name(machine)
    kind = labels.word(machine.layout, context.language)
    yield Labelled(say(N_("Machine: {kind}"), kind=kind), name, yields="partly")
    yield Labelled(say(N_("Serial number")), machine.serial, yields="partly")
    yield _hours(context)
    yield Labelled(say(N_("Inspected")), context.figures.day(inspection.inspected))
    by = dict.fromkeys(filter(None, (inspector.name, inspector.organisation)))
    yield Labelled(say(N_("By")), ", ".join(by), yields="partly")


def _hours(context: Context) -> Labelled:
    """The machine's hours under what they are known from."""
    hours, say = context.inspection.machine.hours, context.say
    if hours is None:
        return Labelled(say(N_("Hours")), say(N_("not recorded")))
    evidence = labels.word(hours.known_from, context.language)
    if hours.meter_replaced_at is not None:
        shown = context.figures.hours(hours.shown)
        label = say(N_("Hours, {evidence}; renewed meter shows {shown}"), evidence=evidence, shown=shown)
        return Labelled(label, context.figures.hours(hours.machine))
    if hours.known_from is Evidence.METER:
        return Labelled(say(N_("Machine hours")), context.figures.hours(hours.shown))
    return Labelled(say(N_("Hours, {evidence}"), evidence=evidence), context.figures.hours(hours.shown))


def foot(context: Context, digits: str) -> tuple[Labelled, ...]:
    """As at the foot of a full report, under this document's own name."""
    first, *rest = closing.foot(context, digits)
    return (replace(first, value=stem(context)), *rest)
