"""What is compared when something is looked for: without case, accents and signs, in which people differ."""

import re
import unicodedata
from typing import Final

_PLAIN: Final = re.compile("[a-z0-9]+")


def plain_words(text: str) -> str:
    """The words of a text with single blanks between them."""
    return " ".join(_words(text))


def whole_key(text: str) -> str:
    """A text in which blanks and hyphens do not count either, for serial numbers."""
    return "".join(_words(text))


def _words(text: str) -> list[str]:
    if text.isascii():
        return _PLAIN.findall(text.lower())
    bare = "".join(sign for sign in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(sign))
    return "".join(sign if sign.isalnum() else " " for sign in bare).split()
