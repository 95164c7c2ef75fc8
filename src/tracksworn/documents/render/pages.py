"""Templates and what they may call. A firm's own templates are looked up first and can extend the program's."""

from collections.abc import Iterable
from functools import lru_cache
from typing import Any

from jinja2 import Environment, FileSystemLoader, PrefixLoader, StrictUndefined, TemplateError
from jinja2.sandbox import ImmutableSandboxedEnvironment

from tracksworn.documents import resources
from tracksworn.documents.render import notes
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.own.templates import OwnTemplates


class Ready(str):
    """Markdown that is finished; everything else is escaped on its way into a page."""

    __slots__ = ()


def fill_page(name: str, own: OwnTemplates | None, values: dict[str, object]) -> str:
    """A page of HTML. Raises Faulty for what is wrong in a firm's own template."""
    return _filled(_html_environment(own), name, own, values)


def fill_markdown(name: str, own: OwnTemplates | None, values: dict[str, object]) -> str:
    """A page of Markdown. Raises Faulty for what is wrong in a firm's own template."""
    return _filled(_markdown_environment(own), name, own, values)


def style(name: str) -> str:
    """A built-in style sheet."""
    return (resources.templates() / name).read_text(encoding="utf-8")


def _filled(environment: Environment, name: str, own: OwnTemplates | None, values: dict[str, object]) -> str:
    if own is not None:
        from tracksworn.documents.render.own.sandbox import filled  # noqa: PLC0415

        return filled(environment, name, own, values)
    try:
        return environment.get_template(f"tracksworn/{name}").render(values)
    except TemplateError as error:
        raise Refused(f"the template {name} cannot be used: {type(error).__name__}: {error}") from error


def _environment(own: OwnTemplates | None, **options: Any) -> Environment:
    if own is not None:
        from tracksworn.documents.render.own.sandbox import sandboxed  # noqa: PLC0415

        return sandboxed(own, **options)
    return ImmutableSandboxedEnvironment(
        loader=PrefixLoader({"tracksworn": FileSystemLoader(resources.templates())}),
        undefined=StrictUndefined,
        trim_blocks=True,
        auto_reload=False,
        **options,
    )


@lru_cache(maxsize=4)
def _html_environment(own: OwnTemplates | None) -> Environment:
    environment = _environment(own, autoescape=True)
    environment.filters["notes"] = notes.to_html
    return environment


@lru_cache(maxsize=4)
def _markdown_environment(own: OwnTemplates | None) -> Environment:
    environment = _environment(own, autoescape=False, lstrip_blocks=True, finalize=_as_markdown)
    environment.concat = _joined  # type: ignore[method-assign]  # what a block or a macro made is finished
    environment.filters["notes"] = lambda text: Ready(notes.to_markdown(text))
    environment.filters["ready"] = Ready  # what a macro made
    environment.filters["cell"] = lambda text: Ready(" ".join(notes.to_markdown(text).split()))
    return environment


def _joined(parts: Iterable[str]) -> Ready:
    return Ready("".join(parts))


def _as_markdown(value: object) -> object:
    return value if isinstance(value, Ready) else notes.escaped(str(value))
