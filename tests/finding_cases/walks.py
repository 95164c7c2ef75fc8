"""Walks round an invented machine, written so that a test reads like an inspector's notebook.

The chart has round numbers: every component loses 100 mm from new to its limit, so 60 mm gone is 60 percent worn, and a
span of pitch grows from 800 by 100 mm. Readings are given as percent worn; adjuster, cushion and sag in mm.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from builders import Said, chart, gauge, inspection, machine, reading, wears

from tracksworn.assessment.assess import NO_FIRM, assess, figures, occasion_of
from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.findings import findings
from tracksworn.assessment.model import Assessment
from tracksworn.assessment.sayings import Finding
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.chart import ChartComponent, Geometry, WearChart
from tracksworn.inspection.letterhead import Assumed
from tracksworn.inspection.model import Fitting, JointTemperatures, Observation, Spot
from tracksworn.inspection.values import PerSide, Temperatures
from tracksworn.inspection.vocabulary import (
    TRAVELS,
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

C, G, S, P, T, O, L = Component, Grade, Sign, PartPlace, Track, ObservedPlace, Layout  # noqa: E741

NEW = 200.0
GAUGE = gauge("caliper", accuracy=0.1, resolution=0.1)

CHART = chart(
    wears(C.LINK, NEW, 100.0, limit_means=LimitMeans.REBUILD),
    wears(C.BUSHING, NEW, 100.0, limit_means=LimitMeans.TURN, turns=1),
    wears(C.PITCH, 800.0, 900.0, over_links=4),
    wears(C.SHOE, NEW, 100.0),
    wears(C.LUG, NEW, 100.0),
    wears(C.SPROCKET, NEW, 100.0),
    wears(C.FRONT_IDLER, NEW, 100.0),
    wears(C.BOTTOM_ROLLER, NEW, 100.0, end_play=2.0),
    wears(C.TOP_ROLLER, NEW, 100.0),
    ChartComponent(C.ADJUSTER, start=0.0, end=100.0),
    ChartComponent(C.CUSHION, start=0.0, end=100.0),
    ChartComponent(C.SAG, range=(50.0, 70.0)),
    geometry=Geometry(links=40),
    narrowest_shoe=500.0,
)


def with_entry(component: Component, **changes: Any) -> WearChart:
    """The chart with one entry changed; sizes by their name in the chart's dimensions."""
    entry = CHART.components[component]
    of_sizes = {name: changes.pop(name) for name in tuple(changes) if name in ("destroyed", "limit")}
    if of_sizes and entry.dimensions:
        changes["dimensions"] = replace(entry.dimensions, **of_sizes)
    return replace(CHART, components={**CHART.components, component: replace(entry, **changes)})


Pair = tuple[Any, Any]


@dataclass(frozen=True)
class Walk:
    """What one inspector noted. A reading is (left, right); an observation (where, sign or signs, grade)."""

    readings: Mapping[Component, Pair] = field(default_factory=dict)
    saw: Sequence[Observation] = ()
    track: Track | None = T.SEALED_AND_LUBRICATED
    layout: Layout = Layout.OVAL
    links: tuple[int | None, int | None] = (None, None)
    hot: tuple[Sequence[float], Sequence[float]] | None = None
    heat: Mapping[str, Any] = field(default_factory=lambda: {"after": "30 min"})
    numbered: bool = True  # the joints whose heat was taken
    joints: tuple[int, ...] | None = None  # of pitch and links
    fitted: Mapping[Any, Fitting] = field(default_factory=dict)
    chart: WearChart | None = CHART
    firm: Assumed = NO_FIRM
    gauge: Any = GAUGE
    sag: Mapping[str, Any] = field(default_factory=lambda: {"stopped": "coasting", "packed": False})
    machine: Mapping[str, Any] = field(default_factory=dict)
    named: Mapping[str, Any] = field(default_factory=dict)  # number, day and inspector, where they matter
    earlier: Sequence["Walk"] = ()  # oldest first
    forecast: tuple[ForecastRow, ...] | None = None  # as it would be: what is tested here concludes from it


def saw(where: str, what: Sign | Sequence[Sign], grade: Grade | None = None, size: float | None = None) -> Observation:
    """An observation at a part written as in the file: `left bottom roller 3`."""
    return Observation(spot(where), (what,) if isinstance(what, Sign) else tuple(what), grade, size)


def spot(where: str) -> Spot:
    """`[left|right] COMPONENT [NUMBER]`."""
    words = where.split()
    side = Side(words.pop(0)) if words[0] in ("left", "right") else None
    number = int(words.pop()) if words[-1].isdigit() else None
    name = " ".join(words)
    part = C(name) if name in set(C) else O(name)
    return Spot(part, side, number)


def found(walk: Walk) -> tuple[Finding, ...]:
    """The findings on the machine that was walked round."""
    return findings(known(walk))


def known(walk: Walk, table: Assumptions | None = None) -> SoFar:
    """All that is known before anything is concluded, with the walk's own forecast in the place of a computed one."""
    table = table or Assumptions.set_by(walk.firm)
    earlier = tuple(occasion_of(*written(older), table) for older in walk.earlier)
    return replace(figures(*written(walk), table), earlier=earlier, forecast=walk.forecast)


def assessed(walk: Walk) -> Assessment:
    """The assessment with those findings."""
    return replace(assess(*written(walk), walk.firm), findings=found(walk), forecast=walk.forecast)


def written(walk: Walk) -> tuple[Any, WearChart | None]:
    """The inspection and the chart."""
    readings = [
        reading(
            component,
            _sized(component, pair[0]),
            _sized(component, pair[1]),
            gauge=None if component in TRAVELS else walk.gauge.name,
            joints=walk.joints if component in (C.PITCH, C.LINK) else None,
            **(walk.sag if component is C.SAG else {}),
        )
        for component, pair in walk.readings.items()
    ]
    hot = None
    if walk.hot is not None:
        joints = tuple(range(3, 3 + len(walk.hot[0]))) if walk.numbered else None
        left, right = (Temperatures(tuple(side)) for side in walk.hot)
        hot = JointTemperatures(PerSide(left, right), PerSide(joints, joints), **walk.heat)
    counted = machine(walk.layout, track=walk.track, **walk.machine)
    noted = inspection(
        *readings,
        machine=replace(counted, links=PerSide(*walk.links)),
        instruments=[walk.gauge],
        observations=walk.saw,
        fitted=walk.fitted,
        joint_temperatures=hot,
    )
    return replace(noted, **walk.named), walk.chart


def _sized(component: Component, percent: Any) -> Said:
    """Percent worn as a size on the chart; what is not a number stays as it is."""
    if isinstance(percent, bool) or component in TRAVELS:
        return percent  # type: ignore[no-any-return]
    if isinstance(percent, int | float):
        return 800.0 + percent if component is C.PITCH else NEW - percent
    if isinstance(percent, list | tuple):
        return [None if one is None else _number(component, one) for one in percent]
    if isinstance(percent, Mapping):
        return {place: _sized(component, one) for place, one in percent.items()}
    return percent  # type: ignore[no-any-return]


def _number(component: Component, percent: float) -> float:
    return 800.0 + percent if component is C.PITCH else NEW - percent


def of_code(findings: Sequence[Finding], code: str) -> tuple[Finding, ...]:
    """Those of that code."""
    return tuple(one for one in findings if one.code == code)
