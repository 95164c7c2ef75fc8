"""When a part began to wear from new, and what its hours and the machine's rest on."""

from tracksworn.assessment.boundaries import exceeds
from tracksworn.inspection.model import FittedPart, Fitting, Inspection
from tracksworn.inspection.vocabulary import Component, Evidence, Side


def fitting_of(inspection: Inspection, component: Component, side: Side, position: int | None = None) -> Fitting | None:
    """What is told of when a part went on: of this position, else of its side, else of the component."""
    keys = (FittedPart(component, side, position), FittedPart(component, side), FittedPart(component))
    return next((inspection.fitted[key] for key in keys if key in inspection.fitted), None)


def began(fitting: Fitting | None, *, word_counts: bool) -> float | None:
    """Machine hours at which its wear began: when it was turned, else fitted, 0 where it is on since new.

    None where nobody says when, or on what evidence; `word_counts` tells whether the owner's word is evidence.
    """
    if fitting is None:
        return None
    if fitting.original:
        return 0.0
    if not _is_evidence(fitting.known_from, word_counts=word_counts):
        return None
    return fitting.at if fitting.turned_at is None else fitting.turned_at


def machine_hours(inspection: Inspection, *, word_counts: bool) -> float | None:
    """The machine's hours at the inspection; None where they are unknown, or where only the owner's word says so."""
    hours = inspection.machine.hours
    if hours is None or not _is_evidence(hours.known_from, word_counts=word_counts):
        return None
    return hours.machine


def is_fitted_after(fitting: Fitting | None, hours: float | None, *, or_turned: bool = False) -> bool:
    """Whether the part went on, or was turned, after these machine hours, on whatever evidence."""
    if fitting is None or hours is None:
        return False
    told = (fitting.at, fitting.turned_at if or_turned else None)
    return any(at is not None and exceeds(at, hours) for at in told)


def _is_evidence(known_from: Evidence | None, *, word_counts: bool) -> bool:
    return known_from is not None and (word_counts or known_from is not Evidence.OWNERS_WORD)
