"""How often the 95 % intervals of an assessment hold the truth, on invented inspections whose truth is known.

Run `python tests/bench/coverage.py --count 4000 --seed 1`. Each inspection draws true wear and every source of error:

- joints scatter about their side's mean, one to six of them are read; the true scatter lies around what the chart calls
  usual, or around what the program assumes (log-normal, a relative doubt of about 0.35);
- setting the gauge: normal, around 1 point a reading, likewise doubtful; the inspector: normal, 2 points a component;
- gauges: rectangular within their accuracy, or normal by their certificate, one error for all that each has read;
  readings are rounded to the gauge's resolution; without a gauge rectangular within 0.5 mm;
- the chart: the new size of each side or position within the tolerance, the chart's own new size and limit within
  theirs, all rectangular;
- estimates by eye: a range about the truth, one part of its error shared by all of one inspection, that misses in 5 %
  of cases by up to half of its half-width.

Truth is the mean of all joints at the place named, the position's own wear, the longest of the spans read. In the
overall figure and the deltas it is what the same rows and pairs would give without any error.
"""

import argparse
import math
import sys
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from numpy.random import Generator
from scipy.interpolate import PchipInterpolator

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from builders import about, at_least, at_most, by_eye, chart, gauge, inspection, machine, reading, sizes, unseen, wears

from tracksworn.assessment.assess import assess
from tracksworn.assessment.model import Assessment, Basis, Row
from tracksworn.inspection.chart import ChartComponent, Dimensions, WearChart
from tracksworn.inspection.model import Fitting, Inspection, Instrument, Reading
from tracksworn.inspection.values import ByPlace, ByPosition, SideReading, Sizes, Value
from tracksworn.inspection.vocabulary import CHAINS, Between, Component, Layout, PartPlace, Side

MISS_RATE = 0.05
"""How often the truth lies outside an estimate's range."""

Key = tuple[Component, Side, int | None, PartPlace | None]
"""Of what the truth is: place None is the most worn place of the part."""


@dataclass(frozen=True)
class Drawn:
    """One inspection with the truth behind it."""

    inspection: Inspection
    chart: WearChart
    truth: Mapping[Key, float]


@dataclass
class Tally:
    """Hits and trials of each class."""

    hits: Counter[str] = field(default_factory=Counter)
    trials: Counter[str] = field(default_factory=Counter)

    def add(self, name: str, held: bool) -> None:
        self.hits[name] += held
        self.trials[name] += 1

    def rate(self, name: str) -> float:
        return self.hits[name] / self.trials[name]

    @property
    def pool(self) -> float:
        return self.hits.total() / self.trials.total()


GAUGES: tuple[Instrument, ...] = (
    gauge("depth gauge", resolution=0.05, accuracy=0.1),
    gauge("caliper", resolution=0.02, accuracy=0.05),
    gauge("steel tape", resolution=1.0, accuracy=0.5),
    gauge("ultrasonic gauge", resolution=0.01, uncertainty=0.1, k=2.0),
)

STEEL = chart(
    wears(Component.LINK, 143.0, 128.0, tolerance=0.3, spread=0.4, limit_tolerance=0.3, share=24.0),
    wears(
        Component.BUSHING,
        84.0,
        76.5,
        tolerance=0.13,
        table=((84.0, 0.0), (82.0, 20.0), (79.5, 55.0), (76.5, 100.0)),
        places=(PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE),
        turns=1,
        share=16.0,
    ),
    wears(Component.PITCH, 864.0, 876.0, tolerance=0.5, new_doubt=0.3, over_links=4, share=0.0),
    wears(Component.SHOE, 75.0, 30.0, tolerance=1.5, share=14.0),
    wears(
        Component.SPROCKET,
        40.0,
        45.0,
        new_doubt=0.2,
        table=((40.0, 0.0), (42.0, 50.0), (43.5, 80.0), (45.0, 100.0)),
        between=Between.MONOTONE,
        places=(PartPlace.FORWARD_FACE, PartPlace.REVERSE_FACE),
        share=8.0,
    ),
    wears(Component.FRONT_IDLER, 22.0, 30.0, tolerance=0.3, share=6.0),
    wears(Component.REAR_IDLER, 22.0, 30.0, tolerance=0.3, limit_tolerance=0.5, share=6.0),
    wears(Component.BOTTOM_ROLLER, 256.0, 210.0, ends=(264.0, 214.0), tolerance=0.5, share=22.0),
    wears(Component.TOP_ROLLER, 190.0, 160.0, share=4.0),
)

