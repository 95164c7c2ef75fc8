"""One column of a comparison: an inspection with its assessment, and what it is called throughout."""

from collections.abc import Sequence
from dataclasses import dataclass

from tracksworn.assessment.comparing.model import Assessed
from tracksworn.documents.full.context import Context
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_, Language


@dataclass(frozen=True, slots=True)
class Machine:
    """`name` stands in the middle of a sentence, `lot 118`; `lot` is its number alone, empty where it has none."""

    context: Context
    name: str
    lot: str

    @property
    def heading(self) -> str:
        """Its name as a heading."""
        return labels.opening(self.name)

    @property
    def assessed(self) -> Assessed:
        """What it is compared by."""
        return Assessed(self.context.inspection, self.context.chart, self.context.assessment)


def named(contexts: Sequence[Context]) -> tuple[Machine, ...]:
    """Each by its lot where all have lots of their own; else by its number, with the revision where numbers are one."""
    lots = [context.inspection.lot or "" for context in contexts]
    if all(lots) and len(set(lots)) == len(lots):
        return tuple(
            Machine(context, context.say(N_("lot {lot}"), lot=lot), lot)
            for context, lot in zip(contexts, lots, strict=True)
        )
    numbers = [context.inspection.number for context in contexts]
    return tuple(
        Machine(context, number if numbers.count(number) == 1 else _with_revision(context), "")
        for context, number in zip(contexts, numbers, strict=True)
    )


def _with_revision(context: Context) -> str:
    inspection = context.inspection
    return context.say(N_("{number}, revision {revision}"), number=inspection.number, revision=str(inspection.revision))


def together(machines: Sequence[Machine], language: Language) -> str:
    """Several by name: `lots 118, 131 and 207`."""
    if len(machines) > 1 and all(machine.lot for machine in machines):
        return language.say(N_("lots {lots}"), lots=labels.listed([machine.lot for machine in machines], language))
    return labels.listed([machine.name for machine in machines], language)
