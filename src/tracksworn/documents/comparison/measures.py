"""How machines are shared out over sheets that lie on their side, and how wide a column is."""

from typing import Final, Literal

Paper = Literal["A4", "letter"]

WIDTHS: Final[dict[Paper, float]] = {"A4": 269.0, "letter": 251.4}
"""Width of the text, mm."""
LABELS: Final = 25.0
"""Width of the labels of the rows, mm."""
MOST: Final = 4
"""Machines on one sheet: with five the rules would be too short to be read."""
WIDEST: Final = 122.0
"""A column needs no more, mm."""
GUTTER: Final = 4.0
"""Between two columns, mm."""


def sets(count: int) -> tuple[tuple[int, ...], ...]:
    """Which machines stand on one sheet: as few sheets as hold them, none with two more than another."""
    sheets = -(-count // MOST)
    least, more = divmod(count, sheets)
    sizes = [least + 1] * more + [least] * (sheets - more)
    starts = [sum(sizes[:index]) for index in range(sheets)]
    return tuple(tuple(range(start, start + size)) for start, size in zip(starts, sizes, strict=True))


def column(count: int, paper: Paper) -> float:
    """The width of a machine's column, the same on every sheet, so that one scale holds for all."""
    return min((WIDTHS[paper] - LABELS) / max(map(len, sets(count))), WIDEST)
