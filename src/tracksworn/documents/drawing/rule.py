"""The twin wear rule: two bars of metal that wear works inwards from their outer ends."""

from dataclasses import replace
from typing import Final

from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.bar import (
    OUTLINE,
    Bar,
    draw_bar,
    draw_range_by_eye,
    draw_whisker,
    percent_of_mm,
    range_by_eye,
)
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import INK, LABEL
from tracksworn.documents.drawing.lettering import broken, centred
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Drawing, Line, Text
from tracksworn.documents.drawing.type import text_width
from tracksworn.inspection.vocabulary import Side

BAR: Final = 34.0  # mm from as new to the limit
OUTER: Final = 1.6  # room beyond the as-new end, for a whisker or metal better than new
INNER: Final = 4.4  # room beyond the limit, for 110 % and a pointer
HEIGHT: Final = 8.6
TOP: Final = 2.7  # where the bar begins
DEPTH: Final = 4.6
COMPACT: Final = (1.9, 3.6, 6.2)
"""TOP, DEPTH and HEIGHT where many machines share a sheet."""
_WORD: Final = Text((0, 0), "", 7.0, 500, anchor="middle")
_AIR: Final = 0.9  # mm on either side of a word in the bar


def draw_rule(gauge: Gauge, side: Side, *, alternative: str, bar: float = BAR) -> Drawing:
    """One half, OUTER + bar + INNER wide; the right is the left's mirror image. Stage words are the page's."""
    pile, width = Pile(), OUTER + bar + INNER
    _draw_half(pile, gauge, _half(side, OUTER if side is Side.LEFT else width - OUTER, bar))
    return pile.drawing(width, HEIGHT, alternative)


def draw_compact_rule(gauge: Gauge, side: Side, *, alternative: str, bar: float, inner: float) -> Drawing:
    """The same where many machines share a sheet: less high, and `inner` wide beyond the limit.

    A range by eye that leaves its word no room stands alone: its dashes say it too.
    """
    (top, depth, height), width = COMPACT, OUTER + bar + inner
    pile, start = Pile(), OUTER if side is Side.LEFT else width - OUTER
    lying = _half(side, start, bar, (top, depth))
    if gauge.basis is Basis.BY_EYE and _widest(gauge)[1] < _room_for_word(lying, gauge):
        gauge = replace(gauge, word="")
    _draw_half(pile, gauge, lying, inner)
    return pile.drawing(width, height, alternative)


def draw_twin_rule(
    left: Gauge | None, right: Gauge | None, *, alternative: str, middle: float = 22.0, bar: float = BAR
) -> Drawing:
    """Both halves with `middle` mm between their limits, which the page fills with the delta. None: nothing there."""
    pile, width = Pile(), 2 * (OUTER + bar) + middle
    if left is not None:
        _draw_half(pile, left, _half(Side.LEFT, OUTER, bar))
    if right is not None:
        _draw_half(pile, right, _half(Side.RIGHT, width - OUTER, bar))
    return pile.drawing(width, HEIGHT, alternative)


def draw_half(pile: Pile, gauge: Gauge, side: Side, start: float, down: tuple[float, float], bar: float) -> None:
    """One half among others: new at `start` from the left, `down` its upper edge and depth, `bar` mm to the limit."""
    _draw_half(pile, gauge, _half(side, start, bar, down))


def draw_rule_scale(side: Side, figures: tuple[str, str, str, str], *, alternative: str, bar: float = BAR) -> Drawing:
    """The heads 0, 50, 80 and 100 over a half, as wide as the half itself."""
    pile, width = Pile(), OUTER + bar + INNER
    place = _half(side, OUTER if side is Side.LEFT else width - OUTER, bar)
    for percent, figure in zip((0, 50, 80, 100), figures, strict=True):
        pile.write(Text((place.at(percent)[0], 2.2), figure, 6.6, colour=LABEL, anchor="middle"))
    return pile.drawing(width, 3.0, alternative)


