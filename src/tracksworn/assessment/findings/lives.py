"""Lives in step and out of step: which parts end together, and which end well before others."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.boundaries import exceeds, reaches
from tracksworn.assessment.bushing import rails_outlast_a_turn
from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.findings.bushing import leaking_joints, links_ahead
from tracksworn.assessment.findings.chain import dry_sides
from tracksworn.assessment.findings.foreign import foretold
from tracksworn.assessment.findings.limits import is_turnable
from tracksworn.assessment.findings.sprocket import is_told_of
from tracksworn.assessment.findings.telling import finding, hours_left, part_of, several
from tracksworn.assessment.findings.troubles import is_near_limit, is_past_limit
from tracksworn.assessment.sayings import Amount, Finding, HoursLeft, Saying, Severity
from tracksworn.assessment.so_far import SoFar, once
from tracksworn.inspection.vocabulary import Component

IN_A_CHAIN: Final = (Component.LINK, Component.BUSHING, Component.PITCH)
WHEELS: Final = (Component.SPROCKET, Component.BOTTOM_ROLLER)

ADVICE_ON_WHEELS: Final = {
    (Component.SPROCKET, True): "sprockets-end-first",
    (Component.BOTTOM_ROLLER, True): "rollers-end-first",
    (Component.SPROCKET, False): "sprockets-outlast-the-chain",
    (Component.BOTTOM_ROLLER, False): "rollers-outlast-the-chain",
}
"""By the wheel, and whether it ends before the chain."""


@dataclass(frozen=True, slots=True)
class Life:
    """The forecast of one component on the sides that have one. It ends where the first of them does."""

    component: Component
    rows: tuple[ForecastRow, ...]

    @property
    def hours_left(self) -> float:
        """Best value of the first end."""
        return min(row.hours_left for row in self.rows)

    @property
    def low(self) -> float:
        """Hours before which none of them ends."""
        return min(row.hours_low for row in self.rows)

    @property
    def first(self) -> tuple[ForecastRow, ...]:
        """What ends first; both sides where they end together."""
        return first_of(self.rows)


@dataclass(frozen=True, slots=True)
class Apart:
    """Parts of one component that end before any part of another does, by at least so many hours."""

    early: tuple[ForecastRow, ...]
    late: Life
    hours: float

    @property
    def components(self) -> tuple[Component, Component]:
        """What ends first, and what later."""
        return self.early[0].component, self.late.component


def chain_out_of_step(so_far: SoFar) -> Iterator[Finding]:
    """Bushings or joints that end well before the links, or links well before the bushings.

    Common practice, no source: what the others have left is thrown away with the chain, unless bushings are turned in
    time or rails rebuilt; and a turn pays only where the links outlast the second side too (hours of the links at least
    those of the bushing and its whole life again).
    """
    lives = _lives(so_far)
    wanted = (
        (Component.BUSHING, Component.LINK),
        (Component.PITCH, Component.LINK),
        (Component.LINK, Component.BUSHING),
    )
    told = [one for one in _apart(so_far, lives, wanted) if not _has_own_check(so_far, one)]
    if told:
        yield _out_of_step("chain-out-of-step", lives, told, _advice_on_chain(so_far, told[0]))


def wheels_out_of_step(so_far: SoFar) -> Iterator[Finding]:
    """Sprockets or bottom rollers that end well before the chain, or well after it.

    Common practice, no source: a worn sprocket spoils a new chain at its own rate, so new ones go on with a new chain
    whatever they have left; rollers are renewed one by one. A sprocket whose wear is told of as in or out of step has
    the same advice there.
    """
    lives = _lives(so_far)
    chain = _end_of_chain(so_far, lives)
    if chain is None:
        return
    wheels = [wheel for wheel in WHEELS if wheel is not Component.SPROCKET or not is_told_of(so_far)]
    wanted = [*((wheel, chain) for wheel in wheels), *((chain, wheel) for wheel in wheels)]
    told = list(_apart(so_far, lives, wanted))
    if told:
        yield _out_of_step("wheels-out-of-step", lives, told, ADVICE_ON_WHEELS[_wheel_first(told[0])])


def in_step(so_far: SoFar) -> Iterator[Finding]:
    """What ends together with the links, as far as can be told: one visit to the shop renews all of it.

    Common practice, no source: new beside worn wears faster, and the track comes off once instead of twice.
    """
    lives = _lives(so_far)
    links = lives.get(Component.LINK)
    others = [life for life in lives.values() if links and life is not links and _end_together(so_far, links, life)]
    if links is None or not others:
        return
    rows = [row for life in (links, *others) for row in life.first]
    amounts = {"parts": several(map(part_of, rows))}
    because = map(hours_left, rows)
    yield finding("lives-in-step", Severity.NOTE, because, amounts=amounts, decided_by=[Threshold.LIVES_APART])


# --- what ends when -------------------------------------------------------------------------------------------------


@once
def _lives(so_far: SoFar) -> dict[Component, Life]:
    """The lives of what wears together; none of a component that has reached its limit anywhere.

    A side's longest span tells of its joints only where none of them has run dry.
    """
    lives, dry, foreseen = {}, dry_sides(so_far), foretold(so_far)
    for component in (*IN_A_CHAIN, *WHEELS):
        rows = tuple(row for row in foreseen if row.component is component)
        if component is Component.PITCH:
            rows = tuple(row for row in rows if row.side not in dry)
        if rows and not any(map(is_past_limit, so_far.rows(component))):
            lives[component] = Life(component, rows)
    return lives


def _apart(
    so_far: SoFar, lives: dict[Component, Life], wanted: Iterable[tuple[Component, Component]]
) -> Iterator[Apart]:
    """Which of the first end before all of the second, their intervals apart and their best values by the threshold."""
    for first, second in wanted:
        early, late = lives.get(first), lives.get(second)
        if early is None or late is None:
            continue
        rows = tuple(row for row in early.rows if _ends_before(so_far, row, late))
        if rows:
            last = max(row.hours_high or 0.0 for row in rows)
            yield Apart(rows, late, late.low - last)


def _end_of_chain(so_far: SoFar, lives: dict[Component, Life]) -> Component | None:
    """What ends the chain: the first of links, joints, and bushings that cannot be turned; None without links."""
    if Component.LINK not in lives:
        return None
    ends = [life for what, life in lives.items() if what in IN_A_CHAIN and not _can_be_turned(so_far, life)]
    return min(ends, key=lambda life: life.hours_left).component


def _can_be_turned(so_far: SoFar, life: Life) -> bool:
    worn = (so_far.row(row.component, row.side) for row in life.first)
    return all(row is not None and is_turnable(so_far, row) for row in worn)


def _ends_before(so_far: SoFar, row: ForecastRow, late: Life) -> bool:
    if row.hours_high is None or not exceeds(late.low, row.hours_high):
        return False
    return exceeds(late.hours_left - row.hours_left, so_far.assumed.lives_apart)


def _end_together(so_far: SoFar, one: Life, other: Life) -> bool:
    """Whether two lives end within the threshold, and neither surely before the other."""
    near = reaches(so_far.assumed.lives_apart, abs(one.hours_left - other.hours_left))
    return near and not _surely_before(one.first, other.first) and not _surely_before(other.first, one.first)


def _surely_before(early: Sequence[ForecastRow], late: Sequence[ForecastRow]) -> bool:
    end = latest_end(early)
    return end is not None and exceeds(min(row.hours_low for row in late), end)


def latest_end(rows: Sequence[ForecastRow]) -> float | None:
    """Hours after which all of them have surely ended; None where that never is."""
    ends = [row.hours_high for row in rows]
    return None if None in ends else max(end for end in ends if end is not None)


def first_of(rows: Sequence[ForecastRow]) -> tuple[ForecastRow, ...]:
    """What reaches its limit first; several where they do so in the same hour."""
    least = min(row.hours_left for row in rows)
    return tuple(row for row in rows if reaches(least, row.hours_left))


# --- out of step ----------------------------------------------------------------------------------------------------


def _out_of_step(code: str, lives: dict[Component, Life], told: Sequence[Apart], advice: str) -> Finding:
    """One finding for all that is apart; its title and its advice are of the first."""
    leading = told[0]
    spoken_of = [row for one in told for row in (*one.early, *one.late.rows)]
    because = [hours_left(row) for life in lives.values() for row in life.rows if row in spoken_of]
    because += [_gap(one) for one in told]
    amounts: dict[str, Amount] = {
        "parts": several(map(part_of, leading.early)),
        "others": several(map(part_of, leading.late.rows)),
    }
    decided_by = [Threshold.LIVES_APART]
    return finding(code, Severity.NOTE, because, advice=advice, amounts=amounts, decided_by=decided_by)


def _advice_on_chain(so_far: SoFar, leading: Apart) -> str:
    first, second = leading.components
    if second is Component.BUSHING:
        return "links-end-first"
    return "joints-end-first" if first is Component.PITCH else _advice_on_bushings(so_far, leading)


def _advice_on_bushings(so_far: SoFar, leading: Apart) -> str:
    """A turn where one is left and pays, and the joints are known to deserve it."""
    worn = [so_far.row(row.component, row.side) for row in leading.early]
    if not all(row is not None and is_turnable(so_far, row) for row in worn):
        return "bushings-end-first"
    sides = {row.side for row in leading.early}
    if dry_sides(so_far) & sides or any(one.side in {None, *sides} for one in leaking_joints(so_far)):
        return "turn-if-joints-deserve-it"
    pays = all(rails_outlast_a_turn(leading.late.rows, row) for row in leading.early)
    return "turn-in-time" if pays else "turn-gains-little"


def _has_own_check(so_far: SoFar, one: Apart) -> bool:
    """Bushings due for turning, and links ahead of them, are told there."""
    if one.components == (Component.LINK, Component.BUSHING):
        return any(links_ahead(so_far))
    worn = (so_far.row(row.component, row.side) for row in one.early if row.component is Component.BUSHING)
    return any(row is not None and is_near_limit(row) and is_turnable(so_far, row) for row in worn)


def _wheel_first(leading: Apart) -> tuple[Component, bool]:
    """Which wheel it is about, and whether it ends before the chain."""
    first, second = leading.components
    return (first, True) if first in WHEELS else (second, False)


# --- reasons --------------------------------------------------------------------------------------------------------


def _gap(one: Apart) -> Saying:
    early, late = (tuple(map(part_of, rows)) for rows in (one.early, one.late.rows))
    amounts: dict[str, Amount] = {
        "parts": several(early),
        "others": several(late),
        "hours": HoursLeft(one.hours),
    }
    return Saying("ends-before", (*early, *late), amounts)
