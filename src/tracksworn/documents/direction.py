"""Which way each part of a line reads, by the Unicode Bidirectional Algorithm (UAX #9) as Pango has it for pages."""

import sys
import unicodedata
from collections.abc import Sequence
from functools import cache
from typing import Any, Final, TypeVar

T = TypeVar("T")

_RIGHT_TO_LEFT: Final = ("R", "AL", "AN")
_NAMES: Final = {"win32": "libpango-1.0-0.dll", "darwin": "libpango-1.0.dylib"}
_TO_THE_RIGHT: Final = 0  # PANGO_DIRECTION_LTR


def reads_leftward(text: str) -> bool:
    """Whether any of it is written from right to left."""
    return not text.isascii() and any(unicodedata.bidirectional(character) in _RIGHT_TO_LEFT for character in text)


def begins_leftward(text: str, *, otherwise: bool = False) -> bool:
    """Whether the first letter of a text is one that reads leftward (UAX #9, rules P2 and P3)."""
    classes = map(unicodedata.bidirectional, text)
    first = next((one for one in classes if one in ("L", "R", "AL")), None)
    return otherwise if first is None else first != "L"


def levels(line: str) -> tuple[int, ...]:
    """The embedding level of each character of a line that begins on the left; odd ones read leftward."""
    if not reads_leftward(line):
        return (0,) * len(line)
    ffi, pango = _pango()
    encoded = line.encode("utf-8")
    base = ffi.new("int *", _TO_THE_RIGHT)
    found = pango.pango_log2vis_get_embedding_levels(ffi.new("char[]", encoded), len(encoded), base)
    try:
        return tuple(found[0 : len(line)])
    finally:
        pango.g_free(found)


def as_seen(parts: Sequence[tuple[int, T]]) -> list[tuple[int, T]]:
    """Parts of a line with their levels, in the order in which they stand from left to right (UAX #9, rule L2)."""
    ordered = list(parts)
    for level in range(max((level for level, _ in parts), default=0), 0, -1):
        start = 0
        while start < len(ordered):
            end = start
            while end < len(ordered) and ordered[end][0] >= level:
                end += 1
            ordered[start:end] = ordered[start:end][::-1]
            start = max(end, start + 1)
    return ordered


@cache
def _pango() -> tuple[Any, Any]:
    """Pango's own function for it; the page engine has loaded the library already."""
    from cffi import FFI  # noqa: PLC0415

    ffi = FFI()
    ffi.cdef(
        "uint8_t *pango_log2vis_get_embedding_levels(const char *text, int length, int *base);"
        "void g_free(void *memory);"
    )
    return ffi, ffi.dlopen(_NAMES.get(sys.platform, "libpango-1.0.so.0"))
