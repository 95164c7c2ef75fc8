"""Pitch: the links that a reading spans, and on a scale of its own how far the reading is from new and limit."""

import math
from dataclasses import dataclass, replace
from typing import Final, Literal

from shapely import affinity
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.bar import LIMIT, MOST, Bar, draw_bar, draw_range_by_eye, draw_whisker
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import LABEL, METAL
from tracksworn.documents.drawing.lettering import box_of, centred
from tracksworn.documents.drawing.outline import disc, lines
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Point, Stroke, Text
from tracksworn.documents.drawing.profiles.amounts import Amounts, amounts
from tracksworn.documents.drawing.profiles.key import HEAD, PER_CENT, title_lines
from tracksworn.documents.drawing.profiles.labels import draw_dimension
from tracksworn.documents.drawing.profiles.painting import Frame
from tracksworn.documents.drawing.profiles.profile import Profile, Size, Worn
from tracksworn.documents.drawing.profiles.scale import fitting, ratio
from tracksworn.documents.drawing.type import text_width

Anchor = Literal["start", "end"]

_THIN: Final = Stroke(0.16)
_DIMENSION: Final = Text((0, 0), "", 8.0, 600, anchor="middle")
_READING: Final = Text((0, 0), "", 8.2, 600)
_END: Final = Text((0, 0), "", 7.2, anchor="middle")
_FIGURE: Final = Text((0, 0), "", 6.6, colour=LABEL, anchor="middle")
_BAR: Final = 2.6
_ROW: Final = 4.3  # from bar to bar
_FOOT: Final = 4.4  # from the axis to the lower edge
_TALLEST: Final = 14.6  # of the chain
_BEFORE: Final = 12.0  # percent drawn below as new


def draw_pitch(profile: Profile) -> Drawing:
    """The span to scale, and beneath it one bar a side on a ruler much larger than that."""
    given, pile = amounts(profile), Pile()
    dimension_at = HEAD + 2.8
    top = dimension_at + 3.0
    rows = [] if profile.new is None and not _by_eye(profile) else list(profile.now)
    beneath = 5.4 + _ROW * len(rows) + _FOOT if rows else 1.0
    chain = _chain(profile, given, top, min(profile.height - top - beneath, _TALLEST))
    _draw_chain(pile, chain, profile.over_links)
    _draw_span(pile, profile, chain, dimension_at + 1.4)
    ruler = _ruler(profile, given, rows)
    if rows:
        _draw_ruler(pile, profile, given, ruler, rows)
    pile.write(*title_lines(profile, _section_text(profile, given, chain, ruler)))
    pile.write(*_note_lines(profile))
    return pile.drawing(profile.width, profile.height, profile.alternative)


def _by_eye(profile: Profile) -> bool:
    return any(worn.gauge.basis is Basis.BY_EYE for worn in profile.now)


def _section_text(profile: Profile, given: Amounts, chain: Frame, ruler: "_Ruler") -> str:
    if not given.stated:
        return profile.words.typical
    decimal = profile.words.decimal
    chain_scale = ratio(chain.scale * profile.over_links / given.new, decimal)
    if "{scale}" not in profile.section:
        return f"{profile.section}, {chain_scale}" if profile.section else chain_scale
    return profile.section.replace("{scale}", chain_scale).replace("{ruler}", ratio(ruler.scale, decimal))


def _note_lines(profile: Profile) -> tuple[Text, ...]:
    """Notes stand on the line of the subtitle, at the right, as many as have room beside it."""
    free = profile.width - text_width(Text((0, 0), profile.about, 7.0)) - 4
    note = profile.words.semicolon.join(profile.notes)
    text = Text((profile.width, 6.5), note, 7.0, colour=LABEL, anchor="end")
    return (text,) if note and text_width(text) <= free else ()


def _chain(profile: Profile, given: Amounts, top: float, height: float) -> Frame:
    """Where the links lie: as large as fits, the first pin at the origin of the part."""
    pitch = given.new / profile.over_links
    ends = 0.56 * pitch
    scale = min(fitting(given.new + ends, profile.width - 3.0), fitting(0.8 * pitch, height))
    left = (profile.width - given.new * scale) / 2
    return Frame((left, top + 0.38 * pitch * scale), scale * pitch)


