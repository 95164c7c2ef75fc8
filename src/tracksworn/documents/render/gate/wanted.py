"""Which words must stand in every document, and how they are looked for."""

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Final

from tracksworn.documents.render.files import Refused
from tracksworn.documents.words.cautions import CAUTIONS, Caution

HYPHENS: Final = "-\u2010\u2011\ufffe\x02"
"""With the two signs that PDFium reads for a hyphen at the end of a line."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One thing that a document must say, with the name of what says it."""

    identity: str
    text: str
    what: str = "caution"
    least: float = 7.0  # pt

    def missing(self, why: str) -> Refused:
        """The refusal of a document that does not say it."""
        return missing(self.identity, why, self.what)


def wanted(cautions: Iterable[Caution], among: Iterable[Caution] = CAUTIONS) -> tuple[Piece, ...]:
    """Every piece of every caution. Raises Refused where the list itself is not whole, held against those `among`."""
    held = {caution.identity: caution for caution in cautions}
    pieces = [piece for known in among for piece in _pieces(known, held.get(known.identity))]
    return tuple(pieces)


def _pieces(known: Caution, held: Caution | None) -> Iterator[Piece]:
    if held is None:
        raise missing(known.identity, "is not among those of this document")
    for said, original in (
        (held.title, known.title),
        (held.text, known.text),
        (held.references, known.references),
    ):
        if original and not squeezed(said):
            raise missing(known.identity, "has no words in this document")
        if original:
            yield Piece(known.identity, said)


def missing(identity: str, why: str, what: str = "caution") -> Refused:
    """The refusal, naming the caution, or what else is missing."""
    return Refused(f"the document is not handed over: its {what} “{identity}” {why}")


def turns_no_letters(text: str) -> None:
    """Raises Refused for a character that makes letters read backwards."""
    if "\u202d" in text or "\u202e" in text:
        raise Refused("the document is not handed over: it holds a character that turns the order of letters round")


def squeezed(text: str) -> str:
    """The text without blanks, hyphens of line breaks and compatibility forms, so that layout makes no difference."""
    return "".join(map(squeezed_character, text))


@cache
def squeezed_character(character: str) -> str:
    """One character as it is compared; nothing for a blank, a hyphen, a sign without ink, or a colon.

    A colon stands between a name and what is said of it, where a table or a list has none. A hyphen at the end of a
    line reads back from a PDF as another sign, whether the word has it anyway (`au-dessus`) or only there.
    """
    if character.isspace() or character in HYPHENS or character == ":" or unicodedata.category(character) == "Cf":
        return ""
    return unicodedata.normalize("NFKC", character)
