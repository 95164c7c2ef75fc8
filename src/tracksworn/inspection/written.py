"""What stands in a file and where: texts, mappings and lists that know their line and column."""

from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from pathlib import Path
from typing import NamedTuple

from tracksworn.inspection.faults import Fault, Weight, visible
from tracksworn.inspection.vocabulary import SAID_OTHERWISE

LONGEST_QUOTE = 80
FEW = 6
"""So few words to choose from are rather listed than guessed at."""
_CURLY = tuple("“”„‘’‚«»")
MOST_FAULTS = 500


class Mark(NamedTuple):
    """A place in a file; both count from 1."""

    line: int
    column: int


TOP = Mark(1, 1)


class Text(str):
    """A scalar as text. `first` is where its first character stands, or None where it is not written as it reads.

    `torn` is said of a value in braces that a comma has torn apart, for want of quotes.
    """

    __slots__ = ("first", "mark", "torn")
    mark: Mark
    first: Mark | None
    torn: bool

    def __new__(cls, text: str, mark: Mark, first: Mark | None = None, *, torn: bool = False) -> "Text":
        """A text that stands at `mark`, with its quote if it has one."""
        made = super().__new__(cls, text)
        made.mark = mark
        made.first = first
        made.torn = torn
        return made

    def at(self, offset: int) -> Mark:
        """Where the character at that offset stands."""
        if self.first is None:
            return self.mark
        before = self[:offset]
        return Mark(self.first.line + before.count("\n"), self.first.column + offset - before.rfind("\n") - 1)


class Items(list["Node"]):
    """A list and where it begins."""

    def __init__(self, items: Iterable["Node"], mark: Mark) -> None:
        super().__init__(items)
        self.mark = mark


class Record(dict[str, "Node"]):
    """A mapping, where it begins and where each of its keys stands."""

    def __init__(self, entries: Mapping[str, "Node"], mark: Mark, keys: Mapping[str, Mark]) -> None:
        super().__init__(entries)
        self.mark = mark
        self.keys_at = dict(keys)

    def only(self, keys: Iterable[str]) -> "Record":
        """The same mapping with no keys but these."""
        kept = {key: self[key] for key in keys if key in self}
        return Record(kept, self.mark, {key: self.keys_at[key] for key in kept})


Node = Text | Items | Record


class Wrong(ValueError):  # noqa: N818 - named for what it says of the value
    """A value that does not read: what is wrong, and at which offset of its text."""

    def __init__(self, what: str, offset: int = 0) -> None:
        super().__init__(what)
        self.what = what
        self.offset = offset


class TightComma(Wrong):
    """A comma between two digits without a blank."""


class ListWanted(Wrong):
    """Several words stand where they belong into a list."""


class FaultList:
    """Gathers the faults of one file."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self.faults: list[Fault] = []

    @property
    def full(self) -> bool:
        """Whether so many faults are noted that more would help nobody."""
        return len(self.faults) > MOST_FAULTS

    def add(self, mark: Mark, what: str) -> None:
        """Note a fault."""
        self._note(mark, what, Weight.FAULT)

    def warn(self, mark: Mark, what: str) -> None:
        """Note a warning."""
        self._note(mark, what, Weight.WARNING)

    def extend(self, others: "FaultList") -> None:
        """Take over what another list for the same file has noted."""
        self.faults.extend(others.faults)

    def _note(self, mark: Mark, what: str, weight: Weight) -> None:
        if len(self.faults) == MOST_FAULTS:
            what, weight = f"there are more than {MOST_FAULTS} faults; mend those before this one first", Weight.FAULT
        if not self.full:
            self.faults.append(Fault(self.file, mark.line, mark.column, what, weight))

    def wrong(self, node: Node, error: Wrong) -> None:
        """Note what is wrong in a text, at the character it is about."""
        if isinstance(node, Text) and node.torn:
            if isinstance(error, TightComma):
                return  # told with the quotes that it needs
            if isinstance(error, ListWanted):  # it needs no quotes
                self.faults = [fault for fault in self.faults if (fault.line, fault.column) != node.mark]
        self.add(node.at(error.offset) if isinstance(node, Text) else node.mark, error.what)

    @property
    def bad(self) -> bool:
        """Whether there is anything that stops the work."""
        return any(fault.weight is Weight.FAULT for fault in self.faults)


def quoted(text: str) -> str:
    """A value as a message shows it: on one line, cut at 80 characters."""
    line = visible(" ".join(text.split()))
    return f"`{line if len(line) <= LONGEST_QUOTE else line[:LONGEST_QUOTE] + '…'}`"


def likely(word: str, known: Iterable[str]) -> list[str]:
    """The known words that may be meant by another one: the one most like it, or the few that hold it."""
    words = list(known)
    low = " ".join(word.lower().replace("_", " ").split())[:LONGEST_QUOTE]
    for said in (low, low.removesuffix("s"), low.removesuffix("es")):
        meant = SAID_OTHERWISE.get(said, said)
        if meant in words:
            return [str(meant)]
    if len(words) <= FEW:
        return get_close_matches(low, words, n=1, cutoff=0.8)
    parts = set(low.split())
    holding = [each for each in words if parts and parts < set(each.split())]
    held = [each for each in words if set(each.split()) < parts]
    if len(holding) in (1, 2) or len(held) == 1:
        return [str(each) for each in (holding or held)]
    return get_close_matches(low, words, n=1, cutoff=0.7)


def one_of(words: Iterable[str]) -> str:
    """Words to choose from: `a`, `b` or `c`."""
    *first, last = (f"`{word}`" for word in words)
    return f"{', '.join(first)} or {last}" if first else last


def suggestion(word: str, known: Iterable[str], otherwise: str | None = None) -> str:
    """The likeliest known words as a question; else `otherwise`, or all of them."""
    words = list(known)
    if word[:1] in _CURLY:
        return 'quotes are straight, `"`, or left out'
    near = likely(word, words)
    return f"did you mean {one_of(near)}?" if near else otherwise or f"write {one_of(words)}"
