"""Slips as people make them in files, each of which `check` tells of."""

import re
from collections.abc import Callable, Mapping
from typing import Final

from tracksworn.batch.sample.dice import Dice


def slipped(text: str, dice: Dice) -> str:
    """The text of an inspection with one slip that it has a place for."""
    possible = [slip for slip in SLIPS.values() if slip(text) != text]
    return dice.among(possible)(text)


def _once(pattern: str, by: str) -> Callable[[str], str]:
    found = re.compile(pattern, re.MULTILINE)
    return lambda text: found.sub(by, text, count=1)


SLIPS: Final[Mapping[str, Callable[[str], str]]] = {
    "decimal comma": _once(r"^(    left: \d+)\.(\d+ mm)$", r"\1,\2"),
    "no unit": _once(r"^(    (?:left|right): \d[\d., ]*?) mm$", r"\1"),
    "day first": _once(r"^inspected: (\d+)-(\d+)-(\d+)$", r"inspected: \3.\2.\1"),
    "key misspelt": _once(r"^  sprocket:$", "  sproket:"),
    "tab for blanks": _once(r"^  maker: ", "\tmaker: "),
    "chart misnamed": _once(r"^chart: (\.\./charts/[a-z-]*)-", r"chart: \1"),
    "letterhead elsewhere": _once(r"^letterhead: \.\./letterheads/", "letterhead: ../letterhead/"),
    "thousands comma": _once(r"^  hours: (\d)(\d{3})$", r"  hours: \1,\2"),
    "percent alone": _once(r"by eye about (\d+ %)", r"\1"),
    "no serial": _once(r"^  serial: .*\n", ""),
    "another word": _once(r"^    seen: leak$", "    seen: leaking"),
    "grade by letter": _once(r"^    grade: slight$", "    grade: B"),
    "one roller too few": _once(r"^(  bottom roller:\n    with: .*\n    left: )[\d.]+, ", r"\1"),
    "quote left open": _once(r"^  serial: (.*)$", r'  serial: "\1'),
    "written twice": _once(r"^(number: .*\n)", r"\1\1"),
    "brace left open": _once(r"^(  shoe: \{.*)\}$", r"\1"),
    "reason without braces": _once(r"not seen \((.*)\)$", r"not seen, \1"),
    "layout by another word": _once(r"^  layout: excavator$", "  layout: digger"),
}
"""What each does to a text; one that finds no place for it gives the text back."""
