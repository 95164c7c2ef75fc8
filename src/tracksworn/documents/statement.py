"""An assessment as the JSON that `assess --json` prints and a sealed document carries, in full precision.

Keys stand in the order of the published format; what has no figure is null; sentences are English.
"""

import math
from dataclasses import fields, is_dataclass
from datetime import date
from enum import StrEnum
from typing import Any

from tracksworn.assessment.model import Assessment, Comparison, Overall, Row, SideFigure, Travel
from tracksworn.assessment.sayings import Finding
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.findings import say_finding

KIND = "assessment 1"

ROW = (
    "component", "side", "position", "place", "basis", "readings", "size_mm", "percent_worn", "low", "high",
    "uncertainty", "dof", "stage", "life_used", "worst_joint", "assumed",
)  # fmt: skip
SIDE_FIGURE = ("percent_worn", "low", "high", "position")
COMPARISON = ("component", "left", "right", "delta", "delta_low", "delta_high", "differs")
OVERALL = (
    "percent_worn", "low", "high", "bound", "seen_share", "floor", "ceiling", "shares_from", "past_limit",
    "near_limit", "unseen", "worst",
)  # fmt: skip
TRAVEL = ("component", "side", "size_mm", "percent_used")


def statement(assessment: Assessment) -> dict[str, Any]:
    """The assessment as plain values for JSON. Raises ValueError for a figure that is not finite."""
    return {
        "tracksworn": KIND,
        "method": assessment.method,
        "number": assessment.number,
        "revision": assessment.revision,
        "inspected": assessment.inspected.isoformat(),
        "components": [_picked(row, ROW) for row in assessment.components],
        "sides": [_picked(entry, COMPARISON) for entry in assessment.sides],
        "overall": _picked(assessment.overall, OVERALL),
        "travel": [_picked(entry, TRAVEL) for entry in assessment.travel],
        "findings": [_finding(finding) for finding in assessment.findings],
        "forecast": None,
        "plan": None,
        "conformity": None,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    said = say_finding(finding, Figures())
    return {
        "code": finding.code,
        "severity": str(finding.severity),
        "about": [str(subject) for subject in finding.about],
        "because": list(said.reasons),
        "advice": said.advice,
    }


def _picked(source: Row | Comparison | Overall | Travel | SideFigure, keys: tuple[str, ...]) -> dict[str, Any]:
    return {key: _plain(getattr(source, key)) for key in keys}


def _plain(value: object) -> Any:
    match value:
        case None | bool():
            return value
        case StrEnum():
            return str(value)
        case SideFigure():
            return _picked(value, SIDE_FIGURE)
        case float() if not math.isfinite(value):
            raise ValueError(f"an assessment holds a figure that is not finite: {value}")
        case int() | float() | str():
            return value
        case date():
            return value.isoformat()
        case tuple():
            return [_plain(item) for item in value]
        case _ if is_dataclass(value):
            return {one.name: _plain(getattr(value, one.name)) for one in fields(value)}
        case _:
            raise TypeError(f"no JSON for {type(value).__name__}")
