"""What each source of error contributes to the percent worn at one place of one part."""

import math
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.model import AssumedValue
from tracksworn.assessment.samples import Sample
from tracksworn.assessment.scale import Local, Scale
from tracksworn.assessment.spread import Pooled
from tracksworn.assessment.uncertainty import Budget, Contribution, Kind, Source
from tracksworn.inspection.model import Inspection, Instrument
from tracksworn.inspection.vocabulary import CHAINS, Component

RECTANGULAR = math.sqrt(3.0)
"""A half-width over this is a standard uncertainty (GUM 4.3.7)."""

DIGITAL_STEP = math.sqrt(12.0)
"""A resolution over this is a standard uncertainty (GUM F.2.2.1)."""

COUNTED_IN_LINKS = frozenset({Component.LINK, Component.BUSHING, Component.SHOE})
"""Chains of which a side has as many joints as links were counted."""

Part = tuple[Source, Contribution]


@dataclass(frozen=True, slots=True)
class Circumstances:
    """What all figures of one component share."""

    component: Component
    inspection: Inspection
    assumptions: Assumptions


@dataclass(frozen=True, slots=True)
class Measurement:
    """What a figure rests on: `count` readings of mean sensitivities `local`, their scatter and their chart."""

    sample: Sample
    local: Local
    count: int
    pooled: Pooled | None  # None: pitch, which is not averaged
    scale: Scale

    def gauge_in(self, inspection: Inspection) -> Instrument | None:
        """The gauge that it was read with, where it was described."""
        return inspection.instruments.get(self.sample.gauge) if self.sample.gauge is not None else None


def budget_of(about: Circumstances, measured: Measurement) -> Budget:
    """Everything that makes a measured figure doubtful, each source once (GUM 5.1.2)."""
    return Budget(
        dict(
            (
                *_scatter(about, measured),
                *_seat(about, measured),
                _inspector(about),
                _instrument(about, measured),
                *_chart(about.component, measured),
            )
        )
    )


def assumed_in(about: Circumstances, measured: Measurement) -> tuple[AssumedValue, ...]:
    """Which assumed values the figure rests on, sorted."""
    gauge = measured.gauge_in(about.inspection)
    pooled, chain = measured.pooled, about.component in CHAINS
    used = {
        AssumedValue.INSPECTOR: True,
        AssumedValue.SEAT: not chain or (pooled is not None and not pooled.repeated),
        AssumedValue.SPREAD: chain and pooled is not None and pooled.assumed,
        AssumedValue.INSTRUMENT: gauge is None or (gauge.uncertainty is None and gauge.accuracy is None),
        AssumedValue.IMPACT: measured.scale.by_impact and about.inspection.machine.impact is None,
    }
    return tuple(value for value in AssumedValue if used[value])


def _scatter(about: Circumstances, measured: Measurement) -> Iterator[Part]:
    """Spread of the mean, s/√n·√(1−n/M), or the resolution r/√12 times slope where that is larger."""
    sample, pooled = measured.sample, measured.pooled
    where = (about.component, sample.side, sample.position, sample.place)
    spread = 0.0
    if pooled is not None:
        spread = pooled.deviation * math.sqrt(_unread(about, measured) / measured.count)
    gauge = measured.gauge_in(about.inspection)
    resolution = 0.0
    if gauge is not None and gauge.resolution is not None:
        resolution = abs(measured.local.to_size) * gauge.resolution / DIGITAL_STEP
    if resolution > spread:
        yield Source(Kind.RESOLUTION, where), Contribution(resolution)
    elif pooled is not None:
        pool = Source(Kind.SPREAD, (about.component, sample.place))
        yield Source(Kind.SPREAD, where), Contribution(spread, pooled.dof, pool)


def _unread(about: Circumstances, measured: Measurement) -> float:
    """1 − n/M, the part of a chain that was not read; 1 where M is unknown or the readings repeat one spot."""
    links = about.inspection.machine.links[measured.sample.side] if about.component in COUNTED_IN_LINKS else None
    return 1.0 if links is None else max(1.0 - measured.count / links, 0.0)


def _seat(about: Circumstances, measured: Measurement) -> Iterator[Part]:
    """Setting the gauge, where no scatter between readings holds it already."""
    pooled, sample = measured.pooled, measured.sample
    if pooled is None or (about.component in CHAINS and not pooled.repeated):
        where = (about.component, sample.side, sample.position, sample.place)
        yield Source(Kind.SEAT, where), Contribution(about.assumptions.seat)


def _inspector(about: Circumstances) -> Part:
    """One error for all readings of one component by one person, both sides."""
    name = unicodedata.normalize("NFC", about.inspection.inspector.name)
    return Source(Kind.INSPECTOR, (about.component, name)), Contribution(about.assumptions.inspector)


def _instrument(about: Circumstances, measured: Measurement) -> Part:
    """One error for all that was read with one gauge: U/k of its certificate, else its half-width over √3."""
    gauge, name = measured.gauge_in(about.inspection), measured.sample.gauge
    if gauge is not None and gauge.uncertainty is not None:
        standard = gauge.uncertainty / gauge.k
    elif gauge is not None and gauge.accuracy is not None:
        standard = gauge.accuracy / RECTANGULAR
    else:
        standard = about.assumptions.instrument / RECTANGULAR
    which = () if name is None else (name, gauge.calibrated if gauge else None)
    return Source(Kind.INSTRUMENT, which), Contribution(measured.local.to_size * standard)


def _chart(component: Component, measured: Measurement) -> Iterator[Part]:
    """Half-widths of the new size, part to part and as the chart has it, and of the limit."""
    sample, local, sizes = measured.sample, measured.local, measured.scale.dimensions
    part = (component, sample.side, sample.position)
    doubts = (
        (Source(Kind.TOLERANCE, part), local.to_new, sizes.tolerance),
        (Source(Kind.NEW_DOUBT, (component,)), local.to_new, sizes.new_doubt),
        (Source(Kind.LIMIT, (component,)), local.to_limit, sizes.limit_tolerance),
    )
    for source, sensitivity, half_width in doubts:
        if half_width is not None:
            yield source, Contribution(sensitivity * half_width / RECTANGULAR)