def _draw_chain(pile: Pile, unit: Frame, links: int) -> None:
    """Drawn in pitches. What a link's neighbour hides is cut away."""
    silhouette, before = _link(), None
    outlines: list[BaseGeometry] = []
    for index in range(links):
        shape = affinity.translate(silhouette, xoff=index)
        outlines.append(shape if before is None else shape.difference(before))
        before = shape
    rails = [affinity.translate(Polygon(_RAIL), xoff=index) for index in range(links)]
    pile.fill(METAL, *(line for rail in rails for line in lines(unit.area(rail))))
    for shape in outlines:
        pile.stroke(_THIN, *lines(unit.area(shape)))
    for index in range(links):
        pile.stroke(_THIN, unit.line(tuple((x + index, y) for x, y in _RAIL[:2])))
        pile.stroke(_THIN, *(_window(unit, index + x) for x in (0.3, 0.52)))
    for index in range(links + 1):
        centre, arm = unit.at((index, 0.0)), 0.055 * unit.scale
        pile.stroke(_THIN, Circle(centre, 0.12 * unit.scale))
        pile.stroke(_THIN, *(_cross(centre, arm)))


_RAIL: Final = ((-0.02, 0.27), (0.98, 0.27), (0.98, 0.38), (-0.02, 0.38))


def _link() -> BaseGeometry:
    body = Polygon(
        [(-0.02, 0.38), (0.98, 0.38), (0.98, 0.1), (0.9, -0.22), (0.8, -0.42), (0.2, -0.42), (0.1, -0.22), (-0.02, 0.1)]
    )
    return body.union(disc((0.0, 0.0), 0.26)).union(disc((1.0, 0.0), 0.26))


def _window(unit: Frame, x: float) -> Line:
    corners = [(0.0, 0.03), (0.03, 0.0), (0.15, 0.0), (0.18, 0.03), (0.18, 0.2), (0.15, 0.23), (0.03, 0.23), (0.0, 0.2)]
    return Line(tuple(unit.at((x + a, b - 0.21)) for a, b in corners), closed=True)


def _cross(centre: Point, arm: float) -> tuple[Line, Line]:
    x, y = centre
    return Line(((x - arm, y), (x + arm, y))), Line(((x, y - arm), (x, y + arm)))


def _draw_span(pile: Pile, profile: Profile, unit: Frame, y: float) -> None:
    """The dimension from the first pin to the last, with the reading on it."""
    first, last = unit.at((0.0, 0.0)), unit.at((profile.over_links, 0.0))
    measured = [worn for worn in profile.now if worn.size is not None]
    said = profile.dimension or (measured[0].size.text if measured and measured[0].size else "")
    if not said:
        return
    draw_dimension(pile, (first[0], y), (last[0], y))
    pile.stroke(Stroke(0.12), *(Line(((x, y - 0.8), (x, first[1] - 0.12 * unit.scale))) for x in (first[0], last[0])))
    pile.write(replace(_DIMENSION, at=((first[0] + last[0]) / 2, y - 0.9), content=said))


@dataclass(frozen=True, slots=True)
class _Ruler:
    """`start` stands at `left`; sizes in mm."""

    left: float
    right: float
    start: float
    scale: float

    def at(self, size: float) -> float:
        return self.left + (size - self.start) * self.scale


def _ruler(profile: Profile, given: Amounts, rows: list[Worn]) -> _Ruler:
    """From a little below as new to where a bar past its limit is torn off."""
    left = max((text_width(_reading(profile, worn)) for worn in rows), default=0.0) + 2.5
    right = profile.width - 0.5
    extent = given.limit * (MOST + 2.0 + _BEFORE) / 100
    scale = fitting(extent, right - left)
    sign = -1.0 if profile.new and profile.limit and not profile.grows else 1.0
    first = given.new - sign * given.limit * _BEFORE / 100
    start = first if sign > 0 else first - extent
    left += (right - left - extent * scale) / 2
    return _Ruler(left, left + extent * scale, start, scale)


def _draw_ruler(pile: Pile, profile: Profile, given: Amounts, ruler: _Ruler, rows: list[Worn]) -> None:
    sign = -1.0 if profile.new and profile.limit and not profile.grows else 1.0
    axis = profile.height - _FOOT
    top = axis - 0.9 - _ROW * len(rows) + (_ROW - _BAR)
    new, limit = ruler.at(given.new), ruler.at(given.new + sign * given.limit)
    _draw_ends(pile, profile, (new, limit), (top - 2.3, top - 0.2))
    if given.stated:
        _draw_axis(pile, profile, ruler, axis)
    for index, worn in enumerate(rows):
        y = top + index * _ROW
        bar = Bar((new, y), ((limit - new) / 100, 0.0), (0.0, _BAR), least=-_BEFORE, over=(0.1, 0.1))
        gauge = _straight(profile, given, worn)
        draw_bar(pile, bar, gauge)
        draw_whisker(pile, bar, gauge, -0.34, 0.16)
        if gauge.basis is Basis.BY_EYE:
            draw_range_by_eye(pile, bar, gauge)
        text = _reading(profile, worn)
        pile.write(replace(text, at=(0.0, centred(y + _BAR / 2, text.size))))


