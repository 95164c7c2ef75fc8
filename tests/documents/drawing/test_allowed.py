"""What terms allow against hours: where curves, dots and names stand."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.assessment.decisions import Result
from tracksworn.documents.drawing.allowed import HEIGHT, MOST, WIDTH, Allowed, AllowedCurve, Stand, draw_allowed
from tracksworn.documents.drawing.inks import INK
from tracksworn.documents.drawing.lettering import box_of
from tracksworn.documents.drawing.plain import Circle, Drawing, Line

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


@given(
    st.lists(
        st.tuples(
            st.floats(0, 4000), st.floats(0, 140), st.sampled_from(["left links", "right bottom roller 10", "pitch"])
        ),
        max_size=3,
    )
)
def test_no_name_meets_another_or_leaves_the_drawing(parts: list[tuple[float, float, str]]) -> None:
    drawing = chart(*(stand(hours, percent, name=name) for hours, percent, name in parts))
    names = [box_of(text) for text in drawing.texts if text.halo]
    assert len(names) == len(parts)
    assert all(box.left >= 0 and box.right <= WIDTH for box in names)
    assert not any(one.meets(other) for one, other in combinations(names, 2))


def test_without_any_part_it_still_shows_what_is_allowed() -> None:
    drawing = chart(curves=(ALL,))
    assert "all others" in [text.content for text in drawing.texts]
    assert drawing.alternative == "in words"


def test_a_figure_of_the_axis_gives_way_to_a_long_name() -> None:
    long = "rodillo inferior 3 del lado izquierdo"
    drawing = chart(stand(2400, 100, Result.FAILS, long))
    name = next(text for text in drawing.texts if text.content == long)
    others = [text for text in drawing.texts if text is not name]
    assert not any(box_of(name).meets(box_of(text)) for text in others)
    assert {"0", "20", "40", "60"} <= {text.content for text in others}
