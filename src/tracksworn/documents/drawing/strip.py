"""Rollers by position, both sides, as one meets them: left from the front, right counting backwards to it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Final, Literal

from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.bar import Bar, draw_bar, draw_range_by_eye, draw_whisker
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import LABEL
from tracksworn.documents.drawing.lettering import LEAST_SIZE, broken
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Drawing, Text
from tracksworn.documents.drawing.type import text_width

_DEPTH: Final = 10.4  # of a bar, from as new down to the limit
_HEAD: Final = 2.4  # baseline of the numbers
_TOP: Final = 3.7
_FIGURES: Final = _TOP + _DEPTH + 5.2
_SIZES: Final = _FIGURES + 3.1
_BAND: Final = _SIZES + 1.4
_MARGIN: Final = 9.6  # for the words at the outer ends
_BETWEEN: Final = 5.0  # between the sides
_AIR: Final = 0.8
_LEAST_AIR: Final = 0.3
_FIGURE: Final = Text((0, 0), "", 9.6, 600, anchor="middle")
_SMALL: Final = Text((0, 0), "", 7.2, 600, anchor="middle")
_LEAST: Final = Text((0, 0), "", LEAST_SIZE, 600, anchor="middle")
_SIZE: Final = Text((0, 0), "", 6.6, colour=LABEL, anchor="middle")
_WORD: Final = Text((0, 0), "", 7.0, 500, anchor="middle")


@dataclass(frozen=True, slots=True)
class StripPlace:
    """One roller. `flange` is the letter for single or double, where known."""

    number: str
    gauge: Gauge
    size: str = ""
    flange: str = ""


@dataclass(frozen=True, slots=True)
class Strip:
    """Both sides, each by position from the front."""

    left: tuple[StripPlace, ...]
    right: tuple[StripPlace, ...]
    left_text: str
    right_text: str
    front_text: str
    alternative: str
    width: float = 182.0


@dataclass(frozen=True, slots=True)
class _Row:
    """One side on the sheet, its places in the order in which they stand there."""

    places: tuple[StripPlace, ...]
    left: float
    pitch: float
    top: float

    @property
    def bar(self) -> float:
        """How wide a bar is."""
        return min(5.5, 0.5 * self.pitch)

    def centre(self, index: float) -> float:
        """Where the place of that index stands."""
        return self.left + (index + 0.5) * self.pitch


def draw_strip(strip: Strip) -> Drawing:
    """The upright rules of both sides: beside each other, or in two bands where there are too many for that.

    `strip.width` mm wide and 24.6 or, in two bands, 50.4 mm high.
    """
    margin = max(map(_wide, (strip.left_text, strip.right_text, strip.front_text))) + 1.2
    backwards = strip.right[::-1]
    beside = (strip.width - _BETWEEN) / 2 - margin
    pitch = _pitch(strip, beside)
    pile = Pile()
    if pitch >= _need(strip):
        _draw_row(pile, strip, _Row(strip.left, margin, pitch, 0.0), strip.left_text, 0.0)
        start = strip.width - margin - pitch * len(backwards)
        _draw_row(pile, strip, _Row(backwards, start, pitch, 0.0), strip.right_text, strip.width)
        return pile.drawing(strip.width, _BAND, strip.alternative)
    pitch, lower = _pitch(strip, strip.width - margin), _BAND + 1.2
    _draw_row(pile, strip, _Row(strip.left, margin, pitch, 0.0), strip.left_text, 0.0)
    start = strip.width - margin - pitch * len(backwards)
    _draw_row(pile, strip, _Row(backwards, start, pitch, lower), strip.right_text, strip.width)
    return pile.drawing(strip.width, lower + _BAND, strip.alternative)


def _pitch(strip: Strip, room: float) -> float:
    return min(room / max(len(strip.left), len(strip.right), 1), 11.6)


def _need(strip: Strip) -> float:
    """The least pitch at which every figure and size has room."""
    seen = [place for place in (*strip.left, *strip.right) if place.gauge.seen]
    figures = [_wide(line, _SMALL) for place in seen for line in _two_lines(place.gauge.figure, _SMALL)]
    sizes = [_wide(_below(place), _SIZE) for place in seen]
    heads = [_wide(f"{place.number}  {place.flange}", _WORD) for place in (*strip.left, *strip.right)]
    return max((*figures, *sizes, *heads, 0.0)) + _AIR


def _draw_row(pile: Pile, strip: Strip, row: _Row, name: str, outer: float) -> None:
    anchor: Literal["start", "end"] = "start" if outer == 0 else "end"
    pile.write(
        Text((outer, row.top + _HEAD), strip.front_text, 6.8, colour=LABEL, anchor=anchor),
        Text((outer, row.top + _FIGURES), name, 7.2, 600, anchor=anchor),
    )
    for index, place in enumerate(row.places):
        _draw_place(pile, row, index, place)
    for start, group in _unseen(row.places):
        _write_unseen(pile, row, start, group)


def _draw_place(pile: Pile, row: _Row, index: int, place: StripPlace) -> None:
    centre, gauge = row.centre(index), place.gauge
    bar = Bar(
        (centre - row.bar / 2, row.top + _TOP), (0.0, _DEPTH / 100), (row.bar, 0.0), least=-8.0, over=(0.17, 0.17)
    )
    pile.write(*_head(place, centre, row.top + _HEAD))
    draw_bar(pile, bar, gauge)
    if gauge.basis is Basis.BY_EYE:
        draw_range_by_eye(pile, bar, gauge)
    draw_whisker(pile, bar, gauge, 1 + 1.2 / row.bar, 0.5 / row.bar)
    if gauge.seen:
        _write_figure(pile, gauge.figure, centre, row)
        below = _below(place)
        if _wide(below, _SIZE) <= row.pitch - _LEAST_AIR:  # else dashes and the list of readings say it
            pile.write(_at(_SIZE, centre, row.top + _SIZES, below))


def _head(place: StripPlace, centre: float, baseline: float) -> tuple[Text, ...]:
    """The number over the bar's middle, the letter after it."""
    number = Text((centre, baseline), place.number, 7.4, 600, anchor="middle")
    if not place.flange:
        return (number,)
    return number, Text((centre + text_width(number) / 2 + 1.1, baseline), place.flange, LEAST_SIZE, colour=LABEL)


