"""Values separated by commas (RFC 4180), as rows of texts that know their line and column."""

import re
from collections.abc import Iterator, Sequence
from typing import Final

from tracksworn.inspection.written import FaultList, Mark, Text

_BARE: Final = re.compile(r"[^,\n]*")
_QUOTED: Final = re.compile(r'"((?:[^"]|"")*)"[ \t]*')


class NotSeparated(ValueError):  # noqa: N818 - never leaves this room
    """The rest of the text cannot be told apart; the fault is already noted."""


def rows_of(text: str, faults: FaultList) -> Iterator[Sequence[Text]]:
    """Rows with anything in them, each value without the blanks around it; raises NotSeparated."""
    place, line, start = 0, 1, 0
    row: list[Text] = []
    while place <= len(text):
        mark = Mark(line, place - start + 1)
        value, after = _value(text, place, mark, faults)
        row.append(Text(value, mark, mark))
        broken = text.count("\n", place, after)
        if broken:
            line, start = line + broken, text.rindex("\n", place, after) + 1
        place = after + 1
        if after == len(text) or text[after] == "\n":
            if any(row):
                yield row
            row, line, start = [], line + 1, place


def _value(text: str, place: int, mark: Mark, faults: FaultList) -> tuple[str, int]:
    """A value and the offset of what ends it."""
    blanks = len(text[place:]) - len(text[place:].lstrip(" \t")) if text[place : place + 1] in " \t" else 0
    if text[place + blanks : place + blanks + 1] != '"':
        found = _BARE.match(text, place)
        return (found[0].strip(), found.end()) if found else ("", place)
    quoted = _QUOTED.match(text, place + blanks)
    if quoted is None:
        faults.add(mark, "the quote that opens here is not closed")
        raise NotSeparated
    if text[quoted.end() : quoted.end() + 1] not in ("", ",", "\n"):
        faults.add(mark, 'a comma belongs behind the quote that ends this value; a quote within one is written `""`')
        raise NotSeparated
    return quoted[1].replace('""', '"').strip(), quoted.end()