def _straight(profile: Profile, given: Amounts, worn: Worn) -> Gauge:
    """The gauge as the ruler shows it, straight between new and limit whatever table the chart has."""
    gauge = worn.gauge
    if gauge.percent is None or worn.size is None or profile.new is None or gauge.basis is not Basis.MEASURED:
        return gauge
    percent = 100 * (worn.size.mm - profile.new.mm) / (given.limit if profile.grows else -given.limit)
    low, high = (None if end is None else end + percent - gauge.percent for end in (gauge.low, gauge.high))
    return replace(gauge, percent=percent, low=low, high=high)


def _reading(profile: Profile, worn: Worn) -> Text:
    name = worn.word or profile.words.now
    value = worn.size.text if worn.size else worn.gauge.word if not worn.gauge.seen else worn.gauge.figure + PER_CENT
    return replace(_READING, content=f"{name} {value}")


def _draw_ends(pile: Pile, profile: Profile, ends: tuple[float, float], rows: tuple[float, float]) -> None:
    """What stands over as new and over the limit; the two turn outwards where they would meet."""
    texts = []
    for x, word, size, weight in _named_ends(profile, ends):
        text = replace(_END, at=(x, rows[0]), content=f"{word} {size.text}" if size else word, weight=weight)
        texts.append(_inside(text, profile.width))
    if box_of(texts[0]).meets(box_of(texts[1]), 0.8):
        outwards: tuple[Anchor, Anchor] = ("end", "start") if ends[0] < ends[1] else ("start", "end")
        texts = [replace(text, at=(x, rows[0]), anchor=out) for text, x, out in zip(texts, ends, outwards, strict=True)]
        texts = [_inside(replace(text, at=(text.at[0] + _away(text), rows[0])), profile.width) for text in texts]
    pile.write(*texts)
    pile.stroke(LIMIT, Line(((ends[1], rows[0] + 0.8), (ends[1], rows[1]))))
    pile.stroke(_THIN, Line(((ends[0], rows[0] + 0.8), (ends[0], rows[1]))))


def _named_ends(
    profile: Profile, ends: tuple[float, float]
) -> tuple[tuple[float, str, Size | None, Literal[400, 600]], ...]:
    return (ends[0], profile.words.as_new, profile.new, 400), (ends[1], profile.words.limit, profile.limit, 600)


def _away(text: Text) -> float:
    return 0.5 if text.anchor == "start" else -0.5


def _inside(text: Text, width: float) -> Text:
    box = box_of(text)
    shift = max(-box.left, 0.0) + min(width - box.right, 0.0)
    return replace(text, at=(text.at[0] + shift, text.at[1]))


def _draw_axis(pile: Pile, profile: Profile, ruler: _Ruler, y: float) -> None:
    """Figures in the printed unit, at the closest round step at which they stand clear of each other."""
    unit, decimal = profile.unit_mm, profile.words.decimal
    last = ruler.start + (ruler.right - ruler.left) / ruler.scale
    step = _step(ruler.start / unit, last / unit, ruler.scale * unit)
    decimals = max(-math.floor(math.log10(step) + 1e-9), 0)
    ticks = []
    minor = step / 2
    for index in range(math.ceil(ruler.start / unit / minor), math.floor(last / unit / minor) + 1):
        x = ruler.at(index * minor * unit)
        ticks.append(Line(((x, y), (x, y + (1.4 if index % 2 == 0 else 0.8)))))
        if index % 2 == 0:
            figure = f"{index * minor:.{decimals}f}".replace(".", decimal)
            pile.write(_inside(replace(_FIGURE, at=(x, y + 3.7), content=figure), profile.width))
    pile.stroke(_THIN, Line(((ruler.left, y), (ruler.right, y))), *ticks)


def _step(first: float, last: float, scale: float) -> float:
    """1, 2 or 5 times a power of ten, so that the widest figure has room between two."""
    power = 10.0 ** math.floor(math.log10(max(last - first, 1e-9) / 20))
    for step in (power * factor for factor in (1, 2, 5, 10, 20, 50, 100)):
        decimals = max(-math.floor(math.log10(step) + 1e-9), 0)
        wide = max(text_width(replace(_FIGURE, content=f"{end:.{decimals}f}")) for end in (first, last))
        if step * scale >= wide + 2.4:
            return step
    return power * 100
