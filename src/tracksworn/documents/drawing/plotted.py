"""What matplotlib draws, gathered as paths and texts of a plain drawing. Imports matplotlib: see `plotting`."""

from collections.abc import Iterator, Mapping
from typing import Final, Literal, cast

import numpy as np
from matplotlib.backend_bases import GraphicsContextBase, RendererBase
from matplotlib.colors import to_hex, to_rgba
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path as Outline
from matplotlib.text import Text as Label
from matplotlib.transforms import Affine2D, Bbox, Transform
from matplotlib.typing import ColorType

from tracksworn.documents.drawing.lettering import Box
from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Path, Point, Shape, Stroke, Text
from tracksworn.documents.drawing.type import CAP_HEIGHT, DESCENT, MM_PER_POINT, Weight, width_mm

POINTS: Final = 72 / 25.4
"""Points in a millimetre: matplotlib measures pens, dashes and marks in points."""
PER_MM: Final = 100
"""Matplotlib's pixels in a millimetre; it clips lines to a pixel, so that is the finest of our coordinates."""

_ANCHORS: Final[Mapping[str, Literal["start", "middle", "end"]]] = {"left": "start", "center": "middle", "right": "end"}


class Renderer(RendererBase):
    """Takes matplotlib's drawing in hundredths of a millimetre, y up, and gives ours in millimetres, y down.

    What follows one another with the same fill and stroke is one path. Whole circles stay circles; other curves become
    lines. Pictures and mathematical type are not taken.
    """

    def __init__(self, width: float, height: float) -> None:
        super().__init__()
        self._width, self._height = width, height
        self._marks: list[Path | Text] = []

    def drawing(self, alternative: str) -> Drawing:
        """All that was drawn so far."""
        return Drawing(self._width, self._height, tuple(self._marks), alternative)

    def get_canvas_width_height(self) -> tuple[float, float]:  # noqa: D102 - matplotlib's own, as all that follow
        return self._width * PER_MM, self._height * PER_MM

    def points_to_pixels(self, points: float) -> float:  # type: ignore[override]  # noqa: D102
        return points / POINTS * PER_MM

    def draw_path(  # noqa: D102
        self,
        gc: GraphicsContextBase,
        path: Outline,
        transform: Transform,
        rgbFace: ColorType | None = None,  # noqa: N803
    ) -> None:
        fill, stroke = _fill(rgbFace), _stroke(gc)
        clip: Bbox | None = gc.get_clip_rectangle()
        if path is Outline.unit_circle():
            (x, y), (edge, _) = transform.transform(((0.0, 0.0), (1.0, 0.0)))
            self._add((Circle(self._point(x, y), round(float(edge - x) / PER_MM, 3)),), fill, stroke)
            return
        placed = path.transformed(transform)
        if fill is None:
            self._add(tuple(self._lines(_cut(placed, clip))), None, stroke)
        else:
            area = placed if clip is None else placed.clip_to_bbox(clip)
            self._add(tuple(self._lines(area, closed=True)), fill, stroke)

    def get_text_width_height_descent(  # noqa: D102
        self,
        s: str,
        prop: FontProperties,
        ismath: bool | Literal["TeX"],  # noqa: ARG002
    ) -> tuple[float, float, float]:
        size = prop.get_size_in_points()
        height, descent = CAP_HEIGHT * size * MM_PER_POINT, DESCENT * size * MM_PER_POINT
        return width_mm(s, size, weight=_weight(prop)) * PER_MM, (height + descent) * PER_MM, descent * PER_MM

    def _get_font_height_metrics(self, prop: FontProperties) -> tuple[float, float, float]:
        """Ascent, descent and gap between lines; matplotlib asks the renderer before it looks for the font itself."""
        _, height, descent = self.get_text_width_height_descent("", prop, ismath=False)
        return height - descent, descent, 0.0

    def draw_text(  # noqa: D102
        self,
        gc: GraphicsContextBase,
        x: float,
        y: float,
        s: str,
        prop: FontProperties,
        angle: float,
        ismath: bool | Literal["TeX"] = False,  # noqa: ARG002
        mtext: Label | None = None,
    ) -> None:
        anchor = _ANCHORS[mtext.get_horizontalalignment()] if mtext is not None and not angle else "start"
        size, weight = prop.get_size_in_points(), _weight(prop)
        along = {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * width_mm(s, size, weight=weight)
        at = (round(float(x) / PER_MM + along, 3), round(float(y) / PER_MM, 3))
        self._marks.append(Text(at, s, size, weight, to_hex(gc.get_rgb()), anchor, turn=-angle if angle else 0.0))

    def _add(self, shapes: tuple[Shape, ...], fill: str | None, stroke: Stroke | None) -> None:
        last = self._marks[-1] if self._marks else None
        if not shapes or (fill is None and stroke is None):
            return
        if isinstance(last, Path) and (last.fill, last.stroke) == (fill, stroke) and _apart(last, shapes):
            self._marks[-1] = Path((*last.shapes, *shapes), fill, stroke)
        else:
            self._marks.append(Path(shapes, fill, stroke))

    def _lines(self, outline: Outline, *, closed: bool = False) -> Iterator[Line]:
        for polygon in outline.to_polygons(closed_only=closed):
            points = tuple(self._point(x, y) for x, y in np.asarray(polygon))
            whole = len(points) > 3 and points[0] == points[-1]
            if len(points) > 1:
                yield Line(points[:-1], closed=True) if whole else Line(points)

    def _point(self, x: float, y: float) -> Point:
        return round(float(x) / PER_MM, 3), round(self._height - float(y) / PER_MM, 3)


def _cut(outline: Outline, clip: Bbox | None) -> Outline:
    """Lines without their gaps and without what lies outside the frame."""
    within = None if clip is None else clip.extents
    return outline.cleaned(Affine2D(), remove_nans=True, clip=within, curves=False)


def _apart(path: Path, shapes: tuple[Shape, ...]) -> bool:
    """Whether shapes may join a path: overlapping areas of one path would leave holes."""
    return path.fill is None or not any(_box(one).meets(_box(new)) for one in path.shapes for new in shapes)


def _box(shape: Shape) -> Box:
    if isinstance(shape, Circle):
        (x, y), r = shape.centre, shape.radius
        return Box(x - r, y - r, x + r, y + r)
    assert isinstance(shape, Line)  # nothing else is made here
    xs, ys = zip(*shape.points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def _stroke(gc: GraphicsContextBase) -> Stroke | None:
    width = gc.get_linewidth() / POINTS
    if not width:
        return None
    dashes = gc.get_dashes()[1]
    dash = () if dashes is None else tuple(round(float(one) / POINTS, 3) for one in np.asarray(dashes))
    return Stroke(round(width, 3), to_hex(gc.get_rgb()), dash, "round" if gc.get_capstyle() == "round" else "butt")


def _fill(colour: ColorType | None) -> str | None:
    return None if colour is None or to_rgba(colour)[3] == 0 else to_hex(colour)


def _weight(prop: FontProperties) -> Weight:
    weight = prop.get_weight()
    return cast("Weight", weight) if weight in (400, 500, 600, 700) else 400
