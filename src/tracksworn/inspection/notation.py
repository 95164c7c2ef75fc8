"""The notation of readings, exactly: sizes, estimates by eye, `not seen (reason)`, temperatures, ranges.

Every function takes the text of one value and raises `Wrong` with what is wrong, what would be right, and the offset
of the character that it is about. Lengths come out in millimetres, temperatures in degrees Celsius.
"""

import re
from dataclasses import dataclass
from fractions import Fraction

from tracksworn.inspection.numbers import number
from tracksworn.inspection.values import ByEye, Estimate, NotSeen, Sizes, Temperatures, Value
from tracksworn.inspection.vocabulary import MILLIMETRES_PER, Unit
from tracksworn.inspection.written import TightComma, Wrong, quoted

_OTHER_UNITS = {
    **dict.fromkeys(("inch", "inches", "in.", "ins", '"', "''"), "in"),
    **dict.fromkeys(("foot", "feet", "ft.", "'"), "ft"),
    **dict.fromkeys(("millimetre", "millimetres", "millimeter", "millimeters", "mm."), "mm"),
    **dict.fromkeys(("centimetre", "centimetres", "centimeter", "centimeters", "cm."), "cm"),
    "°c": "C",
    "°f": "F",
}
_CHARACTERS = {
    "\u2212": "a minus is written `-`",
    "\u2013": "a dash is written `-`",
    "\u2014": "a dash is written `-`",
    "\u00b1": "the figure alone is written, without `±`",
    "\u00a0": "a blank is an ordinary blank, not a no-break space",
    "\u202f": "a blank is an ordinary blank, not a no-break space",
    "\u00b0": "degrees are written `C` or `F`",
    "\u2033": "inches are written `in`",
    "\u2032": "feet are written `ft`",
    "\u2044": "a fraction is written with `/`",
}
_ESTIMATES = "write `by eye 40 to 50 %`, `by eye about 40 %`, `by eye at least 40 %` or `by eye at most 40 %`"
_LENGTHS = tuple(unit.value for unit in Unit)
_DEGREES = ("C", "F")
_UNIT = re.compile(r"[^\d\s.,/+_-][^\d\s,]*\s*$")
_ABSOLUTE_ZERO = -273.15
TIGHT_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9])")


@dataclass(frozen=True, slots=True)
class _Entry:
    """What stands between two commas, without its blanks."""

    text: str
    offset: int


def value(text: str, *, nought: bool = False) -> Value:
    """What one entry of a reading says: sizes in mm, an estimate by eye, or why there is neither."""
    if re.match(r"\s*by\s+eye\b", text, re.IGNORECASE):
        return by_eye(text)
    if re.match(r"\s*not\s+seen\b", text, re.IGNORECASE):
        return not_seen(text)
    if "%" in text:
        raise Wrong(f"{quoted(text)} is a percent, so an estimate; {_ESTIMATES}")
    if not re.search(r"[0-9]", text) and text.strip() != "-":
        _refuse_characters(text)
        raise Wrong(
            f"{quoted(text)} is no reading; write sizes with their unit (`131.2, 131.0 mm`), "
            "`by eye about 40 %` or `not seen (reason)`"
        )
    return sizes(text, nought=nought)


def sizes(text: str, *, nought: bool = False) -> Sizes:
    """Lengths with one unit at the end, commas between several, `-` for what was not measured."""
    _refuse_characters(text)
    if text.strip() == "-":
        return Sizes((None,))
    entries, unit = _with_one_unit(text, _LENGTHS)
    read = tuple(None if entry.text == "-" else _millimetres(_size(entry, nought=nought), unit) for entry in entries)
    return Sizes(read, Unit(unit))


def length(text: str, *, nought: bool = False) -> float:
    """One length, mm."""
    read = sizes(text, nought=nought).values
    if len(read) != 1:
        raise Wrong(f"one size belongs here, not {len(read)}", text.index(",") if "," in text else 0)
    if read[0] is None:
        raise Wrong("a size belongs here, such as `131.2 mm`")
    return read[0]


def length_range(text: str) -> tuple[float, float]:
    """`55 to 75 mm`: two lengths, mm, the smaller first."""
    _refuse_characters(text)
    parts = re.fullmatch(r"(.*?)\bto\b(.*)", text, re.DOTALL)
    if parts is None:
        raise Wrong(f"{quoted(text)} is no range; write `55 to 75 mm`")
    entries, unit = _with_one_unit(parts[2], _LENGTHS, parts.start(2))
    if len(entries) != 1:
        raise Wrong("a range has two sizes: `55 to 75 mm`", entries[1].offset)
    first = _Entry(parts[1].strip(), len(parts[1]) - len(parts[1].lstrip()))
    if _UNIT.search(first.text):
        raise Wrong("the unit stands once, at the end: `55 to 75 mm`", first.offset)
    low, high = _size(first), _size(entries[0])
    if low >= high:
        raise Wrong("the smaller size stands first: `55 to 75 mm`", first.offset)
    return _millimetres(low, unit), _millimetres(high, unit)


def by_eye(text: str) -> ByEye:
    """`by eye 40 to 50 %`, `by eye about 40 %`, `by eye at least 40 %` or `by eye at most 40 %`."""
    _refuse_characters(text)
    form = re.fullmatch(r"\s*by\s+eye\s+(about\s+|at\s+least\s+|at\s+most\s+)?(.*?)\s*%\s*", text, re.DOTALL)
    if form is None:
        hint = "" if "%" in text else "the `%` is missing; "
        raise Wrong(f"{quoted(text)} does not read; {hint}{_ESTIMATES}")
    if "%" in form[2]:
        raise Wrong("the `%` stands once, at the end: `by eye 40 to 50 %`", form.start(2) + form[2].index("%"))
    how = " ".join((form[1] or "").split())
    if how:
        percent = float(number(form[2], form.start(2)))
        return ByEye(Estimate(how), percent, percent)
    both = re.fullmatch(r"(.*?)\s+to\s+(.*)", form[2], re.DOTALL)
    if both is None:
        raise Wrong(f"an estimate is a range or says how it is meant; {_ESTIMATES}", form.start(2))
    low, high = number(both[1], form.start(2)), number(both[2], form.start(2) + both.start(2))
    if low > high:
        raise Wrong("the smaller percent stands first: `by eye 40 to 50 %`", form.start(2))
    return ByEye(Estimate.RANGE, float(low), float(high))


