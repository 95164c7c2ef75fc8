"""What style sheets say of an element, and whether any of it could keep a reader from its words."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

import tinycss2

from tracksworn.documents.drawing.svg import OTHER_SCRIPTS
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.gate.values import (
    LEAST_POINTS,
    POINTS,
    TABLE,
    foreign_family,
    large_enough,
    opaque,
    split_font,
    split_size,
    width_of,
)
from tracksworn.documents.typefaces import FACES
from tracksworn.inspection.contrast import LEAST_CONTRAST, luminance, ratio

HARMLESS: Final = re.compile(
    r"(?:padding|border|outline|break|page-break|column|grid|flex|align|justify|place|list|font-variant|"
    r"font-family|font-weight|font-style|font-feature|font-kerning|hyphens|orphans|widows|quotes|counter|caption|vertical-align|"
    r"text-align|box-sizing|white-space|overflow-wrap|word-break|gap|row-gap|line-break|table-layout|tab-size|page|"
    r"bookmark|string-set|float|clear|order|-webkit-text-size-adjust|text-size-adjust|print-color-adjust|color-scheme|scroll-behavior|"
    r"scroll-margin-top|scroll-padding-top)(?:-[a-z-]+)?"
)
MOST_LENGTH: Final = 2000.0
LEAST_WIDTH: Final = 45.0  # pt
_MUST_MATCH: Final = {
    "color-scheme": re.compile("light"),
    "text-indent": re.compile(r"-?(?:1?\d|20)px|0"),
    "grid-column": re.compile(r"[123]|1 / [234]|auto"),
    "content": re.compile(r"none|normal|\"[^\"]*\"|'[^']*'|attr\(data-(?:label|side)\)"),
    "overflow-x": re.compile("auto|visible"),
    "grid-area": re.compile("auto"),
    "grid-template-areas": re.compile("none"),
    "grid": re.compile("none"),
    "grid-row": re.compile(r"span 1|auto"),
}
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
        "offset",
        "inset",
        "z-index",
        "opacity",
        "box-shadow",
        "border-image",
        "border-image-source",
        "border-image-outset",
        "view-transition-name",
        "position-anchor",
        "shape-outside",
    ]
)
"""Nowhere in a page, for they can put something over the cautions or take them elsewhere."""


@dataclass(frozen=True, slots=True)
class Declaration:
    """One property with its value as written, and in which line of its style sheet."""

    name: str
    value: str
    line: int = 0  # 0 in an attribute


_PAPER: Final = Declaration("background", "#ffffff")


def of_style(text: str) -> tuple[Declaration, ...]:
    """The declarations of a `style` attribute, or of a rule's body."""
    things = tinycss2.parse_declaration_list(text, skip_comments=True, skip_whitespace=True)
    return tuple(replace(one, line=0) for one in _declared(things))


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
        elif rule.type == "at-rule" and rule.lower_at_keyword == "page":
            _paper(tuple(_declared(tinycss2.parse_blocks_contents(rule.content or []))))
        elif rule.type == "at-rule" and rule.lower_at_keyword == "font-face":
            _known_face(tuple(_declared(tinycss2.parse_declaration_list(rule.content))))
        elif rule.type != "at-rule" or rule.lower_at_keyword != "charset":
            what = f"@{rule.lower_at_keyword}" if rule.type == "at-rule" else "a rule that cannot be read"
            raise Refused(f"the document is not handed over: a style sheet has {what}")


def _declared(things: Iterable[Any]) -> Iterator[Declaration]:
    for thing in things:
        if thing.type == "declaration":
            yield Declaration(thing.lower_name, tinycss2.serialize(thing.value).strip(), thing.source_line)
        elif thing.type not in ("whitespace", "comment"):
            raise Refused("the document is not handed over: a style sheet nests rules or cannot be read")


def _nowhere(declared: tuple[Declaration, ...]) -> tuple[Declaration, ...]:
    for one in declared:
        if _plain(one.name) in NEVER and one.value not in ("static", "none"):
            raise Refused(
                f"the document is not handed over: a style sheet sets {one.name}, which can cover its cautions"
            )
        if "url(" in one.value.lower() or "image-set(" in one.value.lower():
            raise Refused(f"the document is not handed over: a style sheet loads a picture by {one.name}")
    return declared


def _plain(name: str) -> str:
    """A property without the mark of a browser that knows it under a name of its own."""
    return re.sub(r"^-(?:webkit|moz|ms|o|epub|khtml)-", "", name)


def _paper(declared: tuple[Declaration, ...]) -> None:
    """How a browser prints the page: on ordinary paper, within ordinary margins."""
    for one in declared:
        margin = re.fullmatch(r"(?:\s*\d{1,2}(?:\.\d+)?mm)+|0", one.value) if one.name.startswith("margin") else None
        size = re.fullmatch(r"(?:(?:A4|letter|portrait|landscape|auto)\s*)+", one.value, re.IGNORECASE)
        if not (margin or (one.name == "size" and size)):
            raise Refused(f"the document is not handed over: a style sheet prints it with {one.name}: {one.value}")


