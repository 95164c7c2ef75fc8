"""A firm's own style sheet as it is written: rather a harmless rule refused than one that covers or removes words.

What has no effect on other elements than its own may be set freely; what can lay one thing over another, move it out
of its place or take its ink may not. Sheets (PDF) are judged by what is seen on them besides, so more is open there.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Final

import tinycss2
from tinycss2.color4 import parse_color

from tracksworn.documents.drawing.svg import OTHER_SCRIPTS
from tracksworn.documents.render.gate.declared import LEAST_POINTS, POINTS
from tracksworn.documents.typefaces import FACES

Place = tuple[int, int, str]
"""Line, column, what is wrong."""

GENERIC: Final = frozenset(["sans-serif", "serif", "monospace", "inherit"])
MOST_POINTS: Final = 1200.0
_FREE: Final = re.compile(
    r"border(?:-(?:top|right|bottom|left))?(?:-(?:width|style|color))?|border-radius|border-collapse|border-spacing|"
    r"padding(?:-(?:top|right|bottom|left))?|gap|row-gap|column-gap|column-rule|grid-template-columns|"
    r"break-(?:before|after|inside)|page-break-(?:before|after|inside)|orphans|widows|hyphens|quotes|caption-side|"
    r"counter-(?:reset|increment)|content|list-style(?:-type|-position)?|table-layout|box-sizing|min-width|min-height|"
    r"text-align|font-weight|font-variant(?:-[a-z-]+)?|font-kerning|overflow-wrap|tab-size|text-underline-offset|"
    r"float|clear|flex-wrap|print-color-adjust|string-set|bookmark-(?:level|label|state)|page|stroke-width"
)
_ONE_OF: Final = {
    "display": [
        "block",
        "inline",
        "inline-block",
        "flow-root",
        "list-item",
        "table",
        "table-row",
        "table-cell",
        "grid",
        "flex",
        "none",
    ],
    "vertical-align": ["baseline", "top", "middle", "bottom", "sub", "super"],
    "text-decoration": ["none", "underline"],
    "font-style": ["normal", "italic"],
    "text-transform": ["none", "uppercase", "lowercase", "capitalize"],
    "white-space": ["normal", "pre-line", "pre-wrap", "nowrap"],
    "align-items": ["start", "flex-start", "stretch", "baseline", "normal"],
    "justify-content": ["start", "flex-start", "space-between", "normal"],
}
_LENGTH: Final = re.compile(r"(-?)(\d*\.?\d+)([a-z%]*)")
_FUNCTION: Final = re.compile(r"([a-z-]+)\(")
_FUNCTIONS: Final = frozenset(["rgb", "rgba", "hsl", "hsla", "repeat", "minmax", "min", "var", "counter", "string"])
_OPEN_ON_SHEETS: Final = re.compile(
    r"margin(?:-[a-z]+)?|size|width|max-width|height|max-height|position|top|right|bottom|left|letter-spacing|"
    r"text-indent|line-height|background(?:-[a-z]+)?|display|vertical-align|white-space|columns|column-count|column-span"
)


def check_style(text: str, *, sheets: bool) -> Iterator[Place]:
    """Everything in a style sheet that may not stand in it; `sheets` where it is for print alone."""
    yield from _of_rules(tinycss2.parse_stylesheet(text, skip_comments=True, skip_whitespace=True), sheets)


def _of_rules(rules: Iterable[Any], sheets: bool) -> Iterator[Place]:
    for rule in rules:
        where = rule.source_line, rule.source_column
        if rule.type == "error":
            yield *where, f"this cannot be read as a style sheet: {rule.message}"
        elif rule.type == "qualified-rule":
            yield from _of_selector(where, tinycss2.serialize(rule.prelude))
            yield from _of_body(rule.content, sheets)
        elif rule.lower_at_keyword in ("media", "supports") and rule.content is not None:
            yield from _of_rules(
                tinycss2.parse_rule_list(rule.content, skip_comments=True, skip_whitespace=True), sheets
            )
        elif rule.lower_at_keyword == "page":
            yield *where, "@page is not offered: paper, margins, head and foot of a sheet say which document it is"
        elif rule.lower_at_keyword != "charset":
            yield (
                *where,
                f"@{rule.lower_at_keyword} is not offered; there are @media and @supports",
            )


def _of_selector(where: tuple[int, int], selector: str) -> Iterator[Place]:
    if re.search(r":(?:has|host|part|slotted|state|popover-open|fullscreen|-)", selector):
        yield *where, f"the selector `{selector.strip()}` is not offered"
    if re.search(r":(?:hover|active|focus|target|visited|checked|open|placeholder)", selector) and not re.fullmatch(
        r"\s*a:[a-z-]+\s*", selector
    ):
        yield *where, f"`{selector.strip()}`: only a link may look different while it is pointed at, as `a:hover`"


def _of_body(content: Iterable[Any], sheets: bool) -> Iterator[Place]:
    for thing in tinycss2.parse_blocks_contents(content, skip_comments=True, skip_whitespace=True):
        if thing.type == "declaration":
            yield from _of_declaration(thing, sheets)
        elif thing.type == "error":
            yield thing.source_line, thing.source_column, f"this cannot be read as a style sheet: {thing.message}"
        else:
            yield thing.source_line, thing.source_column, "a rule stands within a rule; write it on its own"


def _of_declaration(thing: Any, sheets: bool) -> Iterator[Place]:
    name, value = thing.lower_name, tinycss2.serialize(thing.value).strip().lower()
    if why := refused(name, value, sheets=sheets):
        yield thing.source_line, thing.source_column, f"{name}: {why}"


def refused(name: str, value: str, *, sheets: bool = False) -> str:
    """Why a declaration is refused in a style sheet or attribute of a firm's own; empty where it may stand."""
    if functions := set(_FUNCTION.findall(value)) - _FUNCTIONS:
        return f"`{sorted(functions)[0]}()` is not offered; nothing is fetched and nothing reckoned in a style sheet"
    if sheets and _OPEN_ON_SHEETS.fullmatch(name):
        return _of_lengths(value, least=-MOST_POINTS)
    if name in _ONE_OF:
        return "" if value in _ONE_OF[name] else f"may be {', '.join(_ONE_OF[name])} here"
    if name in _JUDGED:
        return _JUDGED[name](value)
    if name in _WRITTEN:
        pattern, said = _WRITTEN[name]
        return "" if re.fullmatch(pattern, value) else said
    if name.startswith("margin") or _FREE.fullmatch(name):
        return _of_lengths(value, least=0.0)
    return "is not offered, since it could lay one thing over another or take words from their place"