def not_seen(text: str) -> NotSeen:
    """`not seen (reason)`; the reason is required."""
    form = re.fullmatch(r"\s*not\s+seen\s*\((.*)\)\s*", text, re.DOTALL)
    if form is None or not form[1].strip():
        raise Wrong("the reason is missing or its bracket is not closed; write `not seen (guards fitted)`")
    return NotSeen(" ".join(form[1].split()))


def temperatures(text: str) -> Temperatures:
    """Temperatures with `C` or `F` at the end; they may begin with `-`; `-` alone was not measured."""
    _refuse_characters(text)
    if text.strip() == "-":
        return Temperatures((None,))
    entries, unit = _with_one_unit(text, _DEGREES)
    return Temperatures(tuple(None if entry.text == "-" else _celsius(entry, unit) for entry in entries))


def temperature(text: str) -> float:
    """One temperature, °C."""
    read = temperatures(text).values
    if len(read) != 1 or read[0] is None:
        raise Wrong("one temperature belongs here, such as `18 C`")
    return read[0]


def _size(entry: _Entry, *, nought: bool = False) -> Fraction:
    if not entry.text:
        raise Wrong("a size is missing here; `-` stands for what was not measured", entry.offset)
    if entry.text.startswith("-"):
        raise Wrong("a size is above nought; `-` stands alone for what was not measured", entry.offset)
    size = number(entry.text, entry.offset, fractions=True)
    if size == 0 and not nought:
        raise Wrong("a size is above nought; `-` stands for what was not measured", entry.offset)
    return size


def _millimetres(size: Fraction, unit: str) -> float:
    """Rounded once, so that a size is the same number in whichever unit it was written."""
    return float(size * Fraction(str(MILLIMETRES_PER[Unit(unit)])))


def _celsius(entry: _Entry, unit: str) -> float:
    if not entry.text:
        raise Wrong("a temperature is missing here; `-` stands for what was not measured", entry.offset)
    sign = -1 if entry.text.startswith("-") else 1
    digits = entry.text.removeprefix("-")
    if digits.startswith(" "):
        raise Wrong("a minus stands right before its digits; `-` alone is what was not measured", entry.offset)
    degrees = sign * number(digits, entry.offset + len(entry.text) - len(digits))
    celsius = float(degrees if unit == "C" else (degrees - 32) * 5 / 9)
    if celsius < _ABSOLUTE_ZERO:
        raise Wrong("no temperature is as low as that", entry.offset)
    return celsius


def _refuse_characters(text: str) -> None:
    for offset, character in enumerate(text):
        if character.isascii():
            continue
        if character.isdigit() or character.isnumeric():
            raise Wrong(f"`{character}` is no digit 0 to 9; fractions are written `3/16`", offset)
        why = _CHARACTERS.get(character, "a reading is written with plain letters and digits")
        raise Wrong(f"`{character}` does not belong in a reading; {why}", offset)


def _split(text: str, start: int) -> list[_Entry]:
    entries: list[_Entry] = []
    offset = start
    for part in text.split(","):
        entries.append(_Entry(part.strip(), offset + len(part) - len(part.lstrip())))
        offset += len(part) + 1
    return entries


def _with_one_unit(text: str, units: tuple[str, ...], start: int = 0) -> tuple[list[_Entry], str]:
    """The entries without their unit, and the unit: one, behind the last that has a figure."""
    refuse_tight_commas(text, start)
    entries = _split(text, start)
    found = [(index, unit) for index, entry in enumerate(entries) if (unit := _UNIT.search(entry.text))]
    if not found:
        raise Wrong(f"the unit is missing; one of {', '.join(units)} stands at the end", start + len(text.rstrip()))
    index, unit = found[0]
    offset = entries[index].offset + unit.start()
    if len(found) > 1 or any(later.text != "-" for later in entries[index + 1 :]):
        raise Wrong("the unit stands once, at the end: `131.2, 131.0 mm`", offset)
    word = unit[0].strip()
    if word not in units:
        raise Wrong(_no_unit(word, units), offset)
    bare = entries[index].text[: unit.start()].rstrip()
    if re.search(r"[0-9]\s*(mm|cm|in|ft)\b", bare):
        raise Wrong("one unit belongs here: `63 in`, not `5 ft 3 in`", entries[index].offset)
    entries[index] = _Entry(bare, entries[index].offset)
    return entries, word


def _no_unit(word: str, units: tuple[str, ...]) -> str:
    meant = _OTHER_UNITS.get(word.lower(), next((unit for unit in units if unit.lower() == word.lower()), None))
    known = f"write `{meant}`" if meant in units else f"write one of {', '.join(units)}"
    return f"{quoted(word)} is no unit here; {known}"


def refuse_tight_commas(text: str, start: int = 0) -> None:
    """Refuse a comma between two digits without a blank: it may be meant as a decimal mark."""
    tight = TIGHT_COMMA.search(text)
    if tight:
        raise TightComma(
            "a comma between two digits may be a decimal comma; write a point (`92.5`), or a blank after a comma "
            "between two values",
            start + tight.start(),
        )
