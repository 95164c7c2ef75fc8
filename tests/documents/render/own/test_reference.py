"""What a template's author is told of pages, held against what pages get."""

from collections.abc import Iterator

import lots
import pytest
from certificates import certified
from documents.render.conftest import view
from side_by_side import looked_at, set_side_by_side

from tracksworn.documents import resources
from tracksworn.documents.render import pages
from tracksworn.documents.render.document import Document
from tracksworn.documents.render.kinds import KINDS, kind_of
from tracksworn.documents.render.own.reference import OF_HTML, OF_KIND, OWN_FILTERS, VALUES, reference
from tracksworn.documents.render.own.sandbox import FILTERS
from tracksworn.documents.render.own.templates import OwnTemplates
from tracksworn.documents.render.render import render


class Asked(Exception):  # noqa: N818
    """A page was to be filled."""


def documents() -> Iterator[Document]:
    yield from (view("short"), lots.ordinary(), certified(), set_side_by_side(looked_at("118"), looked_at("131")))


def given(shown: Document, form: str, monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """The names of the values that a page is first filled with."""
    names: list[str] = []

    def fill(name: str, own: OwnTemplates | None, values: dict[str, object]) -> str:
        names.extend(values)
        raise Asked

    monkeypatch.setattr(pages, "fill_page", fill)
    monkeypatch.setattr(pages, "fill_markdown", fill)
    with pytest.raises(Asked):
        render(shown, [form])
    return set(names)


def test_every_value_that_a_page_gets_is_described(monkeypatch: pytest.MonkeyPatch) -> None:
    for shown in documents():
        own = set(OF_KIND.get(kind_of(shown).name, {}))
        of_all = set(VALUES)
        assert given(shown, "md", monkeypatch) == of_all
        assert given(shown, "html", monkeypatch) | given(shown, "pdf", monkeypatch) == of_all | set(OF_HTML) | own


def test_every_filter_of_the_program_is_described() -> None:
    environments = {"html": pages._html_environment(None), "md": pages._markdown_environment(None)}
    nothing = OwnTemplates(resources.templates(), {})
    sandboxed = {"html": pages._html_environment(nothing), "md": pages._markdown_environment(nothing)}
    for form, filters in OWN_FILTERS.items():
        assert set(filters) | set(FILTERS) == set(sandboxed[form].filters)
        assert set(filters) <= set(environments[form].filters)


def test_each_kind_has_the_name_and_view_that_the_table_says() -> None:
    assert [one.name for one in KINDS] == [one.load().name for one in KINDS]
    assert {one.load_view() for one in KINDS} == {type(one) for one in documents()}
    assert [kind_of(one).name for one in documents()] == [one.name for one in KINDS]


def test_the_reference_is_true() -> None:
    assert (resources.templates() / "VALUES.md").read_text(encoding="utf-8") == reference()
