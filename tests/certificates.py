"""Certificates of the long example, with a verdict made by hand where a test asks for one."""

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from long_example import CHART, FIRM, INSPECTION, TERMS
from side_by_side import headed

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import Conformity, Result
from tracksworn.assessment.model import Assessment
from tracksworn.documents.certificate.build import certificate
from tracksworn.documents.certificate.view import Certificate
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.letterhead import Letterhead
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.terms import Terms

LETTERHEAD = headed("Millrace Plant Survey", records_at="https://millrace.example/r/", address=("4 Tannery Row",))
EXAMPLE = replace(
    INSPECTION,
    number="MPS-2031-0418",
    issued=date(2031, 4, 19),
    place="Oxbow Sale Yard, row 14",
    conditions="dry, tracks washed",
    limits_of_access="belly guard fitted",
    inspector=replace(INSPECTION.inspector, engaged_by="Oxbow Sale Yard"),
)
DIGESTS = {"MPS/inspection.yaml": "0" * 64}


def assessed(result: Result | None = None, *, terms: Terms = TERMS, inspection: Inspection = EXAMPLE) -> Assessment:
    """The long example against its terms; `result` stands in for the verdict on the whole."""
    found = assess(inspection, CHART, FIRM, terms=terms)
    conformity = found.conformity
    assert isinstance(conformity, Conformity)
    return found if result is None else replace(found, conformity=replace(conformity, result=result))


def certified(
    result: Result | None = None,
    *,
    letterhead: Letterhead | None = LETTERHEAD,
    terms: Terms = TERMS,
    inspection: Inspection = EXAMPLE,
    **asked: Any,
) -> Certificate:
    """The view of its certificate."""
    dossier = Dossier(inspection, Path("MPS"), CHART, letterhead, terms=terms, digests=DIGESTS)
    return certificate(dossier, assessed(result, terms=terms, inspection=inspection), **asked)
