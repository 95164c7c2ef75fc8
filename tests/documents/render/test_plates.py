"""The legend of sheet one explains what occurs on the machine, and nothing else."""

from dataclasses import replace

import views

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.full.view import FullReport
from tracksworn.documents.render.plates import draw_plates

NEW = Gauge(Basis.MEASURED, "5", 5.0, stage=Stage.FIRST_HALF)


def with_gauges(view: FullReport, *gauges: Gauge) -> FullReport:
    """One row for each gauge, left alone."""
    left = next(row.left for row in view.parts if row.left)
    row = next(row for row in view.parts if row.left)
    return replace(
        view, strips=(), parts=tuple(replace(row, left=replace(left, gauge=one), right=None) for one in gauges)
    )


def legend(view: FullReport) -> list[str]:
    return [key.words for key in draw_plates(view).keys]


def test_what_does_not_occur_is_not_explained() -> None:
    view = views.report()
    words = view.headings
    solid = f"{words.hatched}. {words.solid}."
    assert legend(with_gauges(view, NEW)) == [solid, words.limit]
    assert legend(with_gauges(view, Gauge(Basis.NOT_SEEN, "–"))) == [words.not_seen_key]
    past = replace(NEW, percent=105.0, stage=Stage.PAST_LIMIT)
    eye = Gauge(Basis.BY_EYE, "20–40", low=20.0, high=40.0)
    assert legend(with_gauges(view, past, eye)) == [solid, words.past, words.by_eye]
