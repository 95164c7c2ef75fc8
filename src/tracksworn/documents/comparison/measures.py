"""How machines are shared out over sheets that lie on their side, and how wide a column is."""

from collections.abc import Sequence
from typing import Final, Literal

Paper = Literal["A4", "letter"]

WIDTHS: Final[dict[Paper, float]] = {"A4": 269.0, "letter": 251.4}
"""Width of the text, mm."""
LABELS: Final = 25.0
"""Width of the labels of the rows, mm."""
MOST: Final = 4
"""Machines on one sheet: with five the rules would be too short to be read."""
MANY_ROWS: Final = 9
"""Components that stand on one sheet under the most machines; with more of them, one machine fewer."""
WIDEST: Final = 122.0
"""A column needs no more, mm."""
GUTTER: Final = 4.0
"""Between two columns, mm."""


def sets(count: int, rows: int) -> tuple[tuple[int, ...], ...]:
    """Which machines stand on one sheet under so many rows: few sheets, none with two machines more than another."""
    sheets = -(-count // (MOST if rows <= MANY_ROWS else MOST - 1))
    least, more = divmod(count, sheets)
    sizes = [least + 1] * more + [least] * (sheets - more)
    starts = [sum(sizes[:index]) for index in range(sheets)]
    return tuple(tuple(range(start, start + size)) for start, size in zip(starts, sizes, strict=True))


def column(most: int, paper: Paper) -> float:
    """The width of a machine's column with at most so many on a sheet, the same on all, so that one scale holds."""
    return min((WIDTHS[paper] - LABELS) / most, WIDEST)


def is_crowded(sheets: Sequence[Sequence[int]], rows: int) -> bool:
    """Whether a sheet is so full of columns or rows that drawings must be lower."""
    return rows > MANY_ROWS or max(map(len, sheets)) == MOST
