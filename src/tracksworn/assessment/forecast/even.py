"""Wear through a hardened case, made even: a scale on which a part loses the same every hour."""

from dataclasses import dataclass

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.scale import Scale
from tracksworn.inspection.chart import Case
from tracksworn.inspection.vocabulary import Component

WITHOUT_CASE = frozenset({Component.PITCH, Component.LUG, Component.DRIVE_LUG})
"""Whose chart is asked for no case: a pitch grows by the wear of pin and bushing on each other, lugs are of rubber.

Common practice, no source.
"""


@dataclass(frozen=True, slots=True)
class EvenWear:
    """g(w) = min(w, c) + max(w − c, 0)/f, in points: below a case that ends at c percent a part wears f times as fast.

    Without a case g(w) = w.
    """

    case: Case | None = None

    @classmethod
    def on(cls, scale: Scale) -> "EvenWear":
        """Even wear by a chart. A table holds the hardening already and takes no case."""
        return cls(None if scale.dimensions.table is not None else scale.dimensions.case)

    @property
    def limit(self) -> float:
        """g(100)."""
        return self.at(100.0)

    def at(self, percent: float) -> float:
        """g(w) of percent worn."""
        if self.case is None:
            return percent
        return min(percent, self.case.ends_at) + max(percent - self.case.ends_at, 0.0) / self.case.then_times

    def slope(self, percent: float) -> float:
        """g′(w): 1 within the case, 1/f where it ends and below."""
        if self.case is None or not reaches(percent, self.case.ends_at):
            return 1.0
        return 1.0 / self.case.then_times


def ignores_hardening(component: Component, scale: Scale) -> bool:
    """Whether a chart has neither case nor table, so that below a hardened case a part wears faster than it says."""
    return component not in WITHOUT_CASE and scale.dimensions.case is None and scale.dimensions.table is None
