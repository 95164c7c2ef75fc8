"""A trend as a figure of matplotlib. Imports matplotlib: see `plotting`."""

from collections.abc import Sequence
from math import nan
from typing import Final, Literal

from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon
from matplotlib.transforms import Affine2D, Bbox

from tracksworn.documents.drawing.inks import HAIRLINE, INK, LABEL, METAL, PAPER
from tracksworn.documents.drawing.plain import Point, Stroke
from tracksworn.documents.drawing.plotted import PER_MM, POINTS
from tracksworn.documents.drawing.trend.trend import FOOT, PER_PERCENT, Trend, TrendPoint, TrendSide
from tracksworn.documents.drawing.type import width_mm
from tracksworn.inspection.vocabulary import Side

_TYPE: Final = 6.4  # pt
_FRAME: Final = (5.4, 34.2)  # mm from the left
_MARGIN: Final = 1.3  # mm within the frame before the first and after the last hours
_APART: Final = 0.45  # mm by which left stands before and right after their hours
_DOTS: Final = {"o": 1.15, "s": 1.2, "^": 1.4}  # mm across: measured, as new, worn beyond the top
_EDGE: Final = 0.2

_GRID: Final = Stroke(0.12, HAIRLINE)
_BASE: Final = Stroke(0.22)
_TICK: Final = Stroke(0.16)
_LIMIT: Final = Stroke(0.5)
_COURSE: Final = {Side.LEFT: Stroke(0.34), Side.RIGHT: Stroke(0.18)}
_LIGHTER: Final = Stroke(0.16, LABEL, (0.9, 0.6))
_WHISKER: Final = Stroke(0.22)
_BY_EYE: Final = Stroke(0.22, INK, (0.9, 0.6))
_BEST: Final = {Side.LEFT: Stroke(0.18, INK, (0.9, 0.6)), Side.RIGHT: Stroke(0.16, LABEL, (0.9, 0.6))}
_FAN: Final = {Side.LEFT: Stroke(0.12, INK, (0.35, 0.75)), Side.RIGHT: Stroke(0.12, LABEL, (0.35, 0.75))}


Runs = Sequence[Sequence[Point]]
_IN_MM: Final = Affine2D().scale(PER_MM)


def compose(trend: Trend, figure: Figure) -> None:
    """Put a trend on a figure of its size, from back to front."""
    _Composer(trend, figure).compose()


