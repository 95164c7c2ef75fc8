"""The languages that documents are written in."""

import re
from typing import Final

LANGUAGES: Final = ("de", "en", "es", "fr")
"""By ISO 639-1."""


def all_languages(before_last: str) -> str:
    """Their codes as a list in a sentence, with `and` or `or` before the last."""
    *first, last = LANGUAGES
    return f"{', '.join(first)} {before_last} {last}"


def not_a_language(tag: str) -> str | None:
    """What is wrong with a language's tag (BCP 47), and what would be right; None where documents can be in it."""
    language, _, country = tag.partition("-")
    if language in LANGUAGES and (not country or _is_known(language, country)):
        return None
    return (
        f"is no language of the documents; these are {all_languages('and')}, "
        "also as a country writes its numbers and dates, such as `de-AT` or `en-US`"
    )


def _is_known(language: str, country: str) -> bool:
    from babel.localedata import exists  # noqa: PLC0415 - tables of languages, for tags with a country alone

    return re.fullmatch(r"[A-Z]{2}|[0-9]{3}", country) is not None and exists(f"{language}_{country}")
