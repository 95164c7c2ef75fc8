"""How worn one part is, as every drawing needs it: bars, rings, rails, grousers and sections are all gauges."""

from dataclasses import dataclass

from tracksworn.assessment.model import Basis, Stage


@dataclass(frozen=True, slots=True)
class Gauge:
    """Numbers to draw by, and the texts that stand at them, already in the reader's language.

    By eye, `low` and `high` are the range as said; `high` is None for `at least`, `low` for `at most`.
    """

    basis: Basis
    figure: str  # `79`, `40–60`, `at most 30`, `–`
    percent: float | None = None  # None by eye where only a bound is known, and not seen
    low: float | None = None
    high: float | None = None
    stage: Stage | None = None
    word: str = ""  # `by eye` or `not seen`; empty where measured
    reason: str = ""  # why it was not seen

    @property
    def seen(self) -> bool:
        """Whether there is anything to draw but an empty outline."""
        return self.basis is not Basis.NOT_SEEN
