"""Every field of a listing sheet's view tells whoever lays it out what it holds."""

from dataclasses import fields

import pytest

from tracksworn.documents.described import describe, views_within
from tracksworn.documents.listing.headings import Headings, headings
from tracksworn.documents.listing.view import Listing
from tracksworn.documents.words.language import Language


@pytest.mark.parametrize("view", views_within(Listing))
def test_every_field_has_its_help(view: type) -> None:
    for field in describe(view):
        assert len(field.help) >= 8, f"{field.view}.{field.name} has no help"


def test_headings_are_all_there_in_every_language() -> None:
    assert headings(Language()) == Headings()
    assert all(getattr(headings(Language("de")), field.name) for field in fields(Headings))
