"""The overall ruler: floor, whole with its interval, ceiling, worst and limit on one line."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final

from tracksworn.assessment.model import Stage
from tracksworn.documents.drawing.bar import EDGE, LIMIT, OUTLINE, dashed
from tracksworn.documents.drawing.inks import INK, LABEL, STAGE_INKS
from tracksworn.documents.drawing.lettering import Box, box_of
from tracksworn.documents.drawing.pile import Pile, rectangle
from tracksworn.documents.drawing.plain import Drawing, Line, Stroke, Text
from tracksworn.documents.drawing.type import text_width

HEIGHT: Final = 12.2
END: Final = 110.0  # percent at the ruler's right end
_AXIS: Final = 7.6
_NEAR: Final = 6.7  # baseline of what stands beside the interval
_ABOVE: Final = 4.0  # baseline of what stands over it
_TOP: Final = 1.9
_BAR: Final = 1.1  # height of the interval's bar
_GAP: Final = 0.9
_SAME: Final = 0.05  # percent: floor and ceiling nearer than that are one figure
_BRACKET: Final = Stroke(0.3, LABEL)


@dataclass(frozen=True, slots=True)
class Ruler:
    """The overall figure. `low` without `high` is `at least`; both None where nothing was seen or measured."""

    percent: float | None
    low: float | None
    high: float | None
    floor: float
    ceiling: float
    whole_text: str  # `whole 53`, `at least 50`; empty where there is none
    floor_text: str  # `floor 49`
    ceiling_text: str  # `ceiling 56`
    new_text: str  # `as new`
    limit_text: str  # `limit`
    alternative: str
    worst: float | None = None
    worst_text: str = ""  # `worst`
    worst_stage: Stage | None = None
    by_eye: bool = False  # no part was measured: the interval is dashed
    width: float = 182.0

    @property
    def all_seen(self) -> bool:
        """Whether floor and ceiling are the whole itself, so that neither is drawn."""
        return self.low is not None and self.ceiling - self.floor < _SAME

    def at(self, percent: float) -> float:
        """Where a percent stands, mm from the left; what is off the ruler stands at its end."""
        return min(max(percent, 0.0), END) * self.width / END


def draw_ruler(ruler: Ruler) -> Drawing:
    """The ruler from 0 to 110, 182 × 12.2 mm."""
    pile = Pile()
    _draw_axis(pile, ruler)
    _draw_figures(pile, ruler)
    _draw_bracket(pile, ruler)
    _draw_whole(pile, ruler)
    _draw_worst(pile, ruler)
    pile.write(*_labels(ruler))
    return pile.drawing(ruler.width, HEIGHT, ruler.alternative)


def _draw_axis(pile: Pile, ruler: Ruler) -> None:
    inset = OUTLINE.width / 2
    ticks = []
    for percent in range(int(END) + 1):
        x = min(max(ruler.at(percent), inset), ruler.width - inset)
        ticks.append(Line(((x, _AXIS), (x, _AXIS + _tick(percent)))))
    pile.stroke(OUTLINE, Line(((0, _AXIS), (ruler.width, _AXIS))), *ticks)
    pile.stroke(LIMIT, Line(((ruler.at(100), _AXIS - 2.2), (ruler.at(100), _AXIS + 1.5))))


def _tick(percent: int) -> float:
    if percent % 10 == 0:
        return 1.5
    return 1.1 if percent % 5 == 0 else 0.7


def _draw_figures(pile: Pile, ruler: Ruler) -> None:
    """The tens, with the words for 0 and 100 at their right; a ten that these need the room of is left out."""
    baseline = HEIGHT - 0.7
    zero = Text((0, baseline), "0", 6.6, colour=LABEL)
    new = Text((2.2, baseline), ruler.new_text, 6.6, colour=LABEL)
    hundred = Text((ruler.at(100), baseline), "100", 6.6, 600, anchor="middle")
    limit = Text((ruler.at(100) + 3.2, baseline), ruler.limit_text, 6.6, 600)
    if not box_of(limit).inside(ruler.width, HEIGHT):
        limit = replace(limit, at=(ruler.at(100) - 3.2, baseline), anchor="end")
    named = [zero, new, hundred, limit]
    taken = [box_of(text) for text in named]
    tens = (Text((ruler.at(ten), baseline), str(ten), 6.6, colour=LABEL, anchor="middle") for ten in range(10, 100, 10))
    pile.write(*named, *(text for text in tens if not any(box_of(text).meets(box, _GAP) for box in taken)))


def _draw_bracket(pile: Pile, ruler: Ruler) -> None:
    """From floor to ceiling, left open where the whole's own interval stands."""
    if ruler.all_seen:
        return
    y, inset = _AXIS - _BAR / 2, _BRACKET.width / 2
    floor, ceiling = max(ruler.at(ruler.floor), inset), min(ruler.at(ruler.ceiling), ruler.width - inset)
    low, high = _interval(ruler) or (ceiling, ceiling)
    for end, inner in ((floor, low), (ceiling, high)):
        if (inner > end) is (end is floor) and inner != end:
            pile.stroke(_BRACKET, Line(((end, y), (inner, y))))
    pile.extend((Line(((x, y - 0.5), (x, y + 0.5))) for x in (floor, ceiling) if not low < x < high), _BRACKET)