def words_inside(gauge: Gauge, bar: float = BAR) -> str:
    """What stands in a bar without metal; a reason too long for it is left to the page, beneath the bar."""
    whole = f"{gauge.word}, {gauge.reason}" if gauge.reason else gauge.word
    return whole if len(broken(whole, bar - 2 * _AIR, _WORD)) == 1 and _width(whole) <= bar - 2 * _AIR else gauge.word


def _half(side: Side, start: float, bar: float, down: tuple[float, float] = (TOP, DEPTH)) -> Bar:
    towards, (top, depth) = 1.0 if side is Side.LEFT else -1.0, down
    return Bar((start, top), (towards * bar / 100, 0.0), (0.0, depth), least=-100 * OUTER / bar * 0.85)


def _draw_half(pile: Pile, gauge: Gauge, bar: Bar, inner: float = INNER) -> None:
    draw_bar(pile, bar, gauge)
    if gauge.basis is Basis.BY_EYE:
        _ticks(pile, bar)
        _by_eye(pile, bar, gauge)
    elif gauge.basis is Basis.MEASURED and gauge.percent is not None:
        _ticks(pile, bar)
        draw_whisker(pile, bar, gauge, -0.38, 0.14)
        _pointer(pile, bar, gauge.percent, inner)
    else:
        length = abs(bar.along[0]) * 100
        pile.write(_word(bar, 50.0, words_inside(gauge, length)))


def _ticks(pile: Pile, bar: Bar) -> None:
    pile.stroke(OUTLINE, bar.beam(50, 1, 1.2), bar.beam(80, 1, 1.2))


def _pointer(pile: Pile, bar: Bar, percent: float, inner: float) -> None:
    """A triangle that hangs from the whisker on to the edge; it turns outwards where the edge is out of the drawing."""
    held, half = bar.held(percent), percent_of_mm(bar, 0.8)
    if held == percent:
        least, most = -percent_of_mm(bar, OUTER), 100 + percent_of_mm(bar, inner)
        ends = max(held - half, least), min(held + half, most)
        corners = (bar.at(ends[0], -0.38), bar.at(ends[1], -0.38), bar.at(held, -0.03))
    else:
        back = held - 2 * half if percent > held else held + 2 * half
        corners = (bar.at(back, -0.52), bar.at(held, -0.38), bar.at(back, -0.24))
    pile.fill(INK, Line(corners, closed=True))


def _by_eye(pile: Pile, bar: Bar, gauge: Gauge) -> None:
    """The word stands in the wider free end of the bar, else within the range, whose line then leaves it room."""
    if not gauge.word:
        draw_range_by_eye(pile, bar, gauge)
        return
    low, high = range_by_eye(gauge)
    need = _room_for_word(bar, gauge)
    free, length = _widest(gauge)
    if length >= need:
        draw_range_by_eye(pile, bar, gauge)
        pile.write(_word(bar, sum(free) / 2, gauge.word))
        return
    centre = (low + min(high, 100.0)) / 2
    draw_range_by_eye(pile, bar, gauge, (centre - need / 2, centre + need / 2))
    pile.write(_word(bar, centre, gauge.word))


def _room_for_word(bar: Bar, gauge: Gauge) -> float:
    """How many percent of the bar its word needs."""
    return percent_of_mm(bar, _width(gauge.word) + 2 * _AIR)


def _widest(gauge: Gauge) -> tuple[tuple[float, float], float]:
    """The wider free end beside a range by eye, and its length, in percent."""
    low, high = range_by_eye(gauge)
    free = max((min(high, 100.0), 100.0), (0.0, low), key=lambda stretch: stretch[1] - stretch[0])
    return free, free[1] - free[0]


def _word(bar: Bar, percent: float, word: str) -> Text:
    return Text(
        (bar.at(percent)[0], centred(bar.at(percent, 0.5)[1], _WORD.size)),
        word,
        _WORD.size,
        _WORD.weight,
        anchor="middle",
    )


def _width(word: str) -> float:
    return text_width(Text((0, 0), word, _WORD.size, _WORD.weight))
