"""What was read and what follows from it, so that all of it can be printed: done once, before any view is made.

A character that no font holds becomes U+FFFD and its code. A text that is written from right to left is set apart by
first-strong isolates (UAX #9), so that it does not reorder the sentence into which it is put, in any format.
"""

import re
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import date
from enum import Enum
from functools import cache
from operator import attrgetter
from types import NoneType, UnionType
from typing import TYPE_CHECKING, Any, Final, TypeVar, get_args, get_origin

from tracksworn.assessment.model import Assessment
from tracksworn.documents.direction import reads_leftward
from tracksworn.documents.further_faces import further_faces
from tracksworn.documents.typefaces import Face
from tracksworn.inspection.dossier import Dossier, Font
from tracksworn.inspection.lettering import stand_in, unprinted

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

T = TypeVar("T")

MARKDOWN: Final = frozenset(["note", "notes", "standing_terms"])
"""Fields whose blocks have a direction each, which is found when they are read as Markdown."""
AS_IT_IS: Final = frozenset(["digests", "sources", "warnings", "fonts", "records_at"])
"""Fields that name files and addresses, or are not printed."""
TEXTLESS: Final = (int, float, date, Enum, NoneType)
"""Types of values in which there is nothing to print."""
APART: Final = "\u2068{}\u2069"
"""A text between a first-strong isolate and its end."""
_GOES_WITH: Final = r"[\u200d\ufe00-\ufe0f\U000e0100-\U000e01ef]"
"""Signs that join a character to the next or choose its form, and go with it."""


@dataclass(frozen=True, slots=True)
class Legible:
    """Dossiers and their assessments as they are printed, and the letterheads' faces that this takes."""

    read: tuple[tuple[Dossier, Assessment], ...]
    faces: tuple[Face, ...]


def legible(read: Sequence[tuple[Dossier, Assessment]]) -> Legible:
    """Everything that one document tells, with no character that cannot be printed."""
    fonts = tuple(dict.fromkeys(font for dossier, _ in read for font in dossier.fonts))
    return Legible(*made_legible(tuple(read), fonts))


def made_legible(value: T, fonts: Sequence[Font]) -> tuple[T, tuple[Face, ...]]:
    """The same value with every text in it printable, and the faces of these fonts that this takes."""
    said = [text for text in _texts(value) if not text.isascii()]
    beyond = {one for text in said for one in unprinted(text)}
    faces = further_faces(fonts, beyond) if beyond else ()
    if not beyond and not any(map(reads_leftward, said)):
        return value, ()
    return _changed(value, _printing(fonts)), faces


def _printing(fonts: Sequence[Font]) -> Callable[[str, bool], str]:
    further = [font.characters for font in fonts]

    def printed(text: str, markdown: bool) -> str:
        text = _shown(text, unprinted(text, further))
        return APART.format(text) if not markdown and reads_leftward(text) else text

    return printed


def _shown(text: str, missing: Sequence[str]) -> str:
    """The text with what stands in for characters, and a blank between that and the words beside it."""
    if not missing:
        return text
    one = f"[{re.escape(''.join(missing))}]"

    def shown(run: re.Match[str]) -> str:
        before, after = text[: run.start()][-1:], text[run.end() :][:1]
        said = " ".join(stand_in(character) for character in run[0] if character in missing)
        return f"{' ' if before.isalnum() else ''}{said}{' ' if after.isalnum() else ''}"

    return re.sub(f"{one}(?:{one}|{_GOES_WITH})*", shown, text)


def _texts(value: object) -> set[str]:
    """Every text within a value, each once; without recursion, since every document waits for it."""
    found: set[str] = set()
    seen: set[int] = set()
    waiting: list[Any] = [value]
    while waiting:
        one = waiting.pop()
        kind: Any = type(one)
        if kind is str:
            found.add(one)
            continue
        parts = _parts(kind)
        if parts is not None and id(one) not in seen:
            seen.add(id(one))
            waiting.extend(parts(one))
    return found


@cache
def _parts(kind: type) -> Callable[[Any], Iterable[Any]] | None:
    """How to get at what a value of that type holds; None where that can be no text."""
    if issubclass(kind, Enum):
        return None
    if issubclass(kind, str):
        return lambda text: (str(text),)
    if issubclass(kind, tuple):
        return iter
    if issubclass(kind, Mapping):
        return lambda mapping: (*mapping, *mapping.values())
    names = _fields_with_text(kind) if is_dataclass(kind) else []
    if len(names) == 1:
        return lambda value: (getattr(value, names[0]),)
    return attrgetter(*names) if names else None


def _fields_with_text(kind: "type[DataclassInstance]") -> list[str]:
    hints: dict[str, Any] = {one.name: one.type for one in fields(kind) if one.name not in AS_IT_IS}
    return [name for name, hint in hints.items() if _may_hold_text(hint)]


@cache
def _may_hold_text(hint: Hashable) -> bool:
    """Whether a value of such a type can have a text in it; three in four have not, and need no look."""
    if get_origin(hint) in (UnionType, tuple):
        return any(map(_may_hold_text, get_args(hint)))
    if not isinstance(hint, type):
        return hint is not ...
    return bool(_fields_with_text(hint)) if is_dataclass(hint) else not issubclass(hint, TEXTLESS)


def _changed(value: T, change: Callable[[str, bool], str], *, markdown: bool = False) -> T:
    """The same value with every text in it changed; parts without change are kept."""
    new: Any = value
    if isinstance(value, str):
        new = value if isinstance(value, Enum) else change(value, markdown)
    elif isinstance(value, tuple):
        items = tuple(_changed(item, change) for item in value)
        new = value if all(map(_is, items, value)) else items
    elif isinstance(value, Mapping):
        new = {_changed(key, change): _changed(item, change) for key, item in value.items()}
    else:
        parts = {name: getattr(value, name) for name in _fields(type(value))}
        better = {name: _changed(part, change, markdown=name in MARKDOWN) for name, part in parts.items()}
        other = {name: part for name, part in better.items() if part is not parts[name] and part != parts[name]}
        new = replace(new, **other) if other else value
    return new  # type: ignore[no-any-return]


def _is(one: object, other: object) -> bool:
    return one is other


def _fields(kind: type) -> list[str]:
    """The fields of a dataclass; none of any other type."""
    return [name for name in getattr(kind, "__dataclass_fields__", ()) if name not in AS_IT_IS]
