"""Figures and names at the parts: under or beside the top rollers, at a raised sprocket and over the adjuster."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final, Literal

from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.elevation.boxes import Box, Room, around, text_box
from tracksworn.documents.drawing.elevation.frame import brackets, frame, travel_box
from tracksworn.documents.drawing.elevation.hubs import SMALLEST, Row, column, under_nought, weight
from tracksworn.documents.drawing.elevation.parts import Round, gauge_of, rounds
from tracksworn.documents.drawing.elevation.sides import SideElevation
from tracksworn.documents.drawing.elevation.typical import FLANGE
from tracksworn.documents.drawing.elevation.view import View
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.documents.drawing.inks import INK, LABEL
from tracksworn.documents.drawing.plain import Point, Text
from tracksworn.documents.drawing.type import CAP_HEIGHT, MM_PER_POINT
from tracksworn.inspection.vocabulary import Component

_BESIDE: Final[tuple[tuple[float, float, Literal["start", "end"]], ...]] = (
    (1.0, 0.7, "start"), (-1.0, 0.7, "end"), (1.0, 0.0, "start"), (-1.0, 0.0, "end"),
    (0.8, 1.2, "start"), (-0.8, 1.2, "end"),
)  # fmt: skip
_FIGURE: Final = 4.6  # mm that a figure takes across, and under its roller
_SHORT_REASON: Final = 28  # characters
_ASIDE: Final = sorted(range(-20, 21), key=lambda step: (abs(step), -step))  # mm that the adjuster's words may move


def beside_parts(
    side: SideElevation, chain: Chain, view: View, room: Room, standing: Sequence[Text]
) -> tuple[Text, ...]:
    """The top rollers' figures, the raised sprocket's name, and the adjuster's words, where there is room for them
    beside the type that stands already.
    """
    texts: list[Text] = []
    if side.adjuster is not None and not side.small:
        texts += _over_travel(side.adjuster.text, chain, view, standing)
        for text in texts:
            room.take(text_box(text))
    raised = chain.undercarriage.raised
    for part in rounds(chain):
        if part.part is Component.TOP_ROLLER:
            named = any(text.content == side.words.parts.get(part.part) for text in texts)
            others = (*standing, *texts)
            unseen = () if raised else _beside_unseen(side, part, view, room)
            under = None if raised or unseen else _under_top_roller(side, part, view, others)
            texts += unseen or under or _at_top_roller(side, part, view, room, others, named=named)
        if part.part is Component.SPROCKET and raised and not side.small:
            texts += _under_sprocket(side, part, chain, view, room)
    return tuple(texts)


def _beside_unseen(side: SideElevation, part: Round, view: View, room: Room) -> tuple[Text, ...]:
    """The word and the reason for one that was not seen, beside it and clear of bracket and frame, if they fit."""
    gauge = gauge_of(side, part)
    if gauge is None or gauge.seen:
        return ()
    word = gauge.word or side.words.not_seen
    ways: list[tuple[Row, ...]] = [((word, 400, 6.6),)]
    if 0 < len(gauge.reason) <= _SHORT_REASON and not side.small:
        ways = [((f"{word}, {gauge.reason}", 400, 6.6),), ((word, 400, 6.6), (gauge.reason, 400, SMALLEST)), *ways]
    return _first_free(ways, view.point(part.centre), view.length(part.tread), room)


def _under_top_roller(side: SideElevation, part: Round, view: View, texts: Sequence[Text]) -> list[Text]:
    """Its figure, or the word and the reason, centred under it on a halo; nothing where other type stands there."""
    gauge = gauge_of(side, part)
    if gauge is None:
        return []
    (x, y), reach = view.point(part.centre), view.length(part.tread) * (1 + FLANGE)
    lines: list[Row] = [(gauge.figure, weight(gauge), 7.8)]
    if not gauge.seen:
        lines = [(gauge.word or side.words.not_seen, 400, 6.6)]
        lines += [(gauge.reason, 400, SMALLEST)] if 0 < len(gauge.reason) <= _SHORT_REASON and not side.small else []
    elif said := under_nought(gauge, side.words):
        lines.append((said, 400, SMALLEST))
    for some in (lines, lines[:1]):
        top = y + reach + 0.7
        placed = column((x, top + _high(some) / 2), some)
        taken = around(map(text_box, placed)).grown(0.4)
        if not any(taken.meets(text_box(text)) for text in texts):
            return [replace(text, halo=True) for text in placed]
    return []


def _high(lines: Sequence[Row]) -> float:
    return sum(CAP_HEIGHT * size * MM_PER_POINT for *_, size in lines) + 0.75 * (len(lines) - 1)


def _under_sprocket(side: SideElevation, part: Round, chain: Chain, view: View, room: Room) -> tuple[Text, ...]:
    """The raised sprocket's name close under its teeth, or beside them."""
    name = side.words.parts.get(part.part, "")
    (x, y), it = view.point(part.centre), chain.undercarriage
    reach = view.length(it.sprocket_radius + 0.13 * it.pitch)
    places: tuple[tuple[float, float, Literal["start", "middle", "end"]], ...] = (
        (0.0, reach + 2.9, "middle"), (0.71 * reach + 0.8, 0.71 * reach + 2.0, "start"),
        (-0.71 * reach - 0.8, 0.71 * reach + 2.0, "end"),
    )  # fmt: skip
    for right, down, anchor in places:
        text = Text((x + right, y + down), name, 6.6, 400, LABEL, anchor)
        if name and room.is_free(text_box(text)):
            room.take(text_box(text))
            return (text,)
    return ()


