"""What style sheets say of an element, and whether any of it could keep a reader from its words."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final

import tinycss2
from tinycss2.color4 import parse_color

from tracksworn.documents.drawing.svg import OTHER_SCRIPTS
from tracksworn.documents.render.files import Refused
from tracksworn.documents.typefaces import FACES

LEAST_POINTS: Final = 7.0
LEAST_FACTOR: Final = 0.8
LEAST_CONTRAST: Final = 4.5
POINTS: Final = {"pt": 1.0, "px": 0.75, "mm": 72 / 25.4, "cm": 720 / 25.4, "in": 72.0, "pc": 12.0}
DISPLAYS: Final = frozenset(
    [
        "block",
        "inline",
        "inline-block",
        "flow-root",
        "list-item",
        "table",
        "table-row",
        "table-cell",
        "table-row-group",
        "grid",
        "flex",
    ]
)
HARMLESS: Final = re.compile(
    r"(?:padding|border|outline|break|page-break|column|grid|flex|align|justify|place|list|text-decoration|font-variant|"
    r"font-family|font-weight|font-style|font-feature|font-kerning|hyphens|orphans|widows|quotes|counter|caption|vertical-align|"
    r"text-align|box-sizing|white-space|overflow-wrap|word-break|gap|row-gap|line-break|table-layout|tab-size|page|"
    r"bookmark|string-set|float|clear|order|-webkit-text-size-adjust|text-size-adjust|print-color-adjust|color-scheme|scroll-behavior|"
    r"scroll-margin-top|scroll-padding-top|--accent)(?:-[a-z-]+)?"
)
KNOWN_FONT: Final = re.compile(r"""\Aurl\("?data:font/woff2;base64,known-font"?\) format\("woff2"\)\Z""")
"""What `without_data` leaves of a font of the program's own."""
NEVER: Final = frozenset(
    [
        "position",
        "transform",
        "translate",
        "scale",
        "rotate",
        "zoom",
        "perspective",
        "offset-path",
        "clip",
        "clip-path",
        "mask",
        "mask-image",
        "filter",
        "content-visibility",
        "backdrop-filter",
        "mix-blend-mode",
        "animation",
        "animation-name",
        "transition",
    ]
)
"""Nowhere in a page, for they can put something over the cautions or take them elsewhere."""


@dataclass(frozen=True, slots=True)
class Declaration:
    """One property with its value as written."""

    name: str
    value: str


def of_style(text: str) -> tuple[Declaration, ...]:
    """The declarations of a `style` attribute, or of a rule's body."""
    return tuple(_declared(tinycss2.parse_declaration_list(text, skip_comments=True, skip_whitespace=True)))


def of_rules(sheet: str) -> Iterator[tuple[Any, tuple[Declaration, ...]]]:
    """Every rule with its selector, also within media and supports queries. Raises Refused for what could fetch."""
    yield from _rules(tinycss2.parse_stylesheet(sheet, skip_comments=True, skip_whitespace=True))


def _rules(rules: Iterable[Any]) -> Iterator[tuple[Any, tuple[Declaration, ...]]]:
    for rule in rules:
        if rule.type == "qualified-rule":
            declared = tuple(_declared(tinycss2.parse_blocks_contents(rule.content)))
            yield rule.prelude, _nowhere(declared)
        elif rule.type == "at-rule" and rule.lower_at_keyword in ("media", "supports", "layer") and rule.content:
            yield from _rules(tinycss2.parse_rule_list(rule.content, skip_comments=True, skip_whitespace=True))
        elif rule.type == "at-rule" and rule.lower_at_keyword == "font-face":
            _known_face(tuple(_declared(tinycss2.parse_declaration_list(rule.content))))
        elif rule.type != "at-rule" or rule.lower_at_keyword not in ("page", "charset"):
            what = f"@{rule.lower_at_keyword}" if rule.type == "at-rule" else "a rule that cannot be read"
            raise Refused(f"the document is not handed over: a style sheet has {what}")


