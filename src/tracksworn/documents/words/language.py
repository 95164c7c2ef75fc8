"""A reader's language: gettext catalogues and the locale that figures are written in."""

import gettext
from dataclasses import dataclass, field


def N_(message: str) -> str:  # noqa: N802 - the name that gettext's tools look for
    """Mark a sentence for the catalogues where it stands; it is translated where it is used."""
    return message


@dataclass(frozen=True)
class Language:
    """One language by its BCP 47 code. English is the language of the sources."""

    code: str = "en"
    catalogue: gettext.NullTranslations = field(default_factory=gettext.NullTranslations, compare=False)

    def say(self, message: str, /, **places: str) -> str:
        """The sentence in this language with its places filled."""
        return self.catalogue.gettext(message).format(**places)

    def count(self, one: str, many: str, n: int, /, **places: str) -> str:
        """The sentence for n things, `{n}` in it the number."""
        return self.catalogue.ngettext(one, many, n).format(n=n, **places)
