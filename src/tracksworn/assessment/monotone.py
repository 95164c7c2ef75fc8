"""A chart's table read as a smooth curve that never overshoots its rows."""

from scipy.interpolate import PchipInterpolator

from tracksworn.assessment.curves import chord_at


class Monotone:
    """Monotone cubic (PCHIP, Fritsch and Butland 1984) between rows; beyond them the outermost chords go on."""

    def __init__(self, rows: tuple[tuple[float, float], ...]) -> None:
        """Rows of (size in mm, percent) in the order of percent."""
        ordered = sorted(rows)
        self._rows = rows
        self._first, self._last = ordered[0][0], ordered[-1][0]
        self._percent = PchipInterpolator([size for size, _ in ordered], [percent for _, percent in ordered])
        self._slope = self._percent.derivative()

    def at(self, size: float) -> tuple[float, float]:
        """Percent and local slope."""
        if not self._first <= size <= self._last:
            return chord_at(self._rows, size)
        return float(self._percent(size)), float(self._slope(size))
