"""A QR code (ISO/IEC 18004) as plain outlines: dark on white, its quiet zone kept."""

from collections import defaultdict
from collections.abc import Iterator
from typing import Final

import numpy as np
from numpy.typing import NDArray

from tracksworn.documents.drawing.inks import INK
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Drawing, Line

SIDE: Final = 28.0
"""How wide a code is with its quiet zone, mm, at most."""
QUIET: Final = 4
"""Modules of white on every side, as the standard asks."""
CORRECTION: Final = "m"
"""At least 15 % of it may be lost; more where that makes the code no larger."""

Corner = tuple[int, int]
_EDGES: Final = (
    ((-1, 0), (0, 0), (1, 0)), ((0, 1), (1, 0), (1, 1)), ((1, 0), (1, 1), (0, 1)), ((0, -1), (0, 1), (0, 0)),
)  # fmt: skip
"""Of a field: towards which neighbour (down, across) a side lies, and its corners (across, down) clockwise."""


def draw_qr(content: str, *, alternative: str, side: float = SIDE) -> Drawing:
    """A code that holds the text, at most `side` mm wide; a module measures whole hundredths of a millimetre.

    Neighbouring modules are one outline, so that no seam shows between them however a viewer smooths edges.
    """
    import segno  # noqa: PLC0415 - slow to import, and most documents have no code

    dark = np.pad(np.asarray(segno.make_qr(content, error=CORRECTION).matrix, dtype=bool), QUIET)
    count = len(dark)
    module = int(100 * side / count) / 100
    outlines = (Line(tuple((x * module, y * module) for x, y in outline), closed=True) for outline in _outlines(dark))
    pile = Pile()
    pile.fill(INK, *outlines)
    return pile.drawing(module * count, module * count, alternative)


def _outlines(dark: NDArray[np.bool_]) -> Iterator[tuple[Corner, ...]]:
    """The corners of the outlines round dark fields, holes included, for an even-odd fill; where two fields touch at a
    corner alone the outline goes either way.
    """
    sides = _sides(dark)
    while sides:
        first = next(iter(sides))
        corners, at, way = [first], first, (0, 0)
        while at in sides:
            there = sides[at].pop()
            if not sides[at]:
                del sides[at]
            on = (there[0] - at[0], there[1] - at[1])
            if on == way:
                corners[-1] = there
            else:
                corners.append(there)
            at, way = there, on
        yield tuple(corners[:-1])


def _sides(dark: NDArray[np.bool_]) -> dict[Corner, list[Corner]]:
    """The sides of dark fields against light ones, clockwise round the dark: from each corner to the next."""
    sides: dict[Corner, list[Corner]] = defaultdict(list)
    for (down, across), corner, end in _EDGES:
        for y, x in np.argwhere(dark & ~np.roll(dark, (-down, -across), (0, 1))).tolist():
            sides[x + corner[0], y + corner[1]].append((x + end[0], y + end[1]))
    return sides
