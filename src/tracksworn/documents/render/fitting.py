"""What stands in every sheet's head and foot, shortened to one line each; sheet one and the last hold it all."""

from dataclasses import dataclass, replace
from typing import Final

from tracksworn.documents.drawing.type import Weight, width_mm
from tracksworn.documents.full.view import FullReport, Labelled

WIDTH: Final = 182.0
GAP: Final = 5.0
_MARK: Final = 12.0
_SHEET: Final = 14.0  # the number of the sheet, at the right of the foot


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a sheet."""

    firm: str
    title: str
    number: str
    beside: str


@dataclass(frozen=True, slots=True)
class Fitted:
    """A report's identity in the room that a sheet has for it."""

    view: FullReport

    @property
    def first(self) -> Head:
        """The head of sheet one."""
        return self.head(self.view.identification.title, self.view.identification.addressed)

    def head(self, title: str, beside: str) -> Head:
        """The head of a sheet of that title."""
        room = WIDTH - (_MARK if self.view.branding.mark else 0.0)
        number = shortened(self.view.identification.number, 0.6 * room, 8.4, 600)
        firm = shortened(self.view.branding.firm, room - GAP - width_mm(number, 8.4, weight=600), 8.4, 600)
        beside = shortened(beside, room - GAP - width_mm(title, 18.5, weight=600), 8.4, 400)
        return Head(firm, title, number, beside)

    @property
    def strip(self) -> tuple[Labelled, ...]:
        """The identification strip, each value on one line."""
        return in_one_line(self.view.identification.strip, WIDTH, 8.6, noted=False)

    @property
    def foot(self) -> tuple[Labelled, ...]:
        """The foot, each value on one line; what has a note, as the fingerprint, is never shortened."""
        return in_one_line(self.view.foot, WIDTH - _SHEET, 7.6)

    @property
    def fingerprint(self) -> str:
        """The whole fingerprint in groups of four, so that it can break and be compared by eye."""
        digits = self.view.fingerprint
        return " ".join(digits[start : start + 4] for start in range(0, len(digits), 4))


def shortened(text: str, room: float, size: float, weight: Weight) -> str:
    """The text, or as much of it as fits with an ellipsis after it."""
    if width_mm(text, size, weight=weight) <= room:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        fits = width_mm(f"{text[:middle].rstrip()}…", size, weight=weight) <= room
        low, high = (middle, high) if fits else (low, middle - 1)
    return f"{text[:low].rstrip(' ,;.')}…"


def in_one_line(list_: tuple[Labelled, ...], room: float, size: float, *, noted: bool = True) -> tuple[Labelled, ...]:
    """Labelled values side by side: the widest give way until all fit with a gap between.

    A note follows its value, which is then left whole; without `noted` notes are left out.
    """
    whole = {one.label for one in list_ if one.note and noted}
    said = [
        replace(one, value=f"{one.value}, {one.note}" if one.label in whole else one.value, note="") for one in list_
    ]
    wanted = {one.label: max(width_mm(one.value, size, weight=500), width_mm(one.label, 6.4)) for one in said}
    left = room - GAP * len(said) - sum(wanted[label] for label in whole)
    others = [label for label in wanted if label not in whole]
    given = dict(zip(others, level([wanted[label] for label in others], left), strict=True))
    return tuple(
        one if one.label in whole else replace(one, value=shortened(one.value, given[one.label] + 0.01, size, 500))
        for one in said
    )


def level(wanted: list[float], room: float) -> list[float]:
    """Each as wide as it wants, but none wider than the level at which all fit into the room."""
    if sum(wanted) <= room:
        return wanted
    left, highest = room, 0.0
    for index, width in enumerate(sorted(wanted)):
        highest = left / (len(wanted) - index)
        if width > highest:
            break
        left -= width
    return [min(width, highest) for width in wanted]
