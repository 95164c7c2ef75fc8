"""From the bytes of a file to texts, mappings and lists with their places. YAML, of which only the plain part is used.

Built from the parser's events, as PyYAML's composer is, yet without recursion: anchors, aliases and tags are refused
as they are met, so that nothing is ever expanded, and depth is limited before it costs anything.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml

from tracksworn.inspection.characters import decoded, report_characters
from tracksworn.inspection.notation import TIGHT_COMMA
from tracksworn.inspection.written import TOP, FaultList, Items, Mark, Node, Record, Text, quoted
from tracksworn.inspection.yaml_words import (
    BEGINS_WITH_AND,
    BEGINS_WITH_MARK,
    BEGINS_WITH_STAR,
    no_character,
    plain_words,
)

LARGEST_FILE = 1_000_000  # bytes
DEEPEST = 20
MOST_NODES = 150_000  # more than 10,000 entries of any kind need
_BEGINS = "begins with a line such as `tracksworn: inspection 1`"
_COLON = re.compile(r"\s*:")
_DECIMAL_MARK = "; a decimal mark is a point"
_CUT_OFF = re.compile(r"[ \t]+(#[^\s#].*)")


class _Unreadable(Exception):  # noqa: N818 - never leaves this module
    """The rest of the file cannot be understood; the fault is already noted."""


def read_yaml(content: bytes, faults: FaultList) -> Record | None:
    """The mapping that the file holds, or None; every fault of its characters and its structure is noted."""
    if len(content) > LARGEST_FILE:
        faults.add(TOP, "the file is larger than 1 MB")
        return None
    text = decoded(content, faults)
    if text is None:
        return None
    try:
        top = _built(text, faults)
    except _Unreadable:
        return None
    if top is None:
        faults.add(TOP, f"the file is empty; it {_BEGINS}")
    elif not isinstance(top, Record):
        faults.add(top.mark, f"the file holds no `key: value`; it {_BEGINS}")
    return top if isinstance(top, Record) else None


def _built(text: str, faults: FaultList) -> Node | None:
    """With the fast parser where there is one; what it refuses is read again by the one that tells faults better."""
    fast: type | None = getattr(yaml, "CSafeLoader", None)
    if fast is not None:
        tried = FaultList(faults.file)
        try:
            top = _Builder(text, tried).build(fast)
        except _Unreadable:
            faults.extend(tried)
            raise
        except (yaml.YAMLError, ValueError, OverflowError):
            pass
        else:
            faults.extend(tried)
            return top
    try:
        return _Builder(text, faults).build(yaml.SafeLoader)
    except yaml.YAMLError as error:
        faults.add(*plain_words(error, text))
        raise _Unreadable from error
    except (ValueError, OverflowError) as error:
        faults.add(*no_character(text))
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
    last: str | None = None  # the key whose value was read last
    last_start: int = 0
    torn: dict[str, tuple[int, int]] = field(default_factory=dict)  # values whose commas should have been quoted

    @property
    def wants_key(self) -> bool:
        """Whether what comes next is a key."""
        return self.mapping and self.key is None and not self.skipping

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

    def build(self, loader: type) -> Node | None:
        """The whole, or None where the file holds nothing; raises what the parser raises, and _Unreadable."""
        events: Iterator[yaml.Event] = yaml.parse(self.text, Loader=loader)
        for count, event in enumerate(events):
            if count == MOST_NODES:
                self.faults.add(_mark(event), "the file has more entries than can be read; at most 10,000 are")
                raise _Unreadable
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
                self._end()
        return self.top

    def _document(self, event: yaml.DocumentStartEvent) -> None:
        self.documents += 1
        if self.documents > 1:
            self.faults.add(_mark(event), "a second document begins here; a file holds one")
            raise _Unreadable

    def _alias(self, event: yaml.AliasEvent) -> None:
        self.faults.add(_mark(event), BEGINS_WITH_STAR)
        parent = self.open[-1] if self.open else None
        if parent is None or parent.wants_key:
            raise _Unreadable
        if parent.key is not None:
            parent.keys[parent.key] = parent.key.mark
        parent.key, parent.skipping = None, False

    def _refuse_properties(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> None:
        if event.anchor is not None:
            self.faults.add(_mark(event), BEGINS_WITH_AND)
        if event.tag is not None:
            self.faults.add(_mark(event), BEGINS_WITH_MARK)

    def _start(self, event: yaml.CollectionStartEvent) -> None:
        mark = _mark(event)
        if len(self.open) == DEEPEST:
            self.faults.add(mark, f"this is nested more than {DEEPEST} deep")
            raise _Unreadable
        if self.open and self.open[-1].wants_key:
            self.faults.add(mark, "a key is a word, not a list or a mapping")
            raise _Unreadable
        self.open.append(_Open(mark, bool(event.flow_style), isinstance(event, yaml.MappingStartEvent)))

    def _scalar(self, event: yaml.ScalarEvent) -> None:
        text = self._text(event)
        parent = self.open[-1] if self.open else None
        if parent is not None and parent.wants_key:
            self._key(parent, text, _span(event)[1])
        elif parent is not None and parent.mapping and parent.flow and self._is_stray(parent, event):
            self._take_back(parent)
        else:
            if parent is not None:
                parent.last_start = _span(event)[0]
            report_characters(text, lambda _: text.mark, self.faults, by_escape=True)
            self._tell_cut_off(event)
            self._place(text)

    def _text(self, event: yaml.ScalarEvent) -> Text:
        start, end = _span(event)
        mark, quote = _mark(event), 1 if event.style in ("'", '"') else 0
        as_written = self.text[start + quote : end - quote]
        first = Mark(mark.line, mark.column + quote) if as_written == event.value else None
        if event.style == "|":
            first = self._block_begins(event.value, start, mark)
        return Text(event.value, mark, first)

    def _block_begins(self, value: str, start: int, mark: Mark) -> Mark | None:
        """Where the first character of a text in a block stands, by the first line of it that is not empty."""
        lines = value.split("\n")
        full = next((number for number, line in enumerate(lines) if line.strip()), None)
        if full is None:
            return None
        for _ in range(full + 1):
            start = self.text.index("\n", start) + 1
        end = self.text.find("\n", start)
        written = self.text[start:] if end < 0 else self.text[start:end]
        return Mark(mark.line + 1, len(written) - len(lines[full]) + 1)

    def _tell_cut_off(self, event: yaml.ScalarEvent) -> None:
        """Warn of what may belong to a text and is a comment to YAML, as in `note: Roller #3 leaks`."""
        cut = None if event.style else _CUT_OFF.match(self.text, _span(event)[1])
        if cut is not None and event.end_mark is not None:
            mark = Mark(event.end_mark.line + 1, event.end_mark.column + 1 + cut.start(1) - cut.start())
            self.faults.warn(
                mark, f"{quoted(cut[1])} is not read: ` #` begins a comment; a text that holds it needs quotes"
            )

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

    def _is_stray(self, parent: _Open, event: yaml.ScalarEvent) -> bool:
        """Whether a key in braces has no colon: what stands behind a comma inside a value that should be quoted."""
        start, end = _span(event)
        return start == end and _COLON.match(self.text, parent.key_end) is None

    def _take_back(self, parent: _Open) -> None:
        """Take a stray key back into the value that it was torn from."""
        stray, parent.key, parent.skipping = parent.key, None, False
        value = parent.entries.get(parent.last) if parent.last is not None else None
        if parent.last is not None and isinstance(value, Text) and self.text[parent.last_start] not in "'\"":
            parent.torn[parent.last] = (parent.last_start, parent.key_end)
        elif stray is not None:
            decimal = _DECIMAL_MARK if TIGHT_COMMA.match(self.text, parent.key_end) else ""
            self.faults.add(stray.mark, f"{quoted(stray)} has no value; in braces each entry is `key: value`{decimal}")

    def _end(self) -> None:
        closed = self.open.pop()
        for key, (start, end) in closed.torn.items():
            whole = self.text[start:end]
            value = Text(whole, closed.entries[key].mark, torn=True)
            closed.entries[key] = value
            shown = quoted(f'{key}: "{whole}"')
            decimal = _DECIMAL_MARK if TIGHT_COMMA.search(whole) else ""
            self.faults.add(value.mark, f"in braces a value with commas needs quotes: {shown}{decimal}")
        self._place(closed.closed())

    def _place(self, node: Node) -> None:
        if not self.open:
            self.top = node
            return
        parent = self.open[-1]
        if not parent.mapping:
            parent.items.append(node)
        elif parent.skipping:
            parent.skipping = False
        elif parent.key is not None:
            parent.keys[parent.key] = parent.key.mark
            parent.entries[parent.key] = node
            parent.last, parent.key = str(parent.key), None
