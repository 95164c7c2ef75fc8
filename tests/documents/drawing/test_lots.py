"""The line of one machine's whole, and the distribution of many."""

from dataclasses import replace
from itertools import pairwise

import pytest

from tracksworn.assessment.model import Stage
from tracksworn.documents.drawing.distribution import Distribution, draw_distribution
from tracksworn.documents.drawing.inks import STAGE_INKS
from tracksworn.documents.drawing.lettering import box_of
from tracksworn.documents.drawing.plain import Drawing, Line
from tracksworn.documents.drawing.whole_bar import END, WholeBar, draw_scale, draw_whole_bar

BAR = WholeBar(56.0, 52.0, 60.0, 49.0, 68.0, Stage.SECOND_HALF, by_eye=False, alternative="52 to 60")
TOLD = Distribution((1, 0, 2, 5, 9, 12, 7, 4, 2, 1), (("not known", 3),), 52.0, "middle 52", "limit", "Lots.")


def xs(drawing: Drawing, *, fill: str) -> list[float]:
    paths = [path for path in drawing.paths if path.fill == fill]
    return [x for path in paths for shape in path.shapes if isinstance(shape, Line) for x, _ in shape.points]


def test_the_bar_spans_the_interval_in_the_ink_of_its_stage() -> None:
    drawing = draw_whole_bar(BAR, 53.5)  # half a mm a percent, within the insets
    ends = xs(drawing, fill=STAGE_INKS[Stage.SECOND_HALF])
    scale = (53.5 - 1.0) / END
    assert min(ends) == pytest.approx(0.5 + 52 * scale)
    assert max(ends) == pytest.approx(0.5 + 60 * scale)


def test_by_eye_has_no_ink_of_a_stage() -> None:
    drawing = draw_whole_bar(replace(BAR, by_eye=True), 50.0)
    assert not {path.fill for path in drawing.paths} & set(STAGE_INKS.values())


@pytest.mark.parametrize(
    "bar",
    [
        BAR,
        replace(BAR, high=None),
        replace(BAR, percent=None, low=None, high=None, stage=None, floor=0.0, ceiling=100.0),
        replace(BAR, low=-3.0, high=112.0),
        replace(BAR, percent=99.0, low=97.0, high=None, ceiling=99.0),
    ],
)
def test_every_state_stays_within_its_width(bar: WholeBar) -> None:
    drawing = draw_whole_bar(bar, 30.0)
    points = [x for path in drawing.paths for shape in path.shapes if isinstance(shape, Line) for x, _ in shape.points]
    assert min(points) >= -1.0
    assert max(points) <= 30.0
    assert drawing.alternative == "52 to 60"


@pytest.mark.parametrize("limit", ["limit", "Grenze", "límite", "Verschleißgrenze"])
def test_the_scale_says_where_stages_begin_and_the_limit_as_far_as_there_is_room(limit: str) -> None:
    drawing = draw_scale(30.0, limit, "scale")
    boxes = sorted((box_of(text) for text in drawing.texts), key=lambda box: box.left)
    assert all(before.right < after.left for before, after in pairwise(boxes))
    said = {text.content for text in drawing.texts}
    assert {"0", "50", "80"} <= said
    assert len(said & {limit, "100"}) == 1


def test_columns_are_as_high_as_their_counts() -> None:
    drawing = draw_distribution(TOLD)
    heights = {
        ink: sorted(
            round(max(y for _, y in shape.points) - min(y for _, y in shape.points), 6)
            for path in drawing.paths
            if path.fill == ink
            for shape in path.shapes
            if isinstance(shape, Line)
        )
        for ink in STAGE_INKS.values()
    }
    full = 27.4 - 4.4
    assert heights[STAGE_INKS[Stage.SECOND_HALF]] == pytest.approx(sorted(full * n / 12 for n in (12, 7, 4)))
    assert heights[STAGE_INKS[Stage.NEAR_LIMIT]] == pytest.approx(sorted(full * n / 12 for n in (2, 1)))


def test_every_count_is_written() -> None:
    written = [text.content for text in draw_distribution(TOLD).texts if text.size == 7.4]
    assert written == ["1", "0", "2", "5", "9", "12", "7", "4", "2", "1", "3"]


def test_a_sale_of_nothing_can_be_drawn() -> None:
    nothing = Distribution((0,) * 10, (), None, "", "limit", "Lots: none.")
    assert draw_distribution(nothing).texts
