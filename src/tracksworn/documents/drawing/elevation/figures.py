"""Figures and names at the parts: in the hubs, under the ground line, beside the top rollers and over the adjuster."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final, Literal

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.elevation.boxes import Box, Room, around, text_box
from tracksworn.documents.drawing.elevation.frame import bracket, frame, travel_box
from tracksworn.documents.drawing.elevation.parts import Round, gauge_of, rounds
from tracksworn.documents.drawing.elevation.rows import LOWER_ROW, under_figures
from tracksworn.documents.drawing.elevation.sides import ElevationWords, SideElevation
from tracksworn.documents.drawing.elevation.view import View
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.documents.drawing.elevation.wheels import top_roller_centres
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import INK, LABEL
from tracksworn.documents.drawing.plain import Point, Text
from tracksworn.documents.drawing.type import CAP_HEIGHT, MM_PER_POINT, text_width
from tracksworn.inspection.vocabulary import Component

_Line = tuple[str, Literal[400, 600, 700], float]  # content, weight, size in pt

_SIZES: Final = (11.0, 9.6, 8.8, 7.8, 7.1, 6.6, 6.2)
SMALLEST: Final = 6.2
_BESIDE: Final[tuple[tuple[float, float, Literal["start", "end"]], ...]] = (
    (1.0, 0.7, "start"), (-1.0, 0.7, "end"), (1.0, 0.0, "start"), (-1.0, 0.0, "end"),
    (0.8, 1.2, "start"), (-0.8, 1.2, "end"),
)  # fmt: skip
_NUMBER_ROW: Final = 3.1  # baselines under the ground line
_FIGURE_ROW: Final = 6.5
_FIGURE_ROW_ALONE: Final = 3.3
_STEP_DOWN: Final = 3.1
_ASIDE: Final = sorted(range(-20, 21), key=lambda step: (abs(step), -step))  # mm that the adjuster's words may move


def weight(gauge: Gauge) -> Literal[600, 700]:
    """Bold for a value past its limit."""
    return 700 if gauge.stage is Stage.PAST_LIMIT else 600


def hub_texts(part: Round, gauge: Gauge | None, view: View, words: ElevationWords) -> tuple[Text, ...]:
    """A wheel's figure in its hub, with how it was seen beneath."""
    if gauge is None:
        return ()
    centre, radius = view.point(part.centre), part.hub(view)
    if gauge.basis is Basis.NOT_SEEN:
        return _stacked(centre, radius, ((words.not_seen, 400, 6.6),))
    beneath = ((words.by_eye, 400, SMALLEST),) if gauge.basis is Basis.BY_EYE and radius > 3.6 else ()
    parts = gauge.figure.rsplit(" ", 1)
    if len(parts) == 2 and radius < 6:
        return _stacked(centre, radius, ((parts[0], 400, SMALLEST), (parts[1], weight(gauge), 11.0)))
    return _stacked(centre, radius, ((gauge.figure, weight(gauge), 11.0), *beneath))


def _stacked(centre: Point, radius: float, lines: Sequence[_Line]) -> tuple[Text, ...]:
    """Lines one under the other in a circle, as large as they fit it; too wide at the smallest, they get a halo."""
    for most in _SIZES:
        sizes = [min(most, size) for _, _, size in lines]
        texts = _column(
            centre, [(content, heavy, size) for (content, heavy, _), size in zip(lines, sizes, strict=True)]
        )
        if all(_inside(text, centre, radius) for text in texts):
            return texts
    smallest = [(content, heavy, SMALLEST) for content, heavy, _ in lines]
    return tuple(replace(text, halo=True) for text in _column(centre, smallest))


def _column(centre: Point, lines: Sequence[_Line]) -> tuple[Text, ...]:
    capitals = [CAP_HEIGHT * size * MM_PER_POINT for _, _, size in lines]
    gap = 0.75
    y = centre[1] - (sum(capitals) + gap * (len(lines) - 1)) / 2
    texts = []
    for (content, heavy, size), height in zip(lines, capitals, strict=True):
        y += height
        texts.append(Text((centre[0], y), content, size, heavy, LABEL if heavy == 400 else INK, "middle"))
        y += gap
    return tuple(texts)


def _inside(text: Text, centre: Point, radius: float) -> bool:
    box = text_box(text)
    corners = [(box.left, box.top), (box.left, text.at[1])]
    return all(math.dist(corner, centre) < radius - 0.25 for corner in corners)


def levels(side: SideElevation, chain: Chain, view: View) -> int:
    """On how many rows the bottom rollers' figures stand, so that none meets its neighbour."""
    at = chain.undercarriage.bottom_at
    if len(at) < 2:
        return 1
    step = view.length(min(b - a for a, b in pairwise(at)))
    widest = max(text_width(_figure((0, 0), gauge)) for gauge in side.bottom_rollers)
    return min(math.ceil((widest + 0.7) / step), 4)


def foot(side: SideElevation, chain: Chain, view: View) -> float:
    """How much room the type under the ground line takes."""
    return figures_end(side, chain, view) + (LOWER_ROW if under_figures(side, chain) else 0.0)


def figures_end(side: SideElevation, chain: Chain, view: View) -> float:
    """How far under the ground line the figures reach."""
    first = _FIGURE_ROW_ALONE if side.small else _FIGURE_ROW
    return first + (levels(side, chain, view) - 1) * _STEP_DOWN + 1.0


