"""Which comparison this is, who answers for it, and what stands at the foot of every sheet."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from tracksworn.documents.comparison.machine import Machine, is_one_machine, together
from tracksworn.documents.comparison.view import Identity
from tracksworn.documents.fingerprint import first_digits
from tracksworn.documents.full.closing import signature
from tracksworn.documents.full.identification import firm
from tracksworn.documents.full.view import Labelled, Signature
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_, NP_

LONGEST: Final = 120
"""Characters of a file's name."""
DIGITS: Final = 12
"""Of the fingerprint, in the name of a comparison whose numbers are too long for one."""
FEW: Final = 4
"""Machines that can be named in one line."""
LONGEST_FORMAT: Final = ".html"
COMPILED: Final = N_(
    "Compiled from inspections, each of which its own inspector answers for in its own report; it relates only to the "
    "machines named in it, as each stood on the day of its inspection, recommends none of them, and is not to be "
    "copied except in full. The file itself is not sealed: only the fingerprint at its foot ties it to the data that "
    "it was computed from."
)
"""What the signature under a document of several inspections stands for."""
WHOSE_TERMS: Final = N_("Standing terms of {firm}, as they stand in each of its reports")


def stem(machines: Sequence[Machine], digits: str) -> str:
    """`compare-NUMBER-NUMBER`, or with digits of the fingerprint where that would be too long for a file's name."""
    name = "-".join(["compare", *(machine.context.inspection.number for machine in machines)])
    return name if len(name + LONGEST_FORMAT) <= LONGEST else f"compare-{digits[:DIGITS]}"


def identification(machines: Sequence[Machine], digits: str) -> Identity:
    """Title, strip and name of the document."""
    context = machines[0].context
    return Identity(
        stem=stem(machines, digits),
        title=_title(machines),
        number=context.language.count(
            *NP_("Comparison of {n} inspection", "Comparison of {n} inspections"), len(machines)
        ),
        addressed="" if is_one_machine(machines) else context.say(N_("By wear alone, not by price, age or work")),
        strip=(
            Labelled(context.say(N_("Compared")), _compared(machines), yields="partly"),
            _inspected(machines),
            Labelled(context.say(N_("By")), _inspectors(machines), yields="partly"),
        ),
        issued=_day(machines).isoformat(),
    )


def _title(machines: Sequence[Machine]) -> str:
    say, language = machines[0].context.say, machines[0].context.language
    if is_one_machine(machines):
        return say(N_("One machine, {n} inspections side by side"), n=str(len(machines)))
    if all(machine.lot for machine in machines) and len(machines) <= FEW:
        return say(N_("{machines}, side by side"), machines=labels.opening(together(machines, language)))
    return say(N_("{n} undercarriages, side by side"), n=str(len(machines)))


def _compared(machines: Sequence[Machine]) -> str:
    """Names with makers and models, as far as one line has room; each stands at the head of its column too."""
    if len(machines) > FEW and not is_one_machine(machines):
        return labels.opening(together(machines, machines[0].context.language))
    if is_one_machine(machines):
        machine = machines[0].context.inspection.machine
        return f"{machine.maker} {machine.model}, {machine.serial}"
    each = ((machine.heading, machine.context.inspection.machine) for machine in machines)
    return " · ".join(f"{name} {it.maker} {it.model}" for name, it in each)


def _day(machines: Sequence[Machine]) -> date:
    return max(machine.context.inspection.date_of_document for machine in machines)


def _inspected(machines: Sequence[Machine]) -> Labelled:
    """The day where it is one for all; else the latest, as each stands in its own column."""
    days = {machine.context.inspection.inspected for machine in machines}
    day, say = machines[0].context.figures.day, machines[0].context.say
    return Labelled(say(N_("Inspected")) if len(days) == 1 else say(N_("Latest inspection")), day(max(days)))


def _inspectors(machines: Sequence[Machine]) -> str:
    return ", ".join(dict.fromkeys(machine.context.inspection.inspector.name for machine in machines))


def signed(host: Machine, machines: Sequence[Machine]) -> Signature:
    """Who compiled the comparison; each inspection stays its own inspector's."""
    context = host.context
    return replace(
        signature(context),
        day=context.say(N_("from inspections up to {day}"), day=_latest(machines)),
        statement=context.say(COMPILED),
    )


def _latest(machines: Sequence[Machine]) -> str:
    """The latest day of the inspections, in words."""
    return machines[0].context.figures.day(max(machine.context.inspection.inspected for machine in machines))


def whose_terms(host: Machine) -> str:
    """The heading over a firm's standing terms, which speak of a report of a single machine."""
    return host.context.say(WHOSE_TERMS, firm=firm(host.context))


def foot(host: Machine, machines: Sequence[Machine], digits: str) -> tuple[Labelled, ...]:
    """Document, arithmetic, fingerprint and signatory; the sheet's number is the page's own."""
    say, context = host.context.say, host.context
    methods = sorted({machine.context.assessment.method for machine in machines})
    return (
        Labelled(say(N_("Document")), stem(machines, digits), yields="partly"),
        Labelled(say(N_("Arithmetic")), say(N_("method {number}"), number=", ".join(map(str, methods)))),
        Labelled(say(N_("Fingerprint")), first_digits(digits), say(N_("not sealed"))),
        Labelled(
            say(N_("Compiled by")),
            say(N_("{name}, from inspections up to {day}"), name=signature(context).name, day=_latest(machines)),
        ),
    )


def end_mark(machines: Sequence[Machine]) -> str:
    """What stands after the last line."""
    context = machines[0].context
    return context.say(N_("End of the comparison of {machines}"), machines=together(machines, context.language))
