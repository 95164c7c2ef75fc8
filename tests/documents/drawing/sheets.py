"""Gauges made at random, and what must hold for the type and the strokes of any drawing."""

from collections.abc import Iterator
from itertools import combinations

from hypothesis import strategies as st

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import STAGE_INKS
from tracksworn.documents.drawing.lettering import LEAST_SIZE, box_of
from tracksworn.documents.drawing.plain import Drawing, Line, Path, Point, Stroke

BOUNDS = ((50.0, Stage.FIRST_HALF), (80.0, Stage.SECOND_HALF), (100.0, Stage.NEAR_LIMIT))
INKS = frozenset(STAGE_INKS.values())
ROOM = 0.3  # mm that half a heavy stroke may lie over the edge


def stage_of(percent: float) -> Stage:
    return next((stage for bound, stage in BOUNDS if percent < bound), Stage.PAST_LIMIT)


def measured(percent: float, within: float = 4.0) -> Gauge:
    return Gauge(Basis.MEASURED, f"{percent:.0f}", percent, percent - within, percent + within, stage_of(percent))


def by_eye(low: float | None, high: float | None) -> Gauge:
    middle = None if low is None or high is None else (low + high) / 2
    figure = f"at least {low:g}" if high is None else f"at most {high:g}" if low is None else f"{low:g}–{high:g}"
    stage = None if middle is None else stage_of(middle)
    return Gauge(Basis.BY_EYE, figure, middle, low, high, stage, word="by eye")


def not_seen(reason: str = "") -> Gauge:
    return Gauge(Basis.NOT_SEEN, "–", word="not seen", reason=reason)


@st.composite
def estimates(draw: st.DrawFn) -> Gauge:
    low = draw(st.none() | st.integers(0, 95))
    high = draw(st.integers((low or 0) + 1, 125) if low is None else st.none() | st.integers(low + 1, 125))
    return by_eye(low, high)


def readings() -> st.SearchStrategy[Gauge]:
    return st.builds(measured, st.floats(-20, 180), st.floats(0.3, 25))


def gauges() -> st.SearchStrategy[Gauge]:
    reasons = st.sampled_from(["", "guard fitted", "guards fitted, and the track packed with clay to the pins"])
    return st.one_of(readings(), estimates(), st.builds(not_seen, reasons))


def points(path: Path) -> Iterator[Point]:
    for shape in path.shapes:
        if isinstance(shape, Line):
            yield from shape.points


def strokes(drawing: Drawing, pen: Stroke) -> list[Line]:
    return [shape for path in drawing.paths if path.stroke == pen for shape in path.shapes if isinstance(shape, Line)]


def filled(drawing: Drawing, colour: str) -> list[Line]:
    return [shape for path in drawing.paths if path.fill == colour for shape in path.shapes if isinstance(shape, Line)]


def hatching(drawing: Drawing) -> list[Line]:
    """Every line of hatch, of whatever stage."""
    return [
        shape
        for path in drawing.paths
        if path.stroke and path.stroke.colour in INKS
        for shape in path.shapes
        if isinstance(shape, Line)
    ]


def has_stage_ink(drawing: Drawing) -> bool:
    return any(path.fill in INKS or (path.stroke is not None and path.stroke.colour in INKS) for path in drawing.paths)


def assert_sound(drawing: Drawing) -> None:
    """Type is legible, disjoint and inside; nothing leaves the sheet; stage inks are never type."""
    boxes = [(text.content, box_of(text)) for text in drawing.texts]
    outside = [content for content, box in boxes if not box.inside(drawing.width + 0.01, drawing.height + 0.01)]
    assert outside == []
    meeting = [(one[0], other[0]) for one, other in combinations(boxes, 2) if one[1].meets(other[1], -0.05)]
    assert meeting == []
    assert all(text.size >= LEAST_SIZE and text.colour not in INKS for text in drawing.texts)
    for path in drawing.paths:
        for x, y in points(path):
            assert -ROOM <= x <= drawing.width + ROOM
            assert -ROOM <= y <= drawing.height + ROOM
