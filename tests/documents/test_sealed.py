"""A document that is made to be sealed says so wherever else it says that it is not, and claims nothing of a print."""

from typing import Any

import pytest
from judges.documents import demo

from tracksworn.documents.render.files import Sheet
from tracksworn.documents.report import assess_dossier, builder_of

NUMBER = "MPS-2031-0402"  # it has terms
WORDS = {"en": "sealed file", "de": "Dateisiegel", "es": "archivo sellado", "fr": "fichier scellé"}
NOT = {"en": "not sealed", "de": "nicht gesiegelt", "es": "sin sellar", "fr": "non scellé"}


def view(document: Sheet, language: str, *, sealed: bool) -> Any:
    dossier = demo(NUMBER)
    return builder_of(document)(dossier, assess_dossier(dossier), language=language, sealed=sealed)


def said(shown: Any) -> str:
    """All that speaks of the seal."""
    statement = shown.statement if hasattr(shown, "statement") else (shown.signature.statement,)
    ring = (*shown.ring.words, shown.ring.alternative) if hasattr(shown, "ring") else ()
    return " ".join([*statement, *ring, *(one.note for one in shown.foot)])


@pytest.mark.parametrize("language", WORDS)
@pytest.mark.parametrize("document", list(Sheet))
def test_it_says_so_in_every_language(document: Sheet, language: str) -> None:
    shown = view(document, language, sealed=True)
    assert shown.sealed
    assert WORDS[language] in [one.note for one in shown.foot]
    assert NOT[language] not in said(shown)
    assert "." in said(shown)


@pytest.mark.parametrize("document", list(Sheet))
def test_all_else_is_as_in_one_that_is_not(document: Sheet) -> None:
    sealed, plain = view(document, "en", sealed=True), view(document, "en", sealed=False)
    assert not plain.sealed
    assert NOT["en"] in said(plain)
    assert WORDS["en"] not in said(plain)
    assert sealed.fingerprint == plain.fingerprint
    assert [(one.label, one.value) for one in sealed.foot] == [(one.label, one.value) for one in plain.foot]


def test_a_print_is_said_to_bear_none() -> None:
    for document in Sheet:
        assert "print bears none" in said(view(document, "en", sealed=True))


def test_the_ring_of_a_sealed_certificate_is_whole() -> None:
    assert view(Sheet.CERTIFICATE, "en", sealed=True).ring.sealed
    assert view(Sheet.CERTIFICATE, "en", sealed=True).ring.words[0] == "sealed file"
