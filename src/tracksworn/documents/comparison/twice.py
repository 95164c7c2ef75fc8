"""Two inspections of one machine: what changed between them, and what of that wear cannot explain."""

from collections.abc import Iterator, Sequence
from typing import Final

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.comparing.agreement import is_renewed
from tracksworn.assessment.comparing.model import Agreement, Gap, SideGap
from tracksworn.assessment.model import Basis, Row
from tracksworn.assessment.occasions import most_hours_between
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.comparison.between import Between, Pair, opposite
from tracksworn.documents.comparison.machine import Machine, is_one_machine
from tracksworn.documents.comparison.view import AgreementView, CourseView, GapView, ReadingView, TwiceView
from tracksworn.documents.full.context import Context
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.figures import DASH
from tracksworn.documents.words.gaps import e_n, rate_between, signed
from tracksworn.documents.words.language import N_, NP_

ALL_AGREE: Final = NP_("The {n} reading that stands in both agrees.", "All {n} readings that stand in both agree.")
SOME_AGREE: Final = NP_(
    "Of the {n} reading that stands in both {agree} agrees: one of the two is wrong.",
    "Of the {n} readings that stand in both {agree} agree; in the others one of the two is wrong.",
)
ALL_GREW: Final = NP_(
    "The {n} reading that stands in both grew or stayed, as the work in between explains.",
    "All {n} readings that stand in both grew or stayed, as the work in between explains.",
)
SOME_SHRANK: Final = NP_(
    "{n} of {all} readings that stand in both shrank by more than its uncertainty; all others grew or stayed.",
    "{n} of {all} readings that stand in both shrank by more than their uncertainty; all others grew or stayed.",
)


def twice_views(machines: Sequence[Machine], between: Between) -> tuple[TwiceView, ...]:
    """A view for every two successive inspections of one machine."""
    return tuple(Twice(pair, machines).view() for pair in between.successive)


