"""A firm's own style sheet as it is written: rather a harmless rule refused than one that covers or removes words.

What has no effect on other elements than its own may be set freely; what can lay one thing over another, move it out
of its place or take its ink may not. Sheets (PDF) are judged by what is seen on them besides, so more is open there.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Final

import tinycss2

from tracksworn.documents.render.gate.values import (
    LEAST_FACTOR,
    LEAST_POINTS,
    POINTS,
    TABLE,
    foreign_family,
    large_enough,
    opaque,
    own_families,
    split_font,
    split_size,
    width_of,
)

Place = tuple[int, int, str]
"""Line, column, what is wrong."""

MOST_POINTS: Final = 1200.0
MOST_SIZE: Final = 100.0
LEAST_WIDTH: Final = 18.0
_FREE: Final = re.compile(
    r"border(?:-(?:top|right|bottom|left))?(?:-(?:width|style|color))?|border-radius|border-collapse|border-spacing|"
    r"padding(?:-(?:top|right|bottom|left))?|gap|row-gap|column-gap|column-rule|grid-template-columns|"
    r"break-(?:before|after|inside)|page-break-(?:before|after|inside)|orphans|widows|hyphens|quotes|caption-side|"
    r"counter-(?:reset|increment)|content|list-style(?:-type|-position)?|table-layout|box-sizing|min-width|min-height|"
    r"text-align|font-weight|font-variant(?:-[a-z-]+)?|font-kerning|overflow-wrap|tab-size|text-underline-offset|"
    r"float|clear|flex-wrap|print-color-adjust|string-set|bookmark-(?:level|label|state)|page|stroke-width"
)
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
    if name in TABLE:
        return TABLE[name].refused(value)
    if name in _JUDGED:
        return _JUDGED[name](value)
    if name.startswith("margin") or _FREE.fullmatch(name):
        return _of_lengths(value, least=0.0)
    return "is not offered, since it could lay one thing over another or take words from their place"


def _of_family(value: str) -> str:
    foreign = foreign_family(value)
    return f"{foreign} is none of the program's fonts: {own_families()}" if foreign else ""


def _of_font(value: str) -> str:
    font = split_font(value)
    if font is None:
        return 'write it as `600 11pt/1.3 "Barlow"`, its line height from 1 to 2'
    return _of_size(font[0]) or _of_family(font[1])


def _of_size(value: str) -> str:
    size = split_size(value)
    if size is None:
        return "write it in pt, px, mm, em, rem or %"
    number, unit = size
    if large_enough(number, unit) and number * POINTS.get(unit, 0.12 if unit == "%" else 12.0) <= MOST_SIZE:
        return ""
    least = f"{LEAST_POINTS:g} points, {LEAST_FACTOR:g}em or {LEAST_FACTOR:.0%}"
    return f"{value} is less than {least}, or more than {MOST_SIZE:g} points"


def _of_colour(value: str) -> str:
    if value in ("var(--accent)", "inherit", "none", "transparent") or opaque(value) is not None:
        return ""
    return "write a colour without transparency, such as #0d3b66"


def _of_width(value: str) -> str:
    width = width_of(value)
    if width is None:
        return "write it in mm, px, em or %"
    return (
        ""
        if LEAST_WIDTH <= width <= MOST_POINTS or width == float("inf")
        else f"{value} is too narrow or too wide for words"
    )


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
