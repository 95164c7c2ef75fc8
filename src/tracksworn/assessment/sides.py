"""Left against right, position by position and place by place."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.boundaries import exceeds, first_highest, reaches
from tracksworn.assessment.model import Comparison, Row, SideFigure
from tracksworn.assessment.spread import mean
from tracksworn.assessment.uncertainty import CERTAIN, Budget, weighted_sum
from tracksworn.inspection.vocabulary import Component, PartPlace, Side


@dataclass(frozen=True, slots=True)
class Middle:
    """A figure with a middle: measured with its budget, or judged by eye with the half-width of its range."""

    percent: float
    budget: Budget = CERTAIN
    half_width: float = 0.0


Pair = tuple[Middle, Middle]


def compare_sides(rows: Sequence[Row], table: Assumptions) -> tuple[Comparison, ...]:
    """An entry for every component that was seen on a side, in the order of the rows."""
    by_component: dict[Component, list[Row]] = {}
    for row in rows:
        by_component.setdefault(row.component, []).append(row)
    entries = [entry for of_one in by_component.values() if (entry := _comparison(of_one)) is not None]
    several = sum(entry.delta is not None for entry in entries) >= 2
    return tuple(_judged(entry, table.several_compared if several else 1.0, table) for entry in entries)


def _comparison(rows: Sequence[Row]) -> Comparison | None:
    left, right = (_side_figure([row for row in rows if row.side is side]) for side in Side)
    if left is None and right is None:
        return None
    pairs = tuple(_pairs(rows))
    if not pairs:
        return Comparison(rows[0].component, left, right, None, None, None, None)
    delta = mean([one.percent - other.percent for one, other in pairs])
    budget = weighted_sum(
        (sign / len(pairs), side.budget) for one, other in pairs for sign, side in ((1.0, one), (-1.0, other))
    )
    within = math.hypot(budget.expanded, mean([one.half_width + other.half_width for one, other in pairs]))
    return Comparison(rows[0].component, left, right, delta, delta - within, delta + within, None, len(pairs), budget)


def _judged(entry: Comparison, factor: float, table: Assumptions) -> Comparison:
    """Sides differ where the delta is large enough to matter and larger than its uncertainty times the factor."""
    if entry.delta is None or entry.delta_high is None:
        return entry
    within = entry.delta_high - entry.delta
    apart = abs(entry.delta)
    return replace(entry, differs=reaches(apart, table.least_difference) and exceeds(apart, factor * within))


def has_both_worst(entry: Comparison) -> bool:
    """Whether the most worn of each side has a figure: a bound, as of a seized part, may hide that its side leads."""
    return all(side is None or side.percent_worn is not None for side in (entry.left, entry.right))


def leading(entry: Comparison | None) -> Side | None:
    """The side that is further worn beyond doubt, wherever a document says so.

    None where the delta does not show it, where the other side has the most worn part or may have it, and where a part
    that was not made for its place had a say.
    """
    if entry is None or not entry.differs or entry.delta is None or entry.foreign or not has_both_worst(entry):
        return None
    side = Side.LEFT if entry.delta > 0.0 else Side.RIGHT
    return None if most_worn_elsewhere(entry) else side


def most_worn_elsewhere(entry: Comparison) -> bool:
    """Whether the side that the delta calls further worn is not the one with the most worn part."""
    left, right = (None if side is None else side.percent_worn for side in (entry.left, entry.right))
    if left is None or right is None or entry.delta is None:
        return False
    return (left - right) * entry.delta < 0.0


def _side_figure(rows: Sequence[Row]) -> SideFigure | None:
    """The most worn position of a side, else the first of which an upper bound is known."""
    governing = most_worn(rows) or next((row for row in rows if row.high is not None), None)
    if governing is None:
        return None
    return SideFigure(governing.percent_worn, governing.low, governing.high, governing.position)


def most_worn(rows: Iterable[Row]) -> Row | None:
    """The row with the highest percent worn, `at least A` as A; of equals the first."""
    counted = [(row, value) for row in rows if (value := row.counted) is not None]
    found = first_highest(counted, lambda pair: pair[1])
    return found[0] if found else None


def _pairs(rows: Sequence[Row]) -> Iterator[Pair]:
    """Every position and place with a middle figure on both sides, left first."""
    right_rows = {row.position: row for row in rows if row.side is Side.RIGHT}
    for left_row in rows:
        if left_row.side is Side.LEFT and left_row.position in right_rows:
            right_row = right_rows[left_row.position]
            yield from _pairs_at(middles(left_row), middles(right_row))


def _pairs_at(left: Mapping[PartPlace | None, Middle], right: Mapping[PartPlace | None, Middle]) -> Iterator[Pair]:
    """Place by place; a side that names no place is compared by the governing place of the other."""
    if not left or not right:
        return
    if None in left or None in right:
        yield _governing(left), _governing(right)
        return
    yield from ((left[place], right[place]) for place in left if place in right)


def _governing(middles: Mapping[PartPlace | None, Middle]) -> Middle:
    found = first_highest(middles.values(), lambda middle: middle.percent)
    assert found is not None
    return found


def middle_of(row: Row) -> Middle | None:
    """The governing figure of a row, where it has a middle."""
    return middles(row).get(row.place)


def middles(row: Row) -> dict[PartPlace | None, Middle]:
    """The figure of each place that has a middle, in the order of places."""
    found: dict[PartPlace | None, Middle] = {}
    for figure in row.places:
        if figure.percent_worn is not None and figure.budget is not None:
            found[figure.place] = Middle(figure.percent_worn, figure.budget)
    for said in row.estimates:
        if said.percent_worn is not None and said.low is not None and said.high is not None:
            found[said.place] = Middle(said.percent_worn, half_width=(said.high - said.low) / 2.0)
    return {place: found[place] for place in row.place_order if place in found}
