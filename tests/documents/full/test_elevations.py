"""What stands for an elevation where it cannot be seen: its side, every gauge, what was not seen and why, the pins."""

from dataclasses import replace
from pathlib import Path

import pytest
from long_example import CHART, INSPECTION

from tracksworn.assessment.assess import assess
from tracksworn.documents.full.build import full_report
from tracksworn.documents.full.view import FullReport, SideView
from tracksworn.inspection.chart import Geometry
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.letterhead import Assumed

TO_SCALE = Geometry(
    idler_centres=3280, sprocket_back=2540, sprocket_height=830, front_idler=720, rear_idler=720, sprocket=800,
    teeth=23, bottom_roller=256, pitch=216,
)  # fmt: skip


def report(units: str = "mm", geometry: Geometry | None = CHART.geometry) -> FullReport:
    chart = replace(CHART, geometry=geometry)
    inspection = replace(
        INSPECTION, photos=(), observations=tuple(replace(one, photos=()) for one in INSPECTION.observations)
    )
    dossier = Dossier(inspection, Path("TEST-1"), chart, None, photos={}, digests={"TEST-1/inspection.yaml": "22" * 32})
    return full_report(dossier, assess(inspection, chart, Assumed()), units=units)


@pytest.fixture(scope="module")
def sides() -> tuple[SideView, ...]:
    return report().sides


def test_the_alternative_begins_with_the_side_and_its_direction(sides: tuple[SideView, ...]) -> None:
    for side in sides:
        assert side.drawing.alternative.startswith(f"{side.heading}, {side.front}:")


def test_the_alternative_says_every_figure_of_the_drawing(sides: tuple[SideView, ...]) -> None:
    for side in sides:
        figures = {text.content for text in side.drawing.texts if text.weight >= 600 and text.content.isdigit()}
        pins = {text.content for text in side.drawing.texts if text.colour == "#ffffff"}
        assert figures - pins
        assert all(figure in side.drawing.alternative for figure in figures)
        assert all(f"Observation {pin}:" in side.drawing.alternative for pin in pins)


def test_the_alternative_says_how_far_the_adjuster_is_out(sides: tuple[SideView, ...]) -> None:
    for side in sides:
        shown = [text.content for text in side.drawing.texts if text.content.startswith("adjuster, ")]
        assert all(words[1:] + "." in side.drawing.alternative for words in shown)


def test_what_was_not_seen_stands_in_the_alternative_with_its_reason(sides: tuple[SideView, ...]) -> None:
    said = " ".join(side.drawing.alternative for side in sides)
    reasons = {row.reason for row in assess(INSPECTION, CHART, Assumed()).components if row.reason}
    assert reasons
    assert all(f"not seen, {reason}." in said for reason in reasons)


@pytest.mark.parametrize(("units", "called"), [("mm", "m"), ("in", "ft")])
def test_the_scale_bar_is_in_the_readers_units(units: str, called: str) -> None:
    sides = report(units, TO_SCALE).sides
    bars = [text.content for side in sides for text in side.drawing.texts if " · 1 : " in text.content]
    assert [bar.split(" · ")[1] for bar in bars] == [side.scale for side in sides]
    assert all(bar.split(" · ")[0].endswith(called) for bar in bars)