RUBBER = chart(
    wears(Component.LUG, 32.0, 8.0, tolerance=0.5, spread=0.8, share=40.0),
    wears(Component.DRIVE_LUG, 90.0, 70.0, tolerance=0.4, share=10.0),
    wears(Component.SPROCKET, 60.0, 50.0, tolerance=0.2, share=8.0),
    wears(Component.FRONT_IDLER, 300.0, 270.0, share=12.0),
    wears(Component.BOTTOM_ROLLER, 180.0, 150.0, tolerance=0.5, share=26.0),
    layout=Layout.RUBBER,
)

USUAL_GAUGE: Mapping[Component, tuple[str | None, ...]] = {
    Component.LINK: ("depth gauge",),
    Component.BUSHING: ("caliper", "ultrasonic gauge"),
    Component.PITCH: ("steel tape",),
    Component.SHOE: ("steel tape", "caliper"),
    Component.LUG: ("depth gauge", None),
    Component.DRIVE_LUG: ("caliper",),
}
"""What else is read with is a caliper, or nothing that is named."""


def draw(rng: Generator) -> Drawn:
    """One invented inspection: a steel track or, one in four, a rubber one."""
    source = STEEL if rng.random() < 0.75 else RUBBER
    counts = {Component.BOTTOM_ROLLER: int(rng.integers(5, 9)), Component.TOP_ROLLER: int(rng.integers(1, 3))}
    links = int(rng.integers(38, 50))
    day = Day(rng, links)
    readings = [day.read(entry, counts.get(component)) for component, entry in source.components.items()]
    found = machine(
        layout=source.layout,
        links=links,
        bottom_rollers=counts[Component.BOTTOM_ROLLER],
        top_rollers=counts[Component.TOP_ROLLER],
    )
    fitted = {Component.BUSHING: Fitting(not_turned=True)}
    return Drawn(inspection(*readings, machine=found, instruments=GAUGES, fitted=fitted), source, day.truth)


class Day:
    """One inspector at one machine: the errors made once that day, and the truth as it is drawn."""

    def __init__(self, rng: Generator, links: int) -> None:
        self.rng, self.links = rng, links
        self.truth: dict[Key, float] = {}
        self.seat = _around(rng, 1.0)
        self.bias_by_eye = rng.uniform(-1.0, 1.0)
        self.gauge_error: dict[str | None, float] = {None: rng.uniform(-0.5, 0.5)}
        for each in GAUGES:
            certified = each.uncertainty is not None
            self.gauge_error[each.name] = (
                rng.normal(0.0, (each.uncertainty or 0.0) / each.k) if certified else _within(rng, each.accuracy)
            )

    def read(self, entry: ChartComponent, count: int | None) -> Reading:
        """Both sides of one component; `count` positions on each side of rollers."""
        subject = Subject(self.rng, entry, count)
        typical = self.rng.uniform(3.0, 98.0)
        left, right = (self._side(subject, side, typical + self.rng.normal(0.0, 4.0)) for side in Side)
        return reading(entry.component, left, right, gauge=subject.tool)

    def _side(self, subject: "Subject", side: Side, typical: float) -> SideReading:
        if subject.positions is None:
            return self._part(subject, side, None, typical)
        parts = {
            position: self._part(subject, side, position, typical + self.rng.normal(0.0, 5.0))
            for position in range(1, subject.positions + 1)
        }
        return ByPosition({position: value for position, value in parts.items() if isinstance(value, Value)})

    def _part(self, subject: "Subject", side: Side, position: int | None, typical: float) -> SideReading:
        """One part: measured at its places, or judged by eye, or not seen."""
        places = subject.entry.places or (None,)
        part = subject.part(at_end=position in (1, subject.positions) and position is not None)
        taken = {}
        for place in places:
            percent = max(typical + (self.rng.normal(0.0, 3.0) if place else 0.0), 0.0)
            taken[place], self.truth[subject.component, side, position, place] = self._measure(subject, part, percent)
        most = max(self.truth[subject.component, side, position, place] for place in places)
        self.truth[subject.component, side, position, None] = most
        lot = self.rng.random()
        if lot < 0.05:
            return unseen()
        if lot < 0.20:
            return self._judge(most)
        return (
            ByPlace({place: value for place, value in taken.items() if place}) if subject.entry.places else taken[None]
        )

    def _measure(self, subject: "Subject", part: "Part", percent: float) -> tuple[Sizes, float]:
        """Sizes read at one place that is about `percent` worn, and what is then the truth."""
        if subject.component in CHAINS:
            joints = percent + subject.scatter * self.rng.standard_normal(self.links)
            read, true = joints[: subject.count], float(joints.mean())
        elif subject.component is Component.PITCH:
            read = percent + subject.scatter * self.rng.standard_normal(min(subject.count, 3))
            true = float(read.max())
        else:
            read, true = np.full(1 if subject.count < 4 else 2, percent), percent
        seen = read + subject.inspector + self.seat * self.rng.standard_normal(len(read))
        lengths = (part.size(float(each)) + self.gauge_error[subject.tool] for each in seen)
        return sizes(*(_rounded(length, subject.tool) for length in lengths)), true

    def _judge(self, percent: float) -> Value:
        """An estimate: a range, about, at least or at most, that misses the truth at the stated rate."""
        rng = self.rng
        half = 10.0 if rng.random() < 0.4 else rng.uniform(5.0, 15.0)
        off = 0.6 * self.bias_by_eye + 0.4 * rng.uniform(-1.0, 1.0)
        if rng.random() < MISS_RATE:
            off = math.copysign(rng.uniform(1.0, 1.5), off)
        middle = max(percent + off * half, half)
        kind = rng.random()
        if kind < 0.1:
            return at_least(max(middle - half, 0.0))
        if kind < 0.2:
            return at_most(middle + half)
        return about(middle) if half == 10.0 else by_eye(middle - half, middle + half)


