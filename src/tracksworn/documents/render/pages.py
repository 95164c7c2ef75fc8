"""Templates and what they may call. A firm's own templates are looked up first and can extend the program's."""

from functools import lru_cache
from pathlib import Path

from jinja2 import ChoiceLoader, FileSystemLoader, PrefixLoader, StrictUndefined, TemplateError
from jinja2.sandbox import ImmutableSandboxedEnvironment

from tracksworn.documents import resources
from tracksworn.documents.render import notes
from tracksworn.documents.render.files import Refused


class Ready(str):
    """Markdown that is finished; everything else is escaped on its way into a page."""

    __slots__ = ()


def fill_page(name: str, templates: Path | None, values: dict[str, object]) -> str:
    """A page of HTML. Raises Refused where a template cannot be used."""
    return _filled(_html_environment(templates), name, values)


def fill_markdown(name: str, templates: Path | None, values: dict[str, object]) -> str:
    """A page of Markdown. Raises Refused where a template cannot be used."""
    return _filled(_markdown_environment(templates), name, values)


def extra_style(templates: Path | None) -> str:
    """What a firm's `extra.css` adds to the built-in style sheets."""
    file = templates / "extra.css" if templates else None
    return file.read_text(encoding="utf-8") if file and file.is_file() else ""


def style(name: str) -> str:
    """A built-in style sheet."""
    return (resources.templates() / name).read_text(encoding="utf-8")


def _filled(environment: ImmutableSandboxedEnvironment, name: str, values: dict[str, object]) -> str:
    try:
        return environment.select_template([name, f"tracksworn/{name}"]).render(values)
    except TemplateError as error:
        raise Refused(f"the template {name} cannot be used: {type(error).__name__}: {error}") from error


def _loader(templates: Path | None) -> ChoiceLoader:
    own = [FileSystemLoader(templates)] if templates else []
    return ChoiceLoader([*own, PrefixLoader({"tracksworn": FileSystemLoader(resources.templates())})])


@lru_cache(maxsize=8)
def _html_environment(templates: Path | None) -> ImmutableSandboxedEnvironment:
    environment = ImmutableSandboxedEnvironment(
        loader=_loader(templates), autoescape=True, undefined=StrictUndefined, trim_blocks=True, auto_reload=False
    )
    environment.filters["notes"] = notes.to_html
    return environment


@lru_cache(maxsize=8)
def _markdown_environment(templates: Path | None) -> ImmutableSandboxedEnvironment:
    environment = ImmutableSandboxedEnvironment(
        loader=_loader(templates),
        autoescape=False,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
        finalize=_as_markdown,
    )
    environment.filters["notes"] = lambda text: Ready(notes.to_markdown(text))
    environment.filters["ready"] = Ready  # what a macro made
    environment.filters["cell"] = lambda text: Ready(" ".join(notes.to_markdown(text).split()))
    return environment


def _as_markdown(value: object) -> object:
    return value if isinstance(value, Ready) else notes.escaped(str(value))
