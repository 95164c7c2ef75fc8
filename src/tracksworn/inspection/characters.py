"""Characters that a text may hold. Files are UTF-8; what cannot be seen, or turns text about, is refused."""

import re
import unicodedata
from collections.abc import Callable

from tracksworn.inspection.written import FaultList, Mark

_MOST_TOLD = 20
_JOINERS = "\u200c\u200d"  # zero-width, and needed between the letters of some scripts
_KINDS = (
    ("a control character", r"\x00-\x08\x0b-\x1f\x7f-\x9f"),
    ("a character that turns the direction of text", r"\u202a-\u202e\u2066-\u2069"),
    ("an invisible character", r"\u200b\u200c\u200d\u2060\ufeff"),
    ("a line separator", r"\u2028\u2029"),  # ends a line for YAML 1.1, and for no editor
    ("half a character", r"\ud800-\udfff"),
)
_SUSPECT = re.compile("|".join(f"([{characters}])" for _, characters in _KINDS))


def decoded(content: bytes, faults: FaultList) -> str | None:
    """The text of a file with LF at the ends of lines, or None where it is no UTF-8 or full of what is refused."""
    body = content.removeprefix(b"\xef\xbb\xbf")
    try:
        text = body.decode("utf-8").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        before = body[: error.start].decode("utf-8")
        faults.add(
            _mark_of(before, len(before)), f"the byte 0x{body[error.start]:02X} is not UTF-8; save the file as UTF-8"
        )
        return None
    refused = report_characters(text, lambda offset: _mark_of(text, offset), faults)
    if len(refused) >= _MOST_TOLD:
        return None
    readable = list(text)
    for offset in refused:
        readable[offset] = "\ufffd"  # so that the rest of the file can be read, each thing at its place
    return "".join(readable)


def report_characters(
    text: str, mark_of: Callable[[int], Mark], faults: FaultList, *, by_escape: bool = False
) -> list[int]:
    """Note the characters that are refused, at most 20, and give their offsets."""
    refused: list[int] = []
    for found in _SUSPECT.finditer(text):
        if found[0] in _JOINERS and _between_letters(text, found.start()):
            continue
        kind = _KINDS[(found.lastindex or 1) - 1][0]
        how = ", written as an escape" if by_escape else ""
        faults.add(mark_of(found.start()), f"{kind} (U+{ord(found[0]):04X}{how}) stands here; take it out")
        refused.append(found.start())
        if len(refused) == _MOST_TOLD:
            break
    return refused


def _between_letters(text: str, offset: int) -> bool:
    around = (text[max(offset - 1, 0) : offset], text[offset + 1 : offset + 2])
    return all(character and unicodedata.category(character)[0] in "LM" for character in around)


def _mark_of(text: str, offset: int) -> Mark:
    return Mark(text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset))
