"""What a firm's template may use, written out for its author: blocks, and every value with its help.

`python -m tracksworn.documents.render.own.reference > templates/VALUES.md` writes it anew; a test holds the two equal.
"""

import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import fields
from inspect import getdoc, isfunction, signature
from typing import Any, Final, get_type_hints

from tracksworn.documents.described import describe, views_within
from tracksworn.documents.render.fitting import Fitted
from tracksworn.documents.render.kinds import KINDS, Where
from tracksworn.documents.render.own.sandbox import FILTERS, GLOBALS
from tracksworn.documents.render.own.source import blocks_of

VALUES: Final[Mapping[str, str]] = {
    "view": "the document; what it has stands below",
    "words": "its headings and labels in its language, the same as `view.headings`",
    "plates": "its drawings; what it has stands below",
    "draw": "puts a drawing of `plates` into the page, `draw.photo` a photo of `view`; in HTML `draw.mark` is the mark",
    "fitted": "who, when and which machine in the room that a sheet has for them; what it has stands at the end",
    "version": "the program's version",
}
"""What every page has."""
OF_HTML: Final[Mapping[str, str]] = {
    "paged": "true on sheets (PDF, PNG), false in a browser",
    "styles": "the style of the page in a browser alone, which the page must hold",
}
"""What every page of HTML has besides."""
OF_KIND: Final[Mapping[str, Mapping[str, str]]] = {
    "listing": {
        "pitch": "from one rule to the next on a sheet, mm",
        "tight": "true on a sheet whose words leave little room",
    },
    "certificate": {"spacing": "classes that set lines closer where a sheet needs it"},
    "compare": {
        "sets": "which machines stand beside each other, by their places in `view.machines`, sheet by sheet",
        "tightness": "a class that sets columns closer where a sheet needs it",
    },
}
"""What the HTML of one kind has besides."""
OWN_FILTERS: Final[Mapping[str, Mapping[str, str]]] = {
    "html": {"notes": "notes in Markdown as HTML"},
    "md": {
        "notes": "notes as Markdown that can do no harm",
        "cell": "notes on one line, for a cell of a table",
        "ready": "what a macro made, which is Markdown already",
    },
}
"""The program's own filters, by form."""


def reference() -> str:
    """All of it as Markdown."""
    return "\n".join(_lines()) + "\n"


def _lines() -> Iterator[str]:
    yield "# What a template may use"
    yield ""
    yield "Written by the program itself (tracksworn.documents.render.own.reference). README.md says how to use it."
    yield from ("", "## Every page", "", *_listed(VALUES), "", "HTML also:", "", *_listed(OF_HTML), "", "Filters:", "")
    for form, filters in OWN_FILTERS.items():
        yield from (f"- `{name}`, in `.{form}`: {said}" for name, said in filters.items())
    yield f"- of Jinja: {', '.join(f'`{name}`' for name in FILTERS)}"
    yield from ("", f"Functions of Jinja: {', '.join(f'`{name}`' for name in GLOBALS)}.")
    for kind in KINDS:
        yield from _of_kind(kind)
    yield from ("", "## fitted", "", "`fitted` has:", "", *_made_up(Fitted), *_within(Fitted))


def _of_kind(kind: Where) -> Iterator[str]:
    name, view = kind.name, kind.load_view()
    yield from ("", f"## {name}", "", "| file | blocks, in their order |", "| --- | --- |")
    for form in ("html", "md"):
        yield f"| `{name}.{form}` | {', '.join(f'`{block}`' for block in blocks_of(f'{name}.{form}'))} |"
    if name in OF_KIND:
        yield from ("", f"`{name}.html` knows besides:", "", *_listed(OF_KIND[name]))
    shown: set[str] = set()
    for one in views_within(view):
        where = "`view`" if one is view else f"a `{one.__name__}`"
        if one.__name__ not in shown:
            shown.add(one.__name__)
            yield from ("", f"{where} has:", "")
            yield from (f"- `{field.name}`: {field.help or 'a fixed word or figure'}" for field in describe(one))
    plates = get_type_hints(kind.load().draw)["return"]
    yield from ("", "`plates` has:", "", *_made_up(plates), *_within(plates))


def _within(whole: type) -> Iterator[str]:
    """What stands within drawings or fitted values, by its own name."""
    for one in views_within(whole):
        if one is not whole:
            yield from ("", f"a `{one.__name__}` has:", "", *_made_up(one))


def _made_up(one: type) -> Iterator[str]:
    """The fields of what is no view by their types, and what else can be asked of it by what it says of itself."""
    hints = get_type_hints(one)
    yield from (f"- `{field.name}`: {_told(hints[field.name])}" for field in fields(one))
    for name, value in vars(one).items():
        if not name.startswith("_") and (isinstance(value, property) or isfunction(value)):
            asked = f"({', '.join([*signature(value).parameters][1:])})" if isfunction(value) else ""
            yield f"- `{name}{asked}`: {_small((getdoc(value) or '').splitlines()[0].rstrip('.'))}"


def _told(hint: Any) -> str:
    """A type in words."""
    said = hint.__name__ if isinstance(hint, type) and not getattr(hint, "__args__", ()) else str(hint)
    said = re.sub(r"[a-z_]+\.", "", said)
    many = "one after another: " * said.count("tuple[")
    inner = re.sub(r"tuple\[|, \.\.\.\]|\]", "", said)
    named = {"Drawing": "a drawing", "str": "text", "float": "a number", "int": "a number", "None": "nothing"}
    each = ([named.get(word, f"a `{word}`") for word in one.split(" | ")] for one in inner.split(", "))
    return many + " and ".join(" or ".join(words) for words in each)


def _small(text: str) -> str:
    return text[:1].lower() + text[1:]


def _listed(said: Mapping[str, str]) -> Iterator[str]:
    yield from (f"- `{name}`: {what}" for name, what in said.items())


if __name__ == "__main__":
    sys.stdout.write(reference())
