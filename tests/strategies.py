"""Whole charts and inspections made at random, each of them free of faults. Lengths are mm."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from builders import about, at_least, at_most, by_eye, chart, gauge, inspection, machine, reading, sizes, unseen, wears
from hypothesis import strategies as st

from tracksworn.inspection.chart import ChartComponent, Dimensions, Ends, ImpactLimits, WearChart
from tracksworn.inspection.model import FittedPart, Fitting, Inspection, Instrument, Reading
from tracksworn.inspection.values import ByPlace, ByPosition, PerSide, SideReading, Sizes, Value
from tracksworn.inspection.vocabulary import (
    CHAINS,
    MILLIMETRES_PER,
    ROLLERS,
    WEARING,
    Between,
    Component,
    Impact,
    Layout,
    PartPlace,
    Side,
    Track,
    Unit,
)

PLACES = {
    Component.BUSHING: (PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE, PartPlace.RIGHT_ANGLES),
    Component.SPROCKET: (PartPlace.FORWARD_FACE, PartPlace.REVERSE_FACE),
    Component.BOTTOM_ROLLER: (PartPlace.INNER_TREAD, PartPlace.OUTER_TREAD),
}


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False, allow_infinity=False)


def maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


@st.composite
def dimensions(draw: st.DrawFn, *, linear: bool = False, by_impact: bool = False) -> Dimensions:
    """New size and limit 5 to 60 mm apart, shrinking or growing, with or without a table or a limit by impact."""
    new = draw(numbers(80.0, 300.0))
    span = draw(numbers(5.0, 60.0)) * draw(st.sampled_from((1.0, -1.0)))
    limit: float | ImpactLimits = new - span
    table = None
    between = Between.STRAIGHT
    kind = "line" if linear else draw(st.sampled_from(("line", "table", "impact" if by_impact else "line")))
    if kind == "table":
        parts = sorted(draw(st.sets(st.integers(1, 19), max_size=4)))
        percents = sorted(draw(st.sets(st.integers(1, 99), min_size=len(parts), max_size=len(parts))))
        inner = [(new - span * part / 20, float(percent)) for part, percent in zip(parts, percents, strict=True)]
        table = ((new, 0.0), *inner, (new - span, 100.0))
        between = draw(st.sampled_from(Between))
    elif kind == "impact":
        limit = ImpactLimits(low=new - span, high=new - span * draw(numbers(0.5, 0.95)))
    return Dimensions(
        new,
        limit,
        tolerance=draw(maybe(numbers(0.0, 1.0))),
        new_doubt=draw(maybe(numbers(0.0, 0.5))),
        limit_tolerance=draw(maybe(numbers(0.0, 0.5))),
        table=table,
        between=between,
        spread=draw(maybe(numbers(0.1, 2.0))),
    )


@st.composite
def charts(draw: st.DrawFn, *, linear: bool = False) -> WearChart:
    """A chart of one to five components that wear, most with sizes."""
    entries = []
    for component in draw(st.lists(st.sampled_from(WEARING), min_size=1, max_size=5, unique=True)):
        sized = draw(st.integers(0, 9)) > 0
        found = draw(dimensions(linear=linear, by_impact=not linear)) if sized else None
        entry = wears(
            component,
            share=draw(maybe(numbers(0.0, 40.0))),
            places=draw(st.sampled_from(((), PLACES.get(component, ())))),
            turns=draw(st.sampled_from((None, 1, 2))) if component is Component.BUSHING else None,
        )
        ends = None
        if (
            component in ROLLERS
            and found
            and found.table is None
            and isinstance(found.limit, float)
            and draw(st.booleans())
        ):
            ends = Ends(found.new + 8.0, found.limit + 8.0)
        entries.append(replace(entry, dimensions=found, ends=ends))
    return chart(*entries, layout=draw(st.sampled_from(Layout)))


@st.composite
def sizes_of(draw: st.DrawFn, entry: ChartComponent | None, count: int, *, gaps: bool = False) -> Sizes:
    """Sizes between a little better than new and a little past the limit."""
    new, limit = 200.0, 150.0
    if entry is not None and entry.dimensions is not None:
        new = entry.dimensions.new
        found = entry.dimensions.limit
        limit = found.low if isinstance(found, ImpactLimits) else found
    parts = draw(st.lists(numbers(-0.05, 1.15), min_size=count, max_size=count))
    values: list[float | None] = [new - part * (new - limit) for part in parts]
    if gaps and count > 1 and draw(st.booleans()):
        values[draw(st.integers(0, count - 1))] = None
    return sizes(*values)


def estimates() -> st.SearchStrategy[Value]:
    """By eye in all its forms, between 0 and 100."""
    percents = st.integers(0, 100).map(float)
    ranges = st.tuples(percents, percents).map(lambda pair: by_eye(min(pair), max(pair)))
    return ranges | percents.map(about) | percents.map(at_least) | percents.map(at_most)


@st.composite
def side_readings(
    draw: st.DrawFn, component: Component, entry: ChartComponent | None, count: int
) -> SideReading | None:
    """What one side of a component may say; `count` positions of rollers."""
    kind = draw(st.sampled_from(("sizes", "sizes", "sizes", "estimate", "unseen", "nothing", "places", "positions")))
    if kind == "nothing":
        return None
    if kind == "unseen":
        return unseen()
    if kind == "estimate":
        return draw(estimates())
    if kind == "positions" and component in ROLLERS:
        each = st.one_of(sizes_of(entry, draw(st.integers(1, 3))), estimates(), st.just(unseen()))
        named = draw(st.sets(st.integers(1, count), min_size=1))
        return ByPosition({position: draw(each) for position in sorted(named)}, draw(maybe(estimates())))
    readings = count if component in ROLLERS else draw(st.integers(1, 6 if component in CHAINS else 3))
    if kind == "places" and component in PLACES:
        places = draw(st.lists(st.sampled_from(PLACES[component]), min_size=1, unique=True))
        each = sizes_of(entry, readings, gaps=component in CHAINS | ROLLERS) | estimates()
        return ByPlace({place: draw(each) for place in places})
    return draw(sizes_of(entry, readings, gaps=component in CHAINS | ROLLERS))


@st.composite
def instruments(draw: st.DrawFn, name: str) -> Instrument:
    return gauge(
        name,
        resolution=draw(maybe(numbers(0.0, 2.0))),
        accuracy=draw(maybe(numbers(0.0, 1.0))),
        uncertainty=draw(maybe(numbers(0.0, 1.0))),
    )


@st.composite
def inspections(draw: st.DrawFn, source: WearChart | None) -> Inspection:
    """An inspection by that chart: each of its components read or not, and sometimes one more."""
    positions = {Component.BOTTOM_ROLLER: draw(st.integers(1, 4)), Component.TOP_ROLLER: draw(st.integers(1, 2))}
    tools = (None, "caliper", "tape")
    charted = source.components if source else {}
    readings: list[Reading] = []
    for component in dict.fromkeys((*charted, draw(st.sampled_from(WEARING)))):
        entry, count = charted.get(component), positions.get(component, 1)
        left, right = (draw(side_readings(component, entry, count)) for _ in Side)
        with_gauge = (draw(st.sampled_from(tools)), draw(st.sampled_from(tools)))
        readings.append(reading(component, left, right, gauge=with_gauge))
    found = machine(
        layout=draw(st.sampled_from(Layout)),
        links=draw(maybe(st.integers(20, 60))),
        bottom_rollers=positions[Component.BOTTOM_ROLLER],
        top_rollers=positions[Component.TOP_ROLLER],
        impact=draw(maybe(st.sampled_from(Impact))),
        track=draw(maybe(st.sampled_from(Track))),
    )
    fitting = draw(st.sampled_from((None, Fitting(not_turned=True), Fitting(turned_at=100.0))))
    fitted = {FittedPart(Component.BUSHING): fitting} if fitting else {}
    described = [draw(instruments(name)) for name in draw(st.sampled_from(((), ("caliper",), ("caliper", "tape"))))]
    return inspection(*readings, machine=found, instruments=described, fitted=fitted)


@st.composite
def cases(draw: st.DrawFn, *, linear: bool = False) -> tuple[Inspection, WearChart]:
    """An inspection with its chart."""
    source = draw(charts(linear=linear))
    return draw(inspections(source)), source


def swapped(seen: Inspection) -> Inspection:
    """The same machine with left and right exchanged."""
    readings = {
        component: replace(
            each,
            sides=PerSide[SideReading | None](each.sides.right, each.sides.left),
            gauge=PerSide[str | None](each.gauge.right, each.gauge.left),
        )
        for component, each in seen.readings.items()
    }
    return replace(seen, readings=readings)


def through_inches(values: Sequence[float]) -> list[float]:
    """Lengths as they come back from being written in inches."""
    return [value / MILLIMETRES_PER[Unit.INCH] * MILLIMETRES_PER[Unit.INCH] for value in values]
