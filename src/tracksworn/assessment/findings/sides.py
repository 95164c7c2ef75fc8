"""Left against right."""

from collections.abc import Iterator

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.boundaries import TIE
from tracksworn.assessment.findings.chain import dry_sides
from tracksworn.assessment.findings.telling import finding, several
from tracksworn.assessment.model import Comparison
from tracksworn.assessment.sayings import Amount, Finding, Percent, Points, Saying, Severity, Subject
from tracksworn.assessment.sides import leading
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Component, Side


def sides_differ(so_far: SoFar) -> Iterator[Finding]:
    """One side further worn than the other, told once for all components of which that side leads.

    Common practice, no source: both tracks run the same hours, so a side that is ahead tells of turning to one side,
    of side slopes, of a frame out of line, or of parts that were renewed on the other side alone. A long pitch that
    tells of a dry joint is told there; a bound, and a part that was not made for its place, speak for no side.
    """
    for side in Side:
        ahead = [entry for entry in so_far.sides if leading(entry) is side and not _is_dry(so_far, entry, side)]
        if ahead:
            because = [difference(so_far, entry) for entry in ahead]
            amounts: dict[str, Amount] = {
                "side": side,
                "parts": several(Subject(entry.component) for entry in ahead),
            }
            yield finding("sides-differ", Severity.WATCH, because, amounts=amounts, decided_by=[Threshold.DIFFERENCE])


def difference(so_far: SoFar, entry: Comparison) -> Saying:
    """A delta as a reason, the side that leads named first, with both figures where each side has but one.

    A figure by eye is told as it was said.
    """
    ahead = Side.LEFT if (entry.delta or 0.0) >= 0.0 else Side.RIGHT
    about = tuple(Subject(entry.component, side) for side in (ahead, ahead.other))
    within = None if entry.delta is None or entry.delta_high is None else entry.delta_high - entry.delta
    amounts: dict[str, Amount] = {"part": Subject(entry.component), "delta": Points(entry.delta or 0.0, within)}
    if entry.pairs > 1:
        return Saying("delta-in-the-mean", about, amounts | {"pairs": entry.pairs})
    left, right = (figure.percent_worn if figure else None for figure in (entry.left, entry.right))
    if left is None or right is None or abs(left - right - (entry.delta or 0.0)) > TIE:
        return Saying("delta-at-one-place", about, amounts)
    said = {side: _as_said(so_far, entry, side) for side in Side}
    by_eye = [side for side in Side if said[side].said is not None]
    code = "delta" if not by_eye else "delta-by-eye" if len(by_eye) > 1 else f"delta-{by_eye[0]}-by-eye"
    return Saying(code, about, amounts | {side.value: said[side] for side in Side})


def _as_said(so_far: SoFar, entry: Comparison, side: Side) -> Percent:
    figure = entry[side]
    row = so_far.row(entry.component, side, figure.position if figure else None)
    return Percent(figure.percent_worn if figure else None, said=row.estimate if row else None)


def _is_dry(so_far: SoFar, entry: Comparison, side: Side) -> bool:
    return entry.component is Component.PITCH and side in dry_sides(so_far)
