"""Two inspections of one machine: whether they agree, and what changed between them."""

from collections.abc import Iterator, Sequence
from typing import Final

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.comparing.model import Agreement, Gap, SideGap
from tracksworn.assessment.model import Row
from tracksworn.assessment.occasions import most_hours_between
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.comparison.between import Between, Pair
from tracksworn.documents.comparison.machine import Machine
from tracksworn.documents.comparison.view import ApartView, CourseView, GapView, TwiceView
from tracksworn.documents.full.context import Context
from tracksworn.documents.words import labels, worn
from tracksworn.documents.words.figures import DASH
from tracksworn.documents.words.gaps import apart, e_n, signed
from tracksworn.documents.words.language import N_

READINGS: Final = (
    N_("{n} reading stands in both; {agree} agrees (E_n up to 1)."),
    N_("{n} readings stand in both; {agree} of them agree (E_n up to 1)."),
)


def twice_views(machines: Sequence[Machine], between: Between) -> tuple[TwiceView, ...]:
    """A view for every two inspections of one machine, the earlier first."""
    return tuple(_Twice(pair, machines).view() for pair in between.twins)


def change_words(pair: Pair, machines: Sequence[Machine]) -> str:
    """What changed in the whole from the earlier inspection to the later."""
    return _Twice(pair, machines).change()


class _Twice:
    """One pair, turned so that the earlier comes first."""

    def __init__(self, pair: Pair, machines: Sequence[Machine]) -> None:
        first, second, self._difference = pair
        one, other = machines[first], machines[second]
        self._turned = _when(other) < _when(one)
        self._earlier, self._later = (other, one) if self._turned else (one, other)

    def view(self) -> TwiceView:
        return TwiceView(
            heading=self._say(
                N_("{earlier} and {later}: two inspections of one machine"),
                earlier=self._earlier.heading,
                later=self._later.heading,
            ),
            earlier=_who(self._earlier),
            later=_who(self._later),
            sentences=tuple(self._sentences()),
            apart=tuple(self._apart(one) for one in self._difference.agreement if not one.agrees),
            course=tuple(self._course()),
        )

    @property
    def _context(self) -> Context:
        return self._later.context

    def _say(self, sentence: str, **places: str) -> str:
        return self._context.say(sentence, **places)

    # --- in words ---

    def _sentences(self) -> Iterator[str]:
        machine = self._context.inspection.machine
        yield self._say(
            N_("Both are of {maker} {model}, serial number {serial}: they are not two machines."),
            maker=machine.maker,
            model=machine.model,
            serial=machine.serial,
        )
        yield self._between()
        yield self.change()
        yield from self._agreement(self._difference.agreement)

    def _between(self) -> str:
        days = (self._later.context.inspection.inspected - self._earlier.context.inspection.inspected).days
        said = self._context.language.count(N_("{n} day"), N_("{n} days"), days)
        hours = self._hours()
        if hours is None:
            return self._say(N_("Between them lie {days}; how many hours it worked is not known."), days=said)
        figures = self._context.figures
        return self._say(N_("Between them lie {days} and {hours}."), days=said, hours=figures.hours(max(hours, 0.0)))

    def _hours(self) -> float | None:
        ends = [one.assessed.occasion.hours for one in (self._earlier, self._later)]
        return None if ends[0] is None or ends[1] is None else ends[1] - ends[0]

    def _most_hours(self) -> float:
        return most_hours_between(self._earlier.assessed.occasion, self._later.assessed.occasion)

    def change(self) -> str:
        gap = self._later_less_earlier(self._difference.overall)
        if gap is None:
            return self._say(N_("Their overall figures cannot be set against each other."))
        if not gap.told_apart:
            pattern = N_("As a whole no change is shown: {points} points, with an uncertainty of {within}.")
        elif gap.points > 0:
            pattern = N_("As a whole it is {points} points more worn at the later, with an uncertainty of {within}.")
        else:
            pattern = N_(
                "As a whole it is {points} points less worn at the later, with an uncertainty of {within}: parts were "
                "renewed, or one of the two is wrong."
            )
        points, within = apart(gap, self._context.figures)
        return self._say(pattern, points=points, within=within)

    def _agreement(self, agreement: tuple[Agreement, ...]) -> Iterator[str]:
        if not agreement:
            yield self._say(N_("No part was measured at the same place in both and not renewed between."))
            return
        agree = sum(one.agrees for one in agreement)
        yield self._context.language.count(*READINGS, len(agreement), agree=str(agree))
        if agree == len(agreement):
            return
        if exceeds(self._most_hours(), self._context.assessment.assumptions.soon_after):
            yield self._say(
                N_(
                    "Where the later figure is the larger, work in between may account for it; where it is the "
                    "smaller, one of the two readings is wrong."
                )
            )
        else:
            yield self._say(N_("Hardly any work lies between, so one of the two readings is wrong."))

    # --- in rows ---

    def _apart(self, one: Agreement) -> ApartView:
        percents = (one.second, one.first) if self._turned else (one.first, one.second)
        figures = self._context.figures
        part = Subject(one.component, one.side, one.position, one.place)
        earlier, later = map(figures.percent, percents)
        return ApartView(labels.opening(figures.part(part)), earlier, later, e_n(one.e_n, figures))

    def _course(self) -> Iterator[CourseView]:
        for entry in self._difference.sides:
            rows = [self._row(machine, entry) for machine in (self._earlier, self._later)]
            if all(row is None for row in rows):
                continue
            gap = self._later_less_earlier(entry.gap)
            yield CourseView(
                part=self._part(entry),
                earlier=self._figure(rows[0], self._earlier),
                later=self._figure(rows[1], self._later),
                change=GapView(signed(gap, self._context.figures), gap is not None and gap.told_apart),
            )

    def _part(self, entry: SideGap) -> str:
        return labels.opening(self._context.figures.part(Subject(entry.component, entry.side)))

    def _row(self, machine: Machine, entry: SideGap) -> Row | None:
        return machine.context.assessment.governing(entry.component, entry.side)

    def _figure(self, row: Row | None, machine: Machine) -> str:
        if row is None:
            return DASH
        figure = worn.tight_figure(row, machine.context.figures)
        if row.position is None or len(machine.context.assessment.rows(row.component, row.side)) == 1:
            return figure
        return machine.context.say(N_("{figure} (no. {number})"), figure=figure, number=str(row.position))

    def _later_less_earlier(self, gap: Gap | None) -> Gap | None:
        if gap is None or self._turned:
            return gap
        return Gap(-gap.points, gap.uncertainty)


def _when(machine: Machine) -> tuple[str, float]:
    return machine.context.inspection.inspected.isoformat(), machine.assessed.occasion.hours or 0.0


def _who(machine: Machine) -> str:
    inspection = machine.context.inspection
    day = machine.context.figures.day(inspection.inspected)
    return f"{machine.heading}, {day}, {inspection.inspector.name}"
