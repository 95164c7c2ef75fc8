"""Under the ground line: the bottom rollers' numbers and figures, and the names of the wheels that stand there."""

import math
from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from typing import Final

from tracksworn.documents.drawing.elevation.boxes import text_box
from tracksworn.documents.drawing.elevation.hubs import SMALLEST, under_nought, weight
from tracksworn.documents.drawing.elevation.parts import rounds
from tracksworn.documents.drawing.elevation.rows import LOWER_ROW, under_figures
from tracksworn.documents.drawing.elevation.sides import SideElevation
from tracksworn.documents.drawing.elevation.view import View
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import INK, LABEL
from tracksworn.documents.drawing.plain import Point, Text
from tracksworn.documents.drawing.type import text_width
from tracksworn.inspection.vocabulary import Component

_NUMBER_ROW: Final = 3.1  # baselines under the ground line
_FIGURE_ROW: Final = 6.5
_FIGURE_ROW_ALONE: Final = 3.3
_STEP_DOWN: Final = 3.1
_WORD_ROW: Final = 2.7  # from a figure to the word under it
_AIR: Final = 0.7  # between neighbours
_NOTHING: Final = 0.6  # under a ground line without any figure
_MOST_ROWS: Final = 4
_MOST_ROWS_SMALL: Final = 2
_SIZES: Final = (7.8, 7.2, 6.6)  # pt, of figures


def levels(side: SideElevation, chain: Chain, view: View) -> int:
    """On how many rows the bottom rollers' figures stand, so that none meets its neighbour; 0 where that would be more
    rows than a drawing of its size has room for, and figures are left to the page.
    """
    return _setting(side, chain, view)[0]


def _setting(side: SideElevation, chain: Chain, view: View) -> tuple[int, float]:
    """Rows and size of the figures. In a small drawing rather smaller in one row than staggered: that takes height."""
    step, usual = _step(chain, view), _SIZES[0]
    sizes, most = (_SIZES, _MOST_ROWS_SMALL) if side.small else (_SIZES[:1], _MOST_ROWS)
    ways = [*((1, size) for size in sizes), *((rows, usual) for rows in range(2, most + 1))]
    return next(((rows, size) for rows, size in ways if _clear(side.bottom_rollers, size, rows, step)), (0, usual))


def _clear(rollers: Sequence[Gauge], size: float, rows: int, step: float) -> bool:
    """Whether no figure meets the next one of its row."""
    widths = [text_width(_figure((0, 0), gauge, size)) for gauge in rollers]
    neighbours = zip(widths, widths[rows:], strict=False)
    return all((one + other) / 2 + _AIR <= rows * step for one, other in neighbours)


def _step(chain: Chain, view: View) -> float:
    """From roller to roller where they stand closest; so much is also one roller's own."""
    at = chain.undercarriage.bottom_at
    return view.length(min((b - a for a, b in pairwise(at)), default=4 * chain.undercarriage.bottom_radius))


def foot(side: SideElevation, chain: Chain, view: View) -> float:
    """How much room the type under the ground line takes."""
    return figures_end(side, chain, view) + (LOWER_ROW if under_figures(side, chain) else 0.0)


def figures_end(side: SideElevation, chain: Chain, view: View) -> float:
    """How far under the ground line the figures reach."""
    rows = levels(side, chain, view)
    if side.small and (not rows or not any(gauge.figure for gauge in side.bottom_rollers)):
        return _NOTHING
    if not rows:
        return _NUMBER_ROW + 1.0
    first = _first_row(side, rows)
    words = _WORD_ROW if _words_under(side, chain, view) else 0.0
    return first + (rows - 1) * _STEP_DOWN + words + 1.0


def _first_row(side: SideElevation, rows: int) -> float:
    """The baseline of the first figures under the ground line: numbers stand over them, in small where they stagger."""
    return _FIGURE_ROW_ALONE if side.small and rows < 2 else _FIGURE_ROW


