"""Words first: what a reader needs to know before any picture, never finer than it is known."""

from collections.abc import Iterator
from dataclasses import dataclass

from tracksworn.assessment.model import Assessment, Basis, Overall, Row, Stage
from tracksworn.assessment.sayings import Finding, Severity, Subject
from tracksworn.assessment.sides import most_worn
from tracksworn.assessment.stages import stage
from tracksworn.documents.words import conformity, labels, worn
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.findings import say_finding
from tracksworn.documents.words.findings.short import SHORT
from tracksworn.documents.words.forecast import (
    NO_PERMISSION,
    may_be_beaten,
    next_limit,
    reaches_limit,
    visits_sentence,
)
from tracksworn.documents.words.language import N_, NP_
from tracksworn.documents.words.left_out import AS_A_GUIDE, by_word, not_priced, once_put_right, other_rollers
from tracksworn.documents.words.sides import sides_words
from tracksworn.documents.words.whole import basis_words, whole_words
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import CHAINS, Component

PAST = NP_("{n} part is past its limit", "{n} parts are past their limit")
NEAR_LIMIT = NP_("{n} part is near its limit", "{n} parts are near their limit")
UNSEEN = NP_("{n} part was not seen.", "{n} parts were not seen.")
WITH_ADVICE = N_("{finding}: {advice} (finding {number}).")
MORE_TO_DO = NP_("{n} more finding asks for action now.", "{n} more findings ask for action now.")

LITTLE_SEEN = 0.5
"""Share of the cost under which the headline begins with how little was seen."""
NAMED = 3
"""How many parts a sentence names before it only counts them."""
NAMED_UNSEEN = 2
"""Of how many components of a side the unseen parts are named."""
PRESSING = 1
"""How many findings that ask for action the summary repeats after its headline before it only counts them."""
PAST_LIMIT = frozenset({"past-limit", "past-limit-and-leaking", "past-destroyed"})
"""Findings on what is past its limit."""
COUNTED = frozenset({"past-limit"})
"""Those that say no more than the sentence on the worst."""
RUBBER = frozenset({Component.LUG, Component.DRIVE_LUG})
CHAIN = RUBBER | {Component.LINK, Component.BUSHING, Component.PITCH}
"""The chain itself, or the rubber track: the dearest part, never left out of the summary."""


@dataclass(frozen=True, slots=True)
class SummaryWords:
    """A headline and the sentences after it."""

    headline: str
    sentences: tuple[str, ...]
    beneath: tuple[str, ...] = ()  # on what hours and costs rest and what they leave out, the caution first


def summary(inspection: Inspection, chart: WearChart | None, assessment: Assessment, figures: Figures) -> SummaryWords:
    """The words that stand first."""
    teller = _Teller(inspection, chart, assessment, figures)
    return SummaryWords(teller.headline(), tuple(teller.sentences()), tuple(teller.beneath()))