def _over_travel(words: str, chain: Chain, view: View, standing: Sequence[Text]) -> list[Text]:
    """The adjuster's words over its line: within the frame where that is high enough, else above it.

    They keep clear of wheels where they can, and are left to the alternative where other type leaves them no room.
    """
    body = frame(chain)
    left, top, right, _ = travel_box(view, body)
    edge = view.point((0.0, body.top))[1]
    within = top - edge > 3.0
    text = Text(((left + right) / 2, (top if within else edge) - 0.8), words, 6.6, 500, INK, "middle", halo=not within)
    taken = [_square(view.point(part.centre), view.length(part.tread) * 1.2) for part in rounds(chain) if part.roller]
    wheels = [(view.point(part.centre), view.length(part.tread)) for part in rounds(chain) if not part.roller]
    taken += [] if within else _brackets(chain, view)
    taken += [] if chain.undercarriage.raised else list(_under_top_rollers(chain, view))
    type_boxes = [text_box(one) for one in standing]
    aside = [replace(text, at=(text.at[0] + step, text.at[1])) for step in _ASIDE]
    legible = [each for each in aside if not _over_any(text_box(each), type_boxes, ())]
    clear = [each for each in legible if not _over_any(text_box(each), taken, wheels)]
    return clear[:1] or [replace(each, halo=True) for each in legible[:1]]


def _under_top_rollers(chain: Chain, view: View) -> Iterator[Box]:
    """Where their figures stand by choice."""
    for part in rounds(chain):
        if part.part is Component.TOP_ROLLER:
            (x, y), reach = view.point(part.centre), view.length(part.tread)
            yield Box(x - _FIGURE / 2, y, x + _FIGURE / 2, y + reach + _FIGURE)


def _over_any(box: Box, taken: Sequence[Box], wheels: Sequence[tuple[Point, float]]) -> bool:
    return any(box.meets(one) for one in taken) or any(
        math.dist(centre, box.nearest(centre)) < radius + 0.5 for centre, radius in wheels
    )


def _brackets(chain: Chain, view: View) -> list[Box]:
    """Where the top rollers' brackets stand on the frame, with air."""
    it, body = chain.undercarriage, frame(chain)
    shapes = [view.points(one) for one in brackets(it, body)]
    return [around(Box(x, y, x, y) for x, y in shape).grown(0.6) for shape in shapes]


def _square(centre: Point, half: float) -> Box:
    return Box(centre[0] - half, centre[1] - half, centre[0] + half, centre[1] + half)


def _at_top_roller(
    side: SideElevation, part: Round, view: View, room: Room, texts: Sequence[Text], *, named: bool
) -> tuple[Text, ...]:
    """Its figure, with its name where none before it has that."""
    gauge = gauge_of(side, part)
    if gauge is None:
        return ()
    seen = gauge.basis is not Basis.NOT_SEEN
    figure: Row = (gauge.figure, weight(gauge), 7.8) if seen else (gauge.word or side.words.not_seen, 400, 6.6)
    name = side.words.parts.get(part.part, "")
    with_name: tuple[Row, ...] = ((name, 400, 6.6), figure) if name and not (side.small or named) else (figure,)
    centre, reach = view.point(part.centre), view.length(part.tread)
    found = _first_free([with_name, (figure,)], centre, reach, room)
    if found:
        return found
    if side.small:
        return ()
    under = Text((centre[0], centre[1] + reach + 2.6), figure[0], figure[2], figure[1], INK, "middle", halo=True)
    if any(text_box(under).grown(0.4).meets(text_box(text)) for text in texts):
        return ()
    room.take(text_box(under))
    return (under,)


def _first_free(columns: Sequence[Sequence[Row]], centre: Point, reach: float, room: Room) -> tuple[Text, ...]:
    """The first of these columns of type that finds room beside a circle, beneath it first."""
    for lines in columns:
        for x, y, anchor in _BESIDE:
            at = (centre[0] + x * (reach + 1.5), centre[1] + y * reach)
            texts = tuple(replace(text, anchor=anchor, at=(at[0], text.at[1])) for text in column(at, lines))
            taken = around(map(text_box, texts))
            if room.is_free(taken):
                room.take(taken)
                return texts
    return ()
