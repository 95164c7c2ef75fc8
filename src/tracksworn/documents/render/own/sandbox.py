"""How a firm's own templates are run: what they may read, how much they may make, and where they went wrong."""

import signal
import threading
import traceback
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from types import FrameType
from typing import Any, Final

from jinja2 import BaseLoader, Environment, StrictUndefined, TemplateError, TemplateNotFound, UndefinedError
from jinja2.exceptions import SecurityError
from jinja2.sandbox import ImmutableSandboxedEnvironment
from jinja2.utils import missing

from tracksworn.documents import resources
from tracksworn.documents.render.own.source import PREFIX
from tracksworn.documents.render.own.templates import OwnTemplates, meant
from tracksworn.inspection.faults import Fault, Faulty

SECONDS: Final = 10
MOST_CHARACTERS: Final = 10_000_000
"""What a template may take and make, beside the pictures in it."""
FILTERS: Final = (
    "batch",
    "capitalize",
    "count",
    "default",
    "e",
    "escape",
    "first",
    "float",
    "int",
    "join",
    "last",
    "length",
    "list",
    "lower",
    "map",
    "reject",
    "rejectattr",
    "replace",
    "reverse",
    "safe",
    "select",
    "selectattr",
    "slice",
    "sort",
    "string",
    "title",
    "trim",
    "unique",
    "upper",
)
"""Jinja's filters that a template may use, beside the program's own."""
GLOBALS: Final = ("range", "dict", "namespace")


class _Unknown(StrictUndefined):
    """A name that is not known, with those that may have been meant.

    Jinja documents the attributes read here, but neither `missing`, which stands for a page's own values, nor the
    property: every way in which a value of no meaning can fail asks it for the words, and nothing else does.
    """

    known: tuple[str, ...] = ()
    """The names of a page's own values."""

    @property
    def _undefined_message(self) -> str:
        name = str(self._undefined_name)
        if self._undefined_hint:
            return str(self._undefined_hint)
        if self._undefined_obj is missing:
            return f"`{name}` is not known here; {meant(name, self.known)}"
        names = tuple(one for one in dir(self._undefined_obj) if not one.startswith("_"))
        return f"`{name}` is none of the values here; {meant(name, names)}"


class Draw:
    """What a template may ask of that which puts drawings and photos into its page: nothing else of it."""

    __slots__ = ("_drawn", "_put", "mark")

    def __init__(self, put: Any) -> None:
        self._put = put
        self._drawn = 0
        self.mark = getattr(put, "mark", None)

    def __call__(self, *drawing: Any) -> Any:
        """A drawing of `plates` or `view`."""
        return self._counted(self._put(*drawing))

    def photo(self, *photo: Any) -> Any:
        """A photo of `view`."""
        return self._counted(self._put.photo(*photo))

    def _counted(self, text: Any) -> Any:
        self._drawn += len(text)
        return text


class _Loader(BaseLoader):
    """The firm's texts by their names, and the program's by theirs."""

    def __init__(self, own: OwnTemplates) -> None:
        self._own = own

    def get_source(self, environment: Environment, template: str) -> tuple[str, str, Callable[[], bool]]:  # noqa: ARG002
        if template in self._own.texts:
            return self._own.texts[template], str(self._own.folder / template), lambda: True
        name = template.removeprefix(PREFIX)
        file = resources.templates() / name
        if name == template or "/" in name or not file.is_file():
            raise TemplateNotFound(template)
        return file.read_text(encoding="utf-8"), str(file), lambda: True


def sandboxed(own: OwnTemplates, **options: Any) -> ImmutableSandboxedEnvironment:
    """Jinja with a firm's templates before the program's, and with no more of it than a page needs."""
    environment = ImmutableSandboxedEnvironment(
        loader=_Loader(own), undefined=_Unknown, trim_blocks=True, auto_reload=False, **options
    )
    environment.filters = {name: environment.filters[name] for name in FILTERS}
    environment.globals = {name: environment.globals[name] for name in GLOBALS}
    return environment


def filled(environment: Environment, name: str, own: OwnTemplates, values: Mapping[str, object]) -> str:
    """A page of the firm's own template, or of the program's where it has none of that name.

    Raises Faulty, with file and line, for whatever is wrong in it, and where it makes too much or takes too long.
    """
    draw = Draw(values["draw"])
    environment.undefined = type("_UnknownHere", (_Unknown,), {"known": (*values, *GLOBALS)})
    parts: list[str] = []
    size = 0
    try:
        with _in_time():
            template = environment.select_template([name, f"{PREFIX}{name}"])
            for part in template.generate({**values, "draw": draw}):
                parts.append(part)
                size += len(part)
                if size - draw._drawn > MOST_CHARACTERS:
                    raise _TooMuch(f"it makes more than {MOST_CHARACTERS // 1_000_000} million characters")
    except Faulty:
        raise
    except Exception as error:
        raise Faulty([_fault(error, name, own)]) from error
    return "".join(parts)


class _TooMuch(Exception):  # noqa: N818
    """More than a page needs."""


@contextmanager
def _in_time() -> Iterator[None]:
    """Break off what takes too long, where it stands; only the first thread of a process can."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return

    def late(number: int, frame: FrameType | None) -> None:  # noqa: ARG001
        raise _TooMuch(f"it takes longer than {SECONDS} seconds")

    before = signal.signal(signal.SIGALRM, late)
    signal.alarm(SECONDS)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def _fault(error: Exception, name: str, own: OwnTemplates) -> Fault:
    """What is wrong, at the deepest line of the firm's own."""
    files = {str(own.folder / one): own.folder / one for one in own.texts}
    places = [
        (files[at.filename], at.lineno) for at in traceback.extract_tb(error.__traceback__) if at.filename in files
    ]
    syntax = getattr(error, "filename", None), getattr(error, "lineno", None)
    if syntax[0] in files:
        places.append((files[syntax[0]], syntax[1]))
    file, line = places[-1] if places else (own.folder / name if name in own.texts else own.folder, 1)
    return Fault(file, line or 1, 1, _said(error))


def _said(error: Exception) -> str:
    if isinstance(error, SecurityError):
        return f"{str(error).rstrip('.')}; a template may read the values that are listed for it, and nothing else"
    if isinstance(error, UndefinedError | _TooMuch):
        return str(error)
    if isinstance(error, TemplateNotFound):
        return f"`{error.message}` is no template here"
    if isinstance(error, TemplateError):
        return f"it cannot be read: {error.message}"
    if isinstance(error, RecursionError):
        return "it calls itself without end"
    if isinstance(error, OverflowError):
        return f"it asks for too much: {error}"
    if isinstance(error, MemoryError):
        return "it makes more than there is memory for"
    return f"this cannot be worked out: {error}" if str(error) else f"this cannot be worked out: {type(error).__name__}"
