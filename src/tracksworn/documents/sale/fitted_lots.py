"""Lots in the room that a printed catalogue has for each: shortened to whole lines, so that sheets can be reckoned."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.type import Weight, width_mm
from tracksworn.documents.drawing.whole_bar import draw_whole_bar
from tracksworn.documents.render.fitting import shortened
from tracksworn.documents.sale.headings import Headings
from tracksworn.documents.sale.view import LotView, ReadView, WholeView
from tracksworn.documents.words.figures import NO_BREAK

LINE_BAR: Final = 30.0
BLOCK_BAR: Final = 56.0
LINE: Final = 8.46
"""Height of a lot in lines, mm, without its reasons."""
REASON: Final = 3.5
"""Height of one line of reasons."""
_PART: Final = 27.0  # the name of a part on one line
_SECOND: Final = 3.3  # height of its second line, where a language says it at length
_UNREAD: Final = 5.2  # of a lot that could not be read
_WIDE: Final = 160.0
_OF_HOURS: Final = (27.0, 55.0)  # what hours rest on, in that line: in its own column, or the one before too
_TEXT: Final = 3.58  # height of a line in a block
_BLOCK: Final = 3.2  # of what stands around its lines
_LEAST: Final = 25.4
_LEAST_UNREAD: Final = 14.0
_OF_WHOLE: Final = 54.0  # width of the column of the overall figure
_COLUMN: Final = 78.0  # width of what is told in a block, its labels included
_MOST_ACTS: Final = 2
_MOST_LINES: Final = 2  # of one text in a block
_FAULT_LINES: Final = 4


@dataclass(frozen=True, slots=True)
class Told:
    """Something told of a lot in a block: its label, and its text in few lines."""

    label: str
    text: str
    strong: str = ""
    lines: int = 1
    foreign: str = ""  # the language of the text, where it is not the page's


@dataclass(frozen=True, slots=True)
class FittedLot:
    """One lot as a catalogue prints it, `height` mm high."""

    view: LotView
    height: float
    bar: Drawing | None
    lot: str
    size: float  # pt, of that
    machine: str  # of one that could not be read its file
    beneath: str = ""  # serial number, year
    note: str = ""  # when, and in a block by whom
    hours: str = ""
    worst_part: str = ""
    long_parts: bool = False  # whether a part's name takes two lines
    hours_part: str = ""
    rest_on: str = ""  # of the hours left, in the third line
    rest_on_columns: int = 0
    reasons: str = ""
    acts: str = ""  # findings that ask for action, after them, in the language of the lot
    told: tuple[Told, ...] = ()


def in_lines(lot: LotView, words: Headings) -> FittedLot:
    """A lot in two lines, and a third for what asks for another look."""
    name, size = _name(lot.name, 15.0, (9.6, 7.2), 2)
    if lot.read is None:
        reasons = shortened(_reasons(lot, words), _WIDE, 7.2, 500)
        file = shortened(lot.record, 37.0, 8.2, 600)
        return FittedLot(lot, _UNREAD + REASON, None, name, size, file, reasons=reasons)
    read, columns = lot.read, _columns(lot.read.hours_rest_on)
    room = _WIDE - (0.0, *_OF_HOURS)[columns]
    reasons = shortened(_reasons(lot, words), room, 7.2, 500)
    long_parts = max(width_mm(one, 7.2) for one in (read.worst_part, read.hours_part)) > _PART
    return FittedLot(
        view=lot,
        height=LINE + _SECOND * long_parts + (REASON if reasons or read.hours_rest_on else 0.0),
        bar=draw_whole_bar(read.whole.bar, LINE_BAR),
        lot=name,
        size=size,
        machine=shortened(read.machine, 37.0, 8.2, 600),
        beneath=shortened(_of_machine(read), 37.0, 7.2, 400),
        note=shortened(read.inspected, 18.0, 7.2, 400),
        worst_part=shortened(read.worst_part, 1.8 * _PART, 7.2, 400),
        long_parts=long_parts,
        hours_part=shortened(read.hours_part, 1.8 * _PART, 7.2, 400),
        rest_on=shortened(read.hours_rest_on, _OF_HOURS[-1], 7.2, 400),
        rest_on_columns=columns,
        reasons=reasons,
        acts=shortened(words.semicolon.join(read.acts), room - width_mm(f"{reasons}: ", 7.2, weight=500), 7.2, 400),
    )


def in_block(lot: LotView, words: Headings) -> FittedLot:
    """A lot with all that the index tells of it."""
    name, size = _name(lot.name, 36.0, (15.0, 11.0, 8.2), 1)
    room = _COLUMN - labels_width(words)
    if lot.read is None:
        faults = tuple(_fitting(words.fault, fault, room, most=_FAULT_LINES) for fault in lot.faults[:3])
        file = shortened(lot.record, 42.0, 9.6, 600)
        return FittedLot(lot, max(_LEAST_UNREAD, _high(faults)), None, name, size, file, told=faults)
    read, told = lot.read, tuple(_told(lot.read, lot.looks, words, room))
    return FittedLot(
        view=lot,
        height=max(_LEAST + _TEXT * _more_of_whole(read.whole, words), _high(told)),
        bar=draw_whole_bar(read.whole.bar, BLOCK_BAR),
        lot=name,
        size=size,
        machine=shortened(read.machine, 42.0, 9.6, 600),
        beneath=shortened(_of_machine(read), 42.0, 7.8, 400),
        note=shortened(f"{read.inspected}, {read.by}", 42.0, 7.8, 400),
        hours=shortened(", ".join(filter(None, (read.hours, read.hours_note))), 42.0, 7.8, 400),
        told=told,
    )


def _more_of_whole(whole: WholeView, words: Headings) -> int:
    """How many lines the overall figure with its stage, and what was seen, take beyond the three that have room."""
    figure = width_mm(whole.figure, 18.5, weight=600)
    beside = _lines(" ".join(filter(None, (whole.bound, whole.interval, whole.stage))), _OF_WHOLE, 500, figure)
    beneath = _lines(f"{whole.seen} {words.seen_of_cost}{words.semicolon}{whole.reach}", _OF_WHOLE, 400)
    return max(0, beside + beneath - 3)


def _high(told: Sequence[Told]) -> float:
    return _BLOCK + _TEXT * sum(one.lines for one in told)


def _columns(rest_on: str) -> int:
    """How many columns of its line what hours rest on takes: the last, or that before too."""
    return 0 if not rest_on else 1 if width_mm(rest_on, 7.2) <= _OF_HOURS[0] else 2


def _name(name: str, room: float, sizes: tuple[float, ...], lines: int) -> tuple[str, float]:
    """A lot's name in the largest size in which it stands on one line, else in the last on so many; its size, pt.

    No lot number is so long that it would have to be shortened; the number of an inspection may be.
    """
    for size in sizes:
        if width_mm(name, size, weight=600) <= room:
            return name, size
    return shortened(name, 0.92 * lines * room, sizes[-1], 600), sizes[-1]


def labels_width(words: Headings) -> float:
    """How wide the labels of a block stand, mm: the longest in the page's language."""
    labels = (words.worst_part, words.hours_left_short, words.to_act_on, words.not_seen, words.terms, words.why)
    return max(width_mm(label, 7.2) for label in (*labels, words.fault)) + 2.4


