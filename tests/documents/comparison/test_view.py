"""Every field of a comparison's view tells whoever lays it out what it holds."""

from dataclasses import fields

import pytest

from tracksworn.documents.comparison.headings import Headings, headings
from tracksworn.documents.comparison.view import Comparison
from tracksworn.documents.described import describe, views_within
from tracksworn.documents.words.language import Language

VIEWS = views_within(Comparison)


def test_all_views_are_found() -> None:
    names = {view.__name__ for view in VIEWS}
    assert {"Comparison", "MachineView", "OverallView", "RowView", "HalfView", "PairView", "TwiceView"} <= names


@pytest.mark.parametrize("view", VIEWS)
def test_every_field_has_its_help(view: type) -> None:
    for field in describe(view):
        assert len(field.help) >= 8, f"{field.view}.{field.name} has no help"


def test_headings_are_all_there_in_every_language() -> None:
    english, other = headings(Language()), headings(Language("de"))
    assert english == Headings()
    assert all(getattr(other, field.name) for field in fields(Headings))