def _interval(ruler: Ruler) -> tuple[float, float] | None:
    if ruler.low is None:
        return None
    low = ruler.at(ruler.low)
    return low, max(ruler.at(ruler.ceiling if ruler.high is None else ruler.high), low + 0.4)


def _draw_whole(pile: Pile, ruler: Ruler) -> None:
    """The interval: solid where anything was measured, an empty dashed outline by eye, open to the right at least."""
    if ruler.low is None:
        return
    top, low = _AXIS - _BAR, ruler.at(ruler.low)
    if ruler.high is None:
        high = ruler.at(ruler.ceiling)
        tip = high - 0.5
        pile.stroke(EDGE, *dashed((low, top), (tip, top)))
        pile.stroke(EDGE, Line(((tip - 0.9, top - 0.6), (tip, top), (tip - 0.9, top + 0.6))))
        pile.fill(INK, Line(rectangle(low, top - 0.5, low + 0.6, _AXIS), closed=True))
        return
    high = max(ruler.at(ruler.high), low + 0.4)
    shape = Line(rectangle(low, top, high, _AXIS), closed=True)
    if ruler.by_eye:
        ends = (Line(((x, top - 0.2), (x, _AXIS))) for x in (low, high))
        pile.stroke(EDGE, *dashed((low, top + 0.35), (high, top + 0.35)), *ends)
    else:
        pile.fill(INK, shape)


def _draw_worst(pile: Pile, ruler: Ruler) -> None:
    if ruler.worst is None:
        return
    x, y, stage = ruler.at(ruler.worst), _pointer_foot(ruler), ruler.worst_stage
    if ruler.worst > END:
        corners = ((x - 1.8, y - 1.8), (x - 0.1, y - 0.9), (x - 1.8, y))
    else:
        x = min(max(x, 0.95), ruler.width - 0.95) if ruler.worst > 0 else 0.95
        corners = ((x - 0.9, y - 1.5), (x + 0.9, y - 1.5), (x, y))
    shape = Line(corners, closed=True)
    pile.fill(STAGE_INKS[stage] if stage else "#ffffff", shape)
    pile.stroke(OUTLINE, shape)


def _pointer_foot(ruler: Ruler) -> float:
    """The worst stands on the axis, or on the bracket or the interval where these lie beneath it."""
    low, high = _interval(ruler) or (ruler.at(ruler.floor), ruler.at(ruler.ceiling))
    low, high = min(low, ruler.at(ruler.floor)) - 1.6, max(high, ruler.at(ruler.ceiling)) + 1.6
    free = ruler.worst is None or not low <= ruler.at(ruler.worst) <= high
    return _AXIS - 0.15 if free else _AXIS - _BAR - 0.55


