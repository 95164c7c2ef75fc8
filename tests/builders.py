"""Concise builders of inspections and charts for tests. Lengths are mm, percents points."""

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import PurePosixPath
from typing import Any

from tracksworn.inspection.chart import ChartComponent, Dimensions, Ends, ImpactLimits, WearChart
from tracksworn.inspection.model import (
    FittedPart,
    Fitting,
    Inspection,
    Inspector,
    Instrument,
    Machine,
    Observation,
    Reading,
)
from tracksworn.inspection.values import (
    ByEye,
    ByPlace,
    ByPosition,
    Estimate,
    NotSeen,
    PerSide,
    SideReading,
    Sizes,
    Value,
)
from tracksworn.inspection.vocabulary import Component, Layout, LimitMeans, PartPlace

Said = SideReading | float | Sequence[float | None] | Mapping[PartPlace | int | str, Any] | None
"""A size, several, a value, or a mapping by place or by position (with `"others"`); None is no entry."""


def sizes(*values: float | None) -> Sizes:
    """Lengths in mm; None is `-`."""
    return Sizes(values)


def by_eye(low: float, high: float) -> ByEye:
    return ByEye(Estimate.RANGE, low, high)


def about(percent: float) -> ByEye:
    return ByEye(Estimate.ABOUT, percent, percent)


def at_least(percent: float) -> ByEye:
    return ByEye(Estimate.AT_LEAST, percent, percent)


def at_most(percent: float) -> ByEye:
    return ByEye(Estimate.AT_MOST, percent, percent)


def unseen(reason: str = "mud") -> NotSeen:
    return NotSeen(reason)


def said(value: Said) -> SideReading | None:
    """What one side reads, from a short way of writing it."""
    match value:
        case None | Sizes() | ByEye() | NotSeen() | ByPosition() | ByPlace():
            return value
        case float() | int():
            return Sizes((float(value),))
        case Mapping() if all(isinstance(key, PartPlace) for key in value):
            return ByPlace({PartPlace(str(key)): _within_place(entry) for key, entry in value.items()})
        case Mapping():
            numbered = {int(key): _value(entry) for key, entry in value.items() if key != "others"}
            return ByPosition(numbered, _value(value["others"]) if "others" in value else None)
        case _:
            return Sizes(tuple(value))


def _within_place(value: Said) -> Value | ByPosition:
    found = said(value)
    assert isinstance(found, Value | ByPosition)
    return found


def _value(value: Said) -> Value:
    found = said(value)
    assert isinstance(found, Value)
    return found


def reading(
    component: Component,
    left: Said = None,
    right: Said = None,
    gauge: str | tuple[str | None, str | None] | None = None,
    joints: tuple[int, ...] | None = None,
    **more: Any,
) -> Reading:
    """One component on both sides."""
    gauges = gauge if isinstance(gauge, tuple) else (gauge, gauge)
    return Reading(
        component,
        PerSide[SideReading | None](said(left), said(right)),
        PerSide[str | None](*gauges),
        PerSide[tuple[int, ...] | None](joints, joints),
        **more,
    )


def machine(layout: Layout = Layout.ELEVATED_SPROCKET, links: int | None = None, **more: Any) -> Machine:
    """A machine of an invented maker, with as many links on each side."""
    return Machine("Hollin", "H-100", "HLN100", layout, links=PerSide[int | None](links, links), **more)


def gauge(name: str, **more: Any) -> Instrument:
    return Instrument(name, **more)


def inspection(
    *readings: Reading,
    machine: Machine = machine(),  # noqa: B008 - frozen
    instruments: Sequence[Instrument] = (),
    observations: Sequence[Observation] = (),
    fitted: Mapping[Any, Fitting] | None = None,
    inspector: str = "Ines Marlow",
    **more: Any,
) -> Inspection:
    """One day's walk round a machine."""
    return Inspection(
        number="TEST-1",
        inspected=date(2031, 4, 18),
        inspector=Inspector(inspector),
        machine=machine,
        chart=PurePosixPath("../charts/test.yaml"),
        readings={each.component: each for each in readings},
        instruments={each.name: each for each in instruments},
        observations=tuple(observations),
        fitted={
            key if isinstance(key, FittedPart) else FittedPart(key): fitting for key, fitting in (fitted or {}).items()
        },
        **more,
    )


_OF_COMPONENT = frozenset({"measure", "places", "turns", "share", "end_play", "over_links", "limit_means", "ways"})


def wears(
    component: Component,
    new: float | None = None,
    limit: float | tuple[float, float] | None = None,
    *,
    ends: tuple[float, float] | None = None,
    **more: Any,
) -> ChartComponent:
    """What a chart says of a component that wears; `limit` may be a pair, by low and high impact."""
    own = {name: more.pop(name) for name in tuple(more) if name in _OF_COMPONENT}
    own.setdefault("limit_means", LimitMeans.REPLACE)
    dimensions = None
    if new is not None and limit is not None:
        dimensions = Dimensions(new, ImpactLimits(*limit) if isinstance(limit, tuple) else limit, **more)
    return ChartComponent(component, dimensions=dimensions, ends=Ends(*ends) if ends else None, **own)


def chart(*entries: ChartComponent, layout: Layout = Layout.ELEVATED_SPROCKET, **more: Any) -> WearChart:
    """A chart of those components, in their order."""
    return WearChart("Hollin H-100", "invented", layout, {entry.component: entry for entry in entries}, **more)
