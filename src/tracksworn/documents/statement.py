"""An assessment as the JSON that `assess --json` prints and a sealed document carries, in full precision.

Keys stand in the order of the published format; what has no figure is null; sentences are English.
"""

import json
import math
from collections.abc import Mapping
from datetime import date
from enum import StrEnum
from typing import Any, Final

from tracksworn.assessment.decisions import Conformity, ForecastRow, Plan, PlannedWork, RateFrom, Verdict, Visit
from tracksworn.assessment.model import Assessment, Comparison, Overall, Row, SideFigure, Travel, Worst, WorstJoint
from tracksworn.assessment.sayings import Finding
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.findings import say_finding

KIND = "assessment 1"

KEYS: Final[Mapping[type, tuple[str, ...]]] = {
    Row: (
        "component", "side", "position", "place", "basis", "readings", "size_mm", "percent_worn", "low", "high",
        "uncertainty", "dof", "stage", "life_used", "worst_joint", "assumed",
    ),
    WorstJoint: ("joint", "percent_worn", "further_high"),
    Comparison: ("component", "left", "right", "delta", "delta_low", "delta_high", "differs"),
    SideFigure: ("percent_worn", "low", "high", "position"),
    Overall: (
        "percent_worn", "low", "high", "bound", "seen_share", "floor", "ceiling", "shares_from", "past_limit",
        "near_limit", "unseen", "worst",
    ),
    Worst: ("component", "side", "position", "percent_worn"),
    Travel: ("component", "side", "size_mm", "percent_used"),
    ForecastRow: (
        "component", "side", "position", "rate_per_100_h", "rate_from", "rates", "hours_left", "hours_low",
        "hours_high", "date_low", "date_high",
    ),
    Plan: ("as_of", "visits", "value_left", "cost_to_restore", "currency"),
    Visit: ("at_hours", "work", "cost"),
    PlannedWork: ("component", "side", "position", "way", "cost"),
    Conformity: ("title", "rule", "result", "components"),
    Verdict: ("component", "side", "position", "allowed", "guard", "probability", "result"),
}  # fmt: skip
"""What is published of each value; all else that it holds is for documents."""

_AS_IT_IS: Final = frozenset({type(None), bool, int, str})
RATES = (RateFrom.SINCE_FITTED, RateFrom.BETWEEN)


def statement(assessment: Assessment) -> dict[str, Any]:
    """The assessment as plain values for JSON. Raises ValueError for a figure that is not finite."""
    return {
        "tracksworn": KIND,
        "method": assessment.method,
        "number": assessment.number,
        "revision": assessment.revision,
        "inspected": assessment.inspected.isoformat(),
        "components": _plain(assessment.components),
        "sides": _plain(assessment.sides),
        "overall": _plain(assessment.overall),
        "travel": _plain(assessment.travel),
        "findings": [_finding(finding) for finding in assessment.findings],
        "forecast": _plain(assessment.forecast),
        "plan": _plain(assessment.plan),
        "conformity": _plain(assessment.conformity),
    }


def in_json(stated: Mapping[str, Any]) -> str:
    """A statement as text, for a reader who opens it. Raises ValueError for a figure that is not finite."""
    return json.dumps(stated, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _finding(finding: Finding) -> dict[str, Any]:
    said = say_finding(finding, Figures())
    return {
        "code": finding.code,
        "severity": str(finding.severity),
        "about": [str(subject) for subject in finding.about],
        "because": list(said.reasons),
        "advice": said.advice,
    }


def _plain(value: object) -> Any:
    """One value for JSON; what there is most of comes first."""
    kind = type(value)
    if kind in _AS_IT_IS:
        return value
    if kind in KEYS:
        return {key: _plain(getattr(value, key)) for key in KEYS[kind]}
    match value:
        case float() if not math.isfinite(value):
            raise ValueError(f"an assessment holds a figure that is not finite: {value}")
        case float():
            return value
        case StrEnum():
            return str(value)
        case date():
            return value.isoformat()
        case tuple():
            return [_plain(item) for item in value]
        case Mapping():
            return {str(rate): _plain(value.get(rate)) for rate in RATES}
        case _:
            raise TypeError(f"no JSON for {kind.__name__}")
