"""How many of many machines are how worn: a column for every ten points, and apart what is not known."""

from dataclasses import dataclass
from typing import Final

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.stages import stage
from tracksworn.documents.drawing.bar import LIMIT, OUTLINE
from tracksworn.documents.drawing.inks import LABEL, STAGE_INKS
from tracksworn.documents.drawing.pile import Pile, rectangle
from tracksworn.documents.drawing.plain import Drawing, Line, Stroke, Text

WIDTH: Final = 92.0
HEIGHT: Final = 35.0
_FOOT: Final = 27.4
_TOP: Final = 4.4  # of the highest column
_STEP: Final = 6.6
_GAP: Final = 0.35
_APART: Final = 4.2
_ASIDE: Final = 9.4
_SIZE: Final = 6.6
_DASHED: Final = Stroke(0.2, dash=(0.9, 0.6))


@dataclass(frozen=True, slots=True)
class Distribution:
    """Counts of machines: from 0 to under 10 percent worn, … from 90 to 100, and those that are in no class."""

    classes: tuple[int, ...]
    aside: tuple[tuple[str, int], ...]  # what they are called, and how many
    median: float | None
    median_text: str
    limit: str  # the word at 100
    alternative: str


def draw_distribution(told: Distribution) -> Drawing:
    """The columns, 92 × 35 mm; the highest is as high as there is room."""
    pile, most = Pile(), max(1, *told.classes, *(count for _, count in told.aside))
    for index, count in enumerate(told.classes):
        left = index * _STEP
        _draw_column(pile, (left + _GAP, left + _STEP - _GAP), count, most, STAGE_INKS[stage(10.0 * index)])
    _draw_axis(pile, told)
    for index, (name, count) in enumerate(told.aside):
        left = len(told.classes) * _STEP + _APART + index * (_ASIDE + 1.2)
        _draw_column(pile, (left, left + _ASIDE), count, most, None)
        pile.stroke(OUTLINE, Line(((left, _FOOT), (left + _ASIDE, _FOOT))))
        for row, word in enumerate(_in_lines(name)):
            pile.write(Text((left + _ASIDE / 2, _FOOT + 2.9 + 2.5 * row), word, _SIZE, colour=LABEL, anchor="middle"))
    return pile.drawing(WIDTH, HEIGHT, told.alternative)


def _draw_column(pile: Pile, sides: tuple[float, float], count: int, most: int, ink: str | None) -> None:
    left, right = sides
    top = _FOOT - (_FOOT - _TOP) * count / most
    pile.write(Text(((left + right) / 2, top - 0.7), str(count), 7.4, 600 if count else 400, anchor="middle"))
    if count and ink is not None:
        pile.fill(ink, Line(rectangle(left, top, right, _FOOT), closed=True))
    elif count:
        pile.stroke(_DASHED, Line(((left, _FOOT), (left, top), (right, top), (right, _FOOT))))


def _draw_axis(pile: Pile, told: Distribution) -> None:
    end = len(told.classes) * _STEP
    pile.stroke(OUTLINE, Line(((0, _FOOT), (end, _FOOT))))
    for ten in range(0, 100, 10):
        x = ten / 10 * _STEP
        pile.stroke(OUTLINE, Line(((x, _FOOT), (x, _FOOT + 0.8))))
        if ten:
            pile.write(Text((x, _FOOT + 2.9), str(ten), _SIZE, colour=LABEL, anchor="middle"))
    pile.write(Text((0, _FOOT + 2.9), "0", _SIZE, colour=LABEL))
    pile.stroke(LIMIT, Line(((end, _FOOT - 1.6), (end, _FOOT + 1.2))))
    pile.write(Text((end + 0.6, _FOOT + 3.1), "100", _SIZE, 600, anchor="middle"))
    pile.write(Text((end + 0.6, _FOOT + 5.6), told.limit, _SIZE, 600, anchor="middle"))
    if told.median is not None and reaches(told.median, 0.0):
        x = told.median / 10 * _STEP
        pile.fill("#1b2329", Line(((x, _FOOT + 3.9), (x - 0.9, _FOOT + 5.3), (x + 0.9, _FOOT + 5.3)), closed=True))
        after = x < end / 2
        at = (x + 1.6 if after else x - 1.6, _FOOT + 5.6)
        pile.write(Text(at, told.median_text, _SIZE, anchor="start" if after else "end"))


def _in_lines(name: str) -> tuple[str, ...]:
    """Words one under the other."""
    return tuple(name.split(" "))[:3]