def _labels(ruler: Ruler) -> list[Text]:
    """Each label at the first of its places that is clear of those before it."""
    placed: list[Text] = []
    taken = list(_marks(ruler))
    for candidates in (_whole_places(ruler), _floor_places(ruler), _ceiling_places(ruler), _worst_places(ruler)):
        chosen = next((text for text in candidates if text.content and _is_clear(box_of(text), ruler, taken)), None)
        if chosen is not None:
            placed.append(chosen)
            box = box_of(chosen)
            taken.append(replace(box, left=box.left - _GAP, right=box.right + _GAP))
    return placed


def _is_clear(box: Box, ruler: Ruler, taken: Iterable[Box]) -> bool:
    return box.inside(ruler.width, HEIGHT) and not any(box.meets(other, 0.3) for other in taken)


def _marks(ruler: Ruler) -> Iterable[Box]:
    """What labels keep clear of: the limit, the interval and the worst."""
    yield Box(ruler.at(100) - 0.25, _AXIS - 2.2, ruler.at(100) + 0.25, _AXIS)
    interval = _interval(ruler)
    if interval:
        yield Box(interval[0], _AXIS - _BAR, interval[1], _AXIS)
    if ruler.worst is not None:
        x, foot = ruler.at(ruler.worst), _pointer_foot(ruler)
        yield Box(x - 1, foot - 1.6, x + 1, foot)


def _whole_places(ruler: Ruler) -> Iterable[Text]:
    if ruler.low is None:
        return
    end = ruler.low if ruler.high is None else ruler.high
    centre = ruler.at((ruler.low + end) / 2 if ruler.percent is None else ruler.percent)
    style = Text((centre, _ABOVE), ruler.whole_text, 7.4, 600, anchor="middle")
    yield from _rows(style, ruler, (_ABOVE, _TOP))


def _floor_places(ruler: Ruler) -> Iterable[Text]:
    if ruler.all_seen:
        return
    floor = ruler.at(ruler.floor)
    low, _ = _interval(ruler) or (ruler.at(ruler.ceiling), 0.0)
    style = Text((min(floor, low) - _GAP, _NEAR), ruler.floor_text, 6.8, colour=LABEL, anchor="end")
    yield style
    if low - floor > text_width(style) + 2 * _GAP:
        yield replace(style, at=(floor + _GAP, _NEAR - 0.9), anchor="start")
    yield from _anywhere(style, ruler)


def _ceiling_places(ruler: Ruler) -> Iterable[Text]:
    if ruler.all_seen:
        return
    ceiling = ruler.at(ruler.ceiling)
    _, high = _interval(ruler) or (0.0, ruler.at(ruler.floor))
    style = Text((max(ceiling, high) + _GAP, _NEAR), ruler.ceiling_text, 6.8, colour=LABEL)
    yield style
    if ceiling - high > text_width(style) + 2 * _GAP:
        yield replace(style, at=(ceiling - _GAP, _NEAR - 0.9), anchor="end")
    if ceiling + _GAP + text_width(style) > ruler.at(100):
        yield replace(style, at=(ruler.at(100) + _GAP, _NEAR))
    yield from _anywhere(style, ruler)


def _worst_places(ruler: Ruler) -> Iterable[Text]:
    if ruler.worst is None:
        return
    x = ruler.at(ruler.worst)
    style = Text((x, _ABOVE), ruler.worst_text, 6.8, colour=LABEL, anchor="middle")
    yield from _rows(style, ruler, (_ABOVE,))
    yield replace(style, at=(x + 1.5, _ABOVE), anchor="start")
    yield replace(style, at=(x - 1.5, _ABOVE), anchor="end")
    yield from _anywhere(style, ruler)


def _anywhere(text: Text, ruler: Ruler) -> Iterable[Text]:
    """The nearest that is clear, on any row."""
    for distance in range(60):
        for towards in (-1, 1):
            moved = replace(text, at=(text.at[0] + towards * distance, 0.0))
            yield from _rows(moved, ruler, (_NEAR, _ABOVE, _TOP))


def _rows(text: Text, ruler: Ruler, baselines: Iterable[float]) -> Iterable[Text]:
    """The text on each row, moved as far as the ruler's ends ask."""
    box = box_of(text)
    shift = max(-box.left, 0.0) or min(ruler.width - box.right, 0.0)
    for baseline in baselines:
        yield replace(text, at=(text.at[0] + shift, baseline))
