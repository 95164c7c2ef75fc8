"""What terms allow against the hours since a part was fitted, and where every part stands in it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from tracksworn.assessment.decisions import Result
from tracksworn.documents.drawing.inks import HAIRLINE, INK, LABEL, PAPER
from tracksworn.documents.drawing.lettering import Box, box_of, broken, centred, spread
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Point, Stroke, Text
from tracksworn.documents.drawing.type import width_mm

WIDTH: Final = 50.0
HEIGHT: Final = 38.0
LEAST: Final = 30.0
"""How far it gives way to names under its axis."""
TOP: Final = 100.0
"""Percent up to which it reaches at least."""
MOST: Final = 120.0
"""And at most; what is worn further stands there as a pointer."""
STEP: Final = 20
_LEFT, _RIGHT = 5.0, 14.5  # room for figures, and the least for the names of what is allowed
_HEAD, _FOOT = 3.4, 4.6
_DOT: Final = 0.62
_NAME: Final = Text((0, 0), "", 6.4, 500, halo=True)
_CAP: Final = 0.5  # half an end of a whisker
_BESIDE: Final = 1.4
_FURTHER: Final = 3.6
_CLEAR: Final = 0.2  # between a name and what else stands there
_NEAR: Final = 6.0  # from a dot's height to its name's; further off a number does better
_NEXT: Final = 1.2  # from a curve's end to its name
_PITCH: Final = 2.9  # between names
_KEYED: Final = 3.0  # from the left to names under the axis
_AXIS: Final = Text((0, 0), "", 6.4, 400, LABEL)
_GRID: Final = Stroke(0.12, HAIRLINE)
_BASE: Final = Stroke(0.22)
_CURVE: Final = Stroke(0.42)
_DASHES: Final = ((), (1.1, 0.6), (0.4, 0.5), (2.2, 0.6, 0.4, 0.6))
_WHISKER: Final = Stroke(0.22)
_BEHIND: Final = Stroke(2.2, PAPER)
_LEADER: Final = Stroke(0.16, LABEL)
_OPEN: Final = Stroke(0.26)
_CLEARING: Final = Stroke(_DOT, PAPER)


@dataclass(frozen=True, slots=True)
class AllowedCurve:
    """What is allowed: percents at hours, straight between."""

    name: str
    rows: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Stand:
    """One part: hours since it was fitted, percent worn, the ends of what decides; a name only where it has one."""

    hours: float
    percent: float
    low: float
    high: float
    result: Result
    name: str = ""


@dataclass(frozen=True, slots=True)
class Allowed:
    """All that the chart shows. `hours` are the figures of its axis with what they read."""

    curves: tuple[AllowedCurve, ...]
    stands: tuple[Stand, ...]
    hours: tuple[tuple[float, str], ...]
    alternative: str

    @property
    def last(self) -> float:
        """Hours at its right end."""
        return max([hours for curve in self.curves for hours, _ in curve.rows] + [1.0])

    @property
    def top(self) -> float:
        """Percent at its top."""
        reached = max([one.high for one in self.stands] + [p for curve in self.curves for _, p in curve.rows] + [TOP])
        return min(STEP * math.ceil(reached / STEP), MOST)


def draw_allowed(allowed: Allowed, *, width: float = WIDTH, height: float = HEIGHT) -> Drawing:
    """Curves of what is allowed; a filled dot fails, an open one passes, a half one is undecided."""
    pile, scale = Pile(), _Scale(allowed, width, height)
    names, key = _names(scale, _NEAR), list[Text]()
    if names is None:
        lines = [line for stand in _named(scale) for line in _keyed(stand, width)]
        height = max(height - _PITCH * len(lines), LEAST)
        key = list(_key(_Scale(allowed, width, height)))
        scale = _Scale(_numbered(allowed, scale), width, height)
        names = _names(scale, height) or [next(_ways(scale, stand, 0.0)) for stand in _named(scale)]
    _axes(pile, scale, allowed, [box_of(name) for name in names])
    for curve, dash in zip(allowed.curves, _dashes(len(allowed.curves)), strict=True):
        pile.stroke(replace(_CURVE, dash=dash), Line(tuple(scale.at(*row) for row in curve.rows)))
    _name_curves(pile, scale, allowed.curves)
    pile.stroke(_BEHIND, *(_along(name) for name in names))
    for stand in allowed.stands:
        _stand(pile, scale, stand)
    _lead(pile, scale, names)
    pile.write(*names, *key)
    foot = max((box_of(line).bottom for line in key), default=height)
    return pile.drawing(width, foot, allowed.alternative)


@dataclass(frozen=True, slots=True)
class _Scale:
    allowed: Allowed
    width: float
    height: float

    def x(self, hours: float) -> float:
        return _LEFT + (self.width - _LEFT - self.right) * hours / self.allowed.last

    @property
    def right(self) -> float:
        """Room for the names of what is allowed."""
        widths = [width_mm(curve.name, _NAME.size, weight=600) for curve in self.allowed.curves]
        return max([_RIGHT, *(wide + _NEXT + 0.2 for wide in widths)])

    def y(self, percent: float) -> float:
        room = self.height - _HEAD - _FOOT
        return self.height - _FOOT - room * min(max(percent, 0.0), self.allowed.top) / self.allowed.top

    def at(self, hours: float, percent: float) -> Point:
        return self.x(hours), self.y(percent)


def _dashes(count: int) -> Iterator[tuple[float, ...]]:
    """The last, which is of all others, is full; those named before it are dashed."""
    yield from (_DASHES[1 + index % (len(_DASHES) - 1)] for index in range(count - 1))
    yield from ((),) * min(count, 1)


def _axes(pile: Pile, scale: _Scale, allowed: Allowed, taken: Sequence[Box]) -> None:
    """A figure gives way where a long name needs its place: those above and below it tell the same."""
    right = scale.x(allowed.last)
    for percent in range(0, int(allowed.top) + 1, STEP):
        y = scale.y(percent)
        pile.stroke(_GRID if percent else _BASE, Line(((_LEFT, y), (right, y))))
        figure = replace(_AXIS, at=(_LEFT - 1.0, centred(y, _AXIS.size)), content=str(percent), anchor="end")
        if not any(box_of(figure).meets(box) for box in taken):
            pile.write(figure)
    foot = scale.y(0.0)
    for hours, said in allowed.hours:
        x = scale.x(hours)
        pile.stroke(_BASE, Line(((x, foot), (x, foot + 0.8))))
        pile.write(replace(_AXIS, at=(x, foot + 3.6), content=said, anchor="middle"))


def _name_curves(pile: Pile, scale: _Scale, curves: Sequence[AllowedCurve]) -> None:
    """Each at its right end, none upon another."""
    ordered = sorted(curves, key=lambda curve: scale.y(curve.rows[-1][1]))
    wanted = [scale.y(curve.rows[-1][1]) for curve in ordered]
    heights = spread(wanted, _PITCH, _HEAD, scale.height - _FOOT)
    for curve, y in zip(ordered, heights, strict=True):
        at = (scale.x(scale.allowed.last) + _NEXT, centred(y, _NAME.size))
        pile.write(replace(_NAME, at=at, content=curve.name, weight=600, halo=False))


def _stand(pile: Pile, scale: _Scale, stand: Stand) -> None:
    x, y = scale.at(stand.hours, stand.percent)
    if stand.percent > scale.allowed.top:
        pile.fill(INK, Line(((x - 0.8, y + 0.9), (x, y - 0.5), (x + 0.8, y + 0.9)), closed=True))
        return
    if stand.name:
        low, high = scale.y(stand.low), scale.y(stand.high)
        ends = [Line(((x - _CAP, end), (x + _CAP, end))) for end in (low, high)]
        pile.stroke(_WHISKER, Line(((x, low), (x, high))), *ends)
    if stand.result is Result.FAILS:
        pile.fill(INK, Circle((x, y), _DOT + 0.13))
    else:
        pile.stroke(_CLEARING, Circle((x, y), _DOT / 2))
        pile.stroke(_OPEN, Circle((x, y), _DOT))
    if stand.result is Result.UNDECIDED:
        pile.stroke(_OPEN, Line(((x - _DOT, y), (x + _DOT, y))))


def _named(scale: _Scale) -> list[Stand]:
    return sorted((one for one in scale.allowed.stands if one.name), key=lambda one: scale.y(one.percent))


def _names(scale: _Scale, reach: float) -> list[Text] | None:
    """Beside their dots or up to `reach` mm above or below, clear of one another and of every part's place.

    None where one of them finds no room.
    """
    placed: list[Text] = []
    taken = [box for stand in scale.allowed.stands for box in _places(scale, stand)]
    for stand in _named(scale):
        name = next((one for one in _ways(scale, stand, reach) if _is_free(box_of(one), scale, taken)), None)
        if name is None:
            return None
        placed.append(name)
        taken.append(box_of(name))
    return placed


def _ways(scale: _Scale, stand: Stand, reach: float) -> Iterator[Text]:
    """Where its name could stand, the nearest first: on the side with more room, on the other, then moved away."""
    x, level = scale.at(stand.hours, stand.percent)
    steps = [0.0, *(sign * step * _PITCH / 2 for step in range(1, int(2 * reach / _PITCH) + 1) for sign in (-1, 1))]
    sides: tuple[Literal["start", "end"], ...] = ("start", "end")
    for step in steps:
        for far in (_BESIDE, _FURTHER):
            for anchor in reversed(sides) if stand.hours > scale.allowed.last / 2 else sides:
                beside = far if anchor == "start" else -far
                at = (x + beside, centred(level + step, _NAME.size))
                yield replace(_NAME, at=at, content=stand.name, anchor=anchor)


def _is_free(box: Box, scale: _Scale, taken: Sequence[Box]) -> bool:
    """Whether a name neither leaves the chart nor comes upon what is there."""
    left, right = 0.2, scale.x(scale.allowed.last)
    top, foot = scale.y(scale.allowed.top) - _HEAD, scale.y(0.0)
    within = left <= box.left and box.right <= right and top <= box.top and box.bottom <= foot
    return within and not any(box.meets(one, _CLEAR) for one in taken)


def _places(scale: _Scale, stand: Stand) -> Iterator[Box]:
    """What a part takes of the chart: its dot or pointer, and the whisker of one that is named."""
    x, y = scale.at(stand.hours, stand.percent)
    yield Box(x - _DOT, y - _DOT, x + _DOT, y + _DOT)
    if stand.name:
        yield Box(x - _CAP, scale.y(stand.high), x + _CAP, scale.y(stand.low))


def _numbered(allowed: Allowed, scale: _Scale) -> Allowed:
    """The same with numbers for names, from the top."""
    numbers = {stand: str(number) for number, stand in enumerate(_named(scale), start=1)}
    return replace(allowed, stands=tuple(replace(one, name=numbers.get(one, "")) for one in allowed.stands))


def _keyed(stand: Stand, width: float) -> list[str]:
    return broken(stand.name, width - _KEYED, _NAME)


def _key(scale: _Scale) -> Iterator[Text]:
    """Under the axis, what has a number in the chart."""
    y = scale.height + _PITCH / 2
    for number, stand in enumerate(_named(scale), start=1):
        for index, line in enumerate(_keyed(stand, scale.width)):
            at = centred(y, _NAME.size)
            if index == 0:
                yield replace(_NAME, at=(0.2, at), content=str(number), weight=600, halo=False)
            yield replace(_NAME, at=(_KEYED, at), content=line, halo=False)
            y += _PITCH


def _along(name: Text) -> Line:
    """Through the middle of a name, from its one end to the other."""
    box = box_of(name)
    middle = name.at[1] - centred(0.0, name.size)
    return Line(((box.left, middle), (box.right, middle)))


def _lead(pile: Pile, scale: _Scale, names: Sequence[Text]) -> None:
    """A leader from a name that has moved away from its dot."""
    for stand, name in zip(_named(scale), names, strict=True):
        dot, level = scale.at(stand.hours, stand.percent)
        y, towards = name.at[1] - centred(0.0, name.size), 1 if name.anchor == "end" else -1
        if abs(y - level) > _DOT or abs(name.at[0] - dot) > _BESIDE + _DOT:
            pile.stroke(_LEADER, Line(((name.at[0] + 0.3 * towards, y), (dot - _DOT * towards, level))))
