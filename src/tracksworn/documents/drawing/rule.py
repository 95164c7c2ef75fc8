"""The twin wear rule: two bars of metal that wear works inwards from their outer ends."""

from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.inspection.vocabulary import Side

BAR = 34.0  # mm from as new to the limit
OUTER = 1.6  # room beyond the as-new end, for a whisker or metal better than new
INNER = 4.1  # room beyond the limit, to 112 %
HEIGHT = 9.0


def draw_rule(gauge: Gauge, side: Side, *, alternative: str, bar: float = BAR) -> Drawing:
    """One half, OUTER + bar + INNER wide: left with the limit at its right, right mirrored. Stage words are the page's."""
    return Drawing(OUTER + bar + INNER, HEIGHT, (), f"{alternative}{gauge.figure}{side}")


def draw_twin_rule(
    left: Gauge | None, right: Gauge | None, *, alternative: str, middle: float = 22.0, bar: float = BAR
) -> Drawing:
    """Both halves with `middle` mm between their limits, which the page fills with the delta. None: nothing there."""
    return Drawing(2 * (OUTER + bar) + middle, HEIGHT, (), f"{alternative}{left}{right}")


def draw_rule_scale(side: Side, figures: tuple[str, str, str, str], *, bar: float = BAR) -> Drawing:
    """The heads 0, 50, 80 and 100 over a half, as wide as the half itself."""
    return Drawing(OUTER + bar + INNER, 3.0, (), f"{figures}{side}")


def words_inside(gauge: Gauge, bar: float = BAR) -> str:
    """What stands in the bar by eye or not seen; a reason too long for it is left to the page, beneath the bar."""
    return f"{gauge.word}{bar}"