def _of_family(value: str) -> str:
    known = {OTHER_SCRIPTS.lower(), *(face.family.lower() for face in FACES)}
    for one in value.split(","):
        if one.strip().strip("\"'") not in known | GENERIC:
            return f"{one.strip()} is none of the program's fonts: {', '.join(sorted({f.family for f in FACES}))}"
    return ""


def _of_font(value: str) -> str:
    found = re.fullmatch(
        r"(?:(?:italic|normal|\d00|bold)\s+)*([\d.]+[a-z%]+)(?:/(?:normal|1(?:\.\d+)?|2))?\s+(.+)", value
    )
    if found is None:
        return 'write it as `600 11pt/1.3 "Barlow"`, its line height from 1 to 2'
    return _of_size(found[1]) or _of_family(found[2])


def _of_size(value: str) -> str:
    found = re.fullmatch(r"(\d*\.?\d+)(pt|px|mm|em|rem|%)", value)
    if found is None:
        return "write it in pt, px, mm, em, rem or %"
    number, unit = float(found[1]), found[2]
    points = number * POINTS.get(unit, 0.12 if unit == "%" else 12.0)
    return "" if LEAST_POINTS <= points <= 100 else f"{value} is not from {LEAST_POINTS:g} to 100 points"


def _of_colour(value: str) -> str:
    if value in ("var(--accent)", "inherit", "none", "transparent"):
        return ""
    colour = parse_color(value)
    if colour is None or colour == "currentcolor" or colour.alpha != 1:
        return "write a colour without transparency, such as #0d3b66"
    return ""


def _of_width(value: str) -> str:
    if value in ("auto", "none", "100%", "max-content", "min-content", "fit-content"):
        return ""
    found = re.fullmatch(r"(\d*\.?\d+)(pt|px|mm|cm|in|rem|em|ch|%)", value)
    if found is None:
        return "write it in mm, px, em or %"
    points = float(found[1]) * {**POINTS, "em": 9.0, "rem": 9.0, "ch": 4.5, "%": 4.5}[found[2]]
    return "" if 18.0 <= points <= MOST_POINTS else f"{value} is too narrow or too wide for words"


def _of_lengths(value: str, *, least: float) -> str:
    for sign, number, unit in _LENGTH.findall(re.sub(r"#[0-9a-f]+|\"[^\"]*\"|'[^']*'", "", value)):
        points = float(f"{sign}{number}") * POINTS.get(unit, 12.0 if unit in ("em", "rem", "vw", "vh", "ch") else 0.75)
        if points < least:
            return f"{sign}{number}{unit} would move it over something else"
        if points > MOST_POINTS:
            return f"{number}{unit} is larger than a sheet"
    return ""


_JUDGED: Final[Mapping[str, Callable[[str], str]]] = {
    "font": _of_font,
    "font-family": _of_family,
    "font-size": _of_size,
    "color": _of_colour,
    "background": _of_colour,
    "background-color": _of_colour,
    "--accent": _of_colour,
    "width": _of_width,
    "max-width": _of_width,
}
_WRITTEN: Final = {
    "line-height": (r"normal|1(\.\d+)?|2(\.\d+)?", "may be normal or a number from 1 to 2.9"),
    "letter-spacing": (r"normal|0|0?\.[01]\d*em", "may be from 0 to 0.19em"),
    "columns": (r"auto|[123]", "may be 1, 2 or 3"),
    "column-count": (r"auto|[123]", "may be 1, 2 or 3"),
}
