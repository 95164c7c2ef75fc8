"""How far the axis of hours left reaches, and where its figures stand."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median
from typing import Final

from tracksworn.documents.drawing.hours.chart import Bar

_OF_THE_FIRST: Final = 8.0
_OF_THE_MIDDLE: Final = (2.0, 4.0)
_BEYOND_BEST: Final = 1.25
_MOST_STEPS: Final = 8
_SHORTEST: Final = 10.0  # hours


@dataclass(frozen=True, slots=True)
class Axis:
    """From now to `end`, a figure at every `step`; both in hours."""

    end: float
    step: float

    @property
    def ticks(self) -> tuple[float, ...]:
        """Where figures stand."""
        return tuple(self.step * index for index in range(math.floor(self.end / self.step + 1e-9) + 1))


def axis_for(bars: Sequence[Bar]) -> Axis:
    """An axis on which what comes first stays legible: what comes far later than most runs off it, at an arrow.

    It reaches past the last best value that is within eight times the first, but in any case twice and at most four
    times the middle one; as far as that interval does, but by no more than a quarter.
    """
    ahead = [bar for bar in bars if bar.best > 0]
    if not ahead:
        return _rounded(max([_SHORTEST, *(bar.high for bar in bars if bar.high is not None)]))
    bests = [bar.best for bar in ahead]
    surely, at_most = (times * median(bests) for times in _OF_THE_MIDDLE)
    farthest = max(surely, min(_OF_THE_FIRST * min(bests), at_most))
    shown = [bar for bar in ahead if bar.best <= farthest]
    reach = (min(bar.high or math.inf, _BEYOND_BEST * bar.best) for bar in shown)
    return _rounded(max(_SHORTEST, *reach, 1.04 * max(bar.best for bar in shown)))


def _rounded(end: float) -> Axis:
    """At most so many steps of 1, 2 or 5 times a power of ten, ending on a quarter of one."""
    least = end / _MOST_STEPS
    power = 10.0 ** math.floor(math.log10(least))
    step = next(times * power for times in (1, 2, 5, 10) if times * power >= least - 1e-9)
    return Axis(math.ceil(end / step * 4 - 1e-9) * step / 4, step)
