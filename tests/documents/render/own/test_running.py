"""A firm's own template as it runs: what it may not read, make or take, told by its line; and the example."""

import time
from pathlib import Path

import pytest
from documents.render.conftest import view

from tracksworn.documents import resources
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.own import bounds, sandbox
from tracksworn.documents.render.own.folder import read_templates
from tracksworn.documents.render.render import render
from tracksworn.inspection.faults import Faulty

START = '{% extends "tracksworn/full.html" %}\n{% block whole %}\n'
MARKDOWN = '{% extends "tracksworn/full.md" %}\n{% block whole %}\n'

WRONG = {
    "unknown value": ("{{ view.sumary }}", "`sumary` is none of the values here; did you mean `summary`?"),
    "unknown name": ("{{ veiw }}", "`veiw` is not known here; did you mean `view`?"),
    "class": ("{{ ''.__class__ }}", "a template may read the values that are listed"),
    "globals": ("{{ view.__init__.__globals__ }}", "a template may read the values that are listed"),
    "mro": ("{{ ().__class__.__mro__ }}", "a template may read the values that are listed"),
    "draw inside": ("{{ draw._put }}", "a template may read the values that are listed"),
    "foot replaced": ("{{ draw.behind(plates.ruler, 'foot') }}", "`behind` is none of the values here"),
    "environment": ("{{ self._TemplateReference__context }}", "a template may read the values that are listed"),
    "lipsum": ("{{ lipsum.__globals__ }}", "`lipsum` is not known here"),
    "changed list": ("{% set a = [] %}{{ a.append(1) }}", "a template may read the values that are listed"),
    "long range": ("{% for a in range(10000000) %}{% endfor %}", "Range too big"),
    "much text": ("{{ 'x' * 99999999999 }}", "it makes more than there is memory for"),
    "many characters": ("{% for a in range(9999) %}{{ 'x' * 9999 }}{% endfor %}", "million characters"),
    "calls itself": ("{% macro a() %}{{ a() }}{% endmacro %}{{ a() }}", "it calls itself without end"),
    "no drawing": ("{{ draw(1) }}", "this cannot be worked out"),
    "no filter": ("{{ 'x' | pprint }}", "No filter named 'pprint'"),
}


@pytest.mark.parametrize(("text", "expected"), WRONG.values(), ids=WRONG)
def test_what_is_wrong_is_told_by_its_line(text: str, expected: str, tmp_path: Path) -> None:
    (tmp_path / "full.html").write_text(f"{START}{text}{{% endblock %}}", encoding="utf-8")
    with pytest.raises(Faulty) as faulty:
        render(view("short"), ["html"], templates=read_templates(tmp_path))
    line = 1 if "characters" in expected else 3  # what is too much comes of no single line
    assert str(faulty.value).startswith(f"{tmp_path}/full.html:{line}:1: ")
    assert expected in str(faulty.value)


def test_what_runs_for_ever_is_broken_off_at_its_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sandbox, "SECONDS", 1)
    loop = "{% for a in range(99999) %}{% for b in range(99999) %}{% endfor %}{% endfor %}"
    (tmp_path / "full.html").write_text(f"{START}{loop}{{% endblock %}}", encoding="utf-8")
    with pytest.raises(Faulty, match=r"full\.html:\d:1: it takes longer than 1 seconds"):
        render(view("short"), ["html"], templates=read_templates(tmp_path))


@pytest.mark.parametrize("kind", ["../../elsewhere", "/tmp/x", "a/b", "", "A"])
def test_no_picture_is_written_elsewhere(kind: str, tmp_path: Path) -> None:
    text = f'{MARKDOWN}{{{{ draw(plates.ruler, "{kind}") }}}}{{% endblock %}}'
    (tmp_path / "full.md").write_text(text, encoding="utf-8")
    with pytest.raises(Faulty, match="names no picture"):
        render(view("short"), ["md"], templates=read_templates(tmp_path))


def _for_ever() -> None:
    while True:
        pass


def _died() -> None:
    raise ZeroDivisionError("never mind")


def test_a_document_is_bounded_in_time_and_memory(tmp_path: Path) -> None:
    begun = time.monotonic()
    with pytest.raises(Faulty, match=r"took longer than 0\.2 seconds"):
        bounds.within_bounds(_for_ever, tmp_path, seconds=0.2)
    assert time.monotonic() - begun < 5
    with pytest.raises(Faulty, match="took more than 64 MB"):
        bounds.within_bounds(lambda: len(b"x" * (1 << 30)), tmp_path, memory=1 << 26)


def test_what_is_made_or_raised_in_bounds_comes_through(tmp_path: Path) -> None:
    assert bounds.within_bounds(lambda: ("made", 1), tmp_path) == ("made", 1)
    with pytest.raises(Refused, match="ZeroDivisionError: never mind"):
        bounds.within_bounds(_died, tmp_path)


@pytest.mark.slow
@pytest.mark.parametrize("form", ["html", "md", "pdf"])
def test_the_example_is_another_order_with_words_of_its_own(form: str) -> None:
    own = read_templates(resources.templates() / "example")
    content = render(view("like most"), [form], templates=own)[0].content
    if form == "pdf":
        assert content.startswith(b"%PDF")
        return
    page = content.decode("utf-8")
    places = [page.index(said) for said in ("Before you bid", "What the signs say together", "Part by part")]
    assert places == sorted(places)