class _Composer:
    def __init__(self, trend: Trend, figure: Figure) -> None:
        self._figure, self._trend = figure, trend
        first, top = trend.span[0], FOOT + trend.top * PER_PERCENT
        scale = (_FRAME[1] - _FRAME[0] - 2 * _MARGIN) / (trend.end - first)
        in_mm = Affine2D().translate(-first, 0).scale(scale, PER_PERCENT).translate(_FRAME[0] + _MARGIN, FOOT)
        self._place = in_mm.scale(PER_MM)
        self._frame = Bbox.from_extents(_FRAME[0] * PER_MM, FOOT * PER_MM, _FRAME[1] * PER_MM, top * PER_MM)

    def compose(self) -> None:
        """All of it."""
        for side in self._trend.sides:
            self._outlook(side)
        self._axes()
        for side in reversed(self._trend.sides):
            self._course(side)
        for side in reversed(self._trend.sides):
            self._points(side)
        self._beginnings()
        self._labels()

    def _axes(self) -> None:
        for percent, stroke in ((50, _GRID), (0, _BASE), (100, _LIMIT)):
            height = FOOT + percent * PER_PERCENT
            self._strokes([((_FRAME[0], height), (_FRAME[1], height))], stroke, _IN_MM)
            self._write(_FRAME[0] - 0.8, height - 0.75, str(percent), "right")
        marked = {*self._trend.seen, *(hours for hours, _ in self._trend.labels)}
        ticks = [((hours, 0.0), (hours, -1.0 / PER_PERCENT)) for hours in sorted(marked)]
        self._strokes(ticks, _TICK, self._place)

    def _outlook(self, side: TrendSide) -> None:
        if side.outlook is None:
            return
        place = self._beside(side.side)
        if side.side is Side.LEFT:
            area = [*side.outlook.soonest, *reversed(side.outlook.latest)]
            fan = Polygon(area, closed=True, facecolor=METAL, linewidth=0, transform=place)
            self._figure.add_artist(fan).set_clip_box(self._frame)
        self._strokes([side.outlook.soonest, side.outlook.latest], _FAN[side.side], place, self._frame)
        self._strokes([side.outlook.best], _BEST[side.side], place, self._frame)

    def _course(self, side: TrendSide) -> None:
        place = self._beside(side.side)
        self._strokes([side.aside], _LIGHTER, place, self._frame)
        self._strokes([side.line], _COURSE[side.side], place, self._frame)

    def _points(self, side: TrendSide) -> None:
        measured = [one for one in side.points if not one.by_eye]
        self._ranges([one for one in side.points if one.by_eye], _BY_EYE, side.side)
        for counts, ink, whisker in ((False, LABEL, _LIGHTER), (True, INK, _WHISKER)):
            some = [one for one in measured if one.counts is counts]
            self._ranges(some, whisker, side.side)
            self._dots(
                [(one.hours, one.percent) for one in some if one.percent <= self._trend.top], "o", side.side, ink
            )
            beyond = [(one.hours, self._trend.top - 3) for one in some if one.percent > self._trend.top]
            self._dots(beyond, "^", side.side, ink)

    def _beginnings(self) -> None:
        """Where each side was as new: at its own hours, and full where both were at once."""
        left_first = sorted(self._trend.sides, key=lambda side: side.side is Side.RIGHT)
        sides = {side.began: side.side for side in reversed(left_first) if side.began is not None}
        for began, side in sides.items():
            self._dots([(began, 0.0)], "s", side, INK, self._place)

    def _ranges(self, points: Sequence[TrendPoint], stroke: Stroke, side: Side) -> None:
        runs = [((one.hours, one.low), (one.hours, one.high)) for one in points]
        self._strokes(runs, stroke, self._beside(side), self._frame)

    def _dots(
        self,
        points: Sequence[Point],
        marker: Literal["o", "s", "^"],
        side: Side,
        ink: str,
        place: Affine2D | None = None,
    ) -> None:
        if not points:
            return
        xs, ys = zip(*points, strict=True)
        dots = Line2D(xs, ys, linestyle="none", marker=marker, transform=place or self._beside(side))
        dots.set(markersize=_DOTS[marker] * POINTS, markeredgewidth=_EDGE * POINTS)
        dots.set(markeredgecolor=ink, markerfacecolor=ink if side is Side.LEFT else PAPER)
        self._figure.add_artist(dots)

    def _strokes(self, runs: Runs, stroke: Stroke, place: Affine2D, within: Bbox | None = None) -> None:
        points = [point for run in runs if len(run) > 1 for point in (*run, (nan, nan))]
        if not points:
            return
        xs, ys = zip(*points, strict=True)
        line = Line2D(xs, ys, color=stroke.colour, linewidth=stroke.width * POINTS, transform=place)
        if stroke.dash:
            line.set_linestyle((0, tuple(one * POINTS for one in stroke.dash)))
        self._figure.add_artist(line).set_clip_box(within)

    def _beside(self, side: Side) -> Affine2D:
        """A little before the hours on the left, after them on the right, so that neither hides the other."""
        if len(self._trend.sides) < 2:
            return self._place
        apart = -_APART if side is Side.LEFT else _APART
        return Affine2D(self._place.get_matrix().copy()).translate(apart * PER_MM, 0)

    def _labels(self) -> None:
        for hours, text in self._trend.labels:
            x, half = self._place.transform((hours, 0.0))[0] / PER_MM, width_mm(text, _TYPE) / 2
            self._write(min(max(x, half + 0.1), self._trend.width - half - 0.1), 0.9, text, "center")

    def _write(self, x: float, y: float, text: str, anchor: Literal["center", "right"]) -> None:
        self._figure.text(x, y, text, size=_TYPE, color=LABEL, ha=anchor, va="baseline", transform=_IN_MM)
