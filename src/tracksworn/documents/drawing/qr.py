"""A QR code (ISO/IEC 18004) as plain outlines: dark on white, its quiet zone kept."""

from typing import Final

import shapely
from shapely import affinity

from tracksworn.documents.drawing.inks import INK
from tracksworn.documents.drawing.outline import lines
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Drawing

SIDE: Final = 28.0
"""How wide a code is with its quiet zone, mm, at most."""
QUIET: Final = 4
"""Modules of white on every side, as the standard asks."""
CORRECTION: Final = "m"
"""At least 15 % of it may be lost; more where that makes the code no larger."""


def draw_qr(content: str, *, alternative: str, side: float = SIDE) -> Drawing:
    """A code that holds the text, at most `side` mm wide; a module measures whole hundredths of a millimetre.

    Neighbouring modules are one outline, so that no seam shows between them however a viewer smooths edges.
    """
    import segno  # noqa: PLC0415 - slow to import, and most documents have no code

    modules = segno.make_qr(content, error=CORRECTION).matrix
    count = len(modules) + 2 * QUIET
    module = int(100 * side / count) / 100
    dark = shapely.union_all(
        [
            shapely.box(x, y, x + 1, y + 1)
            for y, row in enumerate(modules, QUIET)
            for x, is_dark in enumerate(row, QUIET)
            if is_dark
        ]
    )
    outlines = affinity.scale(shapely.simplify(dark, 0.0), module, module, origin=(0.0, 0.0))
    pile = Pile()
    pile.fill(INK, *lines(outlines))
    return pile.drawing(module * count, module * count, alternative)
