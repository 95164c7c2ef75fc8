"""A batch as it runs: its files on standard output; on standard error what is wrong, left over, and how many."""

import os
import sys
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Final

import click

from tracksworn.batch.index import Index, stands, write_index
from tracksworn.batch.run import Batch, Outcome, Taken
from tracksworn.cli.exits import Exit, say
from tracksworn.cli.lot_progress import Pace, told
from tracksworn.inspection.reading import INSPECTION_NAME

MOST_TOLD: Final = 10
"""Files left over that are named."""
FEW: Final = 3
"""Earlier inspections that are named."""


def run_and_tell(batch: Batch, catalogue: str | None, earlier: Sequence[str] = (), *, title: str = "") -> int:
    """Run it to its index; the exit status. `catalogue` is how that tells of a lot, if one is asked for.

    `earlier` are inspections that are no lots, since others name them as earlier ones; `title` is that of the sale.
    """
    taken: list[Taken] = []
    try:
        for one in told(batch, Pace(len(batch.listed))):
            taken.append(one)
            if one.outcome is Outcome.MADE:
                _print(batch, one.files)
    except BaseException:
        _tell(taken)
        if taken:
            say(f"{len(taken)} of {_lots(batch)} done with, each whole; the same command goes on from there")
        raise
    _tell(taken)
    if batch.stopped:
        _tell_old_index(batch)
    else:
        _tell_left_over(batch, _index(taken, batch, catalogue, title))
        _tell_earlier(earlier)
    _tell_count(taken, batch)
    return _status(taken)


def _index(taken: Sequence[Taken], batch: Batch, catalogue: str | None, title: str) -> Index:
    if sys.stderr is not None and sys.stderr.isatty():
        say("the index …")
    index = write_index(taken, batch.journal, catalogue, title)
    if index.written:
        _print(batch, index.names)
    return index


def _print(batch: Batch, names: Iterable[str]) -> None:
    for name in names:
        if "/" not in name:
            click.echo(os.fsencode(batch.journal.place.shown(name)))


def _tell(taken: Sequence[Taken]) -> None:
    """Warnings and faults in the order of the list, each once."""
    for words in dict.fromkeys(words for one in taken for words in (*one.warnings, *one.told)):
        say(words)


def _tell_left_over(batch: Batch, index: Index) -> None:
    left = (*batch.left_over(), *index.former)
    for name in left[:MOST_TOLD]:
        say(f"{batch.journal.place.shown(name)} is left from an earlier run, and of no lot as it is now")
    if more := len(left[MOST_TOLD:]):
        say("so is 1 other file there" if more == 1 else f"so are {more} other files there")


def _tell_old_index(batch: Batch) -> None:
    if stands(batch.journal):
        say("the index stands as it was before this run")


def _tell_earlier(earlier: Sequence[str]) -> None:
    named = ", ".join(name.removesuffix(f"/{INSPECTION_NAME}") for name in earlier[:FEW])
    named += " …" if earlier[FEW:] else ""
    if len(earlier) == 1:
        say(f"1 earlier inspection is not a lot ({named}); name it in a list to have it as a lot")
    elif earlier:
        say(f"{len(earlier)} earlier inspections are not lots ({named}); name them in a list to have them as lots")


def _tell_count(taken: Sequence[Taken], batch: Batch) -> None:
    counts = Counter(one.outcome for one in taken)
    parts = [f"{counts[Outcome.MADE]} made", f"{counts[Outcome.UNCHANGED]} unchanged"]
    parts += [f"{counts[Outcome.FAULTY]} with faults"] if counts[Outcome.FAULTY] else []
    parts += [f"{counts[Outcome.FAILED]} failed"] if counts[Outcome.FAILED] else []
    stopped = f"stopped at the first fault, {len(taken)} of " if batch.stopped else ""
    say(f"{stopped}{_lots(batch)}: {', '.join(parts)}")


def _lots(batch: Batch) -> str:
    return "1 lot" if len(batch.listed) == 1 else f"{len(batch.listed)} lots"


def _status(taken: Sequence[Taken]) -> Exit:
    outcomes = {one.outcome for one in taken}
    return Exit.FAILED if Outcome.FAILED in outcomes else Exit.FAULTS if Outcome.FAULTY in outcomes else Exit.DONE
