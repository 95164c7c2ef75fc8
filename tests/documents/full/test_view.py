"""Every field of every view tells whoever lays it out what it holds."""

from dataclasses import fields

import pytest

from tracksworn.assessment.findings.codes import CODES
from tracksworn.documents.described import describe, views_within
from tracksworn.documents.full.findings import NO_WEAR
from tracksworn.documents.full.headings import Headings, headings
from tracksworn.documents.full.view import FullReport
from tracksworn.documents.words.cautions import Caution
from tracksworn.documents.words.language import Language

VIEWS = (*views_within(FullReport), Caution)


def test_all_views_are_found() -> None:
    names = {view.__name__ for view in VIEWS}
    assert {
        "FullReport",
        "PartRow",
        "PartSide",
        "Delta",
        "FindingView",
        "PhotoView",
        "Labelled",
        "NotSeenView",
    } <= names


@pytest.mark.parametrize("view", VIEWS)
def test_every_field_has_its_help(view: type) -> None:
    described = describe(view)
    assert described
    for field in described:
        assert len(field.help) >= 8, f"{field.view}.{field.name} has no help"


def test_what_is_no_view_is_refused() -> None:
    with pytest.raises(TypeError, match="int is no view"):
        describe(int)


def test_headings_are_all_there_in_every_language() -> None:
    english, other = headings(Language()), headings(Language("de"))
    assert english == Headings()
    assert all(getattr(other, field.name) for field in fields(Headings))


def test_findings_without_a_section_are_findings() -> None:
    assert set(CODES) >= NO_WEAR