@dataclass(frozen=True, slots=True)
class _Teller:
    inspection: Inspection
    chart: WearChart | None
    assessment: Assessment
    figures: Figures

    def headline(self) -> str:
        """What asks for action first, then the whole."""
        leading, whole = self._leading(), self._whole()
        return whole if leading is None else f"{self._with_advice(leading)} {whole}"

    def _whole(self) -> str:
        overall, say = self.assessment.overall, self.figures.language.say
        if overall.percent_worn is None:
            return say(N_("No part could be given a figure of wear."))
        whole = whole_words(overall, self.figures)
        if overall.seen_share < LITTLE_SEEN:
            seen = self.figures.share(overall.seen_share)
            return say(
                N_("Only {share} of the undercarriage by cost was seen; that part is {worn}."), share=seen, worn=whole
            )
        if self._leading() is not None:
            whole = say(N_("the whole is {worn}"), worn=whole)
        return labels.opening(say(self._pattern(overall), worn=whole))

    def _leading(self) -> Finding | None:
        """What asks for action first and so stands in the headline."""
        return next((one for one in self.assessment.findings if one.severity is Severity.ACT), None)

    def _pattern(self, overall: Overall) -> str:
        if overall.past_limit == 1 and not self._leading_is_past():
            return N_("{worn}, with one part past its limit.")
        if overall.past_limit > 1:
            return N_("{worn}, with several parts past their limit.")
        if self._leading() is None and any(one.code == "sides-differ" for one in self.assessment.findings):
            return N_("{worn}, and unevenly.")
        return N_("{worn}.")

    def _leading_is_past(self) -> bool:
        leading = self._leading()
        return leading is not None and leading.code in PAST_LIMIT

    def sentences(self) -> Iterator[str]:
        yield from basis_words(self.chart, self.assessment, self.figures)
        yield from self._worst()
        yield from self._actions()
        yield from self._first_limit()
        yield from conformity.first_words(self.assessment.conformity, self.figures)
        yield from self._chain()
        if not self.assessment.forecast:
            yield from sides_words(self.assessment, self.figures)
            yield from self._seen()

    # --- the worst ---

    def _worst_row(self) -> Row | None:
        worst = self.assessment.overall.worst
        return None if worst is None else self.assessment.row(worst.component, worst.side, worst.position)

    def _as_far(self, row: Row) -> list[Row]:
        """All rows in the stage of that row."""
        return [one for one in self.assessment.components if _counted_stage(one) is _counted_stage(row)]

    def _worst(self) -> Iterator[str]:
        row = self._worst_row()
        if row is None:
            return
        rows = self._as_far(row)
        if self._stands_in_headline(rows):
            if len(rows) > 1:
                yield self._say_row(N_("The worst: {part}, {worn}."), row)
            elif row.low is not None and row.low < 100.0:
                yield self._one_past(row)
            return
        match _counted_stage(row):
            case Stage.PAST_LIMIT if len(rows) == 1:
                yield self._one_past(row)
            case Stage.PAST_LIMIT:
                yield self._many(row, rows, self._count(PAST, len(rows)))
            case Stage.NEAR_LIMIT if len(rows) > 1:
                yield self._many(row, rows, self._count(NEAR_LIMIT, len(rows)))
            case _:
                yield self._most_worn(row)

    def _stands_in_headline(self, rows: list[Row]) -> bool:
        """Whether the headline has named all of them as past their limit."""
        leading = self._leading()
        return leading is not None and self._leading_is_past() and {_subject(row) for row in rows} <= set(leading.about)

    def _one_past(self, row: Row) -> str:
        if row.low is not None and row.low < 100.0 and row.estimate is None:
            pattern = N_("{part}: {worn}, past the limit, though the interval begins below it.")
        elif row.component in CHAINS:
            pattern = N_("{part} are past their limit, at {worn}.")
        else:
            pattern = N_("{part} is past its limit, at {worn}.")
        return labels.opening(self._say_row(pattern, row))

    def _count(self, one_many: tuple[str, str], n: int) -> str:
        return self.figures.language.count(*one_many, n)

    def _many(self, worst: Row, rows: list[Row], counted: str) -> str:
        say = self.figures.language.say
        worst_words = self._say_row(N_("the worst: {part}, {worn}"), worst)
        if len(rows) >= NAMED:
            return say(N_("{count}, {worst}."), count=counted, worst=worst_words)
        names = self.figures.parts(_subject(row) for row in rows)
        return say(N_("{count}: {parts}; {worst}."), count=counted, parts=names, worst=worst_words)

    def _most_worn(self, row: Row) -> str:
        words = worn.stage_words(row, self.figures.language)
        pattern = N_("Most worn: {part}, {worn}.") if self._is_next(row) else N_("Most worn: {part}, {worn}, {stage}.")
        foreign = (one for one in self.assessment.findings if one.code == "adapted-part")
        if any(_subject(row) in one.about for one in foreign):
            pattern = N_("Most worn: {part}, {worn}, {stage}, though it was not made for its place.")
        return self._say_row(pattern, row, stage=words)

    def _say_row(self, pattern: str, row: Row, **places: str) -> str:
        part = self.figures.part(_subject(row))
        return self.figures.language.say(pattern, part=part, worn=worn.with_interval(row, self.figures), **places)

    # --- the chain ---

    def _chain(self) -> Iterator[str]:
        """How far the dearest part has come, where no sentence before has said it."""
        row = most_worn(one for one in self.assessment.components if one.component in CHAIN)
        if row is not None and row not in self._named() and not _is_young(row) and not self._is_next(row):
            chains = N_("Most worn of links, bushings and pitch: {part}, {worn}.")
            tracks = N_("Most worn of the tracks: {part}, {worn}.")
            yield self._say_row(tracks if row.component in RUBBER else chains, row)

    def _first_limit(self) -> Iterator[str]:
        """What stops the machine first, and when; told of the part just named where it is that."""
        told = next_limit(self.assessment)
        if told is not None:
            worst, forecast = self._worst_row(), self.assessment.forecast or ()
            said = reaches_limit(
                told,
                self.figures,
                named=worst is not None and self._is_next(worst) and not self._presses_more(),
                more=self.assessment.overall.past_limit > 0,
                beaten=may_be_beaten(told, forecast),
                by_word=by_word(told, self.inspection),
                per_week=self.inspection.machine.hours_per_week,
            )
            yield self._conditional(said, once_put_right(self.assessment, self.figures))

    def _conditional(self, sentence: str, *conditions: str) -> str:
        """Where the chart stands in, hours and costs are a guide; they begin once what presses is put right."""
        guide = self.chart is not None and self.chart.stands_in_for is not None
        stated = [one for one in (self.figures.language.say(AS_A_GUIDE) if guide else "", *conditions) if one]
        if not stated:
            return sentence
        pattern = N_("{conditions}, {sentence}")
        inside = labels.within(sentence, self.figures.language)
        said = self.figures.language.say(pattern, conditions=", ".join(stated), sentence=inside)
        return labels.opening(said)

    def beneath(self) -> Iterator[str]:
        """What must stand beside hours and costs, and what has no room above it."""
        language, machine = self.figures.language, self.inspection.machine
        if not self.assessment.forecast:
            return
        yield language.say(NO_PERMISSION)
        yield from map(self._conditional, visits_sentence(self.assessment.plan, self.figures, self.inspection))
        if self.assessment.plan is not None and self.assessment.plan.visits:
            yield from not_priced(self.assessment, self.figures)
        if machine.hours_per_week:
            hours = self.figures.hours(machine.hours_per_week)
            yield language.say(N_("Months are reckoned at {hours} a week."), hours=hours)
        yield from other_rollers(self.assessment, self.figures)
        yield from sides_words(self.assessment, self.figures)
        yield from self._seen()

    def _presses_more(self) -> bool:
        """Whether a sentence on what else asks for action stands between the worst and its hours."""
        return next(self._actions(), None) is not None

    def _is_next(self, row: Row) -> bool:
        """Whether that part is the one that reaches its limit next."""
        told = next_limit(self.assessment)
        return told is not None and (told.component, told.side, told.position) == (
            row.component,
            row.side,
            row.position,
        )

    def _named(self) -> list[Row]:
        """The rows that the sentence on the worst has named."""
        row = self._worst_row()
        if row is None:
            return []
        rows = self._as_far(row)
        grave = _counted_stage(row) in (Stage.PAST_LIMIT, Stage.NEAR_LIMIT)
        return rows if grave and len(rows) < NAMED else [row]

    # --- what presses, what was not seen ---

    def _actions(self) -> Iterator[str]:
        """What asks for action and stands in no headline: the first of it, and how much more there is."""
        leading = self._leading()
        pressing = [
            one
            for one in self.assessment.findings
            if one.severity is Severity.ACT and one is not leading and one.code not in COUNTED
        ]
        yield from map(self._with_advice, pressing[:PRESSING])
        if len(pressing) > PRESSING:
            yield self._count(MORE_TO_DO, len(pressing) - PRESSING)

    def _with_advice(self, finding: Finding) -> str:
        """A finding that asks for action, what to do in few words, and where it is told in full."""
        title = say_finding(finding, self.figures).title.rstrip(".")
        pattern = N_("{finding}; {advice} (finding {number}).") if ":" in title else WITH_ADVICE
        number = self.assessment.findings.index(finding) + 1
        advice = self.figures.language.say(SHORT[finding.advice.code])
        return self.figures.language.say(pattern, finding=title, advice=advice, number=str(number))

    def _seen(self) -> Iterator[str]:
        language = self.figures.language
        unseen = [row for row in self.assessment.components if row.basis is Basis.NOT_SEEN]
        if not unseen:
            return
        names = self.figures.parts(_subject(row) for row in unseen)
        if len({(row.component, row.side) for row in unseen}) > NAMED_UNSEEN:
            yield language.count(*UNSEEN, len(unseen))
        else:
            yield language.say(N_("Not seen: {parts}."), parts=names)


def _is_young(row: Row) -> bool:
    """Whether a part is in its first half beyond doubt."""
    return _counted_stage(row) is Stage.FIRST_HALF and worn.possible_stage(row) is None and row.percent_worn is not None


def _subject(row: Row) -> Subject:
    return Subject(row.component, row.side, row.position)


def _counted_stage(row: Row) -> Stage | None:
    return None if row.counted is None else stage(row.counted)
