"""A fingerprint as a ring of strokes, one for each hexadecimal digit, clockwise from the mark: a longer one is higher.

It can be compared by eye with another ring, or digit by digit with the type beside it: a line of digits is the part
between two ticks. That of a document without a seal has a broken outline, so that it is not taken for one.
"""

import math
from dataclasses import dataclass, replace
from typing import Final

from tracksworn.documents.drawing.inks import INK, LABEL
from tracksworn.documents.drawing.lettering import centred
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Point, Stroke, Text
from tracksworn.documents.drawing.type import text_width

SIDE: Final = 43.0
DIGITS: Final = 64
PARTS: Final = 4
"""Into which ticks divide it, and as many lines are its digits in."""
INNER: Final = 10.2
"""Where the strokes begin, mm from the centre."""
LEAST: Final = 0.9
"""How long the stroke of a nought is."""
STEP: Final = 0.52
"""How much longer each next digit is."""
OUTLINE: Final = 19.6
_PEN: Final = 0.56
_PITCH: Final = 3.4  # between lines of its words
_CLEAR: Final = 1.6  # from its widest words to the strokes
_FIRST: Final = Text((0, 0), "", 8.8, 600, anchor="middle")
_LESS: Final = Text((0, 0), "", 6.8, 400, LABEL, anchor="middle")
_TICK: Final = (OUTLINE - 0.5, OUTLINE + 0.9)


@dataclass(frozen=True, slots=True)
class Ring:
    """The digits and what stands amid them, its first line heavier."""

    digits: str
    words: tuple[str, ...]
    sealed: bool
    accent: str
    alternative: str


def draw_ring(ring: Ring) -> Drawing:
    """A ring `SIDE` mm high and wide."""
    pile, ink = Pile(), ring.accent if ring.sealed else INK
    pile.fill(ink, Line((_at(OUTLINE + 0.4, 0.0), _at(OUTLINE + 1.9, -3.6), _at(OUTLINE + 1.9, 3.6)), closed=True))
    dash = () if ring.sealed else (1.1, 0.9)
    pile.stroke(Stroke(0.22 if ring.sealed else 0.16, INK, dash), Circle(_at(0.0, 0.0), OUTLINE))
    pile.stroke(Stroke(0.22, INK), *(Line(tuple(_at(r, 360 * k / PARTS) for r in _TICK)) for k in range(1, PARTS)))
    pile.stroke(Stroke(_PEN, ink), *(_stroke(index, int(digit, 16)) for index, digit in enumerate(ring.digits)))
    _write(pile, ring.words)
    return pile.drawing(SIDE, SIDE, ring.alternative)


def _stroke(index: int, value: int) -> Line:
    angle = 360 * (index + 0.5) / DIGITS
    return Line((_at(INNER, angle), _at(INNER + LEAST + STEP * value, angle)))


def _at(radius: float, angle: float) -> Point:
    """A place by its distance from the centre and degrees clockwise from the mark."""
    turned = math.radians(angle)
    return SIDE / 2 + radius * math.sin(turned), SIDE / 2 + radius * -math.cos(turned)


def _write(pile: Pile, words: tuple[str, ...]) -> None:
    first = SIDE / 2 - _PITCH * (len(words) - 1) / 2
    for line, word in enumerate(words):
        style = replace(_LESS if line else _FIRST, content=word)
        size = style.size * min(1, 2 * (INNER - _CLEAR) / text_width(style))
        pile.write(replace(style, size=size, at=(SIDE / 2, centred(first + _PITCH * line, size))))
