"""The marked sentences of the sources, in the order in which they stand."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

MARKS: Final = {"N_": 1, "NP_": 2, "C_": 2}
"""What marks a sentence, and how many texts it takes."""


@dataclass(frozen=True, order=True)
class Source:
    """What tells two sentences apart for gettext."""

    context: str | None
    one: str
    many: str | None = None


@dataclass
class Marked:
    """A marked sentence with where it stands: modules, and the names that it is kept under."""

    source: Source
    modules: list[str] = field(default_factory=list)
    names: list[str] = field(default_factory=list)


def extract(folder: Path) -> tuple[Marked, ...]:
    """Every marked sentence below a folder once.

    Raises:
        ValueError: a mark holds no plain text, or one sentence is marked both as single and as one of a pair.
    """
    found: dict[tuple[str | None, str], Marked] = {}
    for path in sorted(folder.rglob("*.py")):
        module = path.relative_to(folder).as_posix()
        for source, name in _marked(ast.parse(path.read_text(encoding="utf-8")), module):
            kept = found.setdefault((source.context, source.one), Marked(source))
            if kept.source != source:
                raise ValueError(f"{module}: {source} is marked otherwise in {kept.modules[0]}: {kept.source}")
            _add(kept.modules, module)
            _add(kept.names, name)
    return tuple(found.values())


def _add(among: list[str], one: str) -> None:
    if one and one not in among:
        among.append(one)


def _marked(tree: ast.Module, module: str) -> Iterator[tuple[Source, str]]:
    for statement in tree.body:
        yield from _within(statement, "", module)


def _within(node: ast.AST, name: str, module: str) -> Iterator[tuple[Source, str]]:
    """Marks below a node, with the name of what holds them: `TO_DO[Work.TURN]`."""
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in MARKS:
        yield _source(node, node.func.id, module), name
        return
    if isinstance(node, ast.Dict):
        for key, value in zip(node.keys, node.values, strict=True):
            yield from _within(value, name if key is None else f"{name}[{ast.unparse(key)}]", module)
        return
    for child in ast.iter_child_nodes(node):
        yield from _within(child, _named(node) or name, module)


def _named(node: ast.AST) -> str:
    match node:
        case ast.FunctionDef(name=name):
            return f"{name}()"
        case ast.Assign(targets=[ast.Name(id=name)]) | ast.AnnAssign(target=ast.Name(id=name)) if name.isupper():
            return name
        case ast.keyword(arg=str(name)):
            return name
        case _:
            return ""


def _source(call: ast.Call, mark: str, module: str) -> Source:
    try:
        texts = [ast.literal_eval(argument) for argument in call.args]
    except ValueError:
        texts = []
    if len(texts) != MARKS[mark] or not all(isinstance(text, str) and text for text in texts):
        raise ValueError(f"{module}:{call.lineno}: {mark} takes plain texts, {MARKS[mark]} of them")
    match mark:
        case "C_":
            return Source(texts[0], texts[1])
        case "NP_":
            return Source(None, texts[0], texts[1])
        case _:
            return Source(None, texts[0])
