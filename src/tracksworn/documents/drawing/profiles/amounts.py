"""From sizes to depths of wear: how much has gone, how much may go, and how deep a section must be drawn."""

from dataclasses import dataclass
from typing import Final

from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.profiles.profile import USUAL_MEASURES, Measure, Profile, Worn
from tracksworn.inspection.vocabulary import Component

TYPICAL: Final = {
    Component.LINK: (140.0, 124.0),
    Component.BUSHING: (72.0, 65.0),
    Component.PITCH: (812.0, 824.0),
    Component.SHOE: (65.0, 28.0),
    Component.LUG: (45.0, 15.0),
    Component.DRIVE_LUG: (60.0, 42.0),
    Component.SPROCKET: (52.0, 38.0),
    Component.FRONT_IDLER: (640.0, 612.0),
    Component.REAR_IDLER: (640.0, 612.0),
    Component.BOTTOM_ROLLER: (216.0, 184.0),
    Component.TOP_ROLLER: (172.0, 148.0),
}
"""New size and limit, mm, of a middling machine, for sections without sizes. Judgement, no source."""

_GROWING: Final = frozenset({Measure.DEPTH, Measure.GAP, Measure.SPAN})
_MOST: Final = {Measure.DIAMETER: 0.6, Measure.DEPTH: 6.0, Measure.GAP: 1.5}  # of the new size that a section can lose
_BETTER: Final = -0.5  # of the way to the limit: better than new is drawn no further than that


@dataclass(frozen=True, slots=True)
class Amounts:
    """Sizes to draw with, mm. A loss is positive as the part wears, whichever way its size moves."""

    new: float
    limit: float  # the loss at the limit, above 0
    destroyed: float | None
    stated: bool  # from a chart; else typical
    to_scale: bool  # everything can be drawn where it is
    measure: Measure

    def loss_at(self, percent: float) -> float:
        """The loss at a percent worn, straight between new and limit."""
        return self.held(self.limit * percent / 100)

    def held(self, loss: float) -> float:
        """The loss, or the nearest that the section can bear."""
        return min(max(loss, _BETTER * self.limit), self.most)

    @property
    def most(self) -> float:
        """The greatest loss that can be drawn."""
        return max(_MOST.get(self.measure, 0.85) * self.new, 1.02 * self.limit)


def amounts(profile: Profile) -> Amounts:
    """What to draw a profile with."""
    measure = profile.measure or USUAL_MEASURES[profile.component]
    if profile.new is None or profile.limit is None or profile.new.mm == profile.limit.mm:
        new, limit = TYPICAL[profile.component]
        if measure in (Measure.DEPTH, Measure.WALL):
            new, limit = 20.0, (26.0 if measure is Measure.DEPTH else 15.0)
        return Amounts(new, abs(limit - new), None, stated=False, to_scale=False, measure=measure)
    new, limit = profile.new.mm, profile.limit.mm
    sound = profile.grows == (measure in _GROWING) or measure is Measure.SPAN
    sound = sound and (profile.grows or abs(limit - new) < _MOST.get(measure, 0.85) * new)
    destroyed = None
    if profile.destroyed is not None:
        destroyed = _loss(profile, profile.destroyed.mm)
    plain = Amounts(new, abs(limit - new), destroyed, stated=True, to_scale=True, measure=measure)
    losses = [_loss(profile, worn.size.mm) for worn in profile.now if worn.size is not None]
    inside = all(plain.held(loss) == loss for loss in losses)
    return Amounts(new, plain.limit, destroyed, stated=True, to_scale=sound and inside, measure=measure)


def loss_now(profile: Profile, given: Amounts, worn: Worn) -> float | None:
    """The loss of one reading, or None where there is no edge to draw: by eye, not seen, no chart."""
    if worn.gauge.basis is not Basis.MEASURED or not given.stated or worn.size is None:
        return None
    return given.held(_loss(profile, worn.size.mm))


def losses_by_eye(given: Amounts, gauge: Gauge) -> tuple[float, ...]:
    """The losses at the ends of an estimate's range, as many as were said."""
    if gauge.basis is not Basis.BY_EYE:
        return ()
    return tuple(given.loss_at(end) for end in (gauge.low, gauge.high) if end is not None)


def deepest(profile: Profile, given: Amounts) -> float:
    """The greatest loss in the drawing."""
    now = [loss_now(profile, given, worn) or 0.0 for worn in profile.now]
    eye = [loss for worn in profile.now for loss in losses_by_eye(given, worn.gauge)]
    return max(given.limit, given.held(given.destroyed or 0.0), *now, *eye)


def _loss(profile: Profile, size: float) -> float:
    new = profile.new.mm if profile.new else size
    return size - new if profile.grows else new - size
