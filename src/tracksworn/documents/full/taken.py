"""What one side of a component read, in words, as it was taken."""

from collections.abc import Iterator
from dataclasses import dataclass

from tracksworn.documents.full.context import Context
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import NO_BREAK
from tracksworn.documents.words.language import N_
from tracksworn.inspection.values import ByEye, ByPlace, ByPosition, NotSeen, SideReading, Sizes, Value
from tracksworn.inspection.vocabulary import Component, PartPlace


def values_of(said: SideReading | None) -> Iterator[tuple[PartPlace | None, Value]]:
    """Every value of a side with its place."""
    if isinstance(said, ByPlace):
        for place, there in said.entries.items():
            yield from ((place, value) for _, value in values_of(there))
    elif isinstance(said, ByPosition):
        yield from ((None, value) for value in said.entries.values())
        if said.others is not None:
            yield None, said.others
    elif said is not None:
        yield None, said


def no_entry(context: Context) -> str:
    """What stands where a side was not entered at all."""
    return context.say(N_("no entry"))


@dataclass(frozen=True, slots=True)
class Taken:
    """One side of a component with the decimals in which its sizes were written."""

    component: Component
    decimals: int
    context: Context
    said: SideReading | None

    def at(self, place: PartPlace | None) -> str:
        """What was read at a place; without one, at all of them."""
        if not isinstance(self.said, ByPlace):
            return no_entry(self.context) if self.said is None else self._in_words(self.said)
        if place is None:
            return labels.clauses(
                (self._placed(one, value) for one, value in self.said.entries.items()), self.context.language
            )
        value = self.said.entries.get(place)
        return no_entry(self.context) if value is None else self._in_words(value)

    def _placed(self, place: PartPlace, value: Value | ByPosition) -> str:
        name = labels.word(place, self.context.language)
        return self.context.say(N_("{place}: {values}"), place=name, values=self._in_words(value))

    def _in_words(self, value: Value | ByPosition) -> str:
        match value:
            case Sizes():
                return self.context.figures.as_taken(value, self.decimals)
            case ByEye():
                estimate = self.context.figures.estimate(value) + NO_BREAK + "%"
                return self.context.say(N_("by eye {estimate}"), estimate=estimate)
            case NotSeen(reason):
                return self.context.say(N_("not seen: {reason}"), reason=reason)
            case ByPosition():
                return self._by_position(value)

    def _by_position(self, said: ByPosition) -> str:
        """A list by position with a dash for what was not measured, then the rest: `3 to 6 not seen: guard fitted`."""
        count = max([self._positions, *said.entries])
        only = said.entries.get(1, said.others)
        if count <= 1 and only is not None:
            return self._in_words(only)
        row = _as_row(said, count)
        rest: dict[Value, list[int]] = {}
        for position in range(1, count + 1):
            value = said.entries.get(position, said.others)
            if value is not None and not (row and isinstance(value, Sizes)):
                rest.setdefault(value, []).append(position)
        words = [self._in_words(row)] if row else []
        return labels.clauses(
            [*words, *(self._at_positions(numbers, value) for value, numbers in rest.items())], self.context.language
        )

    def _at_positions(self, numbers: list[int], value: Value) -> str:
        pattern = N_("{positions}: {values}") if isinstance(value, Sizes) else N_("{positions} {values}")
        positions = labels.runs(numbers, self.context.language)
        return self.context.say(pattern, positions=positions, values=self._in_words(value))

    @property
    def _positions(self) -> int:
        """How many of the component the machine has on a side; 0 where that is not told."""
        return max((row.position or 0 for row in self.context.assessment.rows(self.component)), default=0)


def _as_row(said: ByPosition, count: int) -> Sizes | None:
    """One size a position in one unit, as a row; None where the sizes are no such row, or the most of it were gaps."""
    sizes = {position: value for position, value in said.entries.items() if isinstance(value, Sizes)}
    units = {value.unit for value in sizes.values()}
    single = all(len(value.values) == 1 for value in sizes.values()) and not isinstance(said.others, Sizes)
    if len(units) != 1 or not single or 2 * len(sizes) < count or len(sizes) == 1:
        return None
    row = tuple(sizes[n].values[0] if n in sizes else None for n in range(1, count + 1))
    return Sizes(row, units.pop())
