"""What a property of style may say, in one table: in a firm's own style sheet, and of what holds a caution."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from tinycss2.color4 import parse_color

from tracksworn.documents.drawing.svg import OTHER_SCRIPTS
from tracksworn.documents.typefaces import FACES

LEAST_POINTS: Final = 7.0
LEAST_FACTOR: Final = 0.8
"""The smallest type, in points and of what stands round it."""
POINTS: Final = {"pt": 1.0, "px": 0.75, "mm": 72 / 25.4, "cm": 720 / 25.4, "in": 72.0, "pc": 12.0}
WIDTHS: Final = {**POINTS, "em": 9.0, "rem": 9.0, "ch": 4.5, "%": 2.25}
"""How many points a unit of width is, at least about."""
_FAMILIES: Final = tuple(dict.fromkeys((*(face.family for face in FACES), OTHER_SCRIPTS)))
_KNOWN: Final = frozenset([*map(str.lower, _FAMILIES), "sans-serif", "serif", "monospace", "inherit"])
_LINE: Final = r"normal|1(?:\.\d+)?|2"
_FONT: Final = re.compile(
    rf"(?:(?:normal|italic|bold|\d00)\s+)*(\d*\.?\d+[a-z%]+)(?:\s*/\s*(?:{_LINE}))?\s+([^/]+)", re.IGNORECASE
)
_SIZE: Final = re.compile(r"(\d*\.?\d+)(pt|px|mm|cm|in|pc|r?em|%)", re.IGNORECASE)
_WIDTH: Final = re.compile(r"(\d*\.?\d+)(pt|px|mm|cm|in|pc|rem|em|ch|%)")
_ANY_WIDTH: Final = re.compile(r"auto|none|100%|(?:max|min|fit)-content|inherit")


@dataclass(frozen=True, slots=True)
class Values:
    """What one property may say, as patterns of its whole value in lower case."""

    both: str
    ours: str = ""  # besides, of what holds a caution: the program's own style sheets say it
    elsewhere: str = ""  # besides, in a firm's own style sheet of what holds none
    told: str = ""  # how the pattern is told where it is more than words

    def holds_a_caution(self, value: str) -> bool:
        """Whether what says so can hold a caution."""
        return re.fullmatch(_either(self.both, self.ours), value) is not None

    def refused(self, value: str) -> str:
        """Why a firm's own style sheet may not say so; empty where it may."""
        pattern = _either(self.both, self.elsewhere)
        return "" if re.fullmatch(pattern, value) else f"may be {self.told or pattern.replace('|', ', ')} here"


def _either(*patterns: str) -> str:
    return "|".join(filter(None, patterns))


TABLE: Final[Mapping[str, Values]] = {
    "display": Values(
        "block|inline|inline-block|flow-root|list-item|table|table-row|table-cell|table-row-group|grid|flex",
        elsewhere="none",
    ),
    "vertical-align": Values("baseline|top|middle|bottom|sub|super"),
    "text-decoration": Values("none|underline"),
    "font-style": Values("normal|italic"),
    "text-transform": Values("none", elsewhere="uppercase|lowercase|capitalize"),
    "white-space": Values("normal|pre-line|pre-wrap|nowrap"),
    "align-items": Values("normal|start|flex-start|stretch|baseline", ours="center|end|flex-end"),
    "justify-content": Values("normal|start|flex-start|space-between"),
    "line-height": Values(_LINE, ours=r"1[01]\d%", told="normal or a number from 1 to 2"),
    "letter-spacing": Values(r"normal|0|0?\.[01]\d*em", told="normal or from 0 to 0.19em"),
    "columns": Values("auto|[123]", told="1, 2 or 3"),
    "column-count": Values("auto|[123]", told="1, 2 or 3"),
}


def split_font(value: str) -> tuple[str, str] | None:
    """Size and families of a `font`; None where it is written otherwise, or with lines too close or far apart."""
    found = _FONT.fullmatch(value)
    return (found[1], found[2]) if found else None


def foreign_family(families: str) -> str:
    """The first family that is none of the program's; empty where all are."""
    named = filter(None, (one.strip() for one in families.split(",")))
    return next((one for one in named if one.strip("\"'").lower() not in _KNOWN), "")


def own_families() -> str:
    """The program's families, for a message."""
    return ", ".join(sorted(set(_FAMILIES) - {OTHER_SCRIPTS}))


def split_size(value: str) -> tuple[float, str] | None:
    """Number and unit of a size of type; None where it is written otherwise."""
    found = _SIZE.fullmatch(value)
    return (float(found[1]), found[2].lower()) if found else None


def large_enough(number: float, unit: str, least: float = LEAST_POINTS) -> bool:
    """Whether a size is one that can be read; a relative one by how much smaller it makes what it is set in."""
    if unit in POINTS:
        return number * POINTS[unit] >= least
    return (number / 100 if unit == "%" else number) >= LEAST_FACTOR


def width_of(value: str) -> float | None:
    """A width, points, without end where it is as wide as there is room; None where it is written otherwise."""
    if _ANY_WIDTH.fullmatch(value):
        return float("inf")
    found = _WIDTH.fullmatch(value)
    return float(found[1]) * WIDTHS[found[2]] if found else None


def opaque(value: str) -> Any | None:
    """A colour without transparency; None for all else."""
    colour = parse_color(value)
    return colour if colour is not None and colour != "currentcolor" and colour.alpha == 1 else None
