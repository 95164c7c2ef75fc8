"""Type in a drawing: what room it takes, how it is broken into lines, how labels keep clear of one another."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate
from typing import Final

from tracksworn.documents.drawing.plain import Text
from tracksworn.documents.drawing.type import CAP_HEIGHT, DESCENT, MM_PER_POINT, Weight, in_ems, text_width, width_mm
from tracksworn.documents.typefaces import Family

LEAST_SIZE: Final = 6.2  # pt, the least size of type on a page


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle, mm."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "Box", gap: float = 0.0) -> bool:
        """Whether the two come nearer to each other than `gap`, which may be negative for an overlap to be borne."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def inside(self, width: float, height: float) -> bool:
        """Whether it lies on a sheet of that size."""
        return self.left >= 0 and self.top >= 0 and self.right <= width and self.bottom <= height


def box_of(text: Text) -> Box:
    """The room a line of type takes, capitals and descenders included. Turned by none or a quarter."""
    width, size = text_width(text), text.size * MM_PER_POINT
    before = {"start": 0.0, "middle": width / 2, "end": width}[text.anchor]
    x, y = text.at
    if text.turn == -90:
        return Box(x - CAP_HEIGHT * size, y + before - width, x + DESCENT * size, y + before)
    return Box(x - before, y - CAP_HEIGHT * size, x - before + width, y + DESCENT * size)


def centred(centre: float, size: float) -> float:
    """The baseline on which capitals and figures of that size in pt stand centred on a height."""
    return centre + CAP_HEIGHT / 2 * size * MM_PER_POINT


def broken(content: str, room: float, style: Text) -> list[str]:
    """The content in lines of at most `room` mm in the style's type; a single word that is wider stays whole."""
    lines: list[str] = []
    most, blank, wide = room / (style.size * MM_PER_POINT), in_ems(" ", style.family, style.weight), 0.0
    for word, own in _words(content, style.family, style.weight):
        if lines and wide + blank + own <= most:
            lines[-1], wide = f"{lines[-1]} {word}", wide + blank + own
        else:
            lines.append(word)
            wide = own
    return lines


@lru_cache(maxsize=256)
def _words(content: str, family: Family, weight: Weight) -> tuple[tuple[str, float], ...]:
    """The words of a text with their widths in ems: it is tried in many widths and sizes."""
    return tuple((word, in_ems(word, family, weight)) for word in content.split(" "))


def _wide(content: str, style: Text) -> float:
    return width_mm(content, style.size, style.family, style.weight)


def cut(content: str, room: float, style: Text) -> str:
    """The content, with an ellipsis for its end where it is wider than the room, mm."""
    if _wide(content, style) <= room:
        return content
    ends = (f"{content[:end].rstrip(' ,;.')}…" for end in range(len(content) - 1, 0, -1))
    return next((said for said in ends if _wide(said, style) <= room), "")


def balanced(content: str, room: float, style: Text) -> list[str]:
    """Broken into as few lines as the room allows, these as even as may be: no word is left alone on the last."""
    lines = broken(content, room, style)
    for tighter in range(1, 13):
        closer = broken(content, room * (1 - 0.04 * tighter), style)
        if len(closer) > len(lines):
            return lines
        lines = closer
    return lines


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Heights at least `gap` apart, in the ascending order of those wanted and as near to them as may be.

    All lie between low and high where there is room.
    """
    starts = [at - index * gap for index, at in enumerate(pooled(wanted, [gap] * max(len(wanted) - 1, 0)))]
    last = max(high - (len(wanted) - 1) * gap, low)
    return [min(max(start, low), last) + index * gap for index, start in enumerate(starts)]


def pooled(wanted: Sequence[float], gaps: Sequence[float]) -> list[float]:
    """Places in that order, each at least its gap from the next, as near to those wanted as may be.

    Neighbours that push one another move as one pool, which takes the mean of what its members want (isotonic
    regression by pooling adjacent violators).
    """
    offsets = list(accumulate(gaps, initial=0.0))
    pools: list[tuple[float, int]] = []  # sum of what is wanted less the offset, members
    for place, offset in zip(wanted, offsets, strict=False):
        total, count = place - offset, 1
        while pools and pools[-1][0] / pools[-1][1] > total / count:
            total, count = total + pools[-1][0], count + pools[-1][1]
            pools.pop()
        pools.append((total, count))
    starts = [total / count for total, count in pools for _ in range(count)]
    return [start + offset for start, offset in zip(starts, offsets, strict=False)]
