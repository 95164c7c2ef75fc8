"""Lots in the room that a printed catalogue has for each: shortened to whole lines, so that sheets can be reckoned."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import Final

from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.type import Weight, width_mm
from tracksworn.documents.drawing.whole_bar import draw_whole_bar
from tracksworn.documents.render.fitting import shortened
from tracksworn.documents.sale.headings import Headings
from tracksworn.documents.sale.view import LeftView, LotView, ReadView, WholeView
from tracksworn.documents.words.figures import NO_BREAK

LINE_BAR: Final = 30.0
BLOCK_BAR: Final = 56.0
LINE: Final = 8.46
"""Height of a lot in lines, mm, without its reasons."""
REASON: Final = 3.5
"""Height of one line of reasons."""
_PART: Final = 27.0  # the name of a part on one line
_SECOND: Final = 3.3  # height of its second line, where a language says it at length
_UNREAD: Final = 5.2  # of a lot without figures
_WIDE: Final = 160.0
_OF_HOURS: Final = (27.0, 55.0, 87.0)  # what hours rest on, in that line: in its own column, or those before too
_TEXT: Final = 3.58  # height of a line in a block
_BLOCK: Final = 4.4  # of what stands around its lines
_LEAST: Final = 25.4
_LEAST_UNREAD: Final = 9.4
_OF_WHOLE: Final = 59.0  # width of the column of the overall figure
_COLUMN: Final = 75.0  # width of what is told in a block, its labels included
_MOST_ACTS: Final = 2
_MOST_LINES: Final = 2  # of one text in a block


@dataclass(frozen=True, slots=True)
class Told:
    """Something told of a lot in a block: its label, and its text in few lines."""

    label: str
    text: str
    strong: str = ""
    lines: int = 1
    foreign: str = ""  # the language of the text, where it is not the page's
    past: bool = False  # whether it tells of a part past its limit


@dataclass(frozen=True, slots=True)
class FittedLot:
    """One lot as a catalogue prints it, `height` mm high."""

    view: LotView
    height: float
    bar: Drawing | None
    lot: str
    size: float  # pt, of that
    machine: str = ""
    beneath: str = ""  # serial number, year
    note: str = ""  # when, and in a block by whom
    hours: str = ""
    worst_part: str = ""
    long_parts: bool = False  # whether a part's name takes two lines
    soonest: str = ""  # which part reaches its limit next, or when where one is past it, or what hours rest on
    rest_on: str = ""  # of the hours left, in the third line where the second says something else
    rest_on_columns: int = 0
    acts: str = ""  # findings that ask for action, in the language of the lot
    reasons: str = ""  # and what else asks for another look, with the verdict by terms
    told: tuple[Told, ...] = ()


def in_lines(lot: LotView, words: Headings) -> FittedLot:
    """A lot in two lines, and a third for what asks for another look."""
    name, size = _name(lot.name, 15.0, (9.6, 7.2), 2)
    if lot.read is None:
        return FittedLot(lot, _UNREAD, None, name, size)
    read = lot.read
    soonest, rest_on = _soonest(read.left)
    columns = _columns(rest_on)
    room = _WIDE - (0.0, *_OF_HOURS)[columns] - width_mm(f"{words.why}{words.colon}{words.semicolon}", 7.2)
    reasons = shortened(_reasons(lot, read, words), room, 7.2, 400)
    acts = words.semicolon.join(read.acts)
    past = read.past_limit + (words.semicolon if read.past_limit and acts else "")
    long_parts = max(width_mm(one, 7.2) for one in (read.worst_part, soonest)) > _PART
    return FittedLot(
        view=lot,
        height=LINE + _SECOND * long_parts + (REASON if reasons or acts or past or rest_on else 0.0),
        bar=draw_whole_bar(read.whole.bar, LINE_BAR),
        lot=name,
        size=size,
        machine=shortened(read.machine, 37.0, 8.2, 600),
        beneath=shortened(_of_machine(read), 37.0, 7.2, 400),
        note=shortened(read.inspected, 18.0, 7.2, 400),
        worst_part=shortened(read.worst_part, 1.8 * _PART, 7.2, 400),
        long_parts=long_parts,
        soonest=shortened(soonest, 1.8 * _PART, 7.2, 400),
        rest_on=shortened(rest_on, _OF_HOURS[-1], 7.2, 400),
        rest_on_columns=columns,
        acts=shortened(acts, room - width_mm(reasons, 7.2) - width_mm(past, 7.2, weight=600), 7.2, 600),
        reasons=reasons,
    )


def _soonest(left: LeftView) -> tuple[str, str]:
    """What stands under hours left, and what they rest on under that."""
    if left.next:
        return left.next, ", ".join(filter(None, (left.part, left.rest_on)))
    return (left.part, left.rest_on) if left.part else (left.rest_on, "")


def in_block(lot: LotView, words: Headings) -> FittedLot:
    """A lot with all that the index tells of it."""
    name, size = _name(lot.name, 36.0, (15.0, 11.0, 8.2), 1)
    room = _COLUMN - labels_width(words)
    if lot.read is None:
        return FittedLot(lot, _LEAST_UNREAD, None, name, size)
    read, told = lot.read, tuple(_told(lot.read, lot.looks, words, room))
    return FittedLot(
        view=lot,
        height=max(_LEAST + _TEXT * _more_of_whole(read.whole, words), _high(told)),
        bar=draw_whole_bar(read.whole.bar, BLOCK_BAR),
        lot=name,
        size=size,
        machine=shortened(read.machine, 41.0, 9.6, 600),
        beneath=shortened(_of_machine(read), 41.0, 7.8, 400),
        note=shortened(f"{read.inspected}, {read.by}", 41.0, 7.8, 400),
        hours=shortened(", ".join(filter(None, (read.hours, read.hours_note))), 41.0, 7.8, 400),
        told=told,
    )


def _more_of_whole(whole: WholeView, words: Headings) -> int:
    """How many lines the overall figure with its stage, and what was seen, take beyond the three that have room."""
    figure = width_mm(whole.figure, 18.5, weight=600)
    beside = _lines(" ".join(filter(None, (whole.bound, whole.interval, whole.stage))), _OF_WHOLE, 500, figure)
    seen = words.semicolon.join(filter(None, (words.seen_of_cost.format(share=whole.seen), whole.reach)))
    beneath = _lines(seen, _OF_WHOLE, 400)
    return max(0, beside + beneath - 3)


def _high(told: Sequence[Told]) -> float:
    return _BLOCK + _TEXT * sum(one.lines for one in told)


def _columns(rest_on: str) -> int:
    """How many of its line's last columns what hours rest on takes."""
    if not rest_on:
        return 0
    return next((n for n, room in enumerate(_OF_HOURS, 1) if width_mm(rest_on, 7.2) <= room), len(_OF_HOURS))


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
    return max(width_mm(label, 7.2) for label in labels) + 2.4


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