class Subject:
    """One component that day: how it was read, how its joints scatter, and the errors shared by all of it."""

    def __init__(self, rng: Generator, entry: ChartComponent, positions: int | None) -> None:
        assert entry.dimensions is not None
        self.rng, self.entry, self.positions = rng, entry, positions
        self.component, self.dimensions = entry.component, entry.dimensions
        tools = USUAL_GAUGE.get(entry.component, ("caliper", "caliper", None))
        self.tool = tools[int(rng.integers(len(tools)))]
        self.inspector = rng.normal(0.0, 2.0)
        self.new_error = _within(rng, self.dimensions.new_doubt)
        self.limit_error = _within(rng, self.dimensions.limit_tolerance)
        self.count = int(rng.integers(1, 7))
        self.scatter = _around(rng, self._usual_scatter())
        self.unworn = TableBackwards(self.dimensions) if self.dimensions.table else None

    def part(self, *, at_end: bool) -> "Part":
        """One part with its own new size."""
        sizes_of = self.entry.ends if at_end and self.entry.ends else self.dimensions
        assert isinstance(sizes_of.limit, float)
        own = self.new_error + _within(self.rng, self.dimensions.tolerance)
        return Part(sizes_of.new, sizes_of.limit, own, self.limit_error, self.unworn)

    def _usual_scatter(self) -> float:
        """The scatter from joint to joint that the chart calls usual, in points; else what the program assumes."""
        assert isinstance(self.dimensions.limit, float)
        if self.dimensions.spread is None:
            return 3.0
        return self.dimensions.spread * 100.0 / abs(self.dimensions.new - self.dimensions.limit)


@dataclass(frozen=True)
class Part:
    """The true sizes of one part: new and limit as charted with their errors."""

    new: float
    limit: float
    new_error: float
    limit_error: float
    table: "TableBackwards | None"

    def size(self, percent: float) -> float:
        """The size that it has when it is so worn: the chart's curve stretched between its own new size and limit."""
        charted = self.table.size(percent) if self.table else self.new - percent / 100.0 * (self.new - self.limit)
        stretch = (self.new + self.new_error - self.limit - self.limit_error) / (self.new - self.limit)
        return self.limit + self.limit_error + (charted - self.limit) * stretch


