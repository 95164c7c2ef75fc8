"""A language's sentences, read from its catalogue once in a process.

By a reader of our own, for no document may wait for it: Babel's, which makes the catalogues, takes many times as long.
"""

import json
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from gettext import c2py
from importlib import resources
from typing import Final

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
    return parsed(resources.files(__package__).joinpath(f"{base}.po").read_text(encoding="utf-8"))


_PLURAL_FORMS: Final = re.compile(r"^Plural-Forms:.*\bplural=(.*?);$", re.MULTILINE)


def parsed(text: str) -> Catalogue:
    """What the text of a catalogue holds (PO files as GNU gettext has them). A sentence not translated is left out."""
    sentences: dict[str, str] = {}
    plurals: dict[str, tuple[str, ...]] = {}
    head = ""
    for context, one, many, said in _messages(text):
        if not one:
            head = said[0]
        elif all(said):
            key = one if context is None else context + CONTEXT + one
            if many is None:
                sentences[key] = said[0]
            else:
                plurals[key] = said
    forms = _PLURAL_FORMS.search(head)
    return Catalogue(sentences, plurals, c2py(forms[1])) if forms else Catalogue(sentences)


def _messages(text: str) -> Iterator[tuple[str | None, str, str | None, tuple[str, ...]]]:
    """Context, sentence, that of many, and translations of each message."""
    for block in text.split("\n\n"):
        fields: dict[str, str] = {}
        name = ""
        for line in block.splitlines():
            if line.startswith("msg"):
                name, _, quoted = line.partition(" ")
            elif line.startswith('"'):
                quoted = line
            else:
                continue
            fields[name] = fields.get(name, "") + _unquoted(quoted)
        if "msgid" in fields:
            said = tuple(words for name, words in fields.items() if name.startswith("msgstr"))
            yield fields.get("msgctxt"), fields["msgid"], fields.get("msgid_plural"), said


def _unquoted(line: str) -> str:
    return str(json.loads(line)) if "\\" in line else line.rstrip()[1:-1]
