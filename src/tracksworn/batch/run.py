"""A batch, from listed lots to documents, notes and an index.

listed → unchanged since the last run, or made by workers → sealed → written → noted → archived → told

Workers only compute; this process alone writes, and takes lots in the order of the list. So everything is the same
whatever the number of workers.
"""

from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from hashlib import sha256
from typing import Final, Protocol

from tracksworn.batch.journal import Journal, Note
from tracksworn.batch.order import Made, Workers, entry_of
from tracksworn.documents.sale.lot import SaleLot, faulty_lot
from tracksworn.inspection.faults import Fault
from tracksworn.inspection.sale_list import Listed

PDF: Final = ".pdf"


class Outcome(StrEnum):
    """What became of a lot in this run."""

    MADE = "made"
    UNCHANGED = "unchanged"
    FAULTY = "faulty"
    FAILED = "failed"


@dataclass(frozen=True, slots=True)
class Taken:
    """A lot that is done with, its line for the index, and what is to be told of it."""

    listed: Listed
    outcome: Outcome
    lot: SaleLot
    told: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    files: tuple[str, ...] = ()

    @property
    def bad(self) -> bool:
        """Whether there is anything wrong with it."""
        return self.outcome in (Outcome.FAULTY, Outcome.FAILED)


@dataclass(frozen=True, slots=True)
class Unchanged:
    """A lot of which everything stands as it follows from its files. `fresh` is the note as it holds now."""

    listed: Listed
    noted: Note
    fresh: Note


Coming = Made | Unchanged


class Sealing(Protocol):
    """Seals documents on their way from the workers to the place."""

    def through(self, coming: Iterator[Coming]) -> Iterator[Coming]:
        """The same lots in the same order, the PDFs of those that were made sealed, or what failed."""
        ...


class Keeping(Protocol):
    """Puts documents into an archive."""

    def add(self, content: bytes) -> str | None:
        """Put it in, or find that it is; why it is not taken, if so. Raises Failed where the machine refuses."""
        ...


@dataclass
class Batch:
    """One run over a list. It is iterated once, under the place's lock."""

    listed: Sequence[Listed]
    journal: Journal
    workers: Workers
    sealing: Sealing | None = None
    keeping: Keeping | None = None
    strict: bool = False
    stopped: bool = field(default=False, init=False)
    _claimed: dict[str, tuple[Listed, str]] = field(default_factory=dict, init=False)
    _once: set[str] = field(default_factory=set, init=False)

    def __iter__(self) -> Iterator[Taken]:
        """Every lot in the order of the list; with `strict` none after the first that is bad."""
        coming = self._coming()
        for one in self.sealing.through(coming) if self.sealing else coming:
            taken = self._unchanged(one) if isinstance(one, Unchanged) else self._made(one)
            yield taken
            if self.strict and taken.bad:
                self.stopped = True
                return

    def left_over(self) -> tuple[str, ...]:
        """Files of earlier runs that stand and are of no lot as it is now."""
        for note in self.journal.notes_of_others(self.listed):
            self._remember(note)
        names = self._once - set(self._claimed)
        return tuple(sorted(name for name in names if self.journal.place.state(name)))

    def _remember(self, note: Note) -> None:
        self._once.update(_names(note), note.former)

    def _coming(self) -> Iterator[Coming]:
        """Lots in order; those that have changed go to the workers, the others stand."""
        standing: deque[Unchanged] = deque()

        def changed() -> Iterator[Listed]:
            for listed in self.listed:
                noted = self.journal.note_of(listed)
                if noted:
                    self._remember(noted)
                fresh = noted and not listed.faults and self.journal.as_it_is(noted, listed)
                if noted and fresh:
                    standing.append(Unchanged(listed, noted, fresh))
                else:
                    yield listed

        for made in self.workers.made(changed(), self.journal.order):
            while standing and standing[0].listed.place < made.listed.place:
                yield standing.popleft()
            yield made
        yield from standing

    def _unchanged(self, one: Unchanged) -> Taken:
        lot = replace(one.noted.lot, entry=entry_of(one.listed))
        if double := self._claim(one.listed, {output.name: output.sha256 for output in one.noted.outputs}):
            return _double(one.listed, double)
        note = replace(one.fresh, lot=lot)
        if note != one.noted:
            self.journal.keep(note)
        refused = self._archive(note, {})
        outcome = Outcome.FAULTY if refused else Outcome.UNCHANGED
        return Taken(one.listed, outcome, lot, refused, note.warnings, _names(note))

    def _made(self, made: Made) -> Taken:
        if made.faults or made.failures:
            outcome = Outcome.FAILED if made.failures else Outcome.FAULTY
            return Taken(made.listed, outcome, made.lot, made.faults + made.failures, made.warnings)
        if double := self._claim(made.listed, {n: sha256(content).hexdigest() for n, content in made.files.items()}):
            return _double(made.listed, double)
        former = self.journal.note_of(made.listed)
        self.journal.place.write(made.files)
        asked = self.journal.asked(made.listed, made.inputs)
        note = Note(
            name=made.listed.name,
            digest=self.journal.digest(asked),
            asked=asked,
            inputs=made.inputs,
            outputs=self.journal.outputs(made.files),
            lot=made.lot,
            warnings=made.warnings,
            former=_former(former, made.files),
        )
        self.journal.keep(note)
        refused = self._archive(note, made.files)
        outcome = Outcome.FAULTY if refused else Outcome.MADE
        return Taken(made.listed, outcome, made.lot, refused, made.warnings, _names(note))

    def _claim(self, listed: Listed, digests: Mapping[str, str]) -> str | None:
        """Take names for a lot; what is wrong where another has one of them with other bytes."""
        for name, digest in digests.items():
            before, known = self._claimed.get(name, (listed, digest))
            if known != digest:
                return (
                    f"{name} is that of {before.name} already: the same number and revision; nothing is written for "
                    "this one"
                )
        self._claimed.update({name: self._claimed.get(name, (listed, digest)) for name, digest in digests.items()})
        return None

    def _archive(self, note: Note, files: Mapping[str, bytes]) -> tuple[str, ...]:
        """Put what is not there yet into the archive, and note it; what is not taken."""
        if self.keeping is None:
            return ()
        archived, refused = list(note.archived), []
        for output in note.outputs:
            if output.name in note.archived or not output.name.endswith(PDF):
                continue
            content = files.get(output.name) or self.journal.place.read(output.name) or b""
            if why := self.keeping.add(content):
                refused.append(f"{self.journal.place.shown(output.name)}: {why}")
            else:
                archived.append(output.name)
        if archived != list(note.archived):
            self.journal.keep(replace(note, archived=tuple(archived)))
        return tuple(refused)


def _names(note: Note) -> tuple[str, ...]:
    return tuple(output.name for output in note.outputs)


def _former(note: Note | None, files: Iterable[str]) -> tuple[str, ...]:
    """What a lot had before and has no more."""
    if note is None:
        return ()
    return tuple(sorted({*_names(note), *note.former} - set(files)))


def _double(listed: Listed, what: str) -> Taken:
    told = (str(Fault(listed.inspection, 1, 1, what)),)
    lot = faulty_lot(entry_of(listed), told)
    return Taken(listed, Outcome.FAULTY, lot, told)
