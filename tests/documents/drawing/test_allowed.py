"""What terms allow against hours: where curves, dots and names stand."""

from collections.abc import Iterable
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.assessment.decisions import Result
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.drawing.allowed import HEIGHT, MOST, WIDTH, Allowed, AllowedCurve, Stand, draw_allowed
from tracksworn.documents.drawing.inks import INK
from tracksworn.documents.drawing.lettering import Box, box_of
from tracksworn.documents.drawing.plain import Circle, Drawing, Line
from tracksworn.documents.drawing.type import width_mm
from tracksworn.documents.words import labels
from tracksworn.documents.words.catalogues.catalogue import TRANSLATED
from tracksworn.documents.words.language import Language
from tracksworn.inspection.vocabulary import Component, Side

ALL = AllowedCurve("all others", ((0.0, 10.0), (4000.0, 80.0)))
BUSHINGS = AllowedCurve("bushings", ((0.0, 10.0), (2500.0, 60.0), (4000.0, 90.0)))
HOURS = ((0.0, "0"), (2000.0, "2 000"), (4000.0, "4 000"))


def chart(*stands: Stand, curves: tuple[AllowedCurve, ...] = (BUSHINGS, ALL)) -> Drawing:
    return draw_allowed(Allowed(curves, stands, HOURS, "in words"))


def stand(hours: float, percent: float, result: Result = Result.PASSES, name: str = "") -> Stand:
    return Stand(hours, percent, percent - 5.0, percent + 5.0, result, name)


def filled(drawing: Drawing) -> list[Circle]:
    return [shape for path in drawing.paths if path.fill == INK for shape in path.shapes if isinstance(shape, Circle)]


def test_curves_named_before_the_rest_are_dashed_and_that_of_all_others_is_full() -> None:
    curves = [path.stroke for path in chart().paths if path.stroke and path.stroke.width == 0.42]
    assert [bool(pen.dash) for pen in curves if pen] == [True, False]


def test_only_what_fails_is_a_filled_dot() -> None:
    assert len(filled(chart(stand(1000, 20), stand(2000, 90, Result.FAILS), stand(3000, 50, Result.UNDECIDED)))) == 1


def test_dots_stand_at_their_hours_and_percents() -> None:
    (first,) = filled(chart(stand(1000, 40, Result.FAILS)))
    (later,) = filled(chart(stand(3000, 40, Result.FAILS)))
    (higher,) = filled(chart(stand(1000, 60, Result.FAILS)))
    assert later.centre[0] > first.centre[0]
    assert later.centre[1] == pytest.approx(first.centre[1])
    assert higher.centre[1] < first.centre[1]


def test_what_is_worn_beyond_the_top_is_a_pointer_there() -> None:
    drawing = chart(stand(1000, MOST + 60, Result.FAILS))
    assert filled(drawing) == []
    (pointer,) = [shape for path in drawing.paths if path.fill == INK for shape in path.shapes]
    assert isinstance(pointer, Line)
    assert all(0 <= y <= HEIGHT for _, y in pointer.points)


def longest(names: Iterable[str]) -> str:
    return max(names, key=lambda name: width_mm(name, 6.4))


IN_ALL_LANGUAGES = [Language(code) for code in ("en", *sorted(TRANSLATED))]
PARTS = [
    longest(labels.part(Subject(one, side, number), language) for one in Component for side in Side)
    for language in IN_ALL_LANGUAGES
    for number in (None, 10)
]
CURVES = [longest(labels.many(one, language) for one in Component) for language in IN_ALL_LANGUAGES]


@given(
    st.lists(st.tuples(st.floats(0, 4000), st.floats(0, 140), st.sampled_from(["pitch", *PARTS])), max_size=3),
    st.sampled_from(CURVES),
)
def test_in_no_language_does_a_name_meet_another_or_leave_the_drawing(
    parts: list[tuple[float, float, str]], curve: str
) -> None:
    curves = (replace(BUSHINGS, name=curve), ALL)
    drawing = chart(*(stand(hours, percent, name=name) for hours, percent, name in parts), curves=curves)
    boxes = [box_of(text) for text in drawing.texts if not text.content[0].isdigit()]
    boxes += [box_of(text) for text in drawing.texts if text.halo and text.content.isdigit()]
    assert all(box.left >= 0 and box.right <= WIDTH and box.bottom <= drawing.height for box in boxes)
    assert not any(one.meets(other) for one, other in combinations(boxes, 2))
    said = " ".join(text.content for text in drawing.texts)
    assert all(name in said for _, _, name in parts)


def test_names_that_have_no_room_beside_their_dots_have_numbers_there_and_stand_under_the_axis() -> None:
    longer = "rodillo inferior 3 del lado izquierdo"
    drawing = chart(stand(2400, 100, Result.FAILS, longer), stand(3000, 40, name="pitch"))
    assert [text.content for text in drawing.texts if text.halo] == ["1", "2"]
    assert [text.content for text in drawing.texts[-4:]] == ["1", longer, "2", "pitch"]
    axis = next(text for text in drawing.texts if text.content == "2 000")
    assert all(text.at[1] > axis.at[1] for text in drawing.texts[-4:])


def test_a_name_moves_away_from_where_another_part_stands() -> None:
    drawing = chart(stand(2600, 50), stand(2800, 50), stand(3000, 50, name="right links"))
    (name,) = [text for text in drawing.texts if text.halo]
    assert name.content == "right links"
    assert not any(box_of(name).meets(dot) for dot in places(drawing))


def places(drawing: Drawing) -> list[Box]:
    """What the dots and pointers of a chart take up."""
    shapes = [shape for path in drawing.paths for shape in path.shapes]
    dots = [(one.centre, one.radius) for one in shapes if isinstance(one, Circle)]
    boxes = [Box(x - size, y - size, x + size, y + size) for (x, y), size in dots]
    for one in (shape for path in drawing.paths if path.fill for shape in path.shapes if isinstance(shape, Line)):
        across, down = zip(*one.points, strict=True)
        boxes.append(Box(min(across), min(down), max(across), max(down)))
    return boxes


@given(
    st.lists(st.tuples(st.floats(0, 4000), st.floats(0, 140), st.sampled_from(list(Result)[:3])), max_size=18),
    st.lists(st.sampled_from(PARTS), max_size=3),
)
def test_no_label_stands_over_where_a_part_is(parts: list[tuple[float, float, Result]], names: list[str]) -> None:
    stands = [stand(hours, percent, result) for hours, percent, result in parts]
    named = [replace(one, name=name) for one, name in zip(stands, names, strict=False)]
    drawing = chart(*named, *stands[len(named) :])
    dots = places(drawing)
    assert len(dots) >= len(parts)
    assert not [text.content for text in drawing.texts for dot in dots if box_of(text).meets(dot)]


def test_without_any_part_it_still_shows_what_is_allowed() -> None:
    drawing = chart(curves=(ALL,))
    assert "all others" in [text.content for text in drawing.texts]
    assert drawing.alternative == "in words"


def test_a_figure_of_the_axis_gives_way_to_a_long_name() -> None:
    long = "rodillo inferior 3 derecho"
    drawing = chart(stand(3400, 100, Result.FAILS, long), curves=(ALL,))
    name = next(text for text in drawing.texts if text.content == long)
    others = [text for text in drawing.texts if text is not name]
    assert not any(box_of(name).meets(box_of(text)) for text in others)
    assert {"0", "20", "40", "60"} <= {text.content for text in others}
