"""What a judgement by eye counts for."""

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.model import PlaceEstimate
from tracksworn.inspection.values import ByEye, Estimate
from tracksworn.inspection.vocabulary import PartPlace


def estimate(place: PartPlace | None, said: ByEye, table: Assumptions) -> PlaceEstimate:
    """A range has its middle, `about A` is A with an assumed half-width; a bound has no middle and one end."""
    match said.kind:
        case Estimate.RANGE:
            return PlaceEstimate(place, said, (said.low + said.high) / 2.0, said.low, said.high)
        case Estimate.ABOUT:
            low, high = max(said.low - table.about, 0.0), said.low + table.about
            return PlaceEstimate(place, said, said.low, low, high)
        case Estimate.AT_LEAST:
            return PlaceEstimate(place, said, None, said.low, None)
        case Estimate.AT_MOST:
            return PlaceEstimate(place, said, None, None, said.low)


def within_scale(low: float | None, high: float | None) -> tuple[float, float]:
    """An estimate's range as the overall figure counts it: `at least A` is A…100, `at most A` 0…A, all cut to 0…100."""
    return _cut(0.0 if low is None else low), _cut(100.0 if high is None else high)


def _cut(percent: float) -> float:
    return min(max(percent, 0.0), 100.0)
