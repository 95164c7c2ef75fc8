"""What lots and their parts are called, and lists of many of them."""

import re
from collections.abc import Iterable, Sequence
from pathlib import PurePosixPath
from typing import Final

from tracksworn.assessment.sayings import Subject
from tracksworn.documents.sale.lot import Part, SaleLot
from tracksworn.documents.words.figures import DASH, Figures

_DIGITS: Final = re.compile(r"(\d+)")
_WHOLE: Final = re.compile(r"[0-9]{1,9}")
_RUN: Final = 3
"""How many numbers that follow on one another are drawn together."""


def name(lot: SaleLot) -> str:
    """What a lot is called where lots are named: its number, else that of its inspection, else its folder."""
    if lot.lot:
        return lot.lot
    if lot.read is not None:
        return lot.read.number
    path = PurePosixPath(lot.entry.inspection)
    return path.parent.name or path.name


def machine(lot: SaleLot) -> str:
    """Maker and model; empty where it could not be read."""
    return "" if lot.read is None else f"{lot.read.maker} {lot.read.model}"


def part(one: Part, figures: Figures) -> str:
    """`left bottom roller 3`; without its number where a side has only one."""
    return figures.part(Subject(one.component, one.side, None if one.alone else one.position))


def natural(text: str) -> tuple[tuple[int, int, str], ...]:
    """A key by which `lot 9` comes before `lot 10`, and capitals make no difference."""
    pieces = _DIGITS.split(text.casefold())
    return tuple((0, int(one), "") if one.isdecimal() else (1, 0, one) for one in pieces if one)


def listed(names: Iterable[str]) -> str:
    """Lots by name in their order, numbers that follow on one another drawn together: `101–104, 118, OXB-0231`."""
    runs: list[list[str]] = []
    for one in names:
        if runs and _follows(runs[-1][-1], one):
            runs[-1].append(one)
        else:
            runs.append([one])
    return ", ".join(_run(run) for run in runs)


def _follows(before: str, after: str) -> bool:
    numbers = (before, after)
    return all(map(_WHOLE.fullmatch, numbers)) and int(after) == int(before) + 1 and len(after) == len(str(int(after)))


def _run(run: Sequence[str]) -> str:
    return f"{run[0]}{DASH}{run[-1]}" if len(run) >= _RUN else ", ".join(run)
