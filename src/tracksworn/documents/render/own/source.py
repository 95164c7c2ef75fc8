"""What can be told of a firm's templates as they are written: what they extend, what would never be shown."""

import re
from collections.abc import Iterator
from typing import Final

from jinja2 import Environment, TemplateSyntaxError, nodes

from tracksworn.documents import resources
from tracksworn.documents.render.gate.own_style import check_style
from tracksworn.documents.render.own.templates import KNOWN, PAGES, OwnTemplates, meant
from tracksworn.inspection.faults import Fault

PREFIX: Final = "tracksworn/"
_SILENT: Final = (nodes.Extends, nodes.Import, nodes.FromImport, nodes.Macro, nodes.Assign, nodes.AssignBlock)
_NAMES_OTHERS: Final = (nodes.Extends, nodes.Include, nodes.Import, nodes.FromImport)


def faults_of(own: OwnTemplates) -> list[Fault]:
    """All faults of all files."""
    faults: list[Fault] = []
    trees: dict[str, nodes.Template] = {}
    for name, text in own.texts.items():
        if name.endswith(".css"):
            faults += _of_style(own, name)
            continue
        try:
            trees[name] = Environment(autoescape=True).parse(text)
        except TemplateSyntaxError as error:
            faults.append(Fault(own.folder / name, error.lineno, 1, f"it cannot be read: {error.message}"))
        except RecursionError:
            faults.append(Fault(own.folder / name, 1, 1, "it is nested too deeply to be read"))
    for name, tree in trees.items():
        faults += [Fault(own.folder / name, line, 1, what) for line, what in _of_template(name, tree, own)]
    used = {named for tree in trees.values() for _, named in _named(tree)}
    for name in own.texts:
        if name not in KNOWN and name not in used:
            what = f"no template of this name is asked for, and none of the others takes it in; {meant(name, KNOWN)}"
            faults.append(Fault(own.folder / name, 1, 1, what))
    return faults


def _of_style(own: OwnTemplates, name: str) -> Iterator[Fault]:
    for line, column, what in check_style(own.texts[name], sheets=name == "print.css"):
        yield Fault(own.folder / name, line, column, what)


def _of_template(name: str, tree: nodes.Template, own: OwnTemplates) -> Iterator[tuple[int, str]]:
    yield from _others(tree, own)
    if name in PAGES:
        base = f"{PREFIX}{name}"
        allowed = (base, f"{PREFIX}base.html") if name.endswith(".html") else (base,)
        extended = next((one for one in tree.body if isinstance(one, nodes.Extends)), None)
        if extended is None:
            yield 1, f'it does not say what it is based on; begin it with {{% extends "{base}" %}}'
        elif _constant(extended.template) not in allowed:
            yield extended.lineno, f'{name} can be based on "{base}" alone: {{% extends "{base}" %}}'
        else:
            yield from _never_shown(tree, name)
    for loop in tree.find_all(nodes.For):
        if loop.recursive:
            yield loop.lineno, "a loop cannot be recursive here; write two loops, one in the other"


def _others(tree: nodes.Template, own: OwnTemplates) -> Iterator[tuple[int, str]]:
    """What it takes in must be among the firm's own or the program's templates."""
    ours = _built_in()
    for line, named in _named(tree):
        if named is None:
            yield line, "the name of what is taken in must stand here as it is, in quotes"
        elif named not in own.texts and named not in ours:
            yield line, f"`{named}` is no template here; {meant(named, (*own.texts, *ours))}"


def _named(tree: nodes.Template) -> Iterator[tuple[int, str | None]]:
    for node in tree.find_all(_NAMES_OTHERS):
        named = _constant(getattr(node, "template"))  # noqa: B009 - all four have one
        for one in named if isinstance(named, (list, tuple)) else (named,):
            yield node.lineno, one if isinstance(one, str) else None


def _constant(expression: nodes.Expr) -> object:
    if isinstance(expression, nodes.Const):
        return expression.value
    if isinstance(expression, (nodes.List, nodes.Tuple)):
        return [_constant(item) for item in expression.items]
    return None


def _never_shown(tree: nodes.Template, name: str) -> Iterator[tuple[int, str]]:
    """What Jinja leaves out without a word: anything outside of a block, and a block that the base does not have."""
    blocks = blocks_of(name)
    for node in tree.body:
        if isinstance(node, nodes.Block):
            if node.name not in blocks:
                yield node.lineno, f"`{node.name}` is no block of {PREFIX}{name}; {meant(node.name, blocks)}"
        elif isinstance(node, nodes.Output):
            if line := _first_words(node):
                yield line, "this stands outside of every block and would not be shown; put it into one"
        elif not isinstance(node, _SILENT):
            yield node.lineno, "this stands outside of every block and would do nothing; put it into one"


def _first_words(node: nodes.Output) -> int | None:
    for part in node.nodes:
        if not isinstance(part, nodes.TemplateData) or part.data.strip():
            skipped = (
                part.data[: len(part.data) - len(part.data.lstrip())] if isinstance(part, nodes.TemplateData) else ""
            )
            return part.lineno + skipped.count("\n")
    return None


def blocks_of(name: str) -> tuple[str, ...]:
    """The blocks of a built-in page that may be put otherwise, in their order."""
    texts = [(resources.templates() / name).read_text(encoding="utf-8")]
    if name.endswith(".html"):
        texts.append((resources.templates() / "base.html").read_text(encoding="utf-8"))
    return tuple(dict.fromkeys(block for text in texts for block in re.findall(r"{%-?\s*block (\w+)", text)))


def _built_in() -> tuple[str, ...]:
    found = sorted(file.name for file in resources.templates().iterdir())
    return tuple(f"{PREFIX}{name}" for name in found if name.endswith((".html", ".md")) and name != "README.md")
