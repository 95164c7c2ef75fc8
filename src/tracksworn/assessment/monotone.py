"""A chart's table read as a smooth curve that never overshoots its rows."""

from dataclasses import dataclass, field

from scipy.interpolate import PchipInterpolator

from tracksworn.assessment.curves import chord_at


@dataclass(frozen=True, slots=True)
class Monotone:
    """Monotone cubic (PCHIP, Fritsch and Butland 1984) between rows; beyond them the outermost chords go on.

    Rows are (size in mm, percent) in the order of percent; curves through equal rows are equal.
    """

    rows: tuple[tuple[float, float], ...]
    _percent: PchipInterpolator = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Lay the cubic through the rows."""
        sizes, percents = zip(*sorted(self.rows), strict=True)
        object.__setattr__(self, "_percent", PchipInterpolator(sizes, percents))

    def at(self, size: float) -> tuple[float, float]:
        """Percent and local slope."""
        ends = self.rows[0][0], self.rows[-1][0]
        if not min(ends) <= size <= max(ends):
            return chord_at(self.rows, size)
        return float(self._percent(size)), float(self._percent(size, 1))
