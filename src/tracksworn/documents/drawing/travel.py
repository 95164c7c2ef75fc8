"""Travel and range, not wear: a thin line from start to end with a heavy tick. No metal, no stage."""

from typing import Final

from tracksworn.documents.drawing.inks import HAIRLINE
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Drawing, Line, Stroke
from tracksworn.documents.drawing.rule import BAR, INNER, OUTER
from tracksworn.inspection.vocabulary import Side

HEIGHT: Final = 4.4
MIDDLE: Final = HEIGHT / 2
TICK: Final = Stroke(0.6)
LINE: Final = Stroke(0.16)
BEYOND: Final = Stroke(0.16, HAIRLINE)
_LEAST: Final = -1.2  # percent for which there is room for the tick; further out an arrow points on
_MOST: Final = 108.0


def draw_travel(percent_used: float, side: Side, *, alternative: str, bar: float = BAR) -> Drawing:
    """Adjuster or cushion: from start (outer end) to end of travel, as wide as a half of the twin rule."""
    return _draw(percent_used, (0.0, 100.0), side, alternative, bar)


def draw_range(size: float, low: float, high: float, side: Side, *, alternative: str, bar: float = BAR) -> Drawing:
    """Sag: its range as the middle half of the line, the tick in or outside it. `low` and `high` may be equal."""
    extent = max(high - low, 0.1 * high)
    centre = (low + high) / 2
    half = 25.0 * (high - low) / extent
    return _draw(50.0 + 50.0 * (size - centre) / extent, (50.0 - half, 50.0 + half), side, alternative, bar)


def _draw(percent: float, ends: tuple[float, float], side: Side, alternative: str, bar: float) -> Drawing:
    pile, width = Pile(), OUTER + bar + INNER

    def at(value: float) -> float:
        x = OUTER + value * bar / 100
        return x if side is Side.LEFT else width - x

    held = min(max(percent, _LEAST), _MOST)
    reach = sorted((at(min(0.0, held)), at(max(100.0, held))))
    pile.stroke(BEYOND, _level(*reach))
    pile.stroke(LINE, _level(at(ends[0]), at(ends[1])), *(_upright(at(end), 0.9) for end in ends))
    pile.stroke(TICK, _upright(at(held), 1.5))
    if held != percent:
        pile.stroke(LINE, _arrow(at(held), 1.0 if (percent > held) == (side is Side.LEFT) else -1.0))
    return pile.drawing(width, HEIGHT, alternative)


def _level(start: float, end: float) -> Line:
    return Line(((start, MIDDLE), (end, MIDDLE)))


def _upright(x: float, half: float) -> Line:
    return Line(((x, MIDDLE - half), (x, MIDDLE + half)))


def _arrow(x: float, towards: float) -> Line:
    back, tip = x + 0.5 * towards, x + 1.1 * towards
    return Line(((back, MIDDLE - 0.6), (tip, MIDDLE), (back, MIDDLE + 0.6)))
