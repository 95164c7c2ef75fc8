"""The fields of views with their help texts, for whoever lays a page out.

A view's field is `name: Annotated[type, "help text"]`.
"""

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from typing import Annotated, Any, get_args, get_origin, get_type_hints


@dataclass(frozen=True, slots=True)
class Described:
    """One field of a view as its documentation lists it; `help` is empty where the field has none."""

    view: str
    name: str
    type: str
    help: str


def describe(view: type) -> tuple[Described, ...]:
    """The fields of one view class in order. Raises TypeError for what is no dataclass."""
    if not is_dataclass(view):
        raise TypeError(f"{view.__name__} is no view")
    hints = get_type_hints(view, include_extras=True)
    return tuple(_described(view.__name__, one.name, hints[one.name]) for one in fields(view))


def views_within(view: type) -> tuple[type, ...]:
    """A view class and every dataclass of the same package that its fields hold, each once, in order of first use."""
    found: dict[type, None] = {}
    waiting = [view]
    while waiting:
        one = waiting.pop(0)
        if one not in found:
            found[one] = None
            hints = get_type_hints(one, include_extras=True)
            waiting += [inner for hint in hints.values() for inner in _classes(hint) if _is_view(inner, view)]
    return tuple(found)


def _described(view: str, name: str, hint: Any) -> Described:
    if get_origin(hint) is not Annotated:
        return Described(view, name, _written(hint), "")
    kind, help_text, *_ = get_args(hint)
    return Described(view, name, _written(kind), str(help_text))


def _written(kind: Any) -> str:
    return kind.__name__ if isinstance(kind, type) and not get_args(kind) else str(kind).replace("typing.", "")


def _classes(hint: Any) -> Iterator[type]:
    if isinstance(hint, type) and not get_args(hint):
        yield hint
    for inner in get_args(hint):
        yield from _classes(inner)


def _is_view(kind: type, view: type) -> bool:
    package = view.__module__.rpartition(".")[0]
    return is_dataclass(kind) and kind.__module__.startswith(package)
