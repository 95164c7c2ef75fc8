"""How often the hours that a forecast gives hold the true ones, on invented chains whose rate of wear is known.

Run `python tests/bench/hours_coverage.py --count 4000 --seed 1`. A chain wears through a hardened case at a steady rate
of even wear from the hour it was fitted. Each inspection draws its own errors: joints that scatter about the mean with
a standard deviation around the usual one (log-normal, a relative doubt of about 0.35), an inspector, a gauge,
rectangular within its accuracy, and rounding. The new size is one for all inspections of a chain, and so are the errors
of inspector and gauge where the same hand and gauge come again, which is so in half of the cases.

- since fitted, between inspections: the truth is the hour at which the chain is at its limit;
- line: from four to seven inspections, with no error but the scatter about the line; the truth is the hour at which one
  further reading, with its own scatter, is at the limit.
"""

import argparse
import math
import sys
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path

import numpy as np
from numpy.random import Generator

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from builders import chart, gauge, wears
from histories import fitted_at, forecast_of, walk

from tracksworn.assessment.decisions import ForecastRow, RateFrom
from tracksworn.inspection.chart import Case, WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component

ENDS_AT, TIMES = 60.0, 3.0
LIMIT = ENDS_AT + (100.0 - ENDS_AT) / TIMES
SPREAD = 2.5
ACCURACY = 0.8
TOLERANCE = 1.5
SOURCE: WearChart = chart(
    wears(Component.LINK, 200.0, 100.0, spread=SPREAD, tolerance=TOLERANCE, case=Case(ENDS_AT, TIMES))
)
"""A millimetre is a percent."""

Outcome = tuple[ForecastRow | None, float]
"""A forecast, and the true hours left."""


def percent(even: float) -> float:
    """Percent worn at so much even wear."""
    return even if even <= ENDS_AT else ENDS_AT + (even - ENDS_AT) * TIMES


class Chain:
    """One chain with its own new size, worn at its own rate since it was fitted."""

    def __init__(self, rng: Generator) -> None:
        self.rng = rng
        self.fitted = float(rng.uniform(0.0, 6000.0))
        self.rate = float(rng.uniform(0.005, 0.03))
        self.new = 200.0 + float(rng.uniform(-TOLERANCE, TOLERANCE))
        self.scatter = SPREAD * math.exp(rng.normal(0.0, 0.35))

    def at(self, even: float) -> float:
        """Machine hours at which it is so worn."""
        return self.fitted + even / self.rate

    def size(self, even: float) -> float:
        """Its mean size when so worn: the chart's curve between its own new size and the limit."""
        return self.new - percent(even) / 100.0 * (self.new - 100.0)

    def read(self, even: float, hand: "Hand") -> Inspection:
        """What one inspector reads of it on the day when it is so worn."""
        joints = self.size(even) + self.rng.normal(0.0, self.scatter, 4) + hand.offset
        sizes = tuple(round(float(each) / 0.05) * 0.05 for each in joints)
        tool = replace(gauge("depth gauge", resolution=0.05, accuracy=ACCURACY), calibrated=hand.calibrated)
        fitted = {Component.LINK: fitted_at(self.fitted)} if hand.knows_fitting else {}
        return walk(self.at(even), sizes, tool=tool, fitted=fitted, inspector=hand.name)


class Hand:
    """An inspector and a gauge, with the error that both make of this component all day."""

    def __init__(self, rng: Generator, name: str, *, knows_fitting: bool = False) -> None:
        self.name, self.knows_fitting = name, knows_fitting
        self.offset = float(rng.normal(0.0, 2.0) + rng.uniform(-ACCURACY, ACCURACY))
        self.calibrated = date(2030, 1, 1 + len(name))


def since_fitted(rng: Generator) -> Outcome:
    """One inspection of a chain of which is known when it went on."""
    chain, even = Chain(rng), float(rng.uniform(20.0, 72.0))
    return _only(chain.read(even, Hand(rng, "Ines Marlow", knows_fitting=True))), (LIMIT - even) / chain.rate


def between(rng: Generator) -> Outcome:
    """Two inspections, by the same or by another."""
    chain, even = Chain(rng), float(rng.uniform(30.0, 72.0))
    hand = Hand(rng, "Ines Marlow")
    before = hand if rng.random() < 0.5 else Hand(rng, "Tom Wren")
    earlier = chain.read(even - float(rng.uniform(8.0, 28.0)), before)
    return _only(chain.read(even, hand), earlier), (LIMIT - even) / chain.rate


def line(rng: Generator) -> Outcome:
    """Four to seven inspections; what is asked for is when one further reading stands at the limit."""
    count = int(rng.integers(4, 8))
    start, rate, scatter = 2000.0, float(rng.uniform(0.005, 0.02)), float(rng.uniform(0.3, 2.0))
    hours = np.sort(rng.uniform(0.0, 2500.0, count))
    evens = [rate * float(each) + scatter * float(rng.normal()) for each in hours]
    walks = [
        walk(start + float(each), tuple(200.0 - percent(even) for _ in range(4)))
        for each, even in zip(hours, evens, strict=True)
    ]
    at_limit = (LIMIT - scatter * float(rng.normal())) / rate
    return _only(walks[-1], *walks[:-1]), at_limit - float(hours[-1])


def _only(now: Inspection, *earlier: Inspection) -> ForecastRow | None:
    rows = forecast_of(now, *earlier, by=SOURCE)
    return rows[0] if rows else None


KINDS: Mapping[RateFrom, Callable[[Generator], Outcome]] = {
    RateFrom.SINCE_FITTED: since_fitted,
    RateFrom.BETWEEN: between,
    RateFrom.LINE: line,
}


def rate_of_hits(kind: RateFrom, count: int, seed: int) -> float:
    """How often the hours of that kind hold the truth; chains that seem to grow back have no forecast and no part."""
    rng, hits, trials = np.random.default_rng(seed), 0, 0
    for _ in range(count):
        row, truth = KINDS[kind](rng)
        if row is not None and row.rate_from is kind:
            trials += 1
            high = math.inf if row.hours_high is None else row.hours_high
            hits += row.hours_low <= max(truth, 0.0) <= high
    assert trials > count / 2
    return hits / trials


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("--count", type=int, default=4000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    for kind in KINDS:
        print(f"{kind:24}{rate_of_hits(kind, options.count, options.seed):>10.2%}")


if __name__ == "__main__":
    main()