def _write_figure(pile: Pile, figure: str, centre: float, row: _Row) -> None:
    """Large, else in two lines, else in the least type."""
    room = row.pitch - _AIR
    style = _FIGURE
    lines: tuple[str, ...] = (figure,)
    if _wide(figure, _FIGURE) > room:
        style = _SMALL if max(_wide(line, _SMALL) for line in _two_lines(figure, _SMALL)) <= room else _LEAST
        lines = (figure,) if _wide(figure, style) <= room else _two_lines(figure, style)
    for index, line in enumerate(lines):
        pile.write(_at(style, centre, row.top + _FIGURES + 2.5 * index - 1.7 * (len(lines) - 1), line))


def _two_lines(figure: str, style: Text) -> tuple[str, ...]:
    """A figure of several words in the two lines that are the narrowest together."""
    words = figure.split(" ")
    splits = [(" ".join(words[:at]), " ".join(words[at:])) for at in range(1, len(words))]
    return min(splits, key=lambda lines: max(_wide(line, style) for line in lines), default=(figure,))


def _below(place: StripPlace) -> str:
    return place.gauge.word if place.gauge.basis is Basis.BY_EYE else place.size


def _unseen(places: Sequence[StripPlace]) -> Iterator[tuple[int, tuple[StripPlace, ...]]]:
    """Neighbours that were not seen for the same reason, with the index of their first."""
    start = 0
    for (seen, _), members in groupby(places, key=lambda place: (place.gauge.seen, place.gauge.reason)):
        group = tuple(members)
        if not seen:
            yield start, group
        start += len(group)


def _write_unseen(pile: Pile, row: _Row, start: int, group: Sequence[StripPlace]) -> None:
    """The word with its reason where both fit beneath the group in two lines, else the word alone, else the dash."""
    gauge, room = group[0].gauge, len(group) * row.pitch - _AIR
    lines = broken(f"{gauge.word}, {gauge.reason}" if gauge.reason else gauge.word, room, _WORD)
    if len(lines) > 2 or any(_wide(line, _WORD) > room for line in lines):
        lines = broken(gauge.word, room, _WORD)
    if any(_wide(line, _WORD) > len(group) * row.pitch - _LEAST_AIR for line in lines):
        lines = [gauge.figure]
    centre = row.centre(start + (len(group) - 1) / 2)
    for index, line in enumerate(lines):
        pile.write(_at(_WORD, centre, row.top + _FIGURES + 2.8 * index, line))


def _at(style: Text, x: float, y: float, content: str) -> Text:
    return replace(style, at=(x, y), content=content)


def _wide(content: str, style: Text = _SMALL) -> float:
    return text_width(replace(style, content=content))