def _known_face(declared: tuple[Declaration, ...]) -> None:
    """Only the program's own fonts: another could have blank letters under the same name."""
    said = {one.name: one.value for one in declared}
    families = {f'"{name}"' for name in (OTHER_SCRIPTS, *(face.family for face in FACES))}
    if said.get("font-family") not in families or not KNOWN_FONT.search(said.get("src", "")):
        raise Refused("the document is not handed over: a style sheet brings a font of its own")


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why a text might not be read, and the line of the style sheet that makes it so; 0 where none does alone."""

    why: str
    line: int = 0


def doubt(within: Sequence[Sequence[Declaration]], least: float = LEAST_POINTS) -> Doubt | None:
    """Why a text might not be read under what is declared of each element it stands in, from the outermost.

    None where it surely can.
    """
    declared = [one for element in within for one in element]
    for one in declared:
        if not _allowed(one, least):
            return Doubt(f"{one.name}: {one.value}", one.line)
    if _least_size(within) < least:
        return Doubt(f"its font-size comes to less than {least:g} points")
    grounds = [one for one in declared if one.name in ("background", "background-color")] or [_PAPER]
    accents = [one.value for one in declared if one.name == "--accent"]
    for ink in (one for one in declared if one.name == "color"):
        for ground in grounds:
            if not _readable(ink.value, ground.value, accents):
                return Doubt(f"color {ink.value} on {ground.value}", max(ink.line, ground.line))
    return None


def _allowed(one: Declaration, least: float) -> bool:
    value = re.sub(r"\s*!important$", "", one.value.lower())
    if one.name in ("color", "background", "background-color", "--accent"):
        return True  # judged together
    if one.name in TABLE:
        return TABLE[one.name].holds_a_caution(value)
    if one.name in _MUST_MATCH:
        return bool(_MUST_MATCH[one.name].fullmatch(value))
    if one.name in ("font", "font-size", "font-family"):
        return _known_type(one.name, value, least)
    if one.name.startswith(("margin", "padding")) or one.name in ("gap", "row-gap", "column-gap"):
        return "-" not in value and "(" not in value and _near(value)
    if one.name in ("width", "max-width", "min-width", "min-height", "flex-basis"):
        return one.name.startswith("min-") or _wide_enough(value)
    if one.name in NEVER:
        return value in ("static", "none")
    return bool(HARMLESS.fullmatch(one.name)) and _near(value)


def _near(value: str) -> bool:
    """Whether all lengths are such as lie on one page."""
    return all(float(number) <= MOST_LENGTH for number in re.findall(r"\d*\.?\d+", re.sub(r"#[0-9a-f]+", "", value)))


def _wide_enough(value: str) -> bool:
    """Not so narrow that words would be cut or stand one under the other."""
    width = width_of(value)
    return width is not None and width >= LEAST_WIDTH and _near(value)


def _known_type(name: str, value: str, least: float) -> bool:
    """A family of the program's, in a size that can be read, its lines apart."""
    if value == "inherit":
        return True
    if name == "font-family":
        return not foreign_family(value)
    font = split_font(value) if name == "font" else (value, "")
    size = font and split_size(font[0])
    return bool(font and size and large_enough(*size, least) and not (font[1] and foreign_family(font[1])))


def _least_size(within: Sequence[Sequence[Declaration]]) -> float:
    """The smallest size that a text can come to, pt, however the rules that name one come to be chosen."""
    least = root = 12.0
    for depth, element in enumerate(within):
        sizes = [least]
        for one in element:
            font = split_font(one.value) if one.name == "font" else None
            size = split_size(font[0] if font else one.value) if one.name in ("font", "font-size") else None
            if size:
                number, unit = size
                relative = {"em": least, "%": least / 100, "rem": root}
                sizes.append(number * (POINTS[unit] if unit in POINTS else relative[unit]))
        least = min(sizes) if depth else min(sizes[1:] or sizes)
        root = least if not depth else root
    return least


def _readable(ink: str, ground: str, accents: Sequence[str]) -> bool:
    if ink == "inherit":
        return True
    if ink == "var(--accent)":
        return all(_readable(accent, ground, ()) for accent in accents)
    if ground in ("none", "transparent", "inherit"):
        ground = "#ffffff"
    colours = [opaque(text) for text in (ink, ground)]
    luminances = [luminance(_signals(colour)) for colour in colours if colour is not None]
    return len(luminances) == 2 and ratio(*luminances) >= LEAST_CONTRAST


def _signals(colour: Any) -> list[float]:
    return [max(0.0, min(1.0, value)) for value in colour.to("srgb").coordinates]