def _reasons(lot: LotView, read: ReadView, words: Headings) -> str:
    """What asks for another look beside findings, and the verdict by terms."""
    terms = f"{words.terms}{words.colon}{read.verdict}" if read.verdict else ""
    return words.semicolon.join(filter(None, (", ".join(lot.looks), terms)))


def _told(read: ReadView, looks: Sequence[str], words: Headings, room: float) -> Iterator[Told]:
    worst = f"{read.worst}{NO_BREAK}%" if read.worst else ""
    yield replace(_fitting(words.worst_part, read.worst_part, room, worst), past=read.past)
    yield _hours_left(read, words, room)
    yield from _acts(read, words, room)
    for label, text in ((words.not_seen, read.unseen), (words.terms, read.verdict), (words.why, ", ".join(looks))):
        if text:
            yield _fitting(label, text, room)


def _hours_left(read: ReadView, words: Headings, room: float) -> Told:
    """Hours until the next limit."""
    left = read.left
    rest = ", ".join(filter(None, (left.part, left.rest_on)))
    if not left.known:
        return _fitting(words.hours_left_short, left.hours, room)
    return replace(_fitting(words.hours_left_short, rest, room, left.hours), past=bool(read.past_limit))


def _acts(read: ReadView, words: Headings, room: float) -> Iterator[Told]:
    """Parts past their limit and the first findings that ask for action, under one label; how many more there are."""
    more, label = len(read.acts) - _MOST_ACTS, words.to_act_on
    if read.past_limit:
        yield _fitting(label, "", room, read.past_limit)
        label = ""
    for act in read.acts[:_MOST_ACTS]:
        yield _fitting(label, act, room, foreign=read.acts_language)
        label = ""
    if more > 0:
        yield _fitting("", words.more.format(n=more), room)


def _fitting(label: str, text: str, room: float, strong: str = "", foreign: str = "") -> Told:
    said = shortened(text, _MOST_LINES * room * 0.92 - width_mm(strong, 7.8, weight=600), 7.8, 400)
    return Told(label, said, strong, _lines(f"{strong} {said}", room, 600), foreign)


def _lines(text: str, room: float, weight: Weight, before: float = 0.0) -> int:
    """How many lines a text takes behind something so wide."""
    return max(1, ceil(1.04 * (before + width_mm(text, 7.8, weight=weight)) / room))