def under_ground(side: SideElevation, chain: Chain, view: View) -> tuple[Text, ...]:
    """The bottom rollers' numbers and figures, and the names of the wheels that stand at the ground."""
    rows, first = levels(side, chain, view), _FIGURE_ROW_ALONE if side.small else _FIGURE_ROW
    numbers, figures = [], []
    for index, (x, gauge) in enumerate(zip(chain.undercarriage.bottom_at, side.bottom_rollers, strict=True)):
        across = view.point((x, 0))[0]
        figures.append(_figure((across, view.ground + first + (index % rows) * _STEP_DOWN), gauge))
        numbers.append(Text((across, view.ground + _NUMBER_ROW), str(index + 1), 6.6, 400, LABEL, "middle"))
    if side.small:
        return tuple(figures)
    return (*numbers, *figures, *_wheel_names(side, chain, view, (*numbers, *figures)))


def _figure(at: Point, gauge: Gauge) -> Text:
    return Text(at, gauge.figure, 7.8, weight(gauge), INK, "middle")


def _wheel_names(side: SideElevation, chain: Chain, view: View, taken: Sequence[Text]) -> Iterator[Text]:
    boxes = [text_box(text).grown(0.8) for text in taken]
    for part in rounds(chain):
        if part.roller or (part.part is Component.SPROCKET and chain.undercarriage.raised):
            continue
        name = side.words.parts.get(part.part, "")
        text = Text((view.point(part.centre)[0], view.ground + _NUMBER_ROW), name, 6.6, 400, LABEL, "middle")
        if name and not any(text_box(text).meets(box) for box in boxes):
            yield text


def beside_parts(side: SideElevation, chain: Chain, view: View, room: Room) -> tuple[Text, ...]:
    """The top rollers' figures, the raised sprocket's name, and the adjuster's words, where there is room for them."""
    texts: list[Text] = []
    if side.adjuster is not None and not side.small:
        texts.append(_over_travel(side.adjuster.text, chain, view))
        room.take(text_box(texts[0]))
    for part in rounds(chain):
        if part.part is Component.TOP_ROLLER:
            named = any(text.content == side.words.parts.get(part.part) for text in texts)
            texts += _at_top_roller(side, part, view, room, named=named)
        if part.part is Component.SPROCKET and chain.undercarriage.raised and not side.small:
            name = side.words.parts.get(part.part, "")
            reach = chain.undercarriage.sprocket_radius + 0.2 * chain.undercarriage.pitch
            texts += (
                _first_free([((name, 400, 6.6),)], view.point(part.centre), view.length(reach), room) if name else ()
            )
    return tuple(texts)


def _over_travel(words: str, chain: Chain, view: View) -> Text:
    """The adjuster's words over its line: within the frame where that is high enough, else above it."""
    body = frame(chain)
    left, top, right, _ = travel_box(view, body)
    edge = view.point((0.0, body.top))[1]
    within = top - edge > 3.0
    text = Text(((left + right) / 2, (top if within else edge) - 0.8), words, 6.6, 500, INK, "middle", halo=not within)
    taken = [_square(view.point(part.centre), view.length(part.tread) * 1.2) for part in rounds(chain) if part.roller]
    wheels = [(view.point(part.centre), view.length(part.tread)) for part in rounds(chain) if not part.roller]
    taken += [] if within else _brackets(chain, view)
    aside = (replace(text, at=(text.at[0] + step, text.at[1])) for step in _ASIDE)
    return next((each for each in aside if not _over_any(text_box(each), taken, wheels)), text)


def _over_any(box: Box, taken: Sequence[Box], wheels: Sequence[tuple[Point, float]]) -> bool:
    corners = [(x, y) for x in (box.left, box.right) for y in (box.top, box.bottom)]
    return any(box.meets(one) for one in taken) or any(
        math.dist(corner, centre) < radius + 0.5 for corner in corners for centre, radius in wheels
    )


def _brackets(chain: Chain, view: View) -> list[Box]:
    """Where the top rollers' brackets stand on the frame, with air."""
    it, body = chain.undercarriage, frame(chain)
    shapes = [view.points(bracket(it, body, at)) for at in top_roller_centres(it)]
    return [around(Box(x, y, x, y) for x, y in shape).grown(0.6) for shape in shapes]


def _square(centre: Point, half: float) -> Box:
    return Box(centre[0] - half, centre[1] - half, centre[0] + half, centre[1] + half)


def _at_top_roller(side: SideElevation, part: Round, view: View, room: Room, *, named: bool) -> tuple[Text, ...]:
    """Its figure, with its name where none before it has that."""
    gauge = gauge_of(side, part)
    if gauge is None:
        return ()
    seen = gauge.basis is not Basis.NOT_SEEN
    figure: _Line = (gauge.figure, weight(gauge), 7.8) if seen else (side.words.not_seen, 400, 6.6)
    name = side.words.parts.get(part.part, "")
    with_name: tuple[_Line, ...] = ((name, 400, 6.6), figure) if name and not (side.small or named) else (figure,)
    centre, reach = view.point(part.centre), view.length(part.tread)
    found = _first_free([with_name, (figure,)], centre, reach, room)
    if found:
        return found
    if side.small:
        return ()
    under = Text((centre[0], centre[1] + reach + 2.6), figure[0], figure[2], figure[1], INK, "middle", halo=True)
    room.take(text_box(under))
    return (under,)


def _first_free(columns: Sequence[Sequence[_Line]], centre: Point, reach: float, room: Room) -> tuple[Text, ...]:
    """The first of these columns of type that finds room beside a circle, beneath it first."""
    for lines in columns:
        for x, y, anchor in _BESIDE:
            at = (centre[0] + x * (reach + 1.5), centre[1] + y * reach)
            texts = tuple(replace(text, anchor=anchor, at=(at[0], text.at[1])) for text in _column(at, lines))
            taken = around(map(text_box, texts))
            if room.is_free(taken):
                room.take(taken)
                return texts
    return ()
