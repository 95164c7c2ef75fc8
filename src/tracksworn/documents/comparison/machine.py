"""One column of a comparison: an inspection with its assessment, and what it is called throughout."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from tracksworn.assessment.comparing.difference import is_same_machine
from tracksworn.assessment.comparing.model import Assessed
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.identification import machine_name
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_, Language

SHORT: Final = 4
"""Characters of a lot that can stand at a mark on the common axis."""


@dataclass(frozen=True, slots=True)
class Machine:
    """`name` stands in the middle of a sentence, `lot 118`; `lot` is its number alone, empty where it has none.

    `head` and `beside` stand at the head of its column, `tag` at its mark on the axes of the others.
    """

    context: Context
    name: str
    lot: str
    head: str
    beside: str
    tag: str

    @property
    def heading(self) -> str:
        """Its name at the beginning of a sentence."""
        return labels.opening(self.name)

    @property
    def assessed(self) -> Assessed:
        """What it is compared by."""
        return Assessed(self.context.inspection, self.context.chart, self.context.assessment)


def is_one_machine(machines: Sequence[Machine]) -> bool:
    """Whether all are inspections of one machine."""
    return _is_one([machine.context for machine in machines])


def named(contexts: Sequence[Context]) -> tuple[Machine, ...]:
    """Each by its lot where all have lots of their own; else by its number, with the revision where numbers are one.

    Inspections of one machine are named by their days, where each has its own.
    """
    if len(contexts) > 1 and _is_one(contexts):
        return _by_day(contexts)
    lots = [context.inspection.lot or "" for context in contexts]
    if all(lots) and len(set(lots)) == len(lots):
        short = max(map(len, lots)) <= SHORT
        return tuple(
            _as(context, context.say(N_("lot {lot}"), lot=lot), lot, lot if short else str(place))
            for place, (context, lot) in enumerate(zip(contexts, lots, strict=True), start=1)
        )
    return tuple(
        _as(context, number, "", str(place))
        for place, (context, number) in enumerate(zip(contexts, _numbers(contexts), strict=True), start=1)
    )


def _as(context: Context, name: str, lot: str, tag: str) -> Machine:
    return Machine(context, name, lot, labels.opening(name), machine_name(context.inspection.machine), tag)


def _is_one(contexts: Sequence[Context]) -> bool:
    return all(is_same_machine(contexts[0].inspection, other.inspection) for other in contexts[1:])


def _by_day(contexts: Sequence[Context]) -> tuple[Machine, ...]:
    """Columns headed by date and hours, in the order of time."""
    numbers = _numbers(contexts)
    heads = [_day_and_hours(context) for context in contexts]
    if len(set(heads)) < len(heads):
        heads = [f"{head}, {number}" for head, number in zip(heads, numbers, strict=True)]
    days = [context.figures.day(context.inspection.inspected) for context in contexts]
    if len(set(days)) == len(days):
        names = [
            context.say(N_("the inspection of {day}"), day=day) for context, day in zip(contexts, days, strict=True)
        ]
    else:
        names = numbers
    return tuple(
        Machine(context, names[place], "", heads[place], _number_and_inspector(context, numbers[place]), tag)
        for place, (context, tag) in enumerate(zip(contexts, _in_time(contexts), strict=True))
    )


def _in_time(contexts: Sequence[Context]) -> list[str]:
    if len(contexts) == 2:
        say = contexts[0].say
        return [say(N_("earlier")), say(N_("later"))]
    return [str(place) for place in range(1, len(contexts) + 1)]


def _day_and_hours(context: Context) -> str:
    day, hours = context.figures.day(context.inspection.inspected), context.inspection.machine.hours
    return day if hours is None else f"{day}, {context.figures.hours(hours.machine)}"


def _number_and_inspector(context: Context, number: str) -> str:
    return f"{number}, {context.inspection.inspector.name}"


def _numbers(contexts: Sequence[Context]) -> list[str]:
    numbers = [context.inspection.number for context in contexts]
    return [
        number if numbers.count(number) == 1 else _with_revision(context)
        for context, number in zip(contexts, numbers, strict=True)
    ]


def _with_revision(context: Context) -> str:
    inspection = context.inspection
    return context.say(N_("{number}, revision {revision}"), number=inspection.number, revision=str(inspection.revision))


def together(machines: Sequence[Machine], language: Language) -> str:
    """Several by name: `lots 118, 131 and 207`."""
    if len(machines) > 1 and all(machine.lot for machine in machines):
        return language.say(N_("lots {lots}"), lots=labels.listed([machine.lot for machine in machines], language))
    return labels.listed([machine.name for machine in machines], language)