def in_sheets(lots: Sequence[FittedLot], room: float) -> tuple[tuple[FittedLot, ...], ...]:
    """As many lots to a sheet as stand in that room, mm, in their order."""
    sheets: list[list[FittedLot]] = []
    left = 0.0
    for lot in lots:
        if lot.height > left or not sheets:
            sheets.append([])
            left = room
        sheets[-1].append(lot)
        left -= lot.height
    return tuple(map(tuple, sheets))


def _of_machine(read: ReadView) -> str:
    return ", ".join(filter(None, (read.serial, read.year)))


def _reasons(lot: LotView, words: Headings) -> str:
    """What asks for another look; of an unread lot its first fault."""
    if lot.faults:
        return lot.faults[0]
    if not lot.looks:
        return ""
    return f"{words.why}{words.colon}{', '.join(lot.looks)}"


def _told(read: ReadView, looks: Sequence[str], words: Headings, room: float) -> Iterator[Told]:
    worst = f"{read.worst}{NO_BREAK}%" if read.worst else ""
    part = words.semicolon.join(filter(None, (read.worst_part, read.past_limit)))
    yield _fitting(words.worst_part, part, room, worst)
    yield _hours_left(read, words, room)
    yield from _acts(read, words, room)
    for label, text in ((words.not_seen, read.unseen), (words.terms, read.verdict), (words.why, ", ".join(looks))):
        if text:
            yield _fitting(label, text, room)


def _hours_left(read: ReadView, words: Headings, room: float) -> Told:
    """Hours until the next limit; that they are not known has no weight of its own."""
    if not read.hours_part:
        return _fitting(words.hours_left_short, read.hours_left, room)
    part = ", ".join(filter(None, (read.hours_part, read.hours_rest_on)))
    return _fitting(words.hours_left_short, part, room, read.hours_left)


def _acts(read: ReadView, words: Headings, room: float) -> Iterator[Told]:
    """The first findings that ask for action, under one label, and how many more there are."""
    more = len(read.acts) - _MOST_ACTS
    for place, act in enumerate(read.acts[:_MOST_ACTS]):
        yield _fitting("" if place else words.to_act_on, act, room, foreign=read.acts_language)
    if more > 0:
        yield _fitting("", f"+ {more}", room)


def _fitting(label: str, text: str, room: float, strong: str = "", foreign: str = "", most: int = _MOST_LINES) -> Told:
    said = shortened(text, most * room * 0.92 - width_mm(strong, 7.8, weight=600), 7.8, 400)
    return Told(label, said, strong, _lines(f"{strong} {said}", room, 500), foreign)


def _lines(text: str, room: float, weight: Weight, before: float = 0.0) -> int:
    """How many lines a text takes behind something so wide."""
    return max(1, ceil(1.04 * (before + width_mm(text, 7.8, weight=weight)) / room))
