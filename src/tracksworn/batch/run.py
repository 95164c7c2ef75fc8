"""A batch, from listed lots to documents, notes and an index.

listed → unchanged since the last run, or made by workers → held against the archive → sealed → written → noted →
archived → told

Workers only compute; this process alone writes, and takes lots in the order of the list. So everything is the same
whatever the number of workers.
"""

from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Final, Protocol

from tracksworn.batch.journal import Journal, Note
from tracksworn.batch.order import Made, Workers, entry_of, failed, refused
from tracksworn.batch.places import Refused
from tracksworn.documents.sale.lot import Read, SaleLot
from tracksworn.inspection.sale_list import Listed
from tracksworn.records.archive.held import NotTaken

PDF: Final = ".pdf"
MOST_STANDING: Final = 1000
"""Unchanged lots that wait for those before them, after which no more are looked at."""
UNKNOWN_SEAL: Final = "that of the archive"
"""In a note, of documents that keep the seal that they have there."""
OLD_SEALS: Final = "what the archive holds already keeps its seal, whatever key and level are asked for now"


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
NotKept = Sequence[tuple[str, str]]
"""Documents that an archive does not take, by name, and why."""


class Sealing(Protocol):
    """Seals documents on their way from the workers to the place."""

    def through(self, coming: Iterator[Coming]) -> Iterator[Coming]:
        """The same lots in the same order, the PDFs of those that were made sealed, or what failed."""
        ...

    def written(self, names: Iterable[str]) -> None:
        """Count files that came through and are written by now."""
        ...


