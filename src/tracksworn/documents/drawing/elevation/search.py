"""Chooses one option for each label so that none meets another, at the least cost; pure combinatorics.

From each label's cheapest option the search goes round the labels and takes for each what costs least beside the others
as they stand. Where some meet, their meeting is made dearer and it goes on (guided local search). What still meets in
the best state is dropped; then exchanges are made, of one label or of two at once, as long as one lowers the cost. No
chance is in it: the same options give the same choice.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from tracksworn.documents.drawing.elevation.boxes import Numbers

_MEETING: Final = 60.0  # what not meeting is worth to begin with
_DEARER: Final = 12.0  # and so much more with each round in which two meet
_ROUNDS: Final = 80
_IN_VAIN: Final = 24  # rounds without a better state after which none is expected
_LEFT_OUT: Final = 500.0  # what a label without an option costs
_PASSES: Final = 6


@dataclass(frozen=True)
class Choices:
    """All options of all labels in one row. Those of label i are `firsts[i]` up to `firsts[i + 1]`.

    `costs` (n); `meets` (n, n): which cannot stand together; `shared` (n, n): what it costs that two stand together.
    """

    firsts: NDArray[np.int_]
    costs: Numbers
    meets: NDArray[np.bool_]
    shared: Numbers
    ranks: tuple[int, ...] = ()  # of the labels: those of higher rank are left out last; empty: all alike

    @property
    def worth(self) -> Numbers:
        """What leaving out each label costs, (labels)."""
        ranks = np.asarray(self.ranks if self.ranks else (0,) * self.count)
        worth: Numbers = _LEFT_OUT * (1.0 + ranks)
        return worth

    @property
    def count(self) -> int:
        """How many labels there are."""
        return len(self.firsts) - 1

    def of(self, label: int) -> slice:
        """The options of one label."""
        return slice(int(self.firsts[label]), int(self.firsts[label + 1]))


def choose(choices: Choices) -> list[int | None]:
    """For each label the number of its option among its own, None where it is left out."""
    state = _guided(choices)
    chosen: list[int | None] = _without_meetings(choices, state)
    for _ in range(_PASSES):
        if not sum(_improve(choices, chosen, label) for label in range(choices.count)):
            break
    return [None if option is None else option - choices.of(i).start for i, option in enumerate(chosen)]


def _guided(choices: Choices) -> NDArray[np.int_]:
    """The best state found: the fewest labels that meet others, then the least cost."""
    dear, worth = np.full((choices.count, choices.count), _MEETING), choices.worth
    search = _Search(choices)
    best, least, found = search.state.copy(), np.inf, 0
    for nth in range(_ROUNDS):
        moved = search.round(dear)
        meeting = search.met[search.state] > 0
        cost = float(choices.costs[search.state].sum() + worth[meeting.any(axis=1)].sum())
        if cost < least:
            best, least, found = search.state.copy(), cost, nth
        if (not moved and not meeting.any()) or nth - found >= _IN_VAIN:
            break
        dear[meeting] += _DEARER
    return best


class _Search:
    """A state, and what each option would meet and share in it: kept up, since most labels stay where they are."""

    def __init__(self, choices: Choices) -> None:
        self._meets, self._shared, self._costs = choices.meets.astype(float), choices.shared, choices.costs
        self._own = [choices.of(label) for label in range(choices.count)]
        self.state = choices.firsts[:-1].copy()
        self.met = self._meets[:, self.state]  # (options, labels)
        self.sharing = self._shared[:, self.state].sum(axis=1)  # (options)

    def round(self, dear: Numbers) -> bool:
        """Takes for each label in turn what costs least beside the others; whether that changed anything."""
        moved = False
        for label, mine in enumerate(self._own):
            among = self.met[mine] @ dear[label] + self.sharing[mine]
            chosen = mine.start + int((self._costs[mine] + among).argmin())
            if chosen != self.state[label]:
                self._take(label, chosen)
                moved = True
        return moved

    def _take(self, label: int, chosen: int) -> None:
        self.sharing += self._shared[:, chosen] - self._shared[:, self.state[label]]
        self.met[:, label] = self._meets[:, chosen]
        self.state[label] = chosen


def _without_meetings(choices: Choices, state: NDArray[np.int_]) -> list[int | None]:
    """Leaves out what meets others, of the lowest rank first and of that what meets most, until nothing meets."""
    stands = np.ones(choices.count, dtype=bool)
    while True:
        meeting = choices.meets[np.ix_(state, state)] & stands & stands[:, None]
        if not meeting.any():
            return [int(option) if stood else None for option, stood in zip(state, stands, strict=True)]
        counts = meeting.sum(axis=1)
        stands[int(np.argmax(np.where(counts > 0, counts - choices.worth, -np.inf)))] = False


def _improve(choices: Choices, chosen: list[int | None], label: int) -> bool:
    """Takes a better option for a label where none or one other stands in its way and that one can give way."""
    now = _cost(choices, chosen, label)
    beside = {other: option for other, option in enumerate(chosen) if other != label and option is not None}
    others, standing = list(beside), list(beside.values())
    mine = choices.of(label)
    costs = choices.costs[mine] + choices.shared[mine][:, standing].sum(axis=1)
    in_the_way = choices.meets[mine][:, standing]
    for option in np.argsort(costs, kind="stable").tolist():
        if costs[option] >= now - 1e-9:
            return False
        met = np.nonzero(in_the_way[option])[0]
        if len(met) == 0:
            chosen[label] = mine.start + option
            return True
        if len(met) == 1 and _gives_way(
            choices, chosen, (label, mine.start + option), others[int(met[0])], now - costs[option]
        ):
            return True
    return False


def _gives_way(choices: Choices, chosen: list[int | None], taking: tuple[int, int], other: int, gain: float) -> bool:
    """Moves another label out of the way of an option where that costs less than it gains."""
    label, option = taking
    rest = [each for i, each in enumerate(chosen) if i not in (label, other) and each is not None] + [option]
    theirs = choices.of(other)
    costs = choices.costs[theirs] + choices.shared[theirs][:, rest].sum(axis=1)
    costs = np.where(choices.meets[theirs][:, rest].any(axis=1), np.inf, costs)
    best = int(np.argmin(costs))
    if costs[best] - _cost(choices, chosen, other) >= gain - 1e-9:
        return False
    chosen[label], chosen[other] = option, theirs.start + best
    return True


def _cost(choices: Choices, chosen: list[int | None], label: int) -> float:
    option = chosen[label]
    if option is None:
        return float(choices.worth[label])
    rest = [each for i, each in enumerate(chosen) if i != label and each is not None]
    return float(choices.costs[option] + choices.shared[option, rest].sum())
