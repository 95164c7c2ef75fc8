"""The index follows the log: every act that it does not have yet is put into it, and how far it is is kept beside."""

from collections.abc import Iterator
from itertools import islice
from typing import Final

from tracksworn.inspection.faults import Failed
from tracksworn.records.archive.acts import Act, Deed, read_act
from tracksworn.records.archive.files import Files
from tracksworn.records.archive.held import Held, Hold, Record
from tracksworn.records.archive.index.index import Index
from tracksworn.records.archive.index.reading import State
from tracksworn.records.archive.index.writing import Added, Writing
from tracksworn.records.log.log import Entry, Log

TOGETHER: Final = 500


class BehindTheIndex(Failed):
    """The index knows of acts that the log does not have, or follows another log."""


def follow(index: Index, log: Log, files: Files) -> None:
    """Bring the index up to the log. Raises BehindTheIndex where it is ahead of it, or belongs to another archive."""
    with index.reading() as reading:
        state = reading.state()
    if state is None:
        index.begin(log.name)
        state = State(log.name, 0, 0)
    checkpoint = log.checkpoint()
    if state.log != log.name:
        raise BehindTheIndex("the index belongs to another archive; give this one a database of its own")
    if (state.acts, state.length) > (checkpoint.size, checkpoint.length):
        raise BehindTheIndex(
            f"the index knows {state.acts} acts, the log {checkpoint.size}: an older copy of the archive was put back. "
            "If that was meant, `tracksworn archive rebuild` makes the index anew from it"
        )
    entries = log.entries(state.acts, state.length, until=checkpoint)
    while together := list(islice(entries, TOGETHER)):
        with index.writing() as writing:
            _put(writing, together, files)
            writing.reached(together[-1].position + 1, together[-1].end)


def rebuild(index: Index, log: Log, files: Files) -> None:
    """Make the index anew from log and files."""
    index.renew(log.name)
    follow(index, log, files)


def is_up_to_date(index: Index, log: Log) -> bool:
    """Whether the index has all acts of this log."""
    with index.reading() as reading:
        state = reading.state()
    checkpoint = log.checkpoint()
    return state == State(log.name, checkpoint.size, checkpoint.length)


def _put(writing: Writing, entries: list[Entry], files: Files) -> None:
    """Additions are put in together, up to the next act of another kind."""
    added: list[Added] = []
    for position, act in _acts(entries):
        if act.deed is Deed.ADD:
            added.append(_added(act, position, files))
            continue
        writing.add(added)
        added = []
        match act.deed:
            case Deed.RENEW:
                writing.renew(_added(act, position, files))
            case Deed.TOMBSTONE:
                writing.bury(files.tombstone(act.number, position) or Record(act.number, (), ()))
            case _:
                _do(writing, act, position)
    writing.add(added)


def _acts(entries: list[Entry]) -> Iterator[tuple[int, Act]]:
    for entry in entries:
        try:
            yield entry.position, read_act(entry.plain())
        except (KeyError, ValueError):
            raise Failed(
                f"act {entry.position} of the log is of a kind that this program does not know; a later one wrote it"
            ) from None


def _added(act: Act, position: int, files: Files) -> Added:
    revision = act.revision or 0
    document = act.document or ""
    facts = files.facts(act.number, revision, document)
    digest, size = act.sha256 or "", act.size or 0
    return Added(Held(act.number, revision, digest, size, act.at, position, facts, document=document), facts)


def _do(writing: Writing, act: Act, position: int) -> None:
    match act.deed:
        case Deed.HOLD:
            writing.hold(act.number, Hold(act.reason or "", act.since or act.at, position))
        case Deed.RELEASE:
            writing.release(-1 if act.hold is None else act.hold)
        case Deed.EXPIRE:
            writing.expire(act.number, act.at)
