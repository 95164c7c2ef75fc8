"""Findings and observations name one another."""

from dataclasses import replace
from pathlib import Path

from long_example import CHART, INSPECTION

from tracksworn.assessment.assess import assess
from tracksworn.documents.full.build import full_report
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.letterhead import Assumed


def test_what_a_finding_pins_names_the_finding_and_nothing_else_does() -> None:
    inspection = replace(
        INSPECTION, photos=(), observations=tuple(replace(one, photos=()) for one in INSPECTION.observations)
    )
    dossier = Dossier(inspection, Path("TEST-1"), CHART, None, photos={}, digests={"TEST-1/inspection.yaml": "22" * 32})
    view = full_report(dossier, assess(inspection, CHART, Assumed()))
    forth = {(one.number, view.observations[index].number) for one in view.findings for index in one.pins}
    back = {(number, one.number) for one in view.observations for number in one.findings}
    assert forth
    assert forth == back
