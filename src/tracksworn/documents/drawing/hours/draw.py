"""Draws hours left: a row a component, a bar a side, the shop visits as numbered lines through all of them.

What lies behind comes first: hairlines, visits, bars, best values, type. A line stops where type stands in its way.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from tracksworn.documents.drawing.hours.chart import WIDTH, Bar, HoursChart, HoursRow
from tracksworn.documents.drawing.inks import HAIRLINE, INK, LABEL, PAPER
from tracksworn.documents.drawing.lettering import Box, box_of, broken, centred, spread
from tracksworn.documents.drawing.pile import rectangle
from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Path, Point, Shape, Stroke, Text
from tracksworn.documents.drawing.type import text_width

START: Final = 46.0  # where `now` stands, mm from the left
_FIGURES: Final = 42.6  # right edge of the figures beside the names
_GAP: Final = 1.6
_HEAD: Final = 10.2  # axis figures, then the numbers of the visits
_HEAD_ALONE: Final = 4.8  # axis figures alone
_FIGURE_LINE: Final = 3.4
_DISC_LINE: Final = 7.2
_DISC: Final = 1.75
_ROW: Final = 7.05
_LINES: Final = (2.95, 5.75)  # baselines in a row
_LEADING: Final = 2.6
_BAR: Final = 1.8
_BARS: Final = (2.15, 4.9)  # middles of left and right
_ALONE: Final = 3.5
_ARROW: Final = 1.7
_SCALE: Final = 3.4  # a line of type under the axis
_FOOT: Final = 1.0
_HAIR: Final = Stroke(0.12, HAIRLINE)
_AXIS: Final = Stroke(0.3)
_OUTLINE: Final = Stroke(0.16)
_BEST: Final = Stroke(0.42)
_CLEARING: Final = Stroke(1.1, PAPER)
_NAME: Final = Text((0, 0), "", 8.2, 600)
_NOTE: Final = Text((0, 0), "", 6.6, colour=LABEL)
_VALUE: Final = Text((0, 0), "", 7.4, anchor="end")
_SMALL: Final = Text((0, 0), "", 6.8, colour=LABEL)


@dataclass(frozen=True, slots=True)
class _Placed:
    """A row with its place on the sheet and its type."""

    row: HoursRow
    top: float
    height: float
    texts: tuple[Text, ...]

    @property
    def bottom(self) -> float:
        return self.top + self.height

    def middle(self, bar: Bar) -> float:
        """The height on which the bar of a side lies."""
        if len(self.row.bars) == 1:
            return self.top + (_ALONE if self.height <= _ROW else self.height / 2)
        return self.top + _BARS[0 if bar is self.row.left else 1]


def draw_hours(chart: HoursChart) -> Drawing:
    """The chart, 182 mm wide and as high as its rows ask."""
    top = _HEAD if chart.visits else _HEAD_ALONE
    rows = tuple(_placed(chart.rows, top))
    bottom = rows[-1].bottom if rows else top
    flags = tuple(_flags(rows))
    clear = [box_of(text) for text in flags]
    in_the_way = [*clear, *_boxes(chart, rows)]
    discs = _discs(chart)
    height = bottom + _SCALE * len(chart.scales) + _FOOT
    marks = [
        Path((*_between_rows(rows), *_uprights(chart, (top, bottom), clear)), stroke=_HAIR),
        Path((Line(((0, top), (WIDTH, top))), Line(((0, bottom), (WIDTH, bottom)))), stroke=_AXIS),
        Path(tuple(_visit_lines(chart, discs, bottom, in_the_way)), stroke=Stroke(0.4, chart.accent)),
        *_bars(chart, rows),
        Path(tuple(Circle((x, _DISC_LINE), _DISC) for x in discs), fill=chart.accent),
    ]
    texts = (*_head(chart), *_numbers(chart, discs), *(text for row in rows for text in row.texts), *flags)
    drawn = tuple(mark for mark in marks if mark.shapes)
    return Drawing(WIDTH, height, (*drawn, *texts, *_scales(chart, bottom)), chart.alternative)


def _at(chart: HoursChart, hours: float) -> float:
    """Where hours stand, mm from the left; what is off the axis stands at its end."""
    return START + (WIDTH - START) * min(hours / chart.end, 1.0)


# --- rows and their type ---


def _placed(rows: Sequence[HoursRow], top: float) -> Iterator[_Placed]:
    for row in rows:
        texts = tuple(_row_texts(row, top))
        lowest = max((box_of(text).bottom for text in texts), default=top)
        placed = _Placed(row, top, max(_ROW, lowest - top + 0.7), texts)
        top = placed.bottom
        yield placed


def _row_texts(row: HoursRow, top: float) -> Iterator[Text]:
    """Name and note at the left, in as many lines as they take; the figures of left over those of right."""
    values = tuple(_values(row, top))
    yield from values
    room = _FIGURES - max((text_width(text) for text in values), default=0.0) - _GAP
    baseline = top + _LINES[0]
    for style, content in ((_NAME, row.name), (_NOTE, row.note)):
        for line in broken(content, room, style) if content else ():
            yield replace(style, at=(0, baseline), content=line)
            baseline += _LEADING + (0.2 if style is _NAME else 0.0)


def _values(row: HoursRow, top: float) -> Iterator[Text]:
    if row.left is not None:
        yield replace(_VALUE, at=(_FIGURES, top + _LINES[0]), content=row.left.text, weight=600)
    if row.right is not None:
        line = _LINES[0] if row.left is None and not row.note else _LINES[1]
        yield replace(_VALUE, at=(_FIGURES, top + line), content=row.right.text)


# --- hairlines and visits ---


def _between_rows(rows: Sequence[_Placed]) -> Iterator[Line]:
    for row in rows[1:]:
        yield Line(((0, row.top), (WIDTH, row.top)))


def _uprights(chart: HoursChart, ends: tuple[float, float], clear: Sequence[Box]) -> Iterator[Line]:
    for tick in chart.ticks:
        yield from _upright(_at(chart, tick.hours), *ends, clear)


def _upright(x: float, top: float, bottom: float, clear: Sequence[Box]) -> Iterator[Line]:
    """A line down the sheet that leaves out the boxes in its way."""
    for gap in sorted((box.top - 0.3, box.bottom + 0.3) for box in clear if box.left - 0.4 < x < box.right + 0.4):
        if gap[0] - top > 0.05:
            yield Line(((x, top), (x, gap[0])))
        top = max(top, gap[1])
    if bottom - top > 0.05:
        yield Line(((x, top), (x, bottom)))


def _discs(chart: HoursChart) -> list[float]:
    """Where the numbers of the visits stand: at their hours, or beside these where they would meet."""
    order = sorted(range(len(chart.visits)), key=lambda index: chart.visits[index].hours)
    wanted = [_at(chart, chart.visits[index].hours) for index in order]
    found = spread(wanted, 2 * _DISC + 0.5, START - 0.01, WIDTH - _DISC - _ARROW - 0.6)
    places = dict(zip(order, found, strict=True))
    return [places[index] for index in range(len(chart.visits))]


def _visit_lines(chart: HoursChart, discs: Sequence[float], bottom: float, clear: Sequence[Box]) -> Iterator[Shape]:
    """From each number down through all rows; an arrow beside those that are off the axis."""
    off = [x for visit, x in zip(chart.visits, discs, strict=True) if visit.hours > chart.end]
    for visit, x in zip(chart.visits, discs, strict=True):
        if visit.hours <= chart.end:
            at = _at(chart, visit.hours)
            yield Line(((x, _DISC_LINE + _DISC), (at, _HEAD)))
            yield from _upright(at, _HEAD, bottom, clear)
    if off:
        start = max(off) + _DISC + 0.3
        tip = (start + _ARROW, _DISC_LINE)
        yield Line(((start, _DISC_LINE), tip))
        yield Line(((tip[0] - 0.7, _DISC_LINE - 0.6), tip, (tip[0] - 0.7, _DISC_LINE + 0.6)))


# --- bars ---


@dataclass(frozen=True, slots=True)
class _Shape:
    """A bar on the sheet: its outline, and where its best value stands."""

    outline: tuple[Point, ...]
    best: float | None
    middle: float
    solid: bool

    @property
    def cleared(self) -> bool:
        """Whether the best value needs white beside it to be seen, and the bar is long enough to keep its ends."""
        return self.solid and self.best is not None and self.outline[1][0] - self.outline[0][0] > 2.5


def _bars(chart: HoursChart, rows: Sequence[_Placed]) -> Iterator[Path]:
    """Open bars over what lies behind them, solid ones, then the best values, each kind in one path."""
    shapes = [_shape(chart, row, bar) for row in rows for bar in row.row.bars]
    solid = tuple(Line(shape.outline, closed=True) for shape in shapes if shape.solid)
    hollow = tuple(Line(shape.outline, closed=True) for shape in shapes if not shape.solid)
    best = [(_best(shape), shape.cleared) for shape in shapes if shape.best is not None]
    yield Path(hollow, fill=PAPER, stroke=_OUTLINE)
    yield Path(solid, fill=INK)
    yield Path(tuple(line for line, cleared in best if cleared), stroke=_CLEARING)
    yield Path(tuple(line for line, _ in best), stroke=_BEST)


def _boxes(chart: HoursChart, rows: Sequence[_Placed]) -> Iterator[Box]:
    """What each bar takes with its best value, so that no visit is read as one."""
    for row in rows:
        for bar in row.row.bars:
            shape = _shape(chart, row, bar)
            half = _BAR / 2 + 0.25
            xs = [x for x, _ in shape.outline]
            yield Box(min(xs), shape.middle - half, max(xs), shape.middle + half)


def _best(shape: _Shape) -> Line:
    assert shape.best is not None
    half = _BAR / 2 + 0.25
    return Line(((shape.best, shape.middle - half), (shape.best, shape.middle + half)))


def _shape(chart: HoursChart, placed: _Placed, bar: Bar) -> _Shape:
    """An interval, pointed where it goes on; past its limit a flag at now."""
    middle, solid = placed.middle(bar), bar is placed.row.left
    if bar.flag:
        return _Shape(_pointed(START, START + 2.4, middle), None, middle, solid)
    goes_on = bar.high is None or bar.high > chart.end
    low = _at(chart, bar.low)
    if goes_on:
        low = min(low, WIDTH - _ARROW)
        best = _at(chart, bar.best) if bar.best < chart.end and low < WIDTH - _ARROW else None
        return _Shape(_pointed(low, WIDTH, middle), best if best and best < WIDTH - _ARROW else None, middle, solid)
    assert bar.high is not None
    high = max(_at(chart, bar.high), low + 0.8)
    outline = rectangle(low, middle - _BAR / 2, high, middle + _BAR / 2)
    return _Shape(outline, min(max(_at(chart, bar.best), low), high), middle, solid)


def _pointed(left: float, tip: float, middle: float) -> tuple[Point, ...]:
    """A bar that ends in a point at the right; one that has no length is the point alone."""
    top, bottom, shoulder = middle - _BAR / 2, middle + _BAR / 2, tip - _ARROW
    if left >= shoulder - 0.01 or tip - left <= 2.5:
        return (left, top), (tip, middle), (left, bottom)
    return (left, top), (shoulder, top), (tip, middle), (shoulder, bottom), (left, bottom)


def _flags(rows: Sequence[_Placed]) -> Iterator[Text]:
    for row in rows:
        for bar in row.row.bars:
            if bar.flag:
                at = (START + 3.4, centred(row.middle(bar), 7.0))
                yield Text(at, bar.flag, 7.0, 600 if bar is row.row.left else 500)


# --- axis and scales ---


def _head(chart: HoursChart) -> Iterator[Text]:
    yield replace(_SMALL, at=(0, _FIGURE_LINE), content=chart.axis_text)
    if chart.visits:
        yield Text((0, centred(_DISC_LINE, 7.0)), chart.visits_text, 7.0, 600, chart.accent)
    yield from _along(chart, [tick.text for tick in chart.ticks], replace(_SMALL, at=(0, _FIGURE_LINE), colour=INK))


def _scales(chart: HoursChart, bottom: float) -> Iterator[Text]:
    for index, name in enumerate(chart.scales):
        baseline = bottom + _SCALE * (index + 1) - 0.3
        style = replace(_SMALL, at=(0, baseline), colour=INK if index == 0 else LABEL)
        yield replace(style, content=name, colour=LABEL)
        yield from _along(chart, [tick.below[index] for tick in chart.ticks], style)


def _along(chart: HoursChart, contents: Sequence[str], style: Text) -> list[Text]:
    """One text at every tick, moved in at the right edge; a text that would meet the one before is left out."""
    placed: list[Text] = []
    for tick, content in zip(chart.ticks, contents, strict=True):
        text = replace(style, at=(_at(chart, tick.hours), style.at[1]), content=content, anchor="middle")
        over = box_of(text).right - WIDTH
        text = replace(text, at=(text.at[0] - max(over, 0.0), text.at[1]))
        if not placed or not box_of(text).meets(box_of(placed[-1]), _GAP):
            placed.append(text)
    return placed


def _numbers(chart: HoursChart, discs: Sequence[float]) -> Iterator[Text]:
    size = 6.6
    for visit, x in zip(chart.visits, discs, strict=True):
        at = (x, centred(_DISC_LINE, size))
        yield Text(at, visit.number, size, 700, PAPER, "middle")
