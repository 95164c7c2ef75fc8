"""What stands in every sheet's head and foot, shortened to one line each; sheet one and the last hold it all."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import Final

from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.type import Weight, width_mm
from tracksworn.documents.full.view import FindingView, Labelled
from tracksworn.documents.render.document import Document

WIDTH: Final = 182.0
"""How wide the text of an upright sheet is, mm, on either paper."""
GAP: Final = 4.4
_LEAST: Final = 18.0  # what a shortened value must still be able to say
_STRIP: Final = 8.6  # pt, of its values
_MARK: Final = 12.0
_TEXT_WIDTH: Final = 74.5  # of a finding beside its section
_PHOTO_HEIGHT: Final = 26.0
_SHORT_TERMS: Final = 900  # characters
_SHEET: Final = 14.0  # the number of the sheet, at the right of the foot


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a sheet."""

    firm: str
    title: str
    number: str
    beside: str


@dataclass(frozen=True, slots=True)
class Row:
    """Labelled values side by side on one line, in type of that size in points."""

    labelled: tuple[Labelled, ...]
    size: float


@dataclass(frozen=True, slots=True)
class Fitted:
    """A document's identity in the room that a sheet has for it."""

    view: Document
    width: float = WIDTH

    @property
    def first(self) -> Head:
        """The head of sheet one."""
        title = self.view.identification.title
        room = self.width - (_MARK if self.view.branding.mark else 0.0)
        number = shortened(self.view.identification.number, 0.8 * room, 8.4, 600)
        firm = shortened(self.view.branding.firm, room - GAP - width_mm(number, 8.4, weight=600), 8.4, 600)
        beside = shortened(self.view.identification.addressed, room - GAP - width_mm(title, 18.5, weight=600), 8.4, 400)
        return Head(firm, title, number, beside)

    @property
    def strip(self) -> Row:
        """The identification strip: who, when and which machine before where."""
        return in_one_line([replace(one, note="") for one in self.view.identification.strip], self.width, (_STRIP, 7.6))

    @property
    def strip_columns(self) -> tuple[float, ...]:
        """How wide the strip's columns are, mm, what is left over shared out between them."""
        ends = [*places(self.strip, self.width)[1:], self.width]
        return tuple(end - start for start, end in zip(places(self.strip, self.width), ends, strict=True))

    @property
    def unbroken(self) -> tuple[str, ...]:
        """Labels of what stays on one line in sheet one's strip: all but the place, or as much as leaves it room."""
        strip = self.view.identification.strip
        for breaking in (("wholly",), ("wholly", "partly")):
            kept = [one for one in strip if one.yields not in breaking]
            if _taken(kept, _STRIP) <= self.width - (GAP + _LEAST) * (len(strip) - len(kept)):
                return tuple(one.label for one in kept)
        return ()

    @property
    def foot(self) -> Row:
        """The foot; a note, as that the document is not sealed, goes to its label."""
        said = [replace(one, label=f"{one.label}, {one.note}", note="") if one.note else one for one in self.view.foot]
        return in_one_line(said, self.width - _SHEET, (7.6, 7.2, 6.8))

    @property
    def terms_fit_beside(self) -> bool:
        """Whether the firm's terms are short enough to stand beside the signature."""
        return len(self.view.standing_terms) <= _SHORT_TERMS

    def photos_fit_beside(self, finding: FindingView, section: Drawing) -> bool:
        """Whether a finding becomes less high with its photos under its section rather than under its words."""
        text, photos = _text_height(finding), _PHOTO_HEIGHT * len(finding.photos)
        return max(text, section.height + photos) + 1.0 < max(text + photos, section.height)

    @property
    def fingerprint(self) -> str:
        """The whole fingerprint in groups of four, so that it can break and be compared by eye."""
        digits = self.view.fingerprint
        return " ".join(digits[start : start + 4] for start in range(0, len(digits), 4))


def _text_height(finding: FindingView) -> float:
    """About how high a finding's words stand beside its section, mm."""
    lines = sum(_lines(one, _TEXT_WIDTH - 3.1, 400) for one in finding.reasons)
    lines += _lines(f"MMMM {finding.advice}", _TEXT_WIDTH, 500)
    lines += _lines(f"MMMMM {finding.look_for}", _TEXT_WIDTH, 400) if finding.look_for else 0
    return 6.0 + 4.0 * lines + 0.5 * len(finding.reasons)


def _lines(text: str, room: float, weight: Weight) -> int:
    return ceil(1.05 * width_mm(text, 8.2, "Barlow", weight) / room)


def shortened(text: str, room: float, size: float, weight: Weight) -> str:
    """The text, or as much of it as fits with an ellipsis after it."""
    if width_mm(text, size, weight=weight) <= room:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        fits = width_mm(f"{text[:middle].rstrip()}…", size, weight=weight) <= room
        low, high = (middle, high) if fits else (low, middle - 1)
    kept = text[:low] if text[low : low + 1] == " " else _whole_words(text[:low])
    return f"{kept.rstrip(' ,;.')}…"


def _whole_words(text: str) -> str:
    """Without a last word that was cut, unless little would be left."""
    words = text.rpartition(" ")[0]
    return words if len(words) > 0.6 * len(text) else text


def in_one_line(list_: Sequence[Labelled], room: float, sizes: Sequence[float]) -> Row:
    """Labelled values side by side in the largest of the sizes in which nothing needs to be shortened.

    Where no size does, those that may yield in part are shortened; only where that is not enough, the widest of all.
    """
    kept = [one for one in list_ if one.yields != "wholly"]
    for size in sizes:
        for some in (list_, kept):
            if _taken(some, size) <= room:
                return Row(tuple(some), size)
    for size in sizes:
        left = room - _taken(kept, size) + sum(_wide(one, size) for one in kept if one.yields == "partly")
        yielding = [one for one in kept if one.yields == "partly"]
        if yielding and left >= _LEAST * len(yielding):
            return Row(_cut(kept, yielding, left, size), size)
    size = sizes[-1]
    return Row(_cut(kept, kept, room - GAP * (len(kept) - 1), size), size)


def _cut(list_: Sequence[Labelled], yielding: Sequence[Labelled], room: float, size: float) -> tuple[Labelled, ...]:
    """The list with those that yield in the room that is left for them."""
    widths = level([_wide(one, size) for one in yielding], room)
    given = {one.label: width + 0.01 for one, width in zip(yielding, widths, strict=True)}
    return tuple(
        replace(one, value=shortened(one.value, given[one.label], size, 500)) if one.label in given else one
        for one in list_
    )


def _taken(list_: Sequence[Labelled], size: float) -> float:
    return sum(_wide(one, size) for one in list_) + GAP * (len(list_) - 1)


def places(row: Row, room: float) -> tuple[float, ...]:
    """Where each begins: what room is left over is shared out between them."""
    widths = [_wide(one, row.size) for one in row.labelled]
    gap = (room - sum(widths)) / max(len(widths) - 1, 1)
    return tuple(sum(widths[:place]) + place * gap for place in range(len(widths)))


def _wide(one: Labelled, size: float) -> float:
    return max(width_mm(one.value, size, weight=500), width_mm(one.label, 6.4))


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
