"""From the bytes of a file to texts, mappings and lists with their places. YAML, of which only the plain part is used.

Anchors, aliases and tags are refused as they are met, so an alias is never expanded; nothing here recurses.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml

from tracksworn.inspection.characters import decoded, report_characters
from tracksworn.inspection.written import TOP, FaultList, Items, Mark, Node, Record, Text, quoted
from tracksworn.inspection.yaml_words import plain_words

LARGEST_FILE = 1_000_000  # bytes
DEEPEST = 20
_FAST: type = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class _Unreadable(Exception):  # noqa: N818 - never leaves this module
    """The rest of the file cannot be understood; the fault is already noted."""


def read_yaml(content: bytes, faults: FaultList) -> Record | None:
    """The mapping that the file holds, or None; every fault of its characters and its structure is noted."""
    if len(content) > LARGEST_FILE:
        faults.add(TOP, f"the file is larger than 1 MB ({len(content):,} bytes)")
        return None
    text = decoded(content, faults)
    if text is None:
        return None
    try:
        top = _Builder(text, faults).build()
    except _Unreadable:
        return None
    if top is None:
        faults.add(TOP, "the file is empty; it begins with a line such as `tracksworn: inspection 1`")
        return None
    if not isinstance(top, Record):
        faults.add(top.mark, "the file holds no `key: value`; it begins with a line such as `tracksworn: inspection 1`")
        return None
    return top


def _events(text: str, faults: FaultList) -> Iterator[yaml.Event]:
    """The parser's events. The fast parser is only asked for files that it accepts: the other tells faults better."""
    try:
        events = list(yaml.parse(text, Loader=_FAST))
    except (yaml.YAMLError, ValueError, OverflowError):
        events = []
    if events:
        yield from events
        return
    try:
        yield from yaml.parse(text, Loader=yaml.SafeLoader)
    except yaml.YAMLError as error:
        faults.add(*plain_words(error, text))
        raise _Unreadable from error
    except (ValueError, OverflowError) as error:  # an escape such as "\UFFFFFFFF"
        faults.add(TOP, "a text in double quotes holds an escape that is no character")
        raise _Unreadable from error


def _mark(event: yaml.Event) -> Mark:
    """Where an event begins."""
    begins = event.start_mark
    return TOP if begins is None else Mark(begins.line + 1, begins.column + 1)


def _span(event: yaml.Event) -> tuple[int, int]:
    """Offsets of an event's first character, and of the one behind its last."""
    begins, ends = event.start_mark, event.end_mark
    return (begins.index if begins else 0), (ends.index if ends else 0)


@dataclass(slots=True)
class _Open:
    """A mapping or list that is still being filled."""

    mark: Mark
    flow: bool
    mapping: bool
    items: list[Node] = field(default_factory=list)
    entries: dict[str, Node] = field(default_factory=dict)
    keys: dict[str, Mark] = field(default_factory=dict)
    key: Text | None = None  # read, and waiting for its value
    key_end: int = 0
    skipping: bool = False  # the value of a key that was refused
    value_start: int = 0
    last: str | None = None
    torn: dict[str, Text] = field(default_factory=dict)  # values with commas that should have been quoted

    def closed(self) -> Node:
        """What it has become."""
        return Record(self.entries, self.mark, self.keys) if self.mapping else Items(self.items, self.mark)


