"""A firm's own template as it runs: what it may not read, make or take, told by its line; and the example."""

import os
import re
import signal
import time
from itertools import product
from pathlib import Path

import lots
import pytest
from documents.render.conftest import view
from documents.render.tools import squeezed, words_of_pdf

from tracksworn.documents import resources
from tracksworn.documents.render.document import Document
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.own import bounds, sandbox
from tracksworn.documents.render.own.folder import read_templates
from tracksworn.documents.render.render import render
from tracksworn.inspection.faults import Failed, Faulty

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


def _stumbled() -> None:
    raise ZeroDivisionError("never mind")


def _refused() -> None:
    raise Refused("on purpose")


def test_a_document_is_bounded_in_time(tmp_path: Path) -> None:
    begun = time.monotonic()
    with pytest.raises(Faulty) as faulty:
        bounds.within_bounds(_for_ever, tmp_path, seconds=0.2)
    assert time.monotonic() - begun < 5
    assert str(faulty.value) == f"{tmp_path}:1:1: a document took longer than 0.2 seconds with these templates"


def test_a_document_is_bounded_in_memory(tmp_path: Path) -> None:
    with pytest.raises(Faulty) as faulty:
        bounds.within_bounds(lambda: len(b"x" * (1 << 30)), tmp_path, memory=1 << 26)
    assert str(faulty.value) == f"{tmp_path}:1:1: a document took more than 64 MB with these templates"


def test_a_document_is_bounded_in_size(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bounds, "MOST_BYTES", 2_000_000)
    with pytest.raises(Faulty) as faulty:
        bounds.within_bounds(lambda: b"x" * 3_000_000, tmp_path)
    assert str(faulty.value) == f"{tmp_path}:1:1: a document came to more than 2 MB with these templates"


DEATHS = {
    "by SIGKILL": lambda: os.kill(os.getpid(), signal.SIGKILL),
    "by SIGTERM": lambda: os.kill(os.getpid(), signal.SIGTERM),
    "with exit status 3": lambda: os._exit(3),
}


@pytest.mark.parametrize("how", DEATHS)
def test_the_death_of_the_process_is_told_as_what_it_is(how: str, tmp_path: Path) -> None:
    with pytest.raises(Failed) as failed:
        bounds.within_bounds(DEATHS[how], tmp_path)
    said = f"the process in which a firm's own templates run died {how}; nothing was handed over"
    assert str(failed.value) == said


def test_the_limit_of_the_processor_is_told_as_time(tmp_path: Path) -> None:
    with pytest.raises(Faulty, match="took longer than 90 seconds"):
        bounds.within_bounds(lambda: os.kill(os.getpid(), signal.SIGXCPU), tmp_path)


def test_what_is_made_or_raised_in_bounds_comes_through(tmp_path: Path) -> None:
    assert bounds.within_bounds(lambda: ("made", 1), tmp_path) == ("made", 1)
    with pytest.raises(Refused, match=r"\Aon purpose\Z"):
        bounds.within_bounds(_refused, tmp_path)
    stumbled = r"\Athe document is not handed over: its templates made the program stumble \("
    with pytest.raises(Refused, match=stumbled + r"ZeroDivisionError: never mind\)\Z"):
        bounds.within_bounds(_stumbled, tmp_path)
    with pytest.raises(Refused, match=stumbled + r".*pickle"):
        bounds.within_bounds(lambda: lambda: None, tmp_path)


def test_a_system_that_cannot_bound_a_process_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bounds, "_TAKEN", tmp_path / "statm")
    with pytest.raises(Failed, match="need a system that can bound them"):
        bounds.within_bounds(_for_ever, tmp_path)
    monkeypatch.delattr(os, "fork")
    with pytest.raises(Failed, match="need a system that can bound them"):
        bounds.within_bounds(_for_ever, tmp_path)


ORDERS: dict[str, tuple[Document, tuple[str, ...]]] = {
    "full": (view("like most"), ("Before you bid", "What the signs say together", "Part by part")),
    "listing": (lots.ordinary(), ("Act on", "Not seen", "Before anyone works on it", "Percent worn, left and right")),
}


@pytest.mark.slow
@pytest.mark.parametrize(("kind", "form"), [*product(ORDERS, ("html", "pdf")), ("full", "md")])
def test_the_example_is_another_order_with_words_of_its_own(kind: str, form: str, tmp_path: Path) -> None:
    shown, order = ORDERS[kind]
    content = render(shown, [form], templates=read_templates(resources.templates() / "example"))[0].content
    file = tmp_path / f"it.{form}"
    file.write_bytes(content)
    words = squeezed(words_of_pdf(file) if form == "pdf" else without_styles(content.decode("utf-8")))
    places = [words.index(squeezed(said)) for said in order]
    assert places == sorted(places)


def without_styles(page: str) -> str:
    """The page with no words but its own."""
    return re.sub(r"<style>.*?</style>|aria-label=\"[^\"]*\"", "", page, flags=re.DOTALL)
