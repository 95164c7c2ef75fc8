"""What hours and costs leave out, and what must be put right before they hold."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.decisions import ForecastRow, PlannedWork, RateFrom
from tracksworn.assessment.fitting import fitting_of
from tracksworn.assessment.model import Assessment, Basis, Row
from tracksworn.assessment.sayings import Finding, Severity, Subject, Topic
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.findings import say_finding
from tracksworn.documents.words.forecast import NOW
from tracksworn.documents.words.language import N_, NP_
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import ROLLERS, Component, Evidence, Side

ONLY_THE_WORST: Final = N_("Only the worst roller of each side is in these hours and costs.")
ONLY_THE_WORST_HOURS: Final = N_("Only the worst roller of each side is in these hours.")
WORST_AND_NEXT: Final = N_("Only the worst roller of each side is in these hours and costs; next: {rollers}.")
WORST_AND_NEXT_HOURS: Final = N_("Only the worst roller of each side is in these hours; next: {rollers}.")
AS_A_GUIDE: Final = N_("as a guide")
"""Beside hours and costs by a chart that was made for another machine."""
NEXT: Final = 3
"""How many of the other rollers are named."""
FAR_GONE: Final = 75.0
"""Percent worn from which another roller is named. Judgement: a quarter of its life is left."""
GOES_WITH: Final = {
    Component.SPROCKET: frozenset({Component.BUSHING, Component.LINK}),
}
"""What is renewed with what in the trade, so that a part without a forecast may still belong to a visit."""


def before_all(assessment: Assessment) -> tuple[Finding, ...]:
    """What asks for action and is in no work of a visit now: it comes before any hours and costs."""
    visits = assessment.plan.visits if assessment.plan else ()
    work = [one for visit in visits if visit.after < NOW for one in visit.work]
    pressing = (one for one in assessment.findings if one.severity is Severity.ACT)
    return tuple(one for one in pressing if not all(_is_covered(part, work) for part in _asked(one, assessment)))


def _asked(finding: Finding, assessment: Assessment) -> Sequence[Subject]:
    """What must be worked on: all that is past its limit, else the part that is named first."""
    rows = {Subject(row.component, row.side, row.position): row for row in assessment.components}
    past = [part for part in finding.about if (row := rows.get(part)) and reaches(row.counted or 0.0, 100.0)]
    return past or finding.about[:1] or [Subject(Topic.MACHINE)]


def _is_covered(part: Subject, work: Iterable[PlannedWork]) -> bool:
    return any((one.component, one.side) == (part.what, part.side) and part.number == one.position for one in work)


def first_to_do(assessment: Assessment, figures: Figures) -> str:
    """`First, and not priced here: right top roller 2 is seized (finding 1).`; empty where there is nothing."""
    found = before_all(assessment)
    if not found:
        return ""
    pattern = N_("{finding} (finding {number})")
    said = [
        figures.language.say(
            pattern,
            finding=labels.within(say_finding(one, figures).title.rstrip("."), figures.language),
            number=str(assessment.findings.index(one) + 1),
        )
        for one in found
    ]
    return figures.language.say(
        N_("First, and not priced here: {findings}."), findings=labels.clauses(said, figures.language)
    )


def not_priced(assessment: Assessment, figures: Figures) -> Iterator[str]:
    """`Finding 2 comes first and is not priced.`"""
    numbers = [assessment.findings.index(one) + 1 for one in before_all(assessment)]
    if numbers:
        listed = labels.runs(numbers, figures.language)
        one_many = NP_(
            "Finding {numbers} comes first and is not priced.", "Findings {numbers} come first and are not priced."
        )
        yield figures.language.count(*one_many, len(numbers), numbers=listed)


def once_put_right(assessment: Assessment, figures: Figures) -> str:
    """`once finding 1 is put right`; empty where nothing comes first."""
    numbers = [assessment.findings.index(one) + 1 for one in before_all(assessment)]
    if not numbers:
        return ""
    listed = labels.runs(numbers, figures.language)
    one_many = NP_("once finding {numbers} is put right", "once findings {numbers} are put right")
    return figures.language.count(*one_many, len(numbers), numbers=listed)


# --- rollers ---


def other_rollers(assessment: Assessment, figures: Figures) -> Iterator[str]:
    """That only the worst of each side is told of, and which come next; nothing where no other was seen."""
    forecast = assessment.forecast or ()
    told = {(row.component, row.side, row.position) for row in forecast if row.component in ROLLERS}
    sides = {(component, side) for component, side, _ in told}
    others = [
        row
        for row in assessment.components
        if (row.component, row.side) in sides and row.counted is not None
        and (row.component, row.side, row.position) not in told
    ]  # fmt: skip
    if not others:
        return
    far = sorted((row for row in others if (row.counted or 0.0) >= FAR_GONE), key=lambda row: -(row.counted or 0.0))
    priced = assessment.plan is not None and bool(assessment.plan.visits)
    if not far:
        yield figures.language.say(ONLY_THE_WORST if priced else ONLY_THE_WORST_HOURS)
        return
    named = [_roller(row, figures) for row in far[:NEXT]]
    if len(far) > NEXT:
        named.append(figures.language.count(*NP_("{n} more", "{n} more"), len(far) - NEXT))
    yield figures.language.say(WORST_AND_NEXT if priced else WORST_AND_NEXT_HOURS, rollers=", ".join(named))


def _roller(row: Row, figures: Figures) -> str:
    part = figures.part(Subject(row.component, row.side, row.position))
    percent = worn.figure(row, figures) + "\u00a0%"
    return figures.language.say(N_("{part} ({percent})"), part=part, percent=percent)


# --- parts without hours ---


def without_hours(assessment: Assessment, figures: Figures) -> Iterator[str]:
    """Each kind of reason with its parts: `right sprocket (by eye)`; rollers of a side with hours only if not seen."""
    told = {(row.component, row.side) for row in assessment.forecast or ()}
    lacking = [
        row for row in assessment.components
        if (row.component, row.side) not in told or (row.basis is Basis.NOT_SEEN and row.component in ROLLERS)
    ]  # fmt: skip
    for reason, words in _REASONS.items():
        parts = [_whole(row, assessment) for row in lacking if row.basis is reason]
        if parts:
            named = figures.parts(dict.fromkeys(parts))
            yield figures.language.say(words, parts=named)


_REASONS: Final = {
    Basis.BY_EYE: N_("{parts} (by eye)"),
    Basis.MEASURED: N_("{parts} (no rate known)"),
    Basis.NOT_SEEN: N_("{parts} (not seen)"),
}


def _whole(row: Row, assessment: Assessment) -> Subject:
    """The part; all rollers of a side as one where they share the reason."""
    rows = assessment.rows(row.component, row.side)
    alike = all(one.basis is row.basis for one in rows)
    return Subject(row.component, row.side, None if alike else row.position)


def goes_with(assessment: Assessment, figures: Figures) -> Iterator[str]:
    """A sprocket without a forecast on a side whose bushings are renewed."""
    plan, told = assessment.plan, {(row.component, row.side) for row in assessment.forecast or ()}
    if plan is None:
        return
    for side in Side:
        for number, visit in enumerate(plan.visits, start=1):
            there = any(one.component in GOES_WITH[Component.SPROCKET] and one.side is side for one in visit.work)
            if there and (Component.SPROCKET, side) not in told and assessment.rows(Component.SPROCKET, side):
                part = labels.opening(figures.part(Subject(Component.SPROCKET, side)))
                yield figures.language.say(
                    N_("{part}: it goes with the new bushings, visit {number}."), part=part, number=str(number)
                )
                break


# --- what a rate rests on ---


def by_word(row: ForecastRow, inspection: Inspection) -> bool:
    """Whether its hours rest on when the owner said that the part went on."""
    if row.rate_from is not RateFrom.SINCE_FITTED:
        return False
    fitting = fitting_of(inspection, row.component, row.side, row.position)
    return fitting is not None and fitting.known_from is Evidence.OWNERS_WORD
