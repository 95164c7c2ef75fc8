"""The course of every side's governing part over its inspections."""

from collections.abc import Iterator, Sequence

from tracksworn.assessment.decisions import Course, CoursePoint
from tracksworn.assessment.forecast.history import governing_rows, known_beginning, pair_in
from tracksworn.assessment.model import Basis, PlaceEstimate, PlaceFigure, Row
from tracksworn.assessment.occasions import Occasion
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import PartPlace

Figure = Row | PlaceFigure | PlaceEstimate


def courses(so_far: SoFar) -> Sequence[Course]:
    """The course of every governing part with a middle figure, where an earlier one or its beginning is known.

    An inspection at unknown machine hours gives no point, nor does an estimate without a middle.
    """
    found = (_course(so_far, row) for row in governing_rows(so_far) if row.percent_worn is not None)
    return [course for course in found if course is not None]


def _course(so_far: SoFar, row: Row) -> Course | None:
    began = known_beginning(so_far, row)
    before = tuple(_earlier(so_far, row))
    now = _point(so_far.occasion, row, counts=row.basis is Basis.MEASURED)
    points = (*before, *([] if now is None else [now]))
    if not points or (not before and began is None):
        return None
    return Course(row.component, row.side, row.position, row.place, began, points)


def _earlier(so_far: SoFar, row: Row) -> Iterator[CoursePoint]:
    """What older inspections read at the same place, else at the place that governed then."""
    measured = row.basis is Basis.MEASURED
    for older in so_far.earlier:
        before = older.parts.row(row.component, row.side, row.position)
        if before is not None:
            counts = measured and pair_in(so_far, row, older) is not None
            point = _point(older, _at_place(before, row.place), counts=counts)
            if point is not None:
                yield point


def _at_place(before: Row, place: PartPlace | None) -> Figure:
    figures: tuple[Figure, ...] = (*before.places, *before.estimates)
    return next((figure for figure in figures if figure.place is place), before)


def _point(seen: Occasion, figure: Figure, *, counts: bool) -> CoursePoint | None:
    hours = seen.hours
    low, high = _ends(figure)
    if hours is None or figure.percent_worn is None or low is None or high is None:
        return None
    by_eye = isinstance(figure, PlaceEstimate) or (isinstance(figure, Row) and figure.basis is Basis.BY_EYE)
    inspection = seen.inspection
    return CoursePoint(
        inspection.number, inspection.inspected, hours, figure.percent_worn, low, high, counts, by_eye=by_eye
    )


def _ends(figure: Figure) -> tuple[float | None, float | None]:
    if not isinstance(figure, PlaceFigure):
        return figure.low, figure.high
    if figure.percent_worn is None or figure.uncertainty is None:
        return None, None
    return figure.percent_worn - figure.uncertainty, figure.percent_worn + figure.uncertainty
