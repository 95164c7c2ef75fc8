"""From the sizes at one place of one part to its percent worn, its interval and its most worn joint."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from tracksworn.assessment.boundaries import first_highest
from tracksworn.assessment.model import PlaceFigure, Single, WorstJoint
from tracksworn.assessment.samples import Sample
from tracksworn.assessment.scale import Local, Scale
from tracksworn.assessment.sources import Circumstances, Measurement, assumed_in, budget_of
from tracksworn.assessment.spread import Pooled, Read, mean, pooled_chain, pooled_repeats
from tracksworn.assessment.uncertainty import coverage_factor
from tracksworn.inspection.values import Sizes
from tracksworn.inspection.vocabulary import CHAINS, Component, PartPlace


@dataclass(frozen=True, slots=True)
class Taken:
    """The sizes of one sample in mm, and what they are on its scale where the chart has one."""

    sample: Sample
    joints: tuple[int | None, ...]
    sizes: tuple[float, ...]
    scale: Scale | None
    local: tuple[Local, ...]  # empty without a scale


def take(sample: Sample, scale: Scale | None) -> Taken | None:
    """The sizes of a sample read on a scale; None where nothing was measured."""
    if not isinstance(sample.value, Sizes) or not sample.value.measured:
        return None
    numbers = sample.joints or (None,) * len(sample.value.values)
    joints = tuple(number for number, size in zip(numbers, sample.value.values, strict=True) if size is not None)
    sizes = sample.value.measured
    return Taken(sample, joints, sizes, scale, tuple(map(scale.read, sizes)) if scale else ())


def pools(about: Circumstances, taken: Iterable[Taken]) -> dict[PartPlace | None, Pooled]:
    """The pooled scatter at each place; nothing for pitch, of which the longest span alone counts."""
    if about.component is Component.PITCH:
        return {}
    by_place: dict[PartPlace | None, list[Read]] = {}
    for each in taken:
        if each.scale is not None:
            by_place.setdefault(each.sample.place, []).append(Read(each.local, each.scale.dimensions.spread))
    pooled = pooled_chain if about.component in CHAINS else pooled_repeats
    return {place: pooled(reads, about.assumptions) for place, reads in by_place.items()}


def figure(about: Circumstances, taken: Taken, pooled: Pooled | None) -> PlaceFigure:
    """Percent worn at one place: the mean of its joints or repeats, for pitch the most worn span alone."""
    percents = tuple(local.percent for local in taken.local) or (None,) * len(taken.sizes)
    singles = tuple(map(Single, taken.joints, taken.sizes, percents))
    if taken.scale is None:
        return PlaceFigure(taken.sample.place, singles, mean(taken.sizes), None, None, None, None)
    chosen = _chosen(about.component, taken)
    local = _mean_local([taken.local[index] for index in chosen])
    measured = Measurement(taken.sample, local, len(chosen), pooled, taken.scale)
    budget = budget_of(about, measured)
    uncertainty, dof = budget.interval()
    return PlaceFigure(
        place=taken.sample.place,
        singles=singles,
        size_mm=mean([taken.sizes[index] for index in chosen]),
        percent_worn=local.percent,
        budget=budget,
        uncertainty=uncertainty,
        dof=dof,
        worst_joint=_worst_joint(taken, local.percent, pooled) if about.component in CHAINS else None,
        assumed=assumed_in(about, measured),
    )


def _chosen(component: Component, taken: Taken) -> range:
    """Which readings the figure is the mean of."""
    everything = range(len(taken.sizes))
    if component is not Component.PITCH:
        return everything
    longest = first_highest(everything, lambda index: taken.local[index].percent) or 0
    return range(longest, longest + 1)


def _mean_local(local: list[Local]) -> Local:
    return Local(
        mean([each.percent for each in local]),
        mean([each.to_size for each in local]),
        mean([each.to_new for each in local]),
        mean([each.to_limit for each in local]),
    )


def _worst_joint(taken: Taken, middle: float, pooled: Pooled | None) -> WorstJoint | None:
    """The most worn of two joints or more, and what one further may read: mean + t(ν)·s·√(1 + 1/n), two-sided 95 %."""
    count = len(taken.local)
    if count < 2 or pooled is None:
        return None
    worst = first_highest(range(count), lambda index: taken.local[index].percent) or 0
    further = middle + coverage_factor(pooled.dof) * pooled.deviation * math.sqrt(1.0 + 1.0 / count)
    return WorstJoint(taken.joints[worst], taken.local[worst].percent, further)
