"""A bar of known length beside the figures, so that the scale holds however large the sheet is printed or shown."""

from dataclasses import dataclass
from typing import Final

from tracksworn.documents.drawing.elevation.boxes import Box, text_box
from tracksworn.documents.drawing.elevation.ground import under_ground
from tracksworn.documents.drawing.elevation.sides import SideElevation
from tracksworn.documents.drawing.elevation.view import View
from tracksworn.documents.drawing.elevation.walk import Chain
from tracksworn.documents.drawing.inks import LABEL
from tracksworn.documents.drawing.lettering import centred
from tracksworn.documents.drawing.plain import Line, Text
from tracksworn.documents.drawing.type import text_width
from tracksworn.inspection.vocabulary import Side

_ROW: Final = 5.8  # mm under the ground line
_HIGH: Final = 1.1  # mm of its ends
_GAP: Final = 1.2  # mm to its words
_AIR: Final = 2.0  # mm to the figures
_SIZE: Final = 6.2  # pt
_INSET: Final = 0.2


@dataclass(frozen=True, slots=True)
class ScaleBar:
    """On the sheet."""

    lines: tuple[Line, ...]
    text: Text
    box: Box


def scale_bar(side: SideElevation, chain: Chain, view: View) -> ScaleBar | None:
    """The longest of the bars that finds room at the front of the figures' row; None where no scale is stated."""
    if side.small or not chain.undercarriage.to_scale:
        return None
    taken = [text_box(text) for text in under_ground(side, chain, view) if text.at[1] > view.ground + _ROW - 2]
    at_right = side.side is Side.RIGHT
    room = (
        side.width - max((box.right for box in taken), default=0.0)
        if at_right
        else min((box.left for box in taken), default=side.width)
    )
    for length, called in side.words.scale_bars:
        words = Text(
            (0, 0), f"{called} · 1 : {round(view.denominator)}", _SIZE, 400, LABEL, "end" if at_right else "start"
        )
        whole = view.length(length) + _GAP + text_width(words)
        if whole + _AIR + _INSET <= min(room, 0.45 * side.width):
            return _bar(view.length(length), words, side.width - _INSET if at_right else _INSET, view.ground + _ROW)
    return None


def _bar(length: float, words: Text, edge: float, y: float) -> ScaleBar:
    way = -1 if words.anchor == "end" else 1
    end = edge + way * length
    ticks = [Line(((x, y - high), (x, y))) for x, high in
             ((edge, _HIGH), (edge + way * length / 2, _HIGH / 2), (end, _HIGH))]  # fmt: skip
    text = Text((end + way * _GAP, centred(y - _HIGH / 2, _SIZE)), words.content, _SIZE, 400, LABEL, words.anchor)
    box = Box(min(edge, end), y - _HIGH, max(edge, end), y)
    return ScaleBar((Line(((edge, y), (end, y))), *ticks), text, box)
