"""Findings on machines made at random: they never fail, and they know left from right."""

from dataclasses import replace
from datetime import date

import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st

from tracksworn.assessment.assess import assess
from tracksworn.assessment.findings.codes import CODES
from tracksworn.assessment.sayings import Finding, Severity
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import FittedPart, Fitting, Hours, Inspection, Observation, Spot
from tracksworn.inspection.vocabulary import Component, Grade, ObservedPlace, Side, Sign, Track

PARTS = st.sampled_from([*Component, *ObservedPlace])


@st.composite
def observations(draw: st.DrawFn) -> Observation:
    number = draw(st.none() | st.integers(1, 8))
    where = Spot(draw(PARTS), draw(st.none() | st.sampled_from(Side)), number)
    signs = tuple(draw(st.lists(st.sampled_from(Sign), min_size=1, max_size=3, unique=True)))
    grade = draw(st.none() | st.sampled_from(Grade))
    return Observation(where, signs, grade, draw(st.none() | st.floats(0.0, 20.0)))


@st.composite
def walks(draw: st.DrawFn) -> tuple[Inspection, WearChart | None]:
    chart = draw(strategies.charts())
    inspection = draw(strategies.inspections(chart))
    seen = tuple(draw(st.lists(observations(), max_size=6)))
    track = draw(st.none() | st.sampled_from(Track))
    machine = replace(inspection.machine, track=track)
    return replace(inspection, observations=seen, machine=machine), draw(st.sampled_from([chart, None]))


@pytest.mark.slow
@settings(deadline=None, max_examples=25)
@given(walks())
def test_any_inspection_has_findings_of_known_codes_and_loses_no_observation(
    walk: tuple[Inspection, WearChart | None],
) -> None:
    findings = assess(*walk).findings
    for finding in findings:
        assert finding.severity in CODES[finding.code]
        assert finding.because
    told = {index for finding in findings for index in finding.observations}
    observed = {index for index, one in enumerate(walk[0].observations) if one.grade is not Grade.NONE}
    assert observed <= told


@pytest.mark.slow
@settings(deadline=None, max_examples=25)
@given(walks())
def test_swapping_the_sides_swaps_what_the_findings_speak_of(walk: tuple[Inspection, WearChart | None]) -> None:
    inspection, chart = walk
    as_walked = {_key(finding) for finding in assess(inspection, chart).findings}
    mirrored = {_key(finding) for finding in assess(_mirrored(inspection), chart).findings}
    assert mirrored == {_swapped(key) for key in as_walked}


@st.composite
def walks_round_one_machine(draw: st.DrawFn) -> tuple[WearChart, Inspection, Inspection]:
    """Two inspections a year and some hundred hours apart, the older first."""
    chart = draw(strategies.charts())
    older, newer = (draw(strategies.inspections(chart)) for _ in range(2))
    hours = (Hours(4000.0), Hours(4000.0 + draw(st.floats(1.0, 1500.0))))
    first, second = (
        replace(one, machine=replace(older.machine, hours=shown), inspected=date(year, 4, 18))
        for one, shown, year in zip((older, newer), hours, (2030, 2031), strict=True)
    )
    on_since_new = {FittedPart(component): Fitting(original=True) for component in chart.components}
    return chart, first, replace(second, inspector=older.inspector, fitted=on_since_new)


@pytest.mark.slow
@settings(deadline=None, max_examples=40)
@given(walks_round_one_machine())
def test_so_does_swapping_the_sides_of_two_inspections(walk: tuple[WearChart, Inspection, Inspection]) -> None:
    chart, older, newer = walk
    as_walked = {_key(finding) for finding in assess(newer, chart, earlier=[older]).findings}
    mirrored = {_key(finding) for finding in assess(_mirrored(newer), chart, earlier=[_mirrored(older)]).findings}
    assert mirrored == {_swapped(key) for key in as_walked}


Key = tuple[str, Severity, frozenset[tuple[str, str | None, int | None]]]


def _key(finding: Finding) -> Key:
    about = frozenset((str(part.what), part.side and str(part.side), part.number) for part in finding.about)
    return finding.code, finding.severity, about


def _swapped(key: Key) -> Key:
    other = {"left": "right", "right": "left", None: None}
    return key[0], key[1], frozenset((what, other[side], number) for what, side, number in key[2])


def _mirrored(inspection: Inspection) -> Inspection:
    """The same machine with left and right exchanged in all that was noted."""
    seen = tuple(
        replace(one, at=replace(one.at, side=one.at.side.other if one.at.side else None))
        for one in inspection.observations
    )
    fitted = {
        replace(part, side=part.side.other if part.side else None): fitting
        for part, fitting in inspection.fitted.items()
    }
    return replace(strategies.swapped(inspection), observations=seen, fitted=fitted)
