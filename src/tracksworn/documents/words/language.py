"""A reader's language: the marks for sentences, and the sentences as that language says them."""

from dataclasses import dataclass

from tracksworn.documents.words.catalogues.catalogue import CONTEXT, Catalogue, catalogue


def N_(message: str) -> str:  # noqa: N802 - the name that gettext's tools look for
    """Mark a sentence for the catalogues where it stands; it is translated where it is used."""
    return message


def NP_(one: str, many: str) -> tuple[str, str]:  # noqa: N802 - beside `N_`
    """Mark a sentence that differs by a number, for `Language.count`: of one, and of many."""
    return one, many


def C_(context: str, message: str) -> str:  # noqa: N802 - beside `N_`
    """Mark words that other languages say in several ways, with what is meant here."""
    return context + CONTEXT + message


@dataclass(frozen=True)
class Language:
    """One language by its BCP 47 code. English is the language of the sources and needs no catalogue."""

    code: str = "en"

    @property
    def _catalogue(self) -> Catalogue:
        return catalogue(self.code)

    def say(self, message: str, /, **places: str) -> str:
        """The sentence in this language with its places filled."""
        return self._catalogue.say(message).format(**places)

    def pattern(self, message: str) -> str:
        """The sentence in this language, its places still to be filled."""
        return self._catalogue.say(message)

    def count(self, one: str, many: str, n: int, /, **places: str) -> str:
        """The sentence for n things, `{n}` in it the number."""
        return self._catalogue.count(one, many, n).format(n=n, **places)
