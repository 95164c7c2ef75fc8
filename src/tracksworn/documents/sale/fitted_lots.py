"""Lots in the room that a printed catalogue has for each: shortened to whole lines, so that sheets can be reckoned."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.type import Weight, width_mm
from tracksworn.documents.drawing.whole_bar import draw_whole_bar
from tracksworn.documents.render.fitting import shortened
from tracksworn.documents.sale.headings import Headings
from tracksworn.documents.sale.view import LotView

LINE_BAR: Final = 30.0
BLOCK_BAR: Final = 56.0
LINE: Final = 8.4
"""Height of a lot in lines, mm, without its reasons."""
REASON: Final = 3.5
"""Height of one line of reasons."""
_WIDE: Final = 162.0
_TEXT: Final = 3.25  # height of a line in a block
_BLOCK: Final = 4.2  # of what stands around its lines
_LEAST: Final = 25.4
_COLUMN: Final = 74.0  # width of what is told in a block
_LABEL: Final = 16.0
_MOST_ACTS: Final = 2
_MOST_LINES: Final = 2  # of one text in a block


@dataclass(frozen=True, slots=True)
class Told:
    """Something told of a lot in a block: its label, and its text in at most two lines."""

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
    machine: str
    beneath: str  # serial number, year
    hours_note: str
    worst_part: str
    hours_part: str
    reasons: str
    told: tuple[Told, ...] = ()


def in_lines(lot: LotView, words: Headings) -> FittedLot:
    """A lot in two lines, and a third for what asks for another look."""
    reasons = shortened(_reasons(lot, words), _WIDE, 7.2, 400)
    return FittedLot(
        view=lot,
        height=LINE + (REASON if reasons else 0.0),
        bar=draw_whole_bar(lot.whole.bar, LINE_BAR) if lot.whole else None,
        lot=shortened(lot.name, 15.0, 9.6 if len(lot.name) < 8 else 7.2, 600),
        machine=shortened(lot.machine or lot.record, 40.0, 8.2, 600),
        beneath=shortened(_of_machine(lot), 40.0, 7.2, 400),
        hours_note=shortened(lot.inspected, 18.0, 7.2, 400),
        worst_part=shortened(lot.worst_part, 27.0, 7.2, 400),
        hours_part=shortened(lot.hours_part, 30.0, 7.2, 400),
        reasons=reasons,
    )


def in_block(lot: LotView, words: Headings) -> FittedLot:
    """A lot with all that the index tells of it."""
    told = tuple(_told(lot, words))
    lines = sum(one.lines for one in told)
    return FittedLot(
        view=lot,
        height=max(_LEAST, _BLOCK + _TEXT * lines),
        bar=draw_whole_bar(lot.whole.bar, BLOCK_BAR) if lot.whole else None,
        lot=shortened(lot.name, 44.0, 15.0, 600),
        machine=shortened(lot.machine or lot.record, 44.0, 9.6, 600),
        beneath=shortened(_of_machine(lot), 44.0, 7.8, 400),
        hours_note=shortened(", ".join(filter(None, (lot.hours, lot.hours_note))), 44.0, 7.8, 400),
        worst_part=lot.worst_part,
        hours_part=lot.hours_part,
        reasons="",
        told=told,
    )


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


def _of_machine(lot: LotView) -> str:
    return ", ".join(filter(None, (lot.serial, lot.year)))


def _reasons(lot: LotView, words: Headings) -> str:
    """What asks for another look, with the findings themselves; of an unread lot its first fault."""
    if lot.faults:
        return lot.faults[0]
    if not lot.looks:
        return ""
    first, *others = lot.looks
    acts = f" ({words.semicolon.join(lot.acts)})" if lot.acts else ""  # that is then the first reason
    return f"{words.why}{words.colon}{', '.join((first + acts, *others))}"


def _told(lot: LotView, words: Headings) -> list[Told]:
    if lot.faults:
        return [_fitting(words.fault, fault) for fault in lot.faults[:3]]
    worst = f"{lot.worst}\u00a0%" if lot.worst else ""
    told = [
        _fitting(words.worst_part, "; ".join(filter(None, (lot.worst_part, lot.past_limit))), worst),
        _fitting(words.hours_left_short, lot.hours_part, lot.hours_left),
        *(_fitting(words.to_act_on, act, foreign=lot.acts_language) for act in lot.acts[:_MOST_ACTS]),
    ]
    if len(lot.acts) > _MOST_ACTS:
        told.append(_fitting("", f"+ {len(lot.acts) - _MOST_ACTS}"))
    if lot.unseen:
        told.append(_fitting(words.not_seen, lot.unseen))
    if lot.verdict:
        told.append(_fitting(words.terms, lot.verdict))
    if lot.looks:
        told.append(_fitting(words.why, ", ".join(lot.looks)))
    return told


def _fitting(label: str, text: str, strong: str = "", foreign: str = "") -> Told:
    room = _COLUMN - _LABEL
    said = shortened(text, _MOST_LINES * room * 0.92 - width_mm(strong, 7.8, weight=600), 7.8, 400)
    return Told(label, said, strong, _lines(f"{strong} {said}", room, 500), foreign)


def _lines(text: str, room: float, weight: Weight) -> int:
    return max(1, ceil(1.04 * width_mm(text, 7.8, weight=weight) / room))