class Keeping(Protocol):
    """Puts documents into an archive. Raises NotTaken with what it has against one, Failed for the machine."""

    def has(self, read: Read, digest: str) -> bool:
        """Whether bytes with this SHA-256 are, or were, kept there of a record's revision."""
        ...

    def instead(self, content: bytes) -> bytes | None:
        """What is kept there of the same document, made in the same way from the same data; None where nothing is."""
        ...

    def add(self, content: bytes) -> None:
        """Put it in, or find that it is."""
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
    _claimed: dict[str, Listed] = field(default_factory=dict, init=False)
    _standing: set[str] = field(default_factory=set, init=False)
    _once: set[str] = field(default_factory=set, init=False)

    def __iter__(self) -> Iterator[Taken]:
        """Every lot in the order of the list; with `strict` none after the first that is bad."""
        fit = map(self._kept, map(self._claiming, self._coming()))
        for one in self.sealing.through(fit) if self.sealing else fit:
            taken = self._unchanged(one) if isinstance(one, Unchanged) else self._made(one)
            self._standing.update(taken.files)
            yield taken
            if self.strict and taken.bad:
                self.stopped = True
                return

    def left_over(self) -> tuple[str, ...]:
        """Files of earlier runs that stand and are of no lot as it is now."""
        for note in self.journal.notes_of_others(self.listed):
            self._remember(note)
        return tuple(sorted(name for name in self._once - self._standing if self.journal.place.state(name)))

    def _remember(self, note: Note) -> None:
        self._once.update(_names(note), note.former)

    def _coming(self) -> Iterator[Coming]:
        """Lots in order; those that have changed go to the workers, the others stand."""
        lots = iter(self.listed)
        for listed in lots:
            if standing := self._as_it_was(listed):
                yield standing
            else:
                yield from self._with_workers(listed, lots)

    def _with_workers(self, first: Listed, others: Iterator[Listed]) -> Iterator[Coming]:
        """A lot that has changed and those after it, until too many that stand would wait for it."""
        standing: deque[Unchanged] = deque()

        def changed() -> Iterator[Listed]:
            yield first
            for listed in others:
                if stands := self._as_it_was(listed):
                    standing.append(stands)
                else:
                    yield listed
                if len(standing) >= MOST_STANDING:
                    return

        for made in self.workers.made(changed(), self.journal.order):
            while standing and standing[0].listed.place < made.listed.place:
                yield standing.popleft()
            yield made
        yield from standing

    def _as_it_was(self, listed: Listed) -> Unchanged | None:
        """A lot that stands; None where it is to be made."""
        noted = self.journal.note_of(listed)
        if noted is None:
            return None
        self._remember(noted)
        fresh = None if listed.faults else self.journal.as_it_is(noted, listed, lambda: self._to_archive(noted) == [])
        return None if fresh is None else Unchanged(listed, noted, fresh)

    def _claiming(self, one: Coming) -> Coming:
        """The lot with its names taken, or what is wrong where an earlier one has them."""
        names = self._names_of(one)
        double = next((name for name in names if name in self._claimed), None)
        if double is None or (isinstance(one, Made) and one.bad):
            self._claimed.update({name: self._claimed.get(name, one.listed) for name in names})
            return one
        what = f"{double} is that of {self._claimed[double].name} already: the same number and revision"
        return refused(one.listed, [f"{what}; nothing is written for this one"])

    def _names_of(self, one: Coming) -> tuple[str, ...]:
        """The names of a lot's files, and that of its record; where it is bad, those under which it stands."""
        if isinstance(one, Made) and not one.bad:
            return _with_record(tuple(one.files), one.lot)
        noted = one.noted if isinstance(one, Unchanged) else self.journal.note_of(one.listed)
        return () if noted is None else _with_record(_names(noted), noted.lot)

    def _kept(self, one: Coming) -> Coming:
        """The lot with documents as the archive keeps them, or what that has against it: before any is sealed."""
        if self.keeping is None or isinstance(one, Unchanged):
            return one
        kept, against = self._held_against_archive({name: one.files[name] for name in one.files if _is_pdf(name)})
        if against:
            told = (
                f"the archive does not take {name}: {why}; nothing is written for this lot" for name, why in against
            )
            return replace(refused(one.listed, told), warnings=one.warnings)
        return replace(one, files={name: one.files[name] for name in one.files if name not in kept}, finished=kept)

    def _unchanged(self, one: Unchanged) -> Taken:
        lot = replace(one.noted.lot, entry=entry_of(one.listed))
        note = replace(one.fresh, lot=lot)
        if note != one.noted:
            self.journal.keep(note)
        missing = {name: self.journal.place.read(name) or b"" for name in self._to_archive(note) or ()}
        kept, against = self._held_against_archive(missing)
        if kept and not against:
            if why := self._refusal(kept):
                return self._made(replace(failed(one.listed, why), warnings=note.warnings))
            anew = {output.name: output for output in self.journal.outputs(kept)}
            outputs = tuple(anew.get(output.name, output) for output in note.outputs)
            note = replace(note, outputs=outputs, sealing=UNKNOWN_SEAL if self.sealing else note.sealing)
            self.journal.keep(note)
        told = self._told(against or self._archive(note, {name: missing[name] for name in missing if name not in kept}))
        outcome = Outcome.FAULTY if told else Outcome.MADE if kept else Outcome.UNCHANGED
        old = self.sealing is not None and bool(kept or note.sealing != self.journal.sealing)
        return Taken(one.listed, outcome, lot, told, note.warnings + (OLD_SEALS,) * old, _names(note))

    def _made(self, made: Made) -> Taken:
        if made.bad:
            outcome = Outcome.FAILED if made.failures else Outcome.FAULTY
            return Taken(made.listed, outcome, made.lot, made.faults + made.failures, made.warnings)
        files = {**made.files, **made.finished}
        former = self.journal.note_of(made.listed)
        if why := self._refusal(files):
            return self._made(replace(failed(made.listed, why), warnings=made.warnings))
        if self.sealing:
            self.sealing.written(made.files)
        asked = self.journal.asked(made.listed, made.inputs)
        note = Note(
            name=made.listed.name,
            digest=self.journal.digest(asked),
            asked=asked,
            inputs=made.inputs,
            outputs=self.journal.outputs(files),
            lot=made.lot,
            warnings=made.warnings,
            former=_former(former, files),
            sealing=UNKNOWN_SEAL if self.sealing and made.finished else self.journal.sealing,
        )
        self.journal.keep(note)
        told = self._told(self._archive(note, {name: files[name] for name in made.files if _is_pdf(name)}))
        outcome = Outcome.FAULTY if told else Outcome.MADE
        old = self.sealing is not None and bool(made.finished)
        return Taken(made.listed, outcome, made.lot, told, made.warnings + (OLD_SEALS,) * old, _names(note))

    def _told(self, refused: NotKept) -> tuple[str, ...]:
        return tuple(f"{self.journal.place.shown(name)}: {why}" for name, why in refused)

    def _refusal(self, files: Mapping[str, bytes]) -> str | None:
        """Write; why not, where that is for these names alone. Raises Failed where the place takes nothing else."""
        try:
            self.journal.place.write(files)
        except Refused as error:
            return str(error)
        return None

    def _to_archive(self, note: Note) -> list[str] | None:
        """The PDFs of a lot that the archive has not had; None where there is no archive."""
        if self.keeping is None:
            return None
        read, pdfs = note.lot.read, [one for one in note.outputs if _is_pdf(one.name)]
        return [one.name for one in pdfs if read is None or not self.keeping.has(read, one.sha256)]

    def _held_against_archive(self, files: Mapping[str, bytes]) -> tuple[Mapping[str, bytes], NotKept]:
        """What the archive keeps in the place of documents, and what it has against them."""
        kept: dict[str, bytes] = {}
        refused: list[tuple[str, str]] = []
        if self.keeping is None:
            return kept, refused
        for name, content in files.items():
            try:
                if held := self.keeping.instead(content):
                    kept[name] = held
            except NotTaken as error:
                refused.append((name, str(error)))
        return kept, refused

    def _archive(self, note: Note, files: Mapping[str, bytes]) -> NotKept:
        """Put documents into the archive, and note that it has all of the lot's; what is not taken."""
        if self.keeping is None:
            return []
        archived = {name for name in _names(note) if _is_pdf(name)}
        refused: list[tuple[str, str]] = []
        for name, content in files.items():
            try:
                self.keeping.add(content)
            except NotTaken as error:
                archived.remove(name)
                refused.append((name, str(error)))
        if archived != set(note.archived):
            self.journal.keep(replace(note, archived=tuple(sorted(archived))))
        return refused


def _names(note: Note) -> tuple[str, ...]:
    return tuple(output.name for output in note.outputs)


def _with_record(names: tuple[str, ...], lot: SaleLot) -> tuple[str, ...]:
    """With the record's own name: of one there is but one lot, whichever documents it has."""
    return names if lot.read is None else (*names, f"{lot.read.number}-r{lot.read.revision}")


def _is_pdf(name: str) -> bool:
    return name.endswith(PDF)


def _former(note: Note | None, files: Iterable[str]) -> tuple[str, ...]:
    """What a lot had before and has no more."""
    if note is None:
        return ()
    return tuple(sorted({*_names(note), *note.former} - set(files)))