class _Builder:
    """Builds the nodes from the parser's events."""

    def __init__(self, text: str, faults: FaultList) -> None:
        self.text = text
        self.faults = faults
        self.open: list[_Open] = []
        self.top: Node | None = None
        self.documents = 0

    def build(self) -> Node | None:
        """The whole, or None where the file holds nothing."""
        for event in _events(self.text, self.faults):
            if isinstance(event, yaml.DocumentStartEvent):
                self._document(event)
            elif isinstance(event, yaml.AliasEvent):
                self._alias(event)
            elif isinstance(event, yaml.ScalarEvent):
                self._refuse_properties(event)
                self._scalar(event)
            elif isinstance(event, yaml.CollectionStartEvent):
                self._refuse_properties(event)
                self._start(event)
            elif isinstance(event, yaml.CollectionEndEvent):
                self._close()
        return self.top

    def _document(self, event: yaml.DocumentStartEvent) -> None:
        self.documents += 1
        if self.documents > 1:
            self.faults.add(_mark(event), "a second document begins here; a file holds one")
            raise _Unreadable

    def _alias(self, event: yaml.AliasEvent) -> None:
        self.faults.add(_mark(event), "aliases are refused; a text that begins with `*` needs quotes")
        self._place(Text("", _mark(event)), known=False)

    def _refuse_properties(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> None:
        mark = _mark(event)
        if event.anchor is not None:
            self.faults.add(mark, "anchors are refused; a text that begins with `&` needs quotes")
        if event.tag is not None:
            self.faults.add(mark, "tags are refused; a text that begins with `!` needs quotes")

    def _start(self, event: yaml.CollectionStartEvent) -> None:
        mark = _mark(event)
        if len(self.open) == DEEPEST:
            self.faults.add(mark, f"this is nested more than {DEEPEST} deep")
            raise _Unreadable
        if self.open and self.open[-1].mapping:
            parent = self.open[-1]
            if parent.key is None and not parent.skipping:
                self.faults.add(mark, "a key is a word, not a list or a mapping")
                raise _Unreadable
            parent.value_start = _span(event)[0]
        self.open.append(_Open(mark, bool(event.flow_style), isinstance(event, yaml.MappingStartEvent)))

    def _scalar(self, event: yaml.ScalarEvent) -> None:
        text = self._text(event)
        parent = self.open[-1] if self.open else None
        if parent is None or not parent.mapping:
            self._place(self._sound(text))
        elif parent.key is None and not parent.skipping:
            self._key(parent, text, _span(event)[1])
        elif parent.flow and self._stray(parent, event):
            self._join(parent)
        else:
            parent.value_start = _span(event)[0]
            self._place(self._sound(text))

    def _text(self, event: yaml.ScalarEvent) -> Text:
        start, end = _span(event)
        mark, quote = _mark(event), 1 if event.style in ("'", '"') else 0
        as_written = self.text[start + quote : end - quote] if quote else self.text[start:end]
        first = Mark(mark.line, mark.column + quote) if as_written == event.value else None
        return Text(event.value, mark, first)

    def _sound(self, text: Text) -> Text:
        """Characters that came in by an escape are held to the same rule as those of the file."""
        report_characters(text, lambda _: text.mark, self.faults, by_escape=True)
        return text

    def _key(self, parent: _Open, key: Text, end: int) -> None:
        parent.key_end = end
        if key == "<<":
            self.faults.add(key.mark, "merging by `<<` is refused; write the keys out")
            parent.skipping = True
        elif key in parent.keys:
            first = parent.keys[key].line
            self.faults.add(key.mark, f"{quoted(key)} stands in line {first} already; keep one of the two")
            parent.skipping = True
        else:
            parent.key = key

    def _stray(self, parent: _Open, event: yaml.ScalarEvent) -> bool:
        """Whether a key in braces has no colon: what stands behind a comma inside a value that should be quoted."""
        start, end = _span(event)
        if start != end:
            return False
        return not self.text[parent.key_end :].lstrip().startswith(":")

    def _join(self, parent: _Open) -> None:
        """Take a stray key back into the value that it was torn from."""
        stray, parent.key, parent.skipping = parent.key, None, False
        value = parent.entries.get(parent.last) if parent.last is not None else None
        if isinstance(value, Text) and self.text[parent.value_start] not in "'\"":
            whole = Text(self.text[parent.value_start : parent.key_end], value.mark)
            parent.entries[str(parent.last)] = whole
            parent.torn[str(parent.last)] = whole
        elif stray is not None:
            self.faults.add(stray.mark, f"{quoted(stray)} has no value; in braces each entry is `key: value`")

    def _close(self) -> None:
        closed = self.open.pop()
        for key, value in closed.torn.items():
            shown = quoted(f'{key}: "{value}"')
            self.faults.add(value.mark, f"in braces a value with commas needs quotes: {shown}")
        self._place(closed.closed())

    def _place(self, node: Node, *, known: bool = True) -> None:
        if not self.open:
            self.top = node
            return
        parent = self.open[-1]
        if not parent.mapping:
            parent.items.append(node)
        elif parent.skipping:
            parent.skipping = False
        elif parent.key is None:
            raise _Unreadable  # an alias as a key
        else:
            parent.keys[parent.key] = parent.key.mark
            if known:
                parent.entries[parent.key] = node
                parent.last = str(parent.key)
            parent.key = None
