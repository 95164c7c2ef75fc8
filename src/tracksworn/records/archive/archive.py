"""The archive as everybody else sees it: a folder in which records are put, found, held, checked and let go."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from tracksworn.inspection.faults import WrongUse, printable
from tracksworn.records.archive.acts import Act, Deed
from tracksworn.records.archive.changes import Changes, Piece
from tracksworn.records.archive.claims import standing_of
from tracksworn.records.archive.contents import read_facts
from tracksworn.records.archive.facts import facts_json
from tracksworn.records.archive.files import Files, pieces_to_add, pieces_to_expire, sha256
from tracksworn.records.archive.following import follow, is_up_to_date, rebuild
from tracksworn.records.archive.growth import check_grown
from tracksworn.records.archive.held import (
    Facts,
    Form,
    Held,
    Hold,
    NotTaken,
    Record,
    Sought,
    TakenHold,
    TakenTombstone,
    file_name,
)
from tracksworn.records.archive.holds import LONGEST_REASON, plain_reason
from tracksworn.records.archive.index.index import Index
from tracksworn.records.archive.index.reading import Reading
from tracksworn.records.archive.periods import day_before
from tracksworn.records.archive.place import INDEX, LOG, begin, is_archive, locked
from tracksworn.records.archive.tombstones import read_tombstone, tombstone_json
from tracksworn.records.disk import Disk
from tracksworn.records.log.log import Log, Mark
from tracksworn.records.standing import Claim, Standing


def now() -> datetime:
    """The time, in UTC."""
    return datetime.now(UTC)


class Archive:
    """An archive that is open. Several processes may have it open, and add to it, at the same time."""

    def __init__(
        self, place: Path, index: Index, disk: Disk, clock: Callable[[], datetime], log_key: Path | None = None
    ) -> None:
        self.place = place
        self.files = Files(place)
        self.log = Log(place / LOG, disk, log_key)
        self.index = index
        self._changes = Changes(place, disk, self.log)
        self._clock = clock
        self._seen: Mark | None = None  # of the log, when all was last in order

    @classmethod
    def open(
        cls,
        place: Path,
        *,
        new: bool = False,
        index: str | None = None,
        log_key: Path | None = None,
        disk: Disk | None = None,
        clock: Callable[[], datetime] = now,
    ) -> "Archive":
        """Open the archive in a folder; with `new`, begin one where there is none.

        `index` is the URL of a PostgreSQL database, else the index is SQLite in the folder. `log_key` is where the
        log's key is kept if it is not with the log; only changes need it. What a crash has left half done is finished
        or thrown away, at the latest by the next change. Raises WrongUse where there is no archive, or something else.
        """
        disk = disk or Disk()
        if not is_archive(place):
            if not new:
                raise WrongUse(
                    f"no archive is in {printable(place)}; `tracksworn archive add` with a first record begins one"
                )
            begin(place, disk, _stamp(clock()), log_key)
        return cls(place, Index(index or f"sqlite:///{place / INDEX}"), disk, clock, log_key)

    def close(self) -> None:
        """Let go of the index."""
        self.index.close()

    def __enter__(self) -> "Archive":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def add(self, content: bytes) -> Held:
        """Put a document in. The same bytes again change nothing, nor do those of an earlier form of what is held.

        What is held, with nothing appended but what its seal allows, takes its place; its earlier form stays beside.
        Raises NotTaken for what is no document of this program, for other bytes under a number and revision that
        are held, and for a record that has expired.
        """
        return self.add_known(content, read_facts(content))

    def add_known(self, content: bytes, facts: Facts) -> Held:
        """As `add`, where the facts of this very content are read already."""
        with self._changing() as at:
            inventory = self.files.sound_inventory(facts.number)
            digest = sha256(content)
            key = (facts.number, facts.revision, facts.document)
            forms = list(inventory.forms(file_name(*key)).values()) if inventory else []
            if digest in forms:
                return self._held(*key)._replace(renewed=digest != forms[-1])
            former = forms[-1] if forms else None
            if former is not None:
                held = self._held(*key)._replace(sha256=former)  # as the files have it, whatever the index says
                check_grown(held, self.files.content(held.number, held.name), content)
            beside = facts_json(facts, digest)
            act = Act(
                Deed.ADD if former is None else Deed.RENEW, at, facts.number, facts.revision, digest, len(content),
                sha256(beside), document=facts.document or None, former=former,
            )  # fmt: skip
            self._do(act, pieces_to_add(inventory, facts, content, beside, at))
            return self._held(*key)._replace(new=True, renewed=former is not None)

    def find(self, sought: Sought) -> Iterator[Held]:
        """All that is held of what is sought, by day of inspection."""
        with self.reading() as reading:
            yield from reading.find(sought)

    def show(self, number: str) -> Record | None:
        """All documents of one record; None where it is not known."""
        with self.reading() as reading:
            documents = reading.documents(number)
            return Record(number, documents, reading.holds(number), reading.former(number)) if documents else None

    def known(self, number: str) -> Record:
        """As `show`. Raises NotTaken where the record is not known."""
        record = self.show(number)
        if record is None:
            raise NotTaken(f"record {number} is not held here")
        return record

    def history(self, serial: str) -> tuple[Held, ...]:
        """All that is held of one machine, the oldest inspection first."""
        return tuple(self.find(Sought(serial=serial)))

    def standing(self, claim: Claim) -> Standing:
        """How a file stands here that claims to be a document of a record."""
        with self.reading() as reading:
            return standing_of(claim, reading, self.files)

    def content(self, held: Held) -> bytes:
        """The document itself. Raises NotTaken where it has expired, or is not as it was put."""
        if held.expired:
            gone = " in another archive; its file never came here" if held.elsewhere else "; its file was removed"
            raise NotTaken(f"{held.name} expired on {held.expired[:10]}{gone}")
        content = self.files.content(held.number, held.name)
        if content is None or sha256(content) != held.sha256:
            raise NotTaken(f"{held.name} is damaged; `tracksworn archive verify` tells all of it")
        return content

    def hold(self, number: str, reason: str) -> Hold:
        """Keep a record from expiring, for a reason that is logged."""
        with self._changing() as at:
            self._known(number)
            self._do(Act(Deed.HOLD, at, number, reason=_reason(reason)))
            return self._holds(number)[-1]

    def take_hold(self, number: str, hold: Hold) -> TakenHold:
        """Hold a record as another archive does, for its reason and since its day; once, however often it comes."""
        with self._changing() as at:
            self._known(number)
            held = self._holds(number)
            same = next((one for one in held if (one.reason, one.since) == (hold.reason, hold.since)), None)
            if same is None:
                self._do(Act(Deed.HOLD, at, number, reason=hold.reason, since=hold.since))
            return TakenHold(number, same or self._holds(number)[-1], new=same is None)

    def take_tombstone(self, tombstone: bytes) -> TakenTombstone:
        """Know a record as expired that expired in another archive; its number is taken from then on.

        Raises NotTaken for what is no tombstone, and for one of a record that is held here: that goes by the rule of
        this archive alone.
        """
        gone = read_tombstone(tombstone, 0)
        expired = gone.documents[0].expired or ""
        with self._changing() as at:
            known = self._documents(gone.number)
            if known and known[0].expired:
                return TakenTombstone(gone.number, known[0].expired, new=False)
            if known:
                raise NotTaken(
                    f"record {gone.number} expired on {expired[:10]} in another archive, and is held in this one; "
                    "it stays until `tracksworn archive expire` lets it go"
                )
            self.files.sound_inventory(gone.number)
            act = Act(Deed.TOMBSTONE, at, gone.number, beside=sha256(tombstone))
            self._do(act, pieces_to_expire(gone.number, tombstone, at))
            return TakenTombstone(gone.number, expired, new=True)

    def release(self, number: str, reason: str, hold: int | None = None) -> Hold:
        """End a hold; where there are several, the one of that act. Raises NotTaken where it is not clear which."""
        with self._changing() as at:
            self._known(number)
            ended = _which(number, self._holds(number), hold)
            self._do(Act(Deed.RELEASE, at, number, reason=_reason(reason), hold=ended.act))
            return ended

    def due(self, older_than: str, on: date) -> tuple[str, ...]:
        """The records that would expire: every revision issued longer ago than that, and nothing holds them."""
        with self.reading() as reading:
            return reading.due(day_before(older_than, on))

    def expire(self, older_than: str, on: date) -> Iterator[Record]:
        """Remove the files of what is due, one record after the other, and leave a tombstone of each."""
        rule = f"issued more than {older_than} before {on.isoformat()}"
        for number in self.due(older_than, on):
            with self._changing() as at:
                with self.index.reading() as reading:
                    if number not in reading.due(day_before(older_than, on)):
                        continue  # somebody holds it, or has added a revision, meanwhile
                    record = Record(number, reading.documents(number), (), reading.former(number))
                tombstone = tombstone_json(record, rule, at)
                act = Act(Deed.EXPIRE, at, number, beside=sha256(tombstone), reason=rule)
                self._do(act, pieces_to_expire(number, tombstone, at))
            yield record

    def proof(self, number: str, revision: int | None = None, document: str | None = None) -> dict[str, Any]:
        """What shows to anybody, without this program, that a document was put into the log."""
        return self.proof_of(self.known(number).choose_one(revision, document))

    def proof_of(self, held: Held | Form) -> dict[str, Any]:
        """As `proof`, for a document, or an earlier form of one, that was found."""
        entry = next(entry for entry in self.log.entries() if entry.position == held.act)
        return self.log.proof(entry)

    def rebuild(self) -> None:
        """Make the index anew from files and log."""
        with locked(self.place):
            self._changes.settle()
            rebuild(self.index, self.log, self.files)

    @contextmanager
    def _changing(self) -> Iterator[str]:
        """The only one that makes changes, with everything in order before; gives the time."""
        with locked(self.place):
            self._changes.settle()
            follow(self.index, self.log, self.files)
            yield _stamp(self._clock())

    def _do(self, act: Act, pieces: Sequence[Piece] = ()) -> None:
        self._changes.make(act.canonical(), act.at, pieces)
        follow(self.index, self.log, self.files)

    @contextmanager
    def reading(self) -> Iterator[Reading]:
        """The index, which has all that was done until now."""
        mark = self.log.mark()
        if mark != self._seen and (self._changes.unsettled() or not is_up_to_date(self.index, self.log)):
            with self._changing():
                pass
        self._seen = mark
        with self.index.reading() as reading:
            yield reading

    def _held(self, *key: *tuple[str, int, str]) -> Held:
        found = [one for one in self._documents(key[0]) if (one.number, one.revision, one.document) == key]
        if not found:
            raise NotTaken(
                f"{file_name(*key)} is in the files but not in the index; "
                "`tracksworn archive rebuild` makes the index anew"
            )
        return found[0]

    def _documents(self, number: str) -> tuple[Held, ...]:
        with self.index.reading() as reading:
            return reading.documents(number)

    def _holds(self, number: str) -> tuple[Hold, ...]:
        with self.index.reading() as reading:
            return reading.holds(number)

    def _known(self, number: str) -> None:
        documents = self._documents(number)
        if not documents:
            raise NotTaken(f"record {number} is not held here")
        if expired := documents[0].expired:
            raise NotTaken(f"record {number} expired on {expired[:10]}")


def _which(number: str, holds: tuple[Hold, ...], act: int | None) -> Hold:
    chosen = [hold for hold in holds if act is None or hold.act == act]
    if len(chosen) == 1:
        return chosen[0]
    if not holds:
        raise NotTaken(f"nothing holds record {number}")
    listed = "; ".join(f"{hold.act}: {hold.reason}" for hold in holds)
    raise NotTaken(f"record {number} is held more than once or not by that act; name one of these: {listed}")


def _reason(reason: str) -> str:
    said = plain_reason(reason)
    if said is None:
        raise WrongUse(f"a reason has 1 to {LONGEST_REASON} characters; this one has {len(' '.join(reason.split()))}")
    return said


def _stamp(time: datetime) -> str:
    return time.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
