"""Numbers as files write them: digits 0 to 9 with at most one point, or a fraction smaller than one."""

import re
from fractions import Fraction

from tracksworn.inspection.written import Wrong, quoted

_DECIMAL = re.compile(r"[0-9]+\.?[0-9]*|\.[0-9]+")
_FRACTION = re.compile(r"(?:([0-9]+)\s+)?([0-9]+)/([0-9]+)")
_MOST_DIGITS = 15


def number(text: str, offset: int = 0, *, fractions: bool = False) -> Fraction:
    """The number that a text is, exactly; `offset` is where it stands in its value, for the message."""
    bare = text.strip()
    offset += len(text) - len(text.lstrip())
    if len(bare) > _MOST_DIGITS and re.fullmatch(r"[0-9./\s]+", bare):
        raise Wrong(f"{quoted(bare)} has more figures than any reading", offset)
    if _DECIMAL.fullmatch(bare):
        return Fraction(bare)
    if fractions and (form := _FRACTION.fullmatch(bare)):
        return _fraction(form, offset)
    raise Wrong(f"{quoted(bare)} is no number; {_why(bare, fractions=fractions)}", offset)


def whole(text: str, low: int, high: int) -> int:
    """A whole number between two bounds."""
    bare = text.strip()
    if not re.fullmatch(r"0|[1-9][0-9]{0,8}", bare) or not low <= int(bare) <= high:
        raise Wrong(f"{quoted(text)} is not allowed here; a whole number from {low} to {high} belongs here")
    return int(bare)


def _fraction(form: re.Match[str], offset: int) -> Fraction:
    above, below = int(form[2]), int(form[3])
    if below == 0 or above >= below:
        raise Wrong("a fraction is smaller than one, with the whole number before it: `1 1/8`, not `9/8`", offset)
    return int(form[1] or 0) + Fraction(above, below)


def _why(text: str, *, fractions: bool) -> str:
    for pattern, words in _SLIPS:
        if re.search(pattern, text):
            return words
    return "write digits with at most one point" + (", or a fraction such as `5 3/16`" if fractions else "")


_SLIPS = (
    (r"^$", "digits are missing"),
    (r"^[0-9.]+[eE][+-]?[0-9]+$", "it is written out, without an exponent"),
    (r"%$", "it has no `%` behind it here"),
    (r";", "several values have commas between them: `131.2, 131.0 mm`"),
    (r"^[0-9]+(\.[0-9]*)?\s*[-/]\s*[0-9]+\.[0-9]*$", "several values have commas between them, and a range has `to`"),
    (r"^\+", "it has no `+` before it"),
    (r"^-", "it is not below nought"),
    (r"_", "it has no `_` in it"),
    (r",", "a decimal mark is a point, and thousands have no mark"),
    (r"\..*\.", "it has at most one point"),
    (r"^[0-9]+(\s+[0-9]+)+$", "a blank stands in it; thousands have none, and several values have commas between them"),
)
