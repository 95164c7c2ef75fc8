"""One part over its inspections, as far as a rate of wear may rest on them."""

from collections.abc import Iterator
from dataclasses import dataclass

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.fitting import began, fitting_of, is_fitted_after, machine_hours
from tracksworn.assessment.forecast.even import EvenWear
from tracksworn.assessment.model import Basis, PlaceFigure, Row
from tracksworn.assessment.occasions import Occasion, on_occasion
from tracksworn.assessment.sides import most_worn
from tracksworn.assessment.so_far import SoFar
from tracksworn.assessment.uncertainty import Budget, weighted_sum
from tracksworn.inspection.model import Reading
from tracksworn.inspection.vocabulary import Side


@dataclass(frozen=True, slots=True)
class Seen:
    """How worn a part was at so many machine hours, in points of even wear, and what made that doubtful."""

    hours: float
    worn: float
    budget: Budget


@dataclass(frozen=True, slots=True)
class History:
    """A governing part that was measured at known machine hours."""

    percent: float  # worn now
    uncertainty: float  # of that, 95 %
    even: EvenWear
    now: Seen
    earlier: tuple[Seen, ...]  # readings that pair with the present one, oldest first
    hours_on: float | None  # since it was fitted or turned; None where the one or the other end is not evidenced


def governing_rows(so_far: SoFar) -> Iterator[Row]:
    """The most worn part of each side of each component, in the order of the rows."""
    for component in dict.fromkeys(row.component for row in so_far.components):
        for side in Side:
            governing = most_worn(so_far.rows(component, side))
            if governing is not None:
                yield governing


def history_of(so_far: SoFar, row: Row) -> History | None:
    """The history of a governing part; None where it was not measured, or the machine's hours are unknown."""
    hours = so_far.occasion.hours
    if row.basis is not Basis.MEASURED or row.scale is None or hours is None:
        return None
    even = EvenWear.on(row.scale)
    now = _seen(row, hours, even, "now")
    if now is None or row.percent_worn is None or row.uncertainty is None:
        return None
    pairs = enumerate(_pairs(so_far, row))
    earlier = (_seen(figure, then, even, index) for index, (then, figure) in pairs)
    return History(
        row.percent_worn,
        row.uncertainty,
        even,
        now,
        tuple(seen for seen in earlier if seen is not None),
        hours_on(so_far, row),
    )


def hours_on(so_far: SoFar, row: Row) -> float | None:
    """Evidenced hours since a part was fitted, or turned; None where the one or the other end is not evidenced.

    Anything that the hours at fitting are known from is evidence, of the machine's hours the owner's word is none.
    """
    since = known_beginning(so_far, row)
    hours = machine_hours(so_far.inspection, word_counts=False)
    return None if since is None or hours is None else hours - since


def known_beginning(so_far: SoFar, row: Row) -> float | None:
    """Machine hours at which a part was as new, on any evidence."""
    return began(fitting_of(so_far.inspection, row.component, row.side, row.position), word_counts=True)


def pair_in(so_far: SoFar, row: Row, older: Occasion) -> PlaceFigure | None:
    """The earlier reading of a measured part from which a rate may run to the present one; None where there is none.

    It was taken at fewer machine hours, not before the part was fitted or turned, at the same place of the same part,
    at the same joints, as often, and with a gauge of the same name.
    """
    now, then = so_far.occasion.hours, older.hours
    fitting = fitting_of(so_far.inspection, row.component, row.side, row.position)
    if now is None or then is None or not exceeds(now, then) or is_fitted_after(fitting, then, or_turned=True):
        return None
    here, there = (each.inspection.readings.get(row.component) for each in (so_far, older))
    if not _are_alike(here, there, row.side):
        return None
    before = older.parts.row(row.component, row.side, row.position)
    figures = (figure for figure in (before.places if before else ()) if figure.place is row.place)
    found = next(figures, None)
    if found is None or found.percent_worn is None or len(found.singles) != row.readings:
        return None
    return found


def _pairs(so_far: SoFar, row: Row) -> Iterator[tuple[float, PlaceFigure]]:
    """Machine hours and reading of every earlier inspection that pairs, oldest first."""
    for older in so_far.earlier:
        figure = pair_in(so_far, row, older)
        if figure is not None and older.hours is not None:
            yield older.hours, figure


def _are_alike(one: Reading | None, other: Reading | None, side: Side) -> bool:
    """Whether two readings of a side are of the same joints and by a gauge of the same name, or of none."""
    if one is None or other is None or one.gauge[side] != other.gauge[side]:
        return False
    joints, others = one.joints[side], other.joints[side]
    return sorted(joints or ()) == sorted(others or ())


def _seen(figure: Row | PlaceFigure, hours: float, even: EvenWear, occasion: str | int) -> Seen | None:
    if figure.percent_worn is None or figure.budget is None:
        return None
    budget = on_occasion(figure.budget, occasion)
    return Seen(hours, even.at(figure.percent_worn), weighted_sum([(even.slope(figure.percent_worn), budget)]))
