"""The same for machines: schema.org's Product as JSON-LD, with units by UN/CEFACT Recommendation 20.

P1 is per cent, HUR hours, MMT millimetres. A figure that is not known is left out; none is ever NaN.
"""

import json
from collections.abc import Iterator, Mapping
from typing import Any, Final

from tracksworn.assessment.decisions import Result
from tracksworn.assessment.model import Bound, Row
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.full.context import Context, subject
from tracksworn.documents.listing.identification import stem
from tracksworn.documents.words import labels
from tracksworn.documents.words.conformity import RESULTS
from tracksworn.documents.words.forecast import first_limit
from tracksworn.documents.words.language import N_

Value = Mapping[str, Any]

PERCENT: Final = "P1"
HOURS: Final = "HUR"
MILLIMETRES: Final = "MMT"
SAFE: Final = {character: f"\\u{ord(character):04x}" for character in "<>&\u2028\u2029"}
"""What could end the element that holds the data, or a line of it, written as JSON's own escapes."""

APART: Final = dict.fromkeys("\u2068\u2069", "")
"""What sets text apart on a page that reads the other way, and means nothing in data."""


def structured(context: Context, digits: str) -> str:
    """JSON-LD that may stand between the tags of a data block. Raises ValueError for a figure that is not finite."""
    text = json.dumps(_product(context, digits), ensure_ascii=False, allow_nan=False, indent=1)
    for character, instead in (SAFE | APART).items():
        text = text.replace(character, instead)
    return text


def _product(context: Context, digits: str) -> Value:
    inspection, machine = context.inspection, context.inspection.machine
    product: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "Product",
        "name": f"{machine.maker} {machine.model}",
        "category": labels.word(machine.layout, context.language),
        "brand": {"@type": "Brand", "name": machine.maker},
        "model": machine.model,
        "serialNumber": machine.serial,
        "additionalProperty": list(_properties(context)),
        "subjectOf": {
            "@type": "Report",
            "identifier": stem(context),
            "reportNumber": inspection.number,
            "version": str(inspection.revision),
            "dateCreated": inspection.date_of_document.isoformat(),
            "inLanguage": context.language.code,
            "author": {"@type": "Person", "name": inspection.inspector.name},
            "sha256": digits,
        },
    }
    if machine.year is not None:
        product["productionDate"] = str(machine.year)
    if (certification := _certification(context)) is not None:
        product["hasCertification"] = certification
    return product


def _properties(context: Context) -> Iterator[Value]:
    yield from _machine_hours(context)
    yield from _overall(context)
    for row in context.assessment.components:
        yield from _part(row, context)
    yield from _hours_left(context)


def _property(name: str, unit: str, *, value: float | None = None, **more: Any) -> Value:
    known = {"value": value, **more}
    kept = {key: _rounded(one) for key, one in known.items() if one is not None}
    return {"@type": "PropertyValue", "name": name, "unitCode": unit, **kept}


def _rounded(value: Any) -> Any:
    return round(value, 1) if isinstance(value, float) else value


def _machine_hours(context: Context) -> Iterator[Value]:
    hours = context.inspection.machine.hours
    if hours is not None:
        evidence = labels.word(hours.known_from, context.language)
        yield _property(context.say(N_("Machine hours")), HOURS, value=float(hours.machine), description=evidence)


def _overall(context: Context) -> Iterator[Value]:
    overall, say = context.assessment.overall, context.say
    yield _property(say(N_("Seen or measured, by cost")), PERCENT, value=100.0 * overall.seen_share)
    if overall.percent_worn is None:
        return
    bound = overall.bound is Bound.AT_LEAST
    yield _property(
        say(N_("Undercarriage worn as a whole, by cost")),
        PERCENT,
        value=None if bound else overall.percent_worn,
        minValue=overall.percent_worn if bound else overall.low,
        maxValue=None if bound else overall.high,
        description=say(N_("at least")) if bound else say(N_("95\u00a0% interval, or the range of estimates")),
    )


def _part(row: Row, context: Context) -> Iterator[Value]:
    """Percent worn with its interval, and the size where one was read; a part that was not seen has no property."""
    name = labels.opening(context.figures.part(subject(row)))
    if row.percent_worn is not None or row.estimate is not None:
        basis = labels.word(row.basis, context.language)
        worn = context.say(N_("{part}, percent worn"), part=name)
        middle = row.percent_worn if row.estimate is None else None
        yield _property(worn, PERCENT, value=middle, minValue=row.low, maxValue=row.high, description=basis)
    if row.size_mm is not None:
        size = context.say(N_("{part}, size"), part=name)
        yield {**_property(size, MILLIMETRES), "value": round(row.size_mm, 2)}


def _hours_left(context: Context) -> Iterator[Value]:
    first = first_limit(context.assessment.forecast or ())
    if first is not None:
        part = context.figures.part(Subject(first.component, first.side, first.position))
        name = context.say(N_("Hours to the first limit"))
        yield _property(name, HOURS, minValue=first.hours_low, maxValue=first.hours_high, description=part)


def _certification(context: Context) -> Value | None:
    """The verdict by the terms, where there are any; it is active only where the machine passes."""
    conformity = context.assessment.conformity
    if conformity is None:
        return None
    passes = conformity.result is Result.PASSES
    return {
        "@type": "Certification",
        "name": conformity.title,
        "certificationStatus": f"https://schema.org/Certification{'Active' if passes else 'Inactive'}",
        "description": context.say(RESULTS[conformity.result]),
        "issuedBy": {"@type": "Organization", "name": _issuer(context)},
        "auditDate": context.inspection.inspected.isoformat(),
    }


def _issuer(context: Context) -> str:
    letterhead, inspector = context.dossier.letterhead, context.inspection.inspector
    return letterhead.firm if letterhead else inspector.organisation or inspector.name
