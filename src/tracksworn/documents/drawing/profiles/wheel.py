"""Sections of idler rim, bottom roller and top roller through their axis: half of the wheel, broken off below."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from shapely.geometry import Polygon, box
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.plain import Point
from tracksworn.documents.drawing.profiles.amounts import Amounts
from tracksworn.documents.drawing.profiles.profile import Flank, Measure, ProfileWords, Worn
from tracksworn.documents.drawing.profiles.section import Losses, Mark, Name, Section, Span, joined, over
from tracksworn.inspection.vocabulary import PartPlace

_STEPS = 14


@dataclass(frozen=True, slots=True)
class _Tread:
    """A stretch on which the chain runs. A guarded end runs against a flange, an open one falls away."""

    start: float
    end: float
    guarded: tuple[bool, bool]

    def gone(self, share: float) -> float:
        """The share of the loss at a share of the width: a trough, with a lip left standing at a flange's root."""
        lip = 0.0
        if self.guarded[0]:
            lip = max(lip, 1 - share / 0.09)
        if self.guarded[1]:
            lip = max(lip, 1 - (1 - share) / 0.09)
        return (0.94 + 0.06 * (1 - (2 * share - 1) ** 2)) * (1 - 0.4 * max(lip, 0.0) ** 2)


@dataclass(frozen=True, slots=True)
class _Wheel:
    """An outline as new from left to right, the treads on it at `level`, and the foot where it is broken off."""

    top: tuple[Point, ...]
    treads: tuple[_Tread, ...]
    level: float
    foot: float
    factor: float  # of a loss of size that is a loss of radius


def _scale(given: Amounts, flange: float) -> tuple[float, float]:
    """The radius of the tread as new, and how much of a loss of size is a loss of radius."""
    if given.measure is Measure.DEPTH:
        return given.new / flange, 1.0
    return given.new / 2, 0.5


def idler_section(worn: Sequence[Worn], given: Amounts, depth: float, flank: Flank | None = None) -> Section:
    """Rim with its guide in the middle, outer tread at the left.

    Side wear is cut from the guide's flank at its place, or at the more worn tread where no place was said.
    """
    radius, factor = _scale(given, 0.06)
    width, guide, slope = 0.52 * radius, 0.06 * radius, 0.016 * radius
    tread, edge = 0.285 * width, 0.012 * radius
    level, foot = radius, max(radius - max(2.1 * factor * depth, 0.075 * radius), 0.02 * radius)
    left, right = tread, width - tread
    top = (
        (0.0, level),
        (left, level),
        (left + slope, level + guide - edge),
        (left + slope + edge, level + guide),
        (right - slope - edge, level + guide),
        (right - slope, level + guide - edge),
        (right, level),
        (width, level),
    )
    treads = (_Tread(0.0, left, (False, True)), _Tread(right, width, (True, False)))
    outer = next((one for one in worn if one.place is PartPlace.OUTER_TREAD), worn[0])
    inner = next((one for one in worn if one.place is PartPlace.INNER_TREAD), worn[0])
    section = _section(_Wheel(top, treads, level, foot, factor), (outer, inner), given)
    if flank is None:
        return section
    percent = [one.gauge.percent if one.gauge.percent is not None else -1e9 for one in (outer, inner)]
    at_inner = flank.place is PartPlace.INNER_TREAD or (flank.place is None and percent[1] >= percent[0])
    edge_line = ((right, level), (right - slope, level + guide - edge), (right - slope - edge, level + guide))
    corners = edge_line if at_inner else tuple((width - x, y) for x, y in edge_line)
    return _with_side_wear(section, flank, corners, 1 if at_inner else 0)


def _with_side_wear(section: Section, flank: Flank, edge: tuple[Point, ...], face: int) -> Section:
    """The section with so much cut from its guide's flank beside the tread of a face, 1 being the right one."""
    (foot, low), (_, shoulder), (top, high) = edge
    if flank.size is None:
        guide = box(min(foot, top) - 1e-6, low, max(foot, top) + 1e-6, high + 1.0)
        mark = Mark(flank.text, lambda _: ((foot + top) / 2, (low + shoulder) / 2), "right" if face else "left")
        return replace(section, marks=(mark,), unsure=guide)
    loss = min(flank.size.mm, 0.8 * (section.bounds[2] / 2 - abs(section.bounds[2] / 2 - foot)))
    by = -loss if face else loss
    gone = Polygon([*edge, (top, high + 1.0), (top + by, high + 1.0), *((x + by, y) for x, y in reversed(edge))])

    def worn(losses: Losses) -> BaseGeometry:
        metal = section.worn(losses)
        return metal.difference(gone) if losses[face] > 0 else metal

    middle = (edge[1][0] + foot) / 2 + by / 2, (low + shoulder) / 2
    return replace(section, worn=worn, marks=(Mark(flank.text, lambda _: middle, "right" if face else "left"),))


