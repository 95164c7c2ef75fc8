"""The table of languages, and the places that name all of them by hand."""

from pathlib import Path

import pytest

from tracksworn.documents.words.catalogues.merge import PLURALS
from tracksworn.inspection.languages import LANGUAGES, all_languages

ROOT = Path(__file__).parents[2]


def test_all_languages_make_a_list_in_a_sentence() -> None:
    assert all_languages("or") == "de, en, es or fr"


def test_every_language_but_that_of_the_sources_has_its_plurals() -> None:
    assert {*PLURALS, "en"} == set(LANGUAGES)


@pytest.mark.parametrize("file", ["README.md", "src/tracksworn/inspection/starting.py"])
def test_where_a_letterhead_is_shown_all_are_named(file: str) -> None:
    assert f"# {' | '.join(LANGUAGES)}, also with a country" in (ROOT / file).read_text(encoding="utf-8")
