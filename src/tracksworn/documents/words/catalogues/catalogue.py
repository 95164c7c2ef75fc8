"""A language's sentences, read from its catalogue once in a process."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from gettext import c2py
from importlib import resources
from typing import Final

from babel.messages.pofile import read_po

from tracksworn.inspection.languages import LANGUAGES

SOURCES: Final = "en"
"""The language that the sources are written in: it needs no catalogue."""
TRANSLATED: Final = tuple(one for one in LANGUAGES if one != SOURCES)
CONTEXT: Final = "\x04"
"""Between a context and its words, as gettext keeps them."""


@dataclass(frozen=True)
class Catalogue:
    """Sentences by those of the sources; what has none is said as the sources say it."""

    sentences: Mapping[str, str] = field(default_factory=dict)
    plurals: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # by the sentence of one
    form: Callable[[int], int] = field(default=c2py("n != 1"))  # which of its forms a number takes

    def say(self, message: str) -> str:
        """The sentence in this language."""
        return self.sentences.get(message) or without_context(message)

    def count(self, one: str, many: str, n: int) -> str:
        """The sentence for n things in this language."""
        forms = self.plurals.get(one)
        return forms[self.form(n)] if forms else without_context(one if n == 1 else many)


def without_context(message: str) -> str:
    """The words themselves, of a message that may carry a context."""
    return message.rpartition(CONTEXT)[2]


def base_of(code: str) -> str:
    """The language of a code, without its country: `de` of `de-AT`."""
    return code.partition("-")[0].lower()


@cache
def catalogue(code: str) -> Catalogue:
    """The sentences of a language by its BCP 47 code; those of the sources where there is no catalogue for it."""
    base = base_of(code)
    if base not in TRANSLATED:
        return Catalogue()
    with resources.files(__package__).joinpath(f"{base}.po").open("rb") as file:
        read = read_po(file, locale=base)
    sentences, plurals = {}, {}
    for message in read:
        key = message.id if isinstance(message.id, str) else message.id[0]
        if isinstance(message.string, str):
            sentences[_key(message.context, key)] = message.string
        elif message.string and all(message.string):
            plurals[_key(message.context, key)] = tuple(message.string)
    return Catalogue(sentences, plurals, c2py(read.plural_expr))


def _key(context: str | None, message: str) -> str:
    return message if context is None else context + CONTEXT + message
