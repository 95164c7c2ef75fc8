"""Every sentence that a reader sees is marked for the catalogues, and every marked sentence can be filled."""

import ast
import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from string import Formatter

import pytest

import tracksworn.documents

DOCUMENTS = Path(tracksworn.documents.__file__).parent
ROOMS = [DOCUMENTS / name for name in ("words", "full", "listing", "certificate", "comparison")]
MODULES = sorted(
    path
    for path in (
        *(one for room in ROOMS for one in room.rglob("*.py")),
        DOCUMENTS / "attached.py",
        DOCUMENTS / "described.py",
    )
    if path.parent.name != "catalogues"
)
"""Where sentences stand: what draws and lays out has its words from the view."""
SENTENCE = re.compile(r"[A-Za-z]{2,} [A-Za-z]{2,}")
"""Two words beside each other: what a reader would read."""
MARKS = {"N_", "NP_", "C_"}


def called(node: ast.Call) -> str:
    return node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")


def marked(tree: ast.AST) -> Iterator[ast.Constant]:
    """The texts inside a mark."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and called(node) in MARKS:
            yield from (inner for inner in ast.walk(node) if isinstance(inner, ast.Constant))


def not_read_by_a_reader(tree: ast.AST) -> Iterator[ast.Constant]:
    """Docstrings, help texts of views, meanings in the table of codes, and what is raised at a programmer."""
    for node in ast.walk(tree):
        aside: Sequence[ast.AST] = ()
        if isinstance(node, ast.Expr):
            aside = [node]
        elif isinstance(node, ast.Subscript) and getattr(node.value, "id", "") == "Annotated":
            aside = [node.slice]
        elif isinstance(node, ast.Raise | ast.Assert):
            aside = [node]
        elif isinstance(node, ast.Call) and called(node) == "Words":
            aside = node.args[:1]
        for within in aside:
            yield from (inner for inner in ast.walk(within) if isinstance(inner, ast.Constant))


def unmarked(source: str) -> list[str]:
    tree = ast.parse(source)
    fine = {id(constant) for constant in (*marked(tree), *not_read_by_a_reader(tree))}
    texts = (node for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str))
    return [str(node.value) for node in texts if id(node) not in fine and SENTENCE.search(str(node.value))]


@pytest.mark.parametrize("module", MODULES, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_no_sentence_stands_unmarked(module: Path) -> None:
    assert unmarked(module.read_text(encoding="utf-8")) == []


def test_the_scan_finds_what_it_should() -> None:
    assert unmarked('def f(say):\n    "A docstring here."\n    return say("past the limit")') == ["past the limit"]
    assert unmarked('def f(say):\n    return say(N_("past the limit"))') == []


@pytest.mark.parametrize("module", MODULES, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_marked_sentences_name_their_places(module: Path) -> None:
    """A translator must be able to move a place, so none is empty or only numbered."""
    for constant in marked(ast.parse(module.read_text(encoding="utf-8"))):
        for _, name, _, _ in Formatter().parse(str(constant.value)):
            assert name is None or name.isidentifier(), constant.value
