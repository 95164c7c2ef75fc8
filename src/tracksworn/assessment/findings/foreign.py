"""Parts that were not made for their place: the chart's sizes are of another part."""

from collections.abc import Iterable
from dataclasses import replace
from typing import TypeVar

from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.findings.telling import part_of, seen
from tracksworn.assessment.model import Comparison, Row
from tracksworn.assessment.sayings import Subject
from tracksworn.assessment.sides import compare_sides
from tracksworn.assessment.so_far import SoFar, once
from tracksworn.inspection.model import FittedPart
from tracksworn.inspection.vocabulary import Origin, Sign

AnyRow = TypeVar("AnyRow", Row, ForecastRow)


def of_origin(so_far: SoFar, origin: Origin) -> tuple[Subject, ...]:
    """The parts that the inspection says are of that origin."""
    fitted = so_far.inspection.fitted.items()
    return tuple(_subject(part) for part, fitting in fitted if fitting.origin is origin)


@once
def foreign_parts(so_far: SoFar) -> tuple[Subject, ...]:
    """Parts adapted from another place, and those seen to be the wrong ones, each once."""
    told = (one.part for one in seen(so_far, {Sign.WRONG_PART}))
    return tuple(dict.fromkeys([*of_origin(so_far, Origin.ADAPTED), *told]))


def is_foreign(so_far: SoFar, part: Subject) -> bool:
    """Whether a part is one of them; what names no side or number means all of them."""
    return _is_among(foreign_parts(so_far), part)


def without_foreign(so_far: SoFar, rows: Iterable[AnyRow]) -> tuple[AnyRow, ...]:
    """Those rows whose parts were made for their place."""
    foreign = foreign_parts(so_far)
    return tuple(row for row in rows if not _is_among(foreign, part_of(row)))


def with_foreign_marked(so_far: SoFar) -> SoFar:
    """The same with every comparison of sides marked in which one of them had a say."""
    kept = without_foreign(so_far, so_far.components)
    if len(kept) == len(so_far.components):
        return so_far
    made_anew = {entry.component: _said(entry) for entry in compare_sides(kept, so_far.assumed)}
    sides = (replace(one, foreign=made_anew.get(one.component) != _said(one)) for one in so_far.sides)
    return replace(so_far, sides=tuple(sides))


def _said(entry: Comparison) -> tuple[object, ...]:
    return entry.left, entry.right, entry.delta


@once
def foretold(so_far: SoFar) -> tuple[ForecastRow, ...]:
    """The forecast of all parts that were made for their place: the hours of the others are by another part's sizes."""
    return without_foreign(so_far, so_far.forecast or ())


def _is_among(foreign: Iterable[Subject], part: Subject) -> bool:
    return any(
        part.what is one.what and one.side in (None, part.side) and one.number in (None, part.number) for one in foreign
    )


def _subject(part: FittedPart) -> Subject:
    return Subject(part.component, part.side, part.position)
