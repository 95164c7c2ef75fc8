"""Travel and range, not wear: a thin line from start to end with a heavy tick."""

from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.rule import BAR, INNER, OUTER
from tracksworn.inspection.vocabulary import Side

HEIGHT = 4.4


def draw_travel(percent_used: float, side: Side, *, alternative: str, bar: float = BAR) -> Drawing:
    """Adjuster or cushion: from start (outer end) to end of travel, as wide as a half of the twin rule."""
    return Drawing(OUTER + bar + INNER, HEIGHT, (), f"{alternative}{percent_used}{side}")


def draw_range(size: float, low: float, high: float, side: Side, *, alternative: str, bar: float = BAR) -> Drawing:
    """Sag: its range as a line, the tick in or outside it."""
    return Drawing(OUTER + bar + INNER, HEIGHT, (), f"{alternative}{size}{low}{high}{side}")
