"""How a file type reads what was written: every fault is noted at its place, and what is sound is kept.

A field that does not read becomes None with its fault noted, so that the other fields, and the rules between fields,
are still checked. Nothing becomes a value of the model unless the whole file has no fault.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from enum import StrEnum
from pathlib import PurePosixPath
from typing import Annotated, Any, Optional, Self, TypeVar

from pydantic import (
    BaseModel,
    ConfigDict,
    Discriminator,
    PrivateAttr,
    Tag,
    ValidationError,
    ValidationInfo,
    ValidatorFunctionWrapHandler,
    WrapValidator,
    field_validator,
    model_validator,
)

from tracksworn.inspection.written import (
    TOP,
    FaultList,
    Items,
    Mark,
    Node,
    Record,
    Text,
    Wrong,
    likely,
    quoted,
    suggestion,
)

T = TypeVar("T")
W = TypeVar("W", bound=StrEnum)

MOST_ENTRIES = 10_000
"""Readings, observations and photos of a file together."""

Needed = Optional[T]  # noqa: UP045 - an alias over a type variable has to be written so
"""A required field: it has no default, and is None only where it was missing or did not read."""


def given(value: T | None) -> T:
    """A required value of a file without faults."""
    if value is None:
        raise AssertionError("a required value is missing from a file that has no faults")
    return value


class FileType(BaseModel):
    """A mapping in a file. Keys are the fields' names with spaces for underscores, unless an alias says otherwise."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        defer_build=True,
        arbitrary_types_allowed=True,
        alias_generator=lambda name: name.rstrip("_").replace("_", " "),
    )
    _record: Record = PrivateAttr(default_factory=lambda: Record({}, TOP, {}))

    @classmethod
    def known_keys(cls) -> tuple[str, ...]:
        """The keys that this mapping may have, as they are written."""
        return tuple(field.alias or name for name, field in cls.model_fields.items())

    def where(self, key: str) -> Mark:
        """Where the value of that key stands, or where the mapping begins."""
        node = self._record.get(key)
        return self._record.mark if node is None else node.mark

    def where_key(self, key: str) -> Mark:
        """Where that key itself stands, or where the mapping begins."""
        return self._record.keys_at.get(key, self._record.mark)

    @property
    def begins(self) -> Mark:
        """Where the mapping begins."""
        return self._record.mark

    @property
    def keys_written(self) -> tuple[str, ...]:
        """The keys of this mapping in the order of the file, unknown ones too."""
        return tuple(self._record)

    def written(self, key: str) -> Node | None:
        """What stands at that key, whether it reads or not."""
        return self._record.get(key)

    def texts(self) -> Iterator[Text]:
        """Every text of the file that it was read from, keys too, in their order."""
        yield from _texts_in(self._record)

    def listed(self, key: str) -> Iterator[tuple[PurePosixPath, Mark]]:
        """The paths in the list at that key that read, and where each stands."""
        read = set(getattr(self, key) or ())
        node = self._record.get(key)
        for item in node if isinstance(node, Items) else ():
            if isinstance(item, Text) and (path := PurePosixPath(item.strip())) in read:
                yield path, item.mark

    def rules(self, faults: FaultList) -> None:
        """Note where fields that read do not go together. Fields that did not read are None here."""

    @model_validator(mode="wrap")
    @classmethod
    def _read(cls, data: object, handler: Callable[[object], Self], info: ValidationInfo) -> Self:
        faults = faults_of(info)
        if not isinstance(data, Record):
            raise Wrong(cls._no_mapping(data))
        cls._tell_keys(data, faults)
        known: dict[str, Node | None] = dict(data.only(cls.known_keys()))
        read = handler({**dict.fromkeys(cls._required()), **known})
        read._record = data
        read.rules(faults)
        return read

    @classmethod
    def _required(cls) -> dict[str, str]:
        """The keys that must be there, each with what it says."""
        fields = cls.model_fields.items()
        return {field.alias or name: field.description or "" for name, field in fields if field.is_required()}

    @classmethod
    def _no_mapping(cls, data: object) -> str:
        keys = cls.known_keys()
        shown = tuple(cls._required()) or keys[:2]
        form = f"{{{', '.join(f'{key}: …' for key in shown)}}}"
        more = f" (known here: {', '.join(keys)})" if len(keys) > len(shown) else ""
        alone = f", not {quoted(data)} alone" if isinstance(data, Text) and data else ""
        return f"entries such as `{form}` belong here{alone}{more}"

    @classmethod
    def _tell_keys(cls, data: Record, faults: FaultList) -> None:
        known, meant = cls.known_keys(), set[str]()
        for key in data:
            if key not in known and not faults.full:
                hint = suggestion(key, known, f"known here: {', '.join(known)}")
                faults.add(data.keys_at[key], f"{quoted(key)} is no key here; {hint}")
                meant.update(likely(key, known))
        for key, description in cls._required().items():
            if key not in data.keys_at and key not in meant:
                faults.add(data.mark, f"`{key}` is missing here: {description}")

    @field_validator("*", mode="wrap")
    @classmethod
    def _salvage(cls, value: object, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> object:
        if value is None:
            return None
        try:
            return handler(value)
        except ValidationError as error:
            note(error, value, faults_of(info))
            return None


def _texts_in(node: Node) -> Iterator[Text]:
    if isinstance(node, Text):
        yield node
    elif isinstance(node, Record):
        for key, value in node.items():
            yield Text(key, node.keys_at[key], node.keys_at[key])
            yield from _texts_in(value)
    else:
        for item in node:
            yield from _texts_in(item)


def faults_of(info: ValidationInfo) -> FaultList:
    """The faults of the file that is being read."""
    faults = info.context
    if not isinstance(faults, FaultList):
        raise TypeError("a file type is read with a FaultList as its context")
    return faults


def note(error: ValidationError, value: object, faults: FaultList) -> None:
    """Note every part of a validation error at the node, or the key, that it is about."""
    for part in error.errors(include_url=False):
        cause = part.get("ctx", {}).get("error")
        wrong = cause if isinstance(cause, Wrong) else Wrong(_WORDS.get(part["type"], part["msg"]))
        path = part["loc"]
        if path[-1:] == ("[key]",) and isinstance(value, Record):
            faults.add(value.keys_at[str(path[0])], wrong.what)
            continue
        node = _follow(value, path)
        if isinstance(node, Text) and not node.strip():
            wrong = Wrong("a value is missing here")
        if isinstance(node, Text | Items | Record):
            faults.wrong(node, wrong)


_WORDS = {
    "list_type": "a list belongs here: `[…]`, or lines that begin with `- `",
    "dict_type": "`name: …` entries belong here",
}


def _follow(value: object, path: tuple[int | str, ...]) -> object:
    """The node at the end of a validation error's path, which also names the forms that were tried."""
    for step in path:
        value = _step(value, step)
    return value


def _step(value: object, step: int | str) -> object:
    if isinstance(step, str):
        return value.get(step, value) if isinstance(value, Record) else value
    return value[step] if isinstance(value, Items) else value


def _each(value: object, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> object:
    """Read a list or mapping entry by entry, so that one that does not read takes no other with it."""
    faults = faults_of(info)
    if isinstance(value, Record | Items) and len(value) > MOST_ENTRIES:
        faults.add(value.mark, f"{len(value):,} entries stand here; at most {MOST_ENTRIES:,} do")
        return handler(Items([], value.mark) if isinstance(value, Items) else value.only(()))
    if isinstance(value, Record):
        kept: dict[object, object] = {}
        for key, node in value.items():
            one = Record({key: node}, value.mark, {key: value.keys_at[key]})
            read = _attempt(one, handler, faults)
            for name, entry in read.items() if isinstance(read, Mapping) else ():
                if name in kept:
                    faults.add(value.keys_at[key], f"{quoted(key)} stands here twice, written in two ways")
                kept[name] = entry
        return kept
    if isinstance(value, Items):
        found = (_attempt(Items([node], node.mark), handler, faults) for node in value)
        return [item for read in found if isinstance(read, list) for item in read]
    return handler(value)


def _attempt(one: Record | Items, handler: ValidatorFunctionWrapHandler, faults: FaultList) -> object:
    try:
        return handler(one)
    except ValidationError as error:
        note(error, one, faults)
        return None


Each = Annotated[T, WrapValidator(_each)]
"""A list or mapping whose entries are read one by one."""


def _shape(value: Any) -> str:
    return "mapping" if isinstance(value, Record) else "text"


AsText = Annotated[T, Tag("text")]
AsMapping = Annotated[T, Tag("mapping")]
BY_SHAPE = Discriminator(_shape)
"""Tells a short form, which is a text, from the long one, which is a mapping."""


def read_words(words: Iterable[W], text: Text) -> W:
    """The one of these words of the trade that a text is."""
    known = {word.value: word for word in words}
    if str(text) not in known:
        raise Wrong(f"{quoted(text)} is not known here; {suggestion(text, known)}")
    return known[str(text)]
