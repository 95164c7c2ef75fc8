"""A drawing as the operators of a PDF content stream (ISO 32000-1, 8.5 and 9.4), in hundredths of a millimetre.

Whole numbers are written and read in half the time of decimals.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain
from typing import Final

import numpy as np

from tracksworn.documents.drawing.plain import Circle, Curve, Drawing, Line, Path, Point, Runs, Stroke, Text
from tracksworn.documents.drawing.svg import HALO, HALO_WIDTH, MM_PER_POINT, number

UNITS: Final = 100
"""To a millimetre."""
QUARTER: Final = 4 / 3 * (math.sqrt(2) - 1)
"""How far the controls of a Bézier quarter circle stand from its ends, in radii."""


@dataclass(frozen=True, slots=True)
class Run:
    """Glyphs of one font: its name among the resources, the operand of TJ, width and height over the line in ems.

    `instead` is what they stand for where the font's own table would say otherwise.
    """

    font: str
    glyphs: str
    width: float
    rise: float = 0.0
    instead: str | None = None


SetType = Callable[[Text], tuple[Run, ...]]
"""Finds the glyphs of a text; more than one run where no single font has them all."""


def operators(drawing: Drawing, set_type: SetType) -> bytes:
    """All marks in the order in which they are painted; graphics state is only set where it changes."""
    pen = _Pen()
    lines = [f"1 0 0 -1 0 {number(drawing.height * UNITS)} cm 1 j"]
    for mark in drawing.marks:
        lines.extend(_type(mark, set_type, pen) if isinstance(mark, Text) else _path(mark, pen))
    return "\n".join(lines).encode("ascii")


class _Pen:
    """What the graphics state holds, so that it is not said twice."""

    def __init__(self) -> None:
        self._state: dict[str, str] = {"rg": "0 0 0", "RG": "0 0 0", "w": "1", "d": "[] 0", "J": "0", "Tr": "0"}

    def set(self, operator: str, operands: str) -> Iterator[str]:
        if self._state[operator] != operands:
            self._state[operator] = operands
            yield f"{operands} {operator}"

    def stroke(self, stroke: Stroke) -> Iterator[str]:
        yield from self.set("RG", _colour(stroke.colour))
        yield from self.set("w", number(stroke.width * UNITS))
        yield from self.set("d", f"[{' '.join(number(each * UNITS) for each in stroke.dash)}] 0")
        yield from self.set("J", "1" if stroke.cap == "round" else "0")


@lru_cache(maxsize=256)
def _colour(colour: str) -> str:
    red, green, blue = (int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5))
    return " ".join(f"{channel:.3f}".rstrip("0").rstrip(".") for channel in (red, green, blue))


def _path(path: Path, pen: _Pen) -> Iterator[str]:
    outline = _outline(path)
    if not outline or not (path.fill or path.stroke):
        return
    if path.fill:
        yield from pen.set("rg", _colour(path.fill))
    if path.stroke:
        yield from pen.stroke(path.stroke)
    yield outline
    yield ("B*" if path.stroke else "f*") if path.fill else "S"


def _outline(path: Path) -> str:
    """All shapes of a path; one formatting of all their numbers at once, which takes a third of one for each point."""
    patterns: list[str] = []
    numbers: list[float] = []
    for shape in path.drawn:
        if isinstance(shape, Runs):
            patterns.extend([_pattern(count - 1, "l", shape.closed) for count in shape.counts])
            numbers.extend(shape.numbers)
        elif isinstance(shape, Line):
            if len(shape.points) > 1:
                patterns.append(_pattern(len(shape.points) - 1, "l", shape.closed))
                numbers.extend(chain.from_iterable(shape.points))
        elif isinstance(shape, Circle):
            patterns.append(_pattern(4, "c", True))
            numbers.extend(_circle(shape.centre, shape.radius))
        else:
            patterns.append(_pattern(len(shape.pieces), "c", shape.closed))
            numbers.extend(_curve(shape))
    return " ".join(patterns) % tuple(np.rint(np.array(numbers) * UNITS).astype(int).tolist())


@lru_cache(maxsize=1024)
def _pattern(pieces: int, operator: str, closed: bool) -> str:
    """A start and so many lines or curves from there on."""
    points = " ".join(["%d %d"] * (3 if operator == "c" else 1))
    return " ".join(["%d %d m", *[f"{points} {operator}"] * pieces, *(["h"] if closed else [])])


def _curve(curve: Curve) -> Iterator[float]:
    yield from curve.start
    for piece in curve.pieces:
        yield from chain.from_iterable(piece)


def _circle(centre: Point, r: float) -> tuple[float, ...]:
    (x, y), k = centre, QUARTER * r
    return (
        x + r, y,
        x + r, y + k, x + k, y + r, x, y + r,
        x - k, y + r, x - r, y + k, x - r, y,
        x - r, y - k, x - k, y - r, x, y - r,
        x + k, y - r, x + r, y - k, x + r, y,
    )  # fmt: skip


def _type(text: Text, set_type: SetType, pen: _Pen) -> Iterator[str]:
    runs = set_type(text)
    if not runs:
        return
    size = text.size * MM_PER_POINT  # in millimetres all the same: by it PDFium tells where lines of type end
    shown = " ".join(_shown(run, size) for run in runs)
    placed = f"BT {_matrix(text, size * sum(run.width for run in runs))} Tm {shown} ET"
    if text.halo:
        yield from pen.stroke(Stroke(HALO_WIDTH, HALO))
        yield from pen.set("Tr", "1")
        yield placed
    yield from pen.set("rg", _colour(text.colour))
    yield from pen.set("Tr", "0")
    yield placed


def _shown(run: Run, size: float) -> str:
    shown = f"/{run.font} {size:.3f} Tf {run.glyphs} TJ"
    if run.rise:
        shown = f"{run.rise * size:.3f} Ts {shown} 0 Ts"
    if run.instead is not None:
        shown = f"/Span <</ActualText <FEFF{run.instead.encode('utf-16-be').hex().upper()}>>> BDC {shown} EMC"
    return shown


def _matrix(text: Text, width: float) -> str:
    """Where the first glyph stands and how it is turned; the y axis points down, so type is mirrored back."""
    cos, sin = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))
    back = {"start": 0.0, "middle": width / 2, "end": width}[text.anchor]
    x, y = (text.at[0] - back * cos) * UNITS, (text.at[1] - back * sin) * UNITS
    across, up = cos * UNITS, sin * UNITS
    return f"{across:.2f} {up:.2f} {up:.2f} {-across:.2f} {x:.1f} {y:.1f}"
