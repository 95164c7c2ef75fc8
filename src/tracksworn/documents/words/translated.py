"""The fixed words of a document, all at once."""

from dataclasses import fields, replace
from typing import TYPE_CHECKING, TypeVar

from tracksworn.documents.words.language import Language

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Words = TypeVar("Words", bound="DataclassInstance")


def translated(english: Words, language: Language) -> Words:
    """A dataclass of sentences in the reader's language; places that a page fills itself stay as they are."""
    return replace(english, **{one.name: language.pattern(getattr(english, one.name)) for one in fields(english)})
