"""Percent worn against what terms allow, with a decision rule agreed beforehand (JCGM 106, ILAC-G8)."""

from collections.abc import Iterable
from typing import Final

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.conformity.decision import decide, margin
from tracksworn.assessment.conformity.standing import Standing, standings
from tracksworn.assessment.decisions import Conformity, Result, Verdict, Why
from tracksworn.assessment.so_far import SoFar
from tracksworn.assessment.sources import RECTANGULAR
from tracksworn.inspection.terms import Rule, Terms

OUTSIDE: Final = frozenset({Why.HOURS, Why.FITTING, Why.BEYOND, Why.GAUGE_DUE})
"""Why a part is outside the terms altogether."""


def conformity(so_far: SoFar, terms: Terms) -> Conformity:
    """Every component that the terms allow for, both sides, and the whole.

    Worked example. After 3202 h a left link is 79.333 % worn, with u = 1.7786 points at 90.37 degrees of freedom. The
    terms allow 10 % at 0 h and 80 % at 4000 h, so 0.0175 points an hour; hours are known within 20 h, confidence is
    95 %, three rows are tested.

    allowed           10 + 0.0175 · 3202                  = 66.035 %
    u                 √(1.7786² + (0.0175 · 20/√3)²)      = 1.7900 points
    dof               90.37 · (1.7900 / 1.7786)⁴          = 92.72
    guard             t(92.72, 2.5 %) · 1.7900            = 3.5548 points
    guard of failure  t(92.72, 2.5 %/3) · 1.7900          = 4.3644 points
    probability       T(92.72, (66.035 − 79.333)/1.7900)  = 2.63e-11

    79.333 + 3.555 is above 66.035, so it does not pass; 79.333 − 4.364 is above it too, so it fails.
    """
    parts = tuple(standings(so_far, terms))
    tested = sum(part.is_tested for part in parts)
    verdicts = tuple(_verdict(part, terms, tested) for part in parts)
    result = _whole([verdict.result for verdict in verdicts])
    return Conformity(terms.title, terms.rule, result, verdicts, terms.confidence, tested)


def _verdict(part: Standing, terms: Terms, tested: int) -> Verdict:
    if part.is_tested:
        return _by_measure(part, terms, tested)
    result = Result.OUTSIDE if part.why in OUTSIDE else Result.UNDECIDED
    if part.why is Why.BY_EYE and _whole_range_past(part):
        return _told(part, Result.FAILS, None)
    return _told(part, result, part.why)


def _by_measure(part: Standing, terms: Terms, tested: int) -> Verdict:
    """A measured figure: under the simple rule without guards, else with the risk of failing shared among all."""
    row = part.row
    assert row is not None
    assert row.percent_worn is not None
    assert row.budget is not None
    assert part.allowed is not None
    known = margin(row.percent_worn, row.budget, part.allowed, part.slope * terms.hours_within / RECTANGULAR)
    simple = terms.rule is Rule.SIMPLE
    guard = 0.0 if simple else known.guard(terms.confidence)
    guard_of_failure = 0.0 if simple else known.guard(terms.confidence, tested)
    result = decide(known.points, guard, guard_of_failure)
    return Verdict(
        part.component,
        part.side,
        row.position,
        allowed=part.allowed,
        guard=guard,
        probability=known.probability,
        result=result,
        why=Why.DOUBT if result is Result.UNDECIDED else None,
        hours=part.hours,
        guard_of_failure=guard_of_failure,
    )


def _told(part: Standing, result: Result, why: Why | None) -> Verdict:
    position = part.row.position if part.row else None
    return Verdict(part.component, part.side, position, part.allowed, None, None, result, why, part.hours)


def _whole_range_past(part: Standing) -> bool:
    low = part.row.low if part.row else None
    return low is not None and part.allowed is not None and exceeds(low, part.allowed)


def _whole(results: Iterable[Result]) -> Result:
    """Fails if any fails; passes, or is outside the terms, if all do and there are any; else undecided."""
    found = set(results)
    if Result.FAILS in found:
        return Result.FAILS
    return found.pop() if len(found) == 1 else Result.UNDECIDED
