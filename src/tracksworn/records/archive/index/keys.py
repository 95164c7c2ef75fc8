"""What is compared when something is looked for: without case, accents and signs, in which people differ."""

import unicodedata


def plain_words(text: str) -> str:
    """The words of a text with single blanks between them."""
    bare = "".join(sign for sign in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(sign))
    return " ".join("".join(sign if sign.isalnum() else " " for sign in bare).split())


def whole_key(text: str) -> str:
    """A text in which blanks and hyphens do not count either, for serial numbers."""
    return plain_words(text).replace(" ", "")
