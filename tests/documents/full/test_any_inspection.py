"""Whatever an inspection holds, its report is made, and no text in it breaks a rule of the page."""

import re
from pathlib import Path

import pytest
from builders import about, at_least, at_most, by_eye, chart, inspection, machine, reading, unseen, wears
from documents.full.test_build import texts
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tracksworn.assessment.assess import assess
from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.elevation.sides import ElevationResult, SideElevation
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.full import elevations
from tracksworn.documents.full.build import full_report
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.model import Inspection, Observation, Reading, Spot
from tracksworn.inspection.values import ByPosition, SideReading, Sizes
from tracksworn.inspection.vocabulary import (
    ROLLERS,
    TRAVELS,
    WEARING,
    Component,
    Grade,
    Layout,
    LimitMeans,
    ObservedPlace,
    PartPlace,
    Side,
    Sign,
    Track,
)

FOUR = 4
SIZE = st.floats(80.0, 150.0).map(lambda size: round(size, 1))
PERCENT = st.integers(0, 120)
ESTIMATES = st.one_of(
    PERCENT.map(about),
    PERCENT.map(at_least),
    PERCENT.map(at_most),
    st.tuples(PERCENT, PERCENT).map(lambda ends: by_eye(min(ends), max(ends))),
)
REASONS = st.sampled_from(["mud", "guard fitted", "beside a wall"]).map(unseen)


def values(component: Component) -> st.SearchStrategy[SideReading | None]:
    if component in TRAVELS:
        return st.one_of(st.none(), SIZE.map(lambda size: Sizes((size,))), REASONS)
    if component in ROLLERS:
        single = st.one_of(SIZE.map(lambda size: Sizes((size,))), ESTIMATES, REASONS)
        by_position = st.dictionaries(st.integers(1, FOUR), single, max_size=FOUR).map(
            lambda entries: ByPosition(entries, unseen("others"))
        )
        sizes = st.lists(st.none() | SIZE, min_size=FOUR, max_size=FOUR).map(lambda read: Sizes(tuple(read)))
        return st.one_of(st.none(), by_position, sizes, ESTIMATES, REASONS)
    several = st.lists(SIZE, min_size=1, max_size=5).map(lambda read: Sizes(tuple(read)))
    return st.one_of(st.none(), several, ESTIMATES, REASONS)


@st.composite
def readings(draw: st.DrawFn) -> list[Reading]:
    components = draw(st.lists(st.sampled_from(list(Component)), min_size=1, unique=True))
    return [reading(one, draw(values(one)), draw(values(one))) for one in components]


OBSERVATIONS = st.lists(
    st.builds(
        Observation,
        at=st.builds(
            Spot,
            part=st.sampled_from([*Component, *ObservedPlace, None]),
            side=st.sampled_from([*Side, None]),
            number=st.none() | st.integers(1, FOUR),
            place=st.none() | st.sampled_from(list(PartPlace)),
        ),
        seen=st.lists(st.sampled_from(list(Sign)), min_size=1, max_size=2, unique=True).map(tuple),
        grade=st.none() | st.sampled_from(list(Grade)),
        size=st.none() | SIZE,
    ),
    max_size=4,
)


@st.composite
def inspections(draw: st.DrawFn) -> Inspection:
    found = machine(
        draw(st.sampled_from(list(Layout))),
        links=draw(st.none() | st.integers(30, 60)),
        bottom_rollers=FOUR,
        top_rollers=FOUR,
        track=draw(st.none() | st.sampled_from(list(Track))),
    )
    return inspection(*draw(readings()), machine=found, observations=draw(OBSERVATIONS))


@st.composite
def charts(draw: st.DrawFn) -> WearChart | None:
    if draw(st.booleans()):
        return None
    entries = []
    for component in draw(st.lists(st.sampled_from(WEARING), min_size=1, unique=True)):
        new, limit = draw(SIZE), draw(SIZE)
        sized = (new, limit) if abs(new - limit) > 2.0 else (None, None)
        turns = 1 if component is Component.BUSHING else None
        means = draw(st.sampled_from(list(LimitMeans)))
        share = draw(st.none() | st.floats(0.0, 1.0))
        entries.append(wears(component, *sized, limit_means=means, share=share, turns=turns))
    return chart(*entries)


def undrawn(left: SideElevation, right: SideElevation) -> tuple[ElevationResult, ElevationResult]:
    """Elevations as a page sees them, without the time that drawing takes."""
    first, second = (
        ElevationResult(Drawing(182.0, 90.0, (), side.alternative), (), (), 27, False, frozenset(), None)
        for side in (left, right)
    )
    return first, second


@pytest.mark.slow
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(inspections(), charts(), st.sampled_from(["mm", "in"]))
def test_any_inspection_makes_a_report(inspected: Inspection, wear_chart: WearChart | None, units: str) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(elevations, "draw_sides", undrawn)
        assessment = assess(inspected, wear_chart)
        view = full_report(Dossier(inspected, Path("TEST-1"), wear_chart), assessment, units=units)
    for text in texts(view):
        assert not re.search(r"[{}]|None|\bnan\b|\binf\b|  |(?<!\w)-\d", text), text
    assert view.summary.headline.endswith(".")
    assert all(sentence.endswith(".") for sentence in view.summary.sentences)
    for row in view.parts:
        for side in (row.left, row.right):
            assert side is not None
            assert bool(side.reason) is (side.basis is Basis.NOT_SEEN)
            assert side.figure or side.reason or side.reading
