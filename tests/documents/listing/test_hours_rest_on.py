"""Beside the hours to the first limit stands what makes them weaker than they look."""

from pathlib import Path

import pytest

from tracksworn.documents.listing.build import listing
from tracksworn.documents.report import assess_dossier
from tracksworn.inspection.reading import read_inspection

DEMO = Path(__file__).resolve().parents[3] / "demo_inspections"


@pytest.mark.parametrize(
    ("number", "note"),
    [
        ("OXB-0227", "left sprocket, by the owner's word"),
        ("MPS-2031-0433", "right bottom roller 7, as a guide"),
        ("MPS-2031-0402", None),
    ],
)
def test_what_the_hours_rest_on(number: str, note: str | None) -> None:
    dossier = read_inspection(DEMO / number / "inspection.yaml")
    hours = listing(dossier, assess_dossier(dossier)).figures[2]
    weak = [one for one in hours.notes if "word" in one or "guide" in one]
    assert weak == ([] if note is None else [note])