def under_ground(side: SideElevation, chain: Chain, view: View) -> tuple[Text, ...]:
    """All of it; in the small drawing the figures alone, with numbers where they are too wide for one row."""
    rows, size = _setting(side, chain, view)
    first = _first_row(side, rows)
    across = [view.point((x, 0))[0] for x in chain.undercarriage.bottom_at]
    figures = [
        _figure((x, view.ground + first + (index % rows) * _STEP_DOWN), gauge, size)
        for index, (x, gauge) in enumerate(zip(across, side.bottom_rollers, strict=True))
        if rows
    ]
    if side.small:
        figures = [figure for figure in figures if figure.content]
        numbered = _numbers(across, view.ground + _NUMBER_ROW, _step(chain, view)) if rows > 1 and figures else []
        return (*numbered, *figures)
    if rows == 1:
        figures = _with_reasons(side, figures, _step(chain, view))
        figures += _words_under(side, chain, view)
    numbers = _numbers(across, view.ground + _NUMBER_ROW, _step(chain, view))
    return (*numbers, *figures, *_wheel_names(side, chain, view, (*numbers, *figures)))


def _numbers(across: Sequence[float], y: float, step: float) -> list[Text]:
    """The rollers' numbers, of rollers that stand too close for that only every second one, or fewer."""
    numbers = [Text((x, y), str(index + 1), 6.6, 400, LABEL, "middle") for index, x in enumerate(across)]
    every = math.ceil((max(map(text_width, numbers), default=0.0) + _AIR) / step)
    return numbers[::every]


def _figure(at: Point, gauge: Gauge, size: float) -> Text:
    return Text(at, gauge.figure, size, weight(gauge), INK, "middle")


def _words_under(side: SideElevation, chain: Chain, view: View) -> list[Text]:
    """The words under figures under nought, where rollers stand far enough apart for them."""
    if side.small or levels(side, chain, view) != 1:
        return []
    step, y = _step(chain, view), view.ground + _FIGURE_ROW + _WORD_ROW
    words = [
        Text((view.point((x, 0))[0], y), under_nought(gauge, side.words), SMALLEST, 400, LABEL, "middle")
        for x, gauge in zip(chain.undercarriage.bottom_at, side.bottom_rollers, strict=True)
    ]
    return [word for word in words if word.content and text_width(word) + _AIR <= step]


def _with_reasons(side: SideElevation, figures: Sequence[Text], step: float) -> list[Text]:
    """The figures, in the place of dashes the word and the reason over the rollers that were not seen, if they fit."""
    texts: list[Text] = []
    for unseen, run in groupby(range(len(figures)), key=lambda index: _why(side.bottom_rollers[index])):
        own = [figures[index] for index in run]
        texts += (unseen and _over_run(unseen, own, step)) or own
    return texts


def _why(gauge: Gauge) -> tuple[str, str] | None:
    return None if gauge.seen else (gauge.word, gauge.reason)


def _over_run(why: tuple[str, str], dashes: Sequence[Text], step: float) -> list[Text]:
    word, reason = why
    ends = dashes[0].at[0], dashes[-1].at[0]
    for content in (f"{word}, {reason}" if word and reason else "", word):
        text = Text((sum(ends) / 2, dashes[0].at[1]), content, 6.6, 500, LABEL, "middle")
        if content and text_width(text) + 2 * _AIR <= abs(ends[1] - ends[0]) + step:
            return [text]
    return []


def _wheel_names(side: SideElevation, chain: Chain, view: View, taken: Sequence[Text]) -> Iterator[Text]:
    boxes = [text_box(text).grown(0.8) for text in taken]
    for part in rounds(chain):
        if part.roller or (part.part is Component.SPROCKET and chain.undercarriage.raised):
            continue
        name = side.words.parts.get(part.part, "")
        text = Text((view.point(part.centre)[0], view.ground + _NUMBER_ROW), name, 6.6, 400, LABEL, "middle")
        if name and not any(text_box(text).meets(box) for box in boxes):
            yield text