class TableBackwards:
    """A chart's table read backwards: from percent to size."""

    def __init__(self, dimensions: Dimensions) -> None:
        assert dimensions.table is not None
        self.rows = dimensions.table
        self.lengths = np.linspace(self.rows[0][0], self.rows[-1][0], 4001)
        lengths, percents = np.array(sorted(self.rows)).T
        smooth = dimensions.between is Between.MONOTONE
        forward = PchipInterpolator(lengths, percents) if smooth else lambda at: np.interp(at, lengths, percents)
        self.percents = forward(self.lengths)

    def size(self, percent: float) -> float:
        first, last = (self.rows[0], self.rows[1]), (self.rows[-2], self.rows[-1])
        for beyond, (one, other) in ((percent < 0.0, first), (percent > 100.0, last)):
            if beyond:
                return one[0] + (percent - one[1]) * (other[0] - one[0]) / (other[1] - one[1])
        return float(np.interp(percent, self.percents, self.lengths))


def _within(rng: Generator, half_width: float | None) -> float:
    return rng.uniform(-half_width, half_width) if half_width else 0.0


def _around(rng: Generator, usual: float) -> float:
    return usual * math.exp(rng.normal(0.0, 0.35))


def _rounded(length: float, tool: str | None) -> float:
    step = next((each.resolution for each in GAUGES if each.name == tool), None)
    return round(length / step) * step if step else length


def judge(drawn: Drawn, assessed: Assessment) -> Iterator[tuple[str, bool]]:
    """The class of each interval and whether it holds the truth."""
    for row in assessed.components:
        if row.low is not None and row.high is not None:
            name = "by eye" if row.basis is Basis.BY_EYE else str(row.component)
            yield name, row.low <= drawn.truth[_key(row)] <= row.high
    for component in drawn.chart.components:
        entry = assessed.comparison(component)
        if entry is not None and entry.delta_low is not None and entry.delta_high is not None:
            pairs = [left - right for left, right in _pairs(drawn, assessed, component)]
            assert len(pairs) == entry.pairs
            measured = all(row.basis is not Basis.BY_EYE for row in assessed.rows(component))
            name = "delta, measured" if measured else "delta, partly by eye"
            yield name, entry.delta_low <= float(np.mean(pairs)) <= entry.delta_high
    overall = assessed.overall
    if overall.low is not None and overall.high is not None:
        yield "overall", overall.low <= _true_overall(drawn, assessed) <= overall.high


def _key(row: Row) -> Key:
    return (row.component, row.side, row.position, row.place)


def _pairs(drawn: Drawn, assessed: Assessment, component: Component) -> Iterator[tuple[float, float]]:
    """The true percents of what a delta compares."""
    for left in assessed.rows(component, Side.LEFT):
        right = assessed.row(component, Side.RIGHT, left.position)
        if right is None or left.percent_worn is None or right.percent_worn is None:
            continue
        places = drawn.chart.components[component].places
        if places and left.place and right.place:
            for place in places:
                yield drawn.truth[*_key(left)[:3], place], drawn.truth[*_key(right)[:3], place]
        else:
            yield drawn.truth[_key(left)], drawn.truth[_key(right)]


def _true_overall(drawn: Drawn, assessed: Assessment) -> float:
    seen = [row for row in assessed.components if row.basis is not Basis.NOT_SEEN]
    worn = [_true_life(row, drawn.truth[_key(row)]) * row.share for row in seen]
    return math.fsum(worn) / math.fsum(row.share for row in seen)


def _true_life(row: Row, percent: float) -> float:
    """A bushing that can still be turned has used half as much of its life; past the limit all of it."""
    if row.component is Component.BUSHING and percent <= 100.0:
        return percent / 2.0
    return min(percent, 100.0)


def run(count: int, seed: int) -> Tally:
    """Draw and assess so many inspections."""
    rng, tally = np.random.default_rng(seed), Tally()
    for _ in range(count):
        drawn = draw(rng)
        for name, held in judge(drawn, assess(drawn.inspection, drawn.chart)):
            tally.add(name, held)
    return tally


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=run.__doc__)
    parser.add_argument("--count", type=int, default=4000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    tally = run(options.count, options.seed)
    print(f"{'class':24}{'intervals':>10}{'hold the truth':>16}")
    for name in sorted(tally.trials):
        print(f"{name:24}{tally.trials[name]:>10}{tally.rate(name):>16.2%}")
    print(f"{'pool':24}{tally.trials.total():>10}{tally.pool:>16.2%}")


if __name__ == "__main__":
    main()
