"""Words first: which machines can be told apart and which not, by the uncertainty of their difference."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from tracksworn.assessment.comparing.model import Gap
from tracksworn.assessment.model import Bound, SharesFrom
from tracksworn.documents.comparison.acts import to_act_on
from tracksworn.documents.comparison.between import Between, Pair
from tracksworn.documents.comparison.columns import is_by_eye
from tracksworn.documents.comparison.machine import Machine, is_one_machine, together
from tracksworn.documents.comparison.twice import Twice
from tracksworn.documents.full.view import Summary
from tracksworn.documents.full.whole import MOSTLY_SEEN
from tracksworn.documents.words import labels
from tracksworn.documents.words.gaps import apart, looks_turned_round
from tracksworn.documents.words.language import N_, NP_, Language

NAMED: Final = 3
"""How many pairs are named before they are only counted."""

ALIKE: Final = NP_(
    "{machines} cannot be told apart: {points} point between them, with an uncertainty of {within}.",
    "{machines} cannot be told apart: {points} points between them, with an uncertainty of {within}.",
)
APART: Final = NP_(
    "{first} is more worn than {second}: {points} point between them, with an uncertainty of {within}.",
    "{first} is more worn than {second}: {points} points between them, with an uncertainty of {within}.",
)
JUST_APART: Final = NP_(
    "{first} is just more worn than {second}: {points} point between them, with an uncertainty of {within}.",
    "{first} is just more worn than {second}: {points} points between them, with an uncertainty of {within}.",
)
"""Where both print alike."""
MORE: Final = N_("{machine} is more worn than both others.")
MORE_OF_MANY: Final = N_("{machine} is more worn than all others.")
LESS: Final = N_("{machine} is less worn than both others.")
LESS_OF_MANY: Final = N_("{machine} is less worn than all others.")
IN_PART: Final = {
    True: N_("{machine} is more worn than {others}; than {doubtful} in what was seen."),
    False: N_("{machine} is less worn than {others}; than {doubtful} in what was seen."),
}
IN_WHAT_WAS_SEEN: Final = {
    True: N_("{machine} is more worn than {doubtful} in what was seen."),
    False: N_("{machine} is less worn than {doubtful} in what was seen."),
}
"""Where what was not seen could make up the difference to some, or to all, of the others; the more worn first."""
SOME_ALIKE: Final = NP_(
    "Of {all} pairs {n} cannot be told apart; the table of differences names it.",
    "Of {all} pairs {n} cannot be told apart; the table of differences names them.",
)
TO_ACT_ON: Final = (
    N_("{machine}: {finding}."),
    N_("{machine}: {finding}, and one finding more."),
    N_("{machine}: {finding}, and {more} findings more."),
)
"""With nothing more, one more, and several more."""


def summary(machines: Sequence[Machine], between: Between) -> Summary:
    """A headline and the sentences after it."""
    first, *rest = _Teller(tuple(machines), between).sentences()
    return Summary(first, tuple(rest))


def is_less_seen(machines: Sequence[Machine]) -> list[Machine]:
    """Machines of which clearly less was seen than of the one that was seen most fully."""
    shares = [machine.context.assessment.overall.seen_share for machine in machines]
    return [
        machine for machine, share in zip(machines, shares, strict=True) if share < MOSTLY_SEEN and share < max(shares)
    ]


@dataclass(frozen=True, slots=True)
class _Teller:
    machines: tuple[Machine, ...]
    between: Between

    @property
    def language(self) -> Language:
        return self.machines[0].context.language

    def sentences(self) -> Iterator[str]:
        if is_one_machine(self.machines):
            yield from self._inspections()
        else:
            yield from self._strangers()
        yield from self._without_figure()
        yield from self._less_seen()
        yield from self._could_make_up()
        yield from self._by_eye()
        yield from self._shares()
        yield from self._to_act_on()

    def _inspections(self) -> Iterator[str]:
        """Of one machine: how far its inspections lie apart, and what changed."""
        if len(self.machines) > 2:
            days = [machine.context.inspection.inspected for machine in (self.machines[0], self.machines[-1])]
            first, last = map(self.machines[0].context.figures.day, days)
            yield self.language.say(
                N_("One machine, inspected {n} times, from {first} to {last}."),
                n=str(len(self.machines)),
                first=first,
                last=last,
            )
            return
        (pair,) = self.between.twins
        two = Twice(pair, self.machines)
        yield self.language.say(N_("One machine, inspected twice: {between}"), between=two.between())
        yield two.change()
        yield two.verdict()

    def _strangers(self) -> Iterator[str]:
        """Several machines: which can be told apart, and which are one."""
        yield from self._furthest()
        yield from self._twins()
        yield from self._alike()
        yield from self._all_apart()

    def _named(self, indices: Sequence[int]) -> str:
        return together([self.machines[index] for index in indices], self.language)

    # --- apart or not ---

    def _furthest(self) -> Iterator[str]:
        """Of two the one that is more worn; of several those that are more, or less, worn than every other."""
        if self.between.count == 2:
            yield from map(self._one_apart, self.between.apart())
            return
        for more, of_two, of_many in ((True, MORE, MORE_OF_MANY), (False, LESS, LESS_OF_MANY)):
            index = self.between.furthest(more=more)
            if index is None:
                continue
            doubtful = self._doubtful(index)
            clear = [other for other, _ in self.between.others(index) if other not in doubtful]
            if doubtful:
                pattern = IN_PART[more] if clear else IN_WHAT_WAS_SEEN[more]
            else:
                pattern = of_two if len(clear) == 2 else of_many
            names = {"others": clear, "doubtful": doubtful}
            yield self.language.say(
                pattern,
                machine=self.machines[index].heading,
                **{name: self._named(some) for name, some in names.items() if some},
            )

    def _doubtful(self, index: int) -> list[int]:
        """Machines from which this one differs, unless what was not seen made that up."""
        pairs = (pair for pair in self.between.apart() if index in pair[:2] and could_make_up(pair, self.machines))
        return [second if first == index else first for first, second, _ in pairs]

    def _one_apart(self, pair: Pair) -> str:
        first, second, difference = pair
        assert difference.overall is not None
        more, less = (first, second) if difference.overall.points > 0 else (second, first)
        patterns = JUST_APART if looks_turned_round(difference.overall) else APART
        return self._counted(
            patterns, difference.overall, first=self.machines[more].heading, second=self.machines[less].name
        )

    def _alike(self) -> Iterator[str]:
        alike = self.between.alike()
        if len(alike) > NAMED:
            yield self.language.count(*SOME_ALIKE, len(alike), all=str(len(self.between.strangers)))
            return
        for first, second, difference in alike:
            assert difference.overall is not None
            names = labels.opening(self._named((first, second)))
            yield self._counted(ALIKE, difference.overall, machines=names)

    def _counted(self, patterns: tuple[str, str], gap: Gap, **places: str) -> str:
        points, within = apart(gap, self.machines[0].context.figures)
        number = 1 if points == "1" else 2
        return self.language.count(*patterns, number, points=points, within=within, **places)

    def _all_apart(self) -> Iterator[str]:
        strangers = self.between.strangers
        if len(strangers) > 1 and len(self.between.apart()) == len(strangers):
            yield self.language.say(N_("Each can be told apart from every other."))

    def _twins(self) -> Iterator[str]:
        for pair in self.between.successive:
            first, second, _ = pair
            serial = self.machines[first].context.inspection.machine.serial
            names = labels.opening(self._named((first, second)))
            yield self.language.say(
                N_("{machines} are two inspections of one machine, serial number {serial}, not two machines."),
                machines=names,
                serial=serial,
            )
            yield Twice(pair, self.machines).change()

    # --- what limits that ---

    def _without_figure(self) -> Iterator[str]:
        """A machine with no figure, or only a bound, cannot be compared as a whole."""
        for machine in self.machines:
            overall = machine.context.assessment.overall
            if overall.percent_worn is None:
                yield self.language.say(
                    N_("{machine} has no overall figure and cannot be compared as a whole."), machine=machine.heading
                )
            elif overall.bound is Bound.AT_LEAST:
                yield self.language.say(
                    N_("Of {machine} only a lower bound is known; it cannot be compared as a whole."),
                    machine=machine.name,
                )

    def _less_seen(self) -> Iterator[str]:
        less = is_less_seen(self.machines)
        if not less:
            return
        figures = self.machines[0].context.figures
        shares = [figures.share(machine.context.assessment.overall.seen_share) for machine in less]
        most = figures.share(max(machine.context.assessment.overall.seen_share for machine in self.machines))
        if len(less) == 1:
            yield self.language.say(
                N_("{machine} was seen less fully: {share} of its cost, where the fullest look has {most}."),
                machine=less[0].heading,
                share=shares[0],
                most=most,
            )
            return
        said = [f"{machine.name} ({share})" for machine, share in zip(less, shares, strict=True)]
        yield self.language.say(
            N_("Seen less fully by share of cost: {machines}, where the fullest look has {most}."),
            machines=labels.listed(said, self.language),
            most=most,
        )

    def _could_make_up(self) -> Iterator[str]:
        """Pairs that are told apart by what was seen, but not by what was not."""
        doubtful = [pair for pair in self.between.apart() if could_make_up(pair, self.machines)]
        if not doubtful:
            return
        if len(doubtful) > NAMED:
            yield self.language.say(
                N_("Between {n} of the pairs that differ, what was not seen could make up the difference."),
                n=str(len(doubtful)),
            )
            return
        pairs = [self._named((first, second)) for first, second, _ in doubtful]
        yield self.language.say(
            N_("What was not seen could make up the difference between {pairs}."),
            pairs=labels.clauses(pairs, self.language),
        )

    def _by_eye(self) -> Iterator[str]:
        by_eye = [machine for machine in self.machines if is_by_eye(machine.context)]
        if by_eye:
            names = together(by_eye, self.language)
            yield self.language.say(N_("By eye alone, without a measurement: {machines}."), machines=names)

    def _to_act_on(self) -> Iterator[str]:
        """What asks for action first on each machine, of one machine at its last; of many only which these are."""
        asked = self.machines[-1:] if is_one_machine(self.machines) else self.machines
        found = [(machine, acts) for machine in asked if (acts := to_act_on(machine.context))]
        if not found:
            return
        if len(found) > NAMED:
            names = together([machine for machine, _ in found], self.language)
            yield self.language.say(N_("To act on before all else: findings on {machines}."), machines=names)
            return
        said = [
            self.language.say(
                TO_ACT_ON[min(len(acts), len(TO_ACT_ON)) - 1],
                machine=machine.heading,
                finding=acts[0],
                more=str(len(acts) - 1),
            )
            for machine, acts in found
        ]
        yield self.language.say(N_("To act on. {findings}"), findings=" ".join(said))

    def _shares(self) -> Iterator[str]:
        """Overall figures weigh parts by cost: by what each chart gives, or by what is typical."""
        typical = [
            machine for machine in self.machines if machine.context.assessment.overall.shares_from is SharesFrom.TYPICAL
        ]
        if typical and len(typical) < len(self.machines):
            yield self.language.say(
                N_(
                    "The overall figure of {machines} is weighed by typical shares of cost, the others' by their "
                    "charts'."
                ),
                machines=together(typical, self.language),
            )


def could_make_up(pair: Pair, machines: Sequence[Machine]) -> bool:
    """Whether the more worn could still be the less, were its unseen parts as new and the other's at their limit."""
    first, second, difference = pair
    if difference.overall is None:
        return False
    more, less = (first, second) if difference.overall.points > 0 else (second, first)
    return machines[more].context.assessment.overall.floor < machines[less].context.assessment.overall.ceiling
