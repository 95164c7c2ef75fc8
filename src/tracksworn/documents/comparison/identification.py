"""Which comparison this is, who answers for it, and what stands at the foot of every sheet."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from tracksworn.assessment.comparing.difference import is_same_machine
from tracksworn.documents.comparison.machine import Machine, together
from tracksworn.documents.comparison.view import Identity
from tracksworn.documents.fingerprint import first_digits
from tracksworn.documents.full.closing import signature
from tracksworn.documents.full.view import Labelled, Signature
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_

LONGEST: Final = 120
"""Characters of a file's name."""
DIGITS: Final = 12
"""Of the fingerprint, in the name of a comparison whose numbers are too long for one."""
FEW: Final = 4
"""Machines that can be named in one line."""
LONGEST_FORMAT: Final = ".html"


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
            N_("Comparison of {n} inspection"), N_("Comparison of {n} inspections"), len(machines)
        ),
        addressed=context.say(N_("For a buyer who chooses: no rank, no recommendation")),
        strip=(
            Labelled(context.say(N_("Compared")), _compared(machines), yields="partly"),
            Labelled(context.say(N_("Inspected")), _days(machines)),
            Labelled(context.say(N_("By")), _inspectors(machines), yields="partly"),
        ),
        issued=_day(machines).isoformat(),
    )


def _title(machines: Sequence[Machine]) -> str:
    say, language = machines[0].context.say, machines[0].context.language
    first, *others = (machine.context.inspection for machine in machines)
    if others and all(is_same_machine(first, other) for other in others):
        return say(N_("One machine, {n} inspections side by side"), n=str(len(machines)))
    if all(machine.lot for machine in machines) and len(machines) <= FEW:
        return say(N_("{machines}, side by side"), machines=labels.opening(together(machines, language)))
    return say(N_("{n} undercarriages, side by side"), n=str(len(machines)))


def _compared(machines: Sequence[Machine]) -> str:
    """Names with makers and models, as far as one line has room; each stands at the head of its column too."""
    if len(machines) > FEW:
        return labels.opening(together(machines, machines[0].context.language))
    each = ((machine.heading, machine.context.inspection.machine) for machine in machines)
    return " · ".join(f"{name} {it.maker} {it.model}" for name, it in each)


def _day(machines: Sequence[Machine]) -> date:
    return max(machine.context.inspection.date_of_document for machine in machines)


def _days(machines: Sequence[Machine]) -> str:
    days = sorted(machine.context.inspection.inspected for machine in machines)
    day, say = machines[0].context.figures.day, machines[0].context.say
    if days[0] == days[-1]:
        return day(days[0])
    return say(N_("{first} to {last}"), first=day(days[0]), last=day(days[-1]))


def _inspectors(machines: Sequence[Machine]) -> str:
    return ", ".join(dict.fromkeys(machine.context.inspection.inspector.name for machine in machines))


def signed(host: Machine, machines: Sequence[Machine]) -> Signature:
    """Who answers for the comparison; each inspection stays its own inspector's."""
    context = host.context
    return replace(
        signature(context),
        day=context.figures.day(_day(machines)),
        statement=context.say(
            N_(
                "This document sets inspections side by side, each of which its own inspector answers for; it relates "
                "only to the machines named in it, as each stood on the day of its inspection, recommends none of "
                "them, and is not to be copied except in full. The file itself is not sealed: only the fingerprint at "
                "its foot ties it to the data that it was computed from."
            )
        ),
    )


def foot(host: Machine, machines: Sequence[Machine], digits: str) -> tuple[Labelled, ...]:
    """Document, arithmetic, fingerprint and signatory; the sheet's number is the page's own."""
    say, context = host.context.say, host.context
    methods = sorted({machine.context.assessment.method for machine in machines})
    return (
        Labelled(say(N_("Document")), stem(machines, digits), yields="partly"),
        Labelled(say(N_("Arithmetic")), say(N_("method {number}"), number=", ".join(map(str, methods)))),
        Labelled(say(N_("Fingerprint")), first_digits(digits), say(N_("not sealed"))),
        Labelled(say(N_("Answers for it")), f"{signature(context).name}, {context.figures.day(_day(machines))}"),
    )


def end_mark(machines: Sequence[Machine]) -> str:
    """What stands after the last line."""
    context = machines[0].context
    return context.say(N_("End of the comparison of {machines}"), machines=together(machines, context.language))