class Twice:
    """One pair, the earlier first."""

    def __init__(self, pair: Pair, machines: Sequence[Machine]) -> None:
        earlier, later, self._difference = pair
        self._earlier, self._later = machines[earlier], machines[later]
        self._told_in_the_lead = is_one_machine(machines) and len(machines) == 2

    def view(self) -> TwiceView:
        """Its part of the page."""
        return TwiceView(
            heading=self._say(N_("From {earlier}, to {later}"), earlier=self._earlier.head, later=self._later.head),
            sentences=() if self._told_in_the_lead else tuple(self.sentences()),
            earlier=self._say(N_("{head}, %"), head=self._earlier.head),
            later=self._say(N_("{head}, %"), head=self._later.head),
            course=tuple(self._course()),
            agreement=self._agreement(),
        )

    @property
    def _context(self) -> Context:
        return self._later.context

    def _say(self, sentence: str, **places: str) -> str:
        return self._context.say(sentence, **places)

    # --- in words ---

    def sentences(self) -> Iterator[str]:
        """How far they lie apart, what changed in the whole, and whether the readings can all be right."""
        yield labels.opening(self.between())
        yield self.change()
        yield self.verdict()

    def between(self) -> str:
        """How much time and work lies between, as a sentence."""
        days = (self._later.context.inspection.inspected - self._earlier.context.inspection.inspected).days
        hours = self._hours()
        work = None if hours is None else self._context.figures.hours(max(hours, 0.0))
        if days == 0:
            return self._on_one_day(work)
        said = self._context.language.count(*NP_("{n} day", "{n} days"), days)
        if work is None:
            return self._say(N_("{days} lie between; how many hours it worked is not known."), days=said)
        return self._say(N_("{days} and {hours} of work lie between."), days=said, hours=work)

    def _on_one_day(self, work: str | None) -> str:
        if work is None:
            return self._say(N_("both are of one day."))
        return self._say(N_("both are of one day, with {hours} of work between."), hours=work)

    def _hours(self) -> float | None:
        ends = [one.assessed.occasion.hours for one in (self._earlier, self._later)]
        return None if ends[0] is None or ends[1] is None else ends[1] - ends[0]

    @property
    def _is_soon(self) -> bool:
        """Whether too little work lies between for wear, so that both looked at the same."""
        most = most_hours_between(self._earlier.assessed.occasion, self._later.assessed.occasion)
        return reaches(self._context.assessment.assumptions.soon_after, most)

    def change(self) -> str:
        """What changed in the whole."""
        gap = opposite(self._difference.overall)
        if gap is None:
            return self._say(N_("Their overall figures cannot be set against each other."))
        if not gap.told_apart:
            pattern = N_("As a whole no change is shown: {change} points.")
        elif gap.points > 0:
            pattern = N_("As a whole it is more worn at the later: {change} points.")
        else:
            pattern = N_(
                "As a whole it is less worn at the later: {change} points. Parts were renewed, or one of the two is "
                "wrong."
            )
        return self._say(pattern, change=signed(gap, self._context.figures))

    def verdict(self) -> str:
        """Whether the readings agree, where hardly any work lies between; else whether any shrank."""
        readings, count = self._difference.agreement, self._context.language.count
        if not readings:
            return self._say(N_("No part was measured at the same place in both and not renewed between."))
        if self._is_soon:
            agree = sum(one.agrees for one in readings)
            return count(*(ALL_AGREE if agree == len(readings) else SOME_AGREE), len(readings), agree=str(agree))
        shrank = self._shrank()
        if shrank:
            return count(*SOME_SHRANK, len(shrank), all=str(len(readings)))
        return count(*ALL_GREW, len(readings))

    def _shrank(self) -> list[Agreement]:
        return [one for one in self._difference.agreement if not one.agrees and one.second < one.first]

    # --- reading by reading ---

    def _agreement(self) -> AgreementView | None:
        """All readings where hardly any work lies between; else those that wear cannot explain; None without any."""
        if self._is_soon:
            return self._listed(
                self._difference.agreement,
                N_("Two looks at the same wear, reading by reading"),
                N_(
                    "At most {hours} lie between, too few for wear to show. The last column sets each difference "
                    "against the uncertainty of both readings together: up to 1 they are as far apart as two careful "
                    "inspections of the same wear would be; above 1, in bold, one of the two is wrong."
                ),
            )
        return self._listed(
            self._shrank(),
            N_("Shrank, which no wear explains"),
            N_(
                "The last column sets each difference against the uncertainty of both readings together: up to 1 they "
                "would be as far apart as two careful inspections of the same wear. Here one of the two is wrong, or "
                "the part was renewed and nobody told."
            ),
        )

    def _listed(self, readings: Sequence[Agreement], heading: str, sentence: str) -> AgreementView | None:
        if not readings:
            return None
        soon = self._context.figures.hours(self._context.assessment.assumptions.soon_after)
        return AgreementView(
            heading=self._say(heading),
            sentence=self._say(sentence, hours=soon),
            readings=tuple(map(self._reading, readings)),
        )

    def _reading(self, one: Agreement) -> ReadingView:
        figures = self._context.figures
        part = Subject(one.component, one.side, one.position, one.place)
        earlier, later = figures.percent(one.first), figures.percent(one.second)
        return ReadingView(labels.opening(figures.part(part)), earlier, later, e_n(one.e_n, figures), one.agrees)

    # --- part by part ---

    def _course(self) -> Iterator[CourseView]:
        yield self._whole()
        for entry in self._difference.sides:
            rows = [self._row(machine, entry) for machine in (self._earlier, self._later)]
            if all(row is None for row in rows):
                continue
            yield CourseView(
                part=labels.opening(self._context.figures.part(Subject(entry.component, entry.side))),
                earlier=self._figure(rows[0], self._earlier),
                later=self._figure(rows[1], self._later),
                change=self._change(entry.gap),
                rate=self._rate(entry, rows[0], rows[1]),
            )

    def _whole(self) -> CourseView:
        ends = [machine.context.assessment.overall.percent_worn for machine in (self._earlier, self._later)]
        said = [DASH if end is None else self._context.figures.percent(end) for end in ends]
        return CourseView(self._say(N_("Overall")), said[0], said[1], self._change(self._difference.overall), "")

    def _change(self, gap: Gap | None) -> GapView:
        later_less_earlier = opposite(gap)
        return GapView(signed(later_less_earlier, self._context.figures), gap is not None and gap.told_apart)

    def _rate(self, entry: SideGap, earlier: Row | None, later: Row | None) -> str:
        """Points in 100 h where both measured the same part at the same place, and work lies between to wear it."""
        gap, hours = opposite(entry.gap), self._hours()
        if earlier is None or later is None or gap is None or hours is None or self._is_soon:
            return ""
        if self._is_renewed(later):
            return self._say(N_("renewed between"))
        measured = earlier.basis is later.basis is Basis.MEASURED
        if not measured or (earlier.position, earlier.place) != (later.position, later.place) or gap.points <= 0:
            return ""
        return rate_between(gap, hours, self._context.figures)

    def _is_renewed(self, row: Row) -> bool:
        occasions = self._earlier.assessed.occasion, self._later.assessed.occasion
        return is_renewed(*occasions, row.component, row.side, row.position, or_turned=True)

    def _row(self, machine: Machine, entry: SideGap) -> Row | None:
        return machine.context.assessment.governing(entry.component, entry.side)

    def _figure(self, row: Row | None, machine: Machine) -> str:
        if row is None:
            return machine.context.say(N_("not seen"))
        figure = worn.tight_figure(row, machine.context.figures)
        if row.position is None or len(machine.context.assessment.rows(row.component, row.side)) == 1:
            return figure
        return machine.context.say(N_("{figure} (no. {number})"), figure=figure, number=str(row.position))
