"""Reasons that differ by nothing but their part, told as one: `Left bottom rollers 3, 4 and 6: leak (marked).`"""

from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from tracksworn.assessment.sayings import Saying, Several

JOINED: Final = frozenset({"seen", "seen-graded", "seen-sized", "seen-graded-sized", "judged"})
"""Reasons that say of a `part` what they say as well of several."""


def told_together(because: Iterable[Saying]) -> tuple[Saying, ...]:
    """The reasons in their order, each with all parts of which the same is said."""
    left = list(because)
    told = []
    while left:
        first = left.pop(0)
        alike = [one for one in left if _is_alike(first, one)]
        left = [one for one in left if not _is_alike(first, one)]
        told.append(_joined([first, *alike]) if alike else first)
    return tuple(told)


def _is_alike(first: Saying, other: Saying) -> bool:
    return first.code in JOINED and first.code == other.code and _but_part(first) == _but_part(other)


def _but_part(said: Saying) -> dict[str, object]:
    return {place: amount for place, amount in said.amounts.items() if place != "part"}


def _joined(alike: list[Saying]) -> Saying:
    about = tuple(dict.fromkeys(subject for one in alike for subject in one.about))
    return replace(alike[0], about=about, amounts={**alike[0].amounts, "part": Several(about)})
