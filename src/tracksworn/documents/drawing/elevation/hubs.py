"""Figures in the hubs of the big wheels, and the words and reasons in those that were not seen."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final, Literal

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.elevation.boxes import text_box
from tracksworn.documents.drawing.elevation.parts import Round, hub
from tracksworn.documents.drawing.elevation.sides import ElevationWords
from tracksworn.documents.drawing.elevation.view import View
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import INK, LABEL
from tracksworn.documents.drawing.lettering import balanced
from tracksworn.documents.drawing.plain import Point, Text
from tracksworn.documents.drawing.type import CAP_HEIGHT, DESCENT, MM_PER_POINT

Row = tuple[str, Literal[400, 600, 700], float]  # content, weight, size in pt

_SIZES: Final = (11.0, 9.6, 8.8, 7.8, 7.1, 6.6, 6.2)
SMALLEST: Final = 6.2
_GAP: Final = 0.75  # mm from line to line
_SMALL_HUB: Final = 6.0
_LEAST_FOR_WORDS: Final = 3.6  # mm of a hub's radius from which it holds two lines
_WITHIN: Final = 0.86  # of the tread of a wheel that was not seen: what its words may take
_WITH_REASON: Final = 5.5  # mm of tread from which a wheel has room to say why


def weight(gauge: Gauge) -> Literal[600, 700]:
    """Bold for a value past its limit."""
    return 700 if gauge.stage is Stage.PAST_LIMIT else 600


def under_nought(gauge: Gauge, words: ElevationWords) -> str:
    """The word beside a figure under nought: as new, or better than new by more than its uncertainty."""
    if gauge.percent is None or gauge.percent >= 0 or gauge.figure == "0":
        return ""
    return words.better_than_new if gauge.high is not None and gauge.high < 0 else words.as_new


def hub_texts(part: Round, gauge: Gauge | None, view: View, words: ElevationWords) -> tuple[Text, ...]:
    """A wheel's figure in its hub, with how it was seen beneath; in one that was not seen the reason, if it fits."""
    if gauge is None:
        return ()
    centre, radius = view.point(part.centre), hub(part, gauge, view)
    if gauge.basis is Basis.NOT_SEEN:
        return _unseen(centre, view.length(part.tread), gauge, words)
    said = words.by_eye if gauge.basis is Basis.BY_EYE else under_nought(gauge, words)
    beneath = ((said, 400, SMALLEST),) if said and radius > _LEAST_FOR_WORDS else ()
    parts = gauge.figure.rsplit(" ", 1)
    if len(parts) == 2 and radius < _SMALL_HUB:
        return stacked(centre, radius, ((parts[0], 400, SMALLEST), (parts[1], weight(gauge), 11.0)))
    return stacked(centre, radius, ((gauge.figure, weight(gauge), 11.0), *beneath))


def _unseen(centre: Point, tread: float, gauge: Gauge, words: ElevationWords) -> tuple[Text, ...]:
    """The words in one line with the reason under them, else the words alone, else a word a line, else the dash."""
    said, room = gauge.word or words.not_seen, tread * _WITHIN
    for lines in _ways(said, gauge.reason if tread > _WITH_REASON else "", room):
        texts = column(centre, lines)
        if all(_inside(text, centre, room) for text in texts):
            return texts
    return column(centre, ((gauge.figure, 600, 7.8),)) if gauge.figure else ()


def _ways(said: str, reason: str, room: float) -> Iterator[Sequence[Row]]:
    if reason:
        style = Text((0, 0), "", SMALLEST)
        for share in (1.75, 1.6, 1.45):
            yield (said, 600, 7.1), *((line, 400, SMALLEST) for line in balanced(reason, room * share, style))
    for size in (7.1, SMALLEST):
        yield ((said, 600, size),)
    yield [(word, 600, SMALLEST) for word in said.split()]


def stacked(centre: Point, radius: float, lines: Sequence[Row]) -> tuple[Text, ...]:
    """Lines one under the other in a circle, as large as they fit it; too wide at the smallest, they get a halo."""
    for most in _SIZES:
        sizes = [min(most, size) for _, _, size in lines]
        texts = column(centre, [(content, heavy, size) for (content, heavy, _), size in zip(lines, sizes, strict=True)])
        if all(_inside(text, centre, radius) for text in texts):
            return texts
    smallest = [(content, heavy, SMALLEST) for content, heavy, _ in lines]
    return tuple(replace(text, halo=True) for text in column(centre, smallest))


def column(centre: Point, lines: Sequence[Row]) -> tuple[Text, ...]:
    """Lines one under the other, centred on a point."""
    capitals = [CAP_HEIGHT * size * MM_PER_POINT for _, _, size in lines]
    gaps = [max(_GAP, 1.05 * DESCENT * size * MM_PER_POINT) for _, _, size in lines[:-1]]
    y = centre[1] - (sum(capitals) + sum(gaps)) / 2
    texts = []
    for (content, heavy, size), height, gap in zip(lines, capitals, [*gaps, 0.0], strict=True):
        y += height
        texts.append(Text((centre[0], y), content, size, heavy, LABEL if heavy == 400 else INK, "middle"))
        y += gap
    return tuple(texts)


def _inside(text: Text, centre: Point, radius: float) -> bool:
    box = text_box(text)
    corners = [(box.left, box.top), (box.left, text.at[1])]
    return all(math.dist(corner, centre) < radius - 0.25 for corner in corners)
