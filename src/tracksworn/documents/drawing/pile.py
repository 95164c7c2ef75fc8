"""A drawing in the making: shapes gathered by the pen they share, so that each pen becomes one `Path`."""

from collections.abc import Iterable, Iterator

from tracksworn.documents.drawing.lettering import box_of
from tracksworn.documents.drawing.plain import Circle, Curve, Drawing, Drawn, Path, Point, Runs, Stroke, Text


class Pile:
    """Fills are painted first, then strokes, then type; each in the order in which its pen was first used."""

    def __init__(self) -> None:
        self._fills: dict[str, list[Drawn]] = {}
        self._strokes: dict[Stroke, list[Drawn]] = {}
        self._texts: list[Text] = []

    def fill(self, colour: str, *shapes: Drawn) -> None:
        """Areas of one colour; they must not overlap, as overlaps are holes."""
        self._fills.setdefault(colour, []).extend(shapes)

    def stroke(self, pen: Stroke, *shapes: Drawn) -> None:
        """Lines of one pen."""
        self._strokes.setdefault(pen, []).extend(shapes)

    def write(self, *texts: Text) -> None:
        """Type."""
        self._texts.extend(texts)

    def extend(self, shapes: Iterable[Drawn], pen: Stroke) -> None:
        """Lines of one pen, from any iterable."""
        self.stroke(pen, *shapes)

    @property
    def texts(self) -> tuple[Text, ...]:
        """The type so far."""
        return tuple(self._texts)

    @property
    def lowest(self) -> float:
        """How far down it reaches, mm; 0 where there is nothing yet."""
        shapes = (shape for of_pen in (*self._fills.values(), *self._strokes.values()) for shape in of_pen)
        lines = (y for shape in shapes for y in _heights(shape))
        return max([0.0, *lines, *(box_of(text).bottom for text in self._texts)])

    def drawing(self, width: float, height: float, alternative: str) -> Drawing:
        """All of it."""
        fills = [Path(tuple(shapes), fill=colour) for colour, shapes in self._fills.items() if shapes]
        strokes = [Path(tuple(shapes), stroke=pen) for pen, shapes in self._strokes.items() if shapes]
        return Drawing(width, height, (*fills, *strokes, *self._texts), alternative)


def _heights(shape: Drawn) -> Iterator[float]:
    if isinstance(shape, Circle):
        yield shape.centre[1] + shape.radius
    elif isinstance(shape, Runs):
        yield from shape.numbers[1::2]
    elif isinstance(shape, Curve):
        yield from (shape.start[1], *(end[1] for *_, end in shape.pieces))
    else:
        yield from (y for _, y in shape.points)


def rectangle(left: float, top: float, right: float, bottom: float) -> tuple[Point, ...]:
    """Its corners."""
    return (left, top), (right, top), (right, bottom), (left, bottom)