def _declared(things: Iterable[Any]) -> Iterator[Declaration]:
    for thing in things:
        if thing.type == "declaration":
            yield Declaration(thing.lower_name, tinycss2.serialize(thing.value).strip())
        elif thing.type not in ("whitespace", "comment"):
            raise Refused("the document is not handed over: a style sheet nests rules or cannot be read")


def _nowhere(declared: tuple[Declaration, ...]) -> tuple[Declaration, ...]:
    for one in declared:
        if one.name in NEVER and one.value not in ("static", "relative", "none"):
            raise Refused(
                f"the document is not handed over: a style sheet sets {one.name}, which can cover its cautions"
            )
        if "url(" in one.value.lower() or "image-set(" in one.value.lower():
            raise Refused(f"the document is not handed over: a style sheet loads a picture by {one.name}")
    return declared


def _known_face(declared: tuple[Declaration, ...]) -> None:
    """Only the program's own fonts: another could have blank letters under the same name."""
    said = {one.name: one.value for one in declared}
    families = {f'"{name}"' for name in (OTHER_SCRIPTS, *(face.family for face in FACES))}
    if said.get("font-family") not in families or not KNOWN_FONT.search(said.get("src", "")):
        raise Refused("the document is not handed over: a style sheet brings a font of its own")


def doubt(declared: Sequence[Declaration]) -> str | None:
    """Why a text under all these declarations might not be read; None where it surely can."""
    for one in declared:
        if not _allowed(one):
            return f"{one.name}: {one.value}"
    grounds = [one.value for one in declared if one.name in ("background", "background-color")] or ["#ffffff"]
    for ink in (one.value for one in declared if one.name == "color"):
        for ground in grounds:
            if not _readable(ink, ground):
                return f"color {ink} on {ground}"
    return None


def _allowed(one: Declaration) -> bool:
    value = re.sub(r"\s*!important$", "", one.value.lower())
    if one.name in ("color", "background", "background-color"):
        return True  # judged together
    if one.name == "display":
        return value in DISPLAYS
    if one.name in ("font", "font-size"):
        return _large_enough(value)
    if one.name == "line-height":
        return bool(re.fullmatch(r"normal|1(?:\.\d+)?|1[01]\d%|2", value))
    if one.name.startswith("margin"):
        return "-" not in value and "calc" not in value
    if one.name in ("width", "max-width", "min-width", "min-height"):
        return not re.match(r"0(?![.\d])|calc", value) or one.name.startswith("min")
    if one.name in NEVER:
        return value in ("static", "relative", "none")
    return bool(HARMLESS.fullmatch(one.name))


def _large_enough(value: str) -> bool:
    if value == "inherit":
        return True
    size = re.search(r"(?<![\w.-])(\d*\.?\d+)(pt|px|mm|cm|in|pc|r?em|%)(?![\w])", value)
    if size is None:
        return False
    number, unit = float(size[1]), size[2]
    if unit in POINTS:
        return number * POINTS[unit] >= LEAST_POINTS
    return (number / 100 if unit == "%" else number) >= LEAST_FACTOR


def _readable(ink: str, ground: str) -> bool:
    if ink.startswith("var(--accent") or ink == "inherit":
        return True  # checked when the letterhead was read
    if ground in ("none", "transparent", "inherit"):
        ground = "#ffffff"
    colours = [parse_color(text) for text in (ink, ground)]
    if not all(colour is not None and colour != "currentcolor" and colour.alpha == 1 for colour in colours):
        return False
    light, dark = sorted((_luminance(colour) for colour in colours), reverse=True)
    return (light + 0.05) / (dark + 0.05) >= LEAST_CONTRAST


def _luminance(colour: Any) -> float:
    """Relative luminance (WCAG 2.2)."""
    channels = [max(0.0, min(1.0, value)) for value in colour.to("srgb").coordinates]
    linear = [v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in channels]
    return float(0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2])
