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
    r"(?:padding|border|outline|break|page-break|column|grid|flex|align|justify|place|list|font-variant|"
    r"font-family|font-weight|font-style|font-feature|font-kerning|hyphens|orphans|widows|quotes|counter|caption|vertical-align|"
    r"text-align|box-sizing|white-space|overflow-wrap|word-break|gap|row-gap|line-break|table-layout|tab-size|page|"
    r"bookmark|string-set|float|clear|order|-webkit-text-size-adjust|text-size-adjust|print-color-adjust|color-scheme|scroll-behavior|"
    r"scroll-margin-top|scroll-padding-top)(?:-[a-z-]+)?"
)
GENERIC: Final = frozenset(["sans-serif", "serif", "monospace", "inherit"])
MOST_LENGTH: Final = 2000.0
LEAST_WIDTH: Final = 60.0
WIDTHS: Final = {"mm": 3.8, "cm": 38.0, "in": 96.0, "pt": 1.3, "rem": 12.0, "em": 12.0, "ch": 6.0, "%": 3.0}
"""About how many CSS pixels a unit of width is."""
_SIZE: Final = re.compile(r"(\d*\.?\d+)(pt|px|mm|cm|in|pc|r?em|%)")
_FONT: Final = re.compile(
    r"(?:(?:normal|italic|bold|\d00)\s+)*(\d*\.?\d+[a-z%]+)(?:\s*/\s*(?:normal|1(?:\.\d+)?|2))?\s+([^/]+)"
)
_MUST_MATCH: Final = {
    "display": re.compile("|".join(sorted(DISPLAYS))),
    "line-height": re.compile(r"normal|1(?:\.\d+)?|1[01]\d%|2"),
    "color-scheme": re.compile("light"),
    "font-style": re.compile("normal|italic"),
    "text-indent": re.compile(r"-?(?:1?\d|20)px|0"),
    "text-decoration": re.compile("none|underline"),
    "vertical-align": re.compile("baseline|top|middle|bottom|sub|super"),
    "white-space": re.compile("normal|pre-line|pre-wrap|nowrap"),
    "column-count": re.compile("auto|[123]"),
    "columns": re.compile("auto|[123]"),
    "justify-content": re.compile("normal|start|flex-start|space-between"),
    "align-items": re.compile("normal|start|flex-start|stretch|baseline|center|end|flex-end"),
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
            yield Declaration(thing.lower_name, tinycss2.serialize(thing.value).strip())
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


def doubt(within: Sequence[Sequence[Declaration]], least: float = LEAST_POINTS) -> str | None:
    """Why a text might not be read under what is declared of each element it stands in, from the outermost.

    None where it surely can.
    """
    declared = [one for element in within for one in element]
    for one in declared:
        if not _allowed(one, least):
            return f"{one.name}: {one.value}"
    if _least_size(within) < least:
        return f"its font-size comes to less than {least:g} points"
    grounds = [one.value for one in declared if one.name in ("background", "background-color")] or ["#ffffff"]
    accents = [one.value for one in declared if one.name == "--accent"]
    for ink in (one.value for one in declared if one.name == "color"):
        for ground in grounds:
            if not _readable(ink, ground, accents):
                return f"color {ink} on {ground}"
    return None


def _allowed(one: Declaration, least: float) -> bool:
    value = re.sub(r"\s*!important$", "", one.value.lower())
    if one.name in ("color", "background", "background-color", "--accent"):
        return True  # judged together
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
    if re.fullmatch(r"auto|none|100%|(?:max|min|fit)-content|inherit", value):
        return True
    size = re.fullmatch(r"(\d*\.?\d+)(px|mm|cm|in|pt|rem|em|ch|%)", value)
    return size is not None and float(size[1]) * WIDTHS.get(size[2], 1.0) >= LEAST_WIDTH and _near(value)


def _known_type(name: str, value: str, least: float) -> bool:
    """A family of the program's, in a size that can be read, its lines apart."""
    families = value if name == "font-family" else ""
    if value == "inherit":
        return True
    if name == "font":
        found = _FONT.fullmatch(value)
        if found is None:
            return False
        value, families = found[1], found[2]
    known = {OTHER_SCRIPTS.lower(), *(face.family.lower() for face in FACES), *GENERIC}
    named = {one.strip().strip("\"'") for one in families.split(",") if one.strip()}
    return named <= known and (name == "font-family" or _large_enough(value, least))


def _least_size(within: Sequence[Sequence[Declaration]]) -> float:
    """The smallest size that a text can come to, pt, however the rules that name one come to be chosen."""
    least = root = 12.0
    for depth, element in enumerate(within):
        sizes = [least]
        for one in element:
            value = one.value.lower()
            found = _FONT.fullmatch(value) if one.name == "font" else None
            size = _SIZE.fullmatch(found[1] if found else value) if one.name in ("font", "font-size") else None
            if size:
                number, unit = float(size[1]), size[2]
                relative = {"em": least, "%": least / 100, "rem": root}
                sizes.append(number * (POINTS[unit] if unit in POINTS else relative[unit]))
        least = min(sizes) if depth else min(sizes[1:] or sizes)
        root = least if not depth else root
    return least


def _large_enough(value: str, least: float) -> bool:
    if value == "inherit":
        return True
    size = _SIZE.fullmatch(value)
    if size is None:
        return False
    number, unit = float(size[1]), size[2]
    if unit in POINTS:
        return number * POINTS[unit] >= least
    return (number / 100 if unit == "%" else number) >= LEAST_FACTOR


def _readable(ink: str, ground: str, accents: Sequence[str]) -> bool:
    if ink == "inherit":
        return True
    if ink == "var(--accent)":
        return all(_readable(accent, ground, ()) for accent in accents)
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