def bottom_roller_section(
    worn: Worn, given: Amounts, depth: float, words: ProfileWords, flanges: int | None
) -> Section:
    """From the middle of the roller outwards. A flange not known of is not drawn; the outer one every roller has."""
    radius, factor = _scale(given, 0.17)
    flange, thick, slope, edge = 0.17 * radius, 0.2 * radius, 0.035 * radius, 0.04 * radius
    hub = max(radius - max(0.32 * radius, 1.3 * factor * depth), 0.15 * radius)
    foot = max(hub - 0.2 * radius, 0.03 * radius)
    start = (0.34 if flanges == 2 else 0.28) * radius
    end = start + (0.46 if flanges == 2 else 0.55) * radius
    outer = _flange(end, end + thick, radius, flange, slope, edge, hub)
    if flanges == 2:
        inner = tuple((start - (x - end), y) for x, y in reversed(outer))
        inboard = ((0.0, hub), *inner)
    else:
        inboard = (
            (0.0, hub),
            (start - 0.06 * radius, hub),
            (start, radius - 0.05 * radius),
            (start + 0.05 * radius, radius),
        )
    last = end + thick + 0.1 * radius
    top = (*inboard, *outer, (last, hub))
    wheel = _Wheel(top, (_Tread(start, end, (flanges == 2, True)),), radius, foot, factor)
    words_at = foot + 0.72 * (hub - foot)
    names = (
        Name(words.tread, ((start + end) / 2, words_at), end - start),
        Name(words.flange, (end + thick / 2, words_at), 1.6 * thick),
    )
    return _section(wheel, (worn,), given, names, words.middle)


def _flange(
    start: float, end: float, level: float, height: float, slope: float, edge: float, hub: float
) -> tuple[Point, ...]:
    top = level + height
    return (
        (start, level),
        (start + slope, top - edge),
        (start + slope + edge, top),
        (end - edge, top),
        (end, top - edge),
        (end, hub),
    )


def top_roller_section(worn: Worn, given: Amounts, depth: float, words: ProfileWords) -> Section:
    """A plain tread, its shoulders falling away at both ends."""
    radius, factor = _scale(given, 0.17)
    hub = max(radius - max(0.4 * radius, 1.3 * factor * depth), 0.15 * radius)
    foot = max(hub - 0.22 * radius, 0.03 * radius)
    start, end, edge = 0.3 * radius, 1.15 * radius, 0.06 * radius
    top = (
        (0.0, hub),
        (start - 0.07 * radius, hub),
        (start, radius - edge),
        (start + edge, radius),
        (end - edge, radius),
        (end, radius - edge),
        (end + 0.07 * radius, hub),
        (end + 0.35 * radius, hub),
    )
    wheel = _Wheel(top, (_Tread(start, end, (False, False)),), radius, foot, factor)
    names = (Name(words.tread, ((start + end) / 2, (hub + foot) / 2), end - start),)
    return _section(wheel, (worn,), given, names, words.middle)


def _section(
    wheel: _Wheel, faces: tuple[Worn, ...], given: Amounts, names: tuple[Name, ...] = (), middle: str | None = None
) -> Section:
    first, last = wheel.top[0], wheel.top[-1]
    body = Polygon([*wheel.top, (last[0], wheel.foot), (first[0], wheel.foot)])
    peak = max(y for _, y in wheel.top)

    def metal(losses: Losses, dished: bool) -> BaseGeometry:
        area: BaseGeometry = body
        for tread, loss in zip(wheel.treads, losses, strict=True):
            line = _worn_line(wheel, tread, loss, dished)
            if loss > 0:
                area = area.difference(over(line, peak + 1))
            elif loss < 0:
                area = joined(area, over([(x, wheel.level) for x, _ in line], wheel.level - loss * wheel.factor))
        return area

    def touch(face: int, loss: float, share: float) -> Point:
        tread = wheel.treads[face]
        width = tread.end - tread.start
        x = tread.start + 0.3 * share * width if face == 0 else tread.end - 0.3 * share * width
        return x, wheel.level - loss * wheel.factor

    foot_line = ((first[0], wheel.foot), (last[0], wheel.foot))
    axis = () if middle is None else (((first[0], wheel.foot), first),)
    return Section(
        faces=faces,
        solid=lambda losses: metal(losses, dished=False),
        worn=lambda losses: metal(losses, dished=True),
        touch=touch,
        bounds=(first[0], wheel.foot, last[0], peak),
        cuts=(foot_line, *axis),
        breaks=(foot_line,),
        axes=tuple(((x, low - 0.04 * last[0]), (x, high + 0.08 * last[0])) for (x, low), (_, high) in axis),
        names=names,
        beside=Name(middle, (0.0, wheel.foot + 0.3 * (first[1] - wheel.foot)), last[0]) if middle else None,
        apart=True,
        above=len(faces) > 1,
        span=_step(wheel, peak) if given.measure is Measure.DEPTH and faces[0] is faces[-1] else None,
        prefix="Ø\u2009" if given.measure is Measure.DIAMETER else "",
    )


def _step(wheel: _Wheel, peak: float) -> Span:
    x = wheel.treads[-1].end
    top = max(x for x, y in wheel.top if y == peak)
    return Span(lambda losses: (x, wheel.level - losses[-1] * wheel.factor), lambda _: (top, peak))


def _worn_line(wheel: _Wheel, tread: _Tread, loss: float, dished: bool) -> list[Point]:
    """The working line with so much gone; beyond an open end it runs on, to take the shoulder with it."""
    depth = loss * wheel.factor
    beyond = 0.2 * (tread.end - tread.start)
    start = tread.start if tread.guarded[0] else tread.start - beyond
    end = tread.end if tread.guarded[1] else tread.end + beyond
    if not dished or loss <= 0:
        return [(start, wheel.level - depth), (end, wheel.level - depth)]
    shares = [step / _STEPS for step in range(_STEPS + 1)]
    line = [
        (tread.start + share * (tread.end - tread.start), wheel.level - depth * tread.gone(share)) for share in shares
    ]
    fall = 0.06 * depth
    if not tread.guarded[0]:
        line.insert(0, (start, line[0][1] - 4 * fall))
    if not tread.guarded[1]:
        line.append((end, line[-1][1] - 4 * fall))
    return line
