"""Records by what people look for, in SQLite beside the files or in PostgreSQL by URL."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

from sqlalchemy import (
    ColumnElement,
    Connection,
    Dialect,
    Select,
    bindparam,
    create_engine,
    delete,
    func,
    insert,
    literal_column,
    select,
    text,
    union_all,
    update,
)
from sqlalchemy.exc import ArgumentError, NoSuchModuleError, SQLAlchemyError

from tracksworn.assessment.model import Stage
from tracksworn.inspection.faults import Failed, WrongUse
from tracksworn.records.archive.held import Facts, Form, Held, Hold, Sought
from tracksworn.records.archive.index.keys import plain_words, whole_key
from tracksworn.records.archive.index.tables import (
    DOCUMENTS,
    FORMER,
    HOLDS,
    RECORDS,
    STATE,
    WORDS_IN_POSTGRESQL,
    drop_tables,
    make_tables,
    settle_sqlite,
)

BATCH: Final = 1000
WORDS_LOCK: Final = 0x7261636B  # one at a time makes the tables in PostgreSQL


@dataclass(frozen=True, slots=True)
class State:
    """How far the index is: whose log it follows, how many acts of it, and how many bytes these are."""

    log: str
    acts: int
    length: int


class Logged(NamedTuple):
    """What act put which document in."""

    act: int
    number: str
    revision: int
    document: str
    sha256: str


class Index:
    """A connection to the index. Every error of the database becomes one sentence."""

    def __init__(self, url: str) -> None:
        with _told(SQLAlchemyError):
            try:
                self.engine = create_engine(url)
            except (ArgumentError, NoSuchModuleError, ImportError, ValueError):
                raise WrongUse(
                    "the index is named by a URL that leads to no database known here; right would be "
                    "postgresql+psycopg://USER@HOST/DATABASE, or none at all for SQLite in the archive's folder"
                ) from None
        self.in_sqlite = self.engine.dialect.name == "sqlite"
        self._errors = (SQLAlchemyError, self.engine.dialect.loaded_dbapi.Error)
        if self.in_sqlite:
            settle_sqlite(self.engine)

        self._idle: list[Connection] = []  # kept to read by, for a new one takes longer than what is read

    def close(self) -> None:
        """Let go of all connections."""
        while self._idle:
            self._idle.pop().close()
        self.engine.dispose()

    @contextmanager
    def reading(self) -> "Iterator[Reading]":
        """Read from the index."""
        connection = None
        try:
            connection = self._idle.pop() if self._idle else self.engine.connect()
            yield Reading(connection)
            if not self.in_sqlite:
                connection.connection.rollback()  # of what was asked past SQLAlchemy
            if connection.in_transaction():
                connection.rollback()
            self._idle.append(connection)
        except BaseException as error:
            if connection is not None:
                connection.close()
            if isinstance(error, self._errors):
                raise _failure(error) from None
            raise

    @contextmanager
    def writing(self) -> "Iterator[Writing]":
        """Change the index: all of it at the end, or nothing."""
        with _told(*self._errors), self.engine.begin() as connection:
            yield Writing(connection)

    def begin(self, log: str) -> None:
        """Make the tables, as far as they are not there, for the log of that name."""
        with self.writing() as writing:
            writing.make(log)

    def renew(self, log: str) -> None:
        """Make the tables anew, empty; SQLite's whole file, for it may be no database any more."""
        if self.in_sqlite:
            self.close()
            for ending in ("", "-wal", "-shm", "-journal"):
                Path(f"{self.engine.url.database}{ending}").unlink(missing_ok=True)
        with self.writing() as writing:
            drop_tables(writing.connection)
            writing.make(log)


class Reading:
    """What can be asked of the index."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection
        self.in_sqlite = connection.dialect.name == "sqlite"

    def state(self) -> State | None:
        """How far the index is; None where it was never begun."""
        if not self.connection.dialect.has_table(self.connection, "state"):
            return None
        row = self.connection.execute(select(STATE.c.log, STATE.c.acts, STATE.c.length)).one_or_none()
        return None if row is None else State(*row)

    def find(self, sought: Sought) -> Iterator[Held]:
        """All that is sought, by day of inspection, then by number."""
        if sought.serial is not None and sought == Sought(serial=sought.serial):
            return iter(self._quick(_BY_SERIAL, whole_key(sought.serial)))
        return self._held(_ALL.where(*self._conditions(sought)).order_by(*_ORDER))

    def documents(self, number: str) -> tuple[Held, ...]:
        """All documents of a record, the oldest revision first."""
        return self._quick(_BY_NUMBER, number)

    def logged(self) -> Iterator[Logged]:
        """Every form of every document as its act has it, in the order of the log."""
        both = (select(*(table.c[name] for name in Logged._fields)) for table in (DOCUMENTS, FORMER))
        query = union_all(*both).order_by("act")
        with self.connection.execution_options(yield_per=BATCH).execute(query) as rows:
            yield from (Logged(*row) for row in rows)

    def holds(self, number: str) -> tuple[Hold, ...]:
        """What keeps a record from expiring."""
        query = select(HOLDS.c.reason, HOLDS.c.since, HOLDS.c.act).where(HOLDS.c.number == number)
        return tuple(Hold(*row) for row in self.connection.execute(query.order_by(HOLDS.c.act)))

    def former(self, number: str) -> tuple[Form, ...]:
        """The earlier forms of a record's documents, the oldest first."""
        query = select(*(FORMER.c[name] for name in Form._fields)).where(FORMER.c.number == number)
        return tuple(Form(*row) for row in self.connection.execute(query.order_by(FORMER.c.act)))

    def knows(self, number: str) -> bool:
        """Whether a record of that number was ever added."""
        return bool(self._quick(_BY_NUMBER, number))

    def count(self) -> int:
        """How many records were ever added."""
        counted: int = self.connection.execute(select(func.count()).select_from(RECORDS)).scalar_one()
        return counted

    def numbers(self) -> Iterator[str]:
        """The numbers of all records that were ever added."""
        yield from self._stream(select(RECORDS.c.number).order_by(RECORDS.c.number))

    def due(self, before: date) -> tuple[str, ...]:
        """Records of which every document was issued before that day, and which neither expired nor are held."""
        newest = func.max(DOCUMENTS.c.issued)
        complete = func.count() == func.count(DOCUMENTS.c.issued)
        held = select(HOLDS.c.number)
        query = (
            select(DOCUMENTS.c.number)
            .where(DOCUMENTS.c.expired.is_(None), DOCUMENTS.c.number.not_in(held))
            .group_by(DOCUMENTS.c.number)
            .having(newest < before.isoformat(), complete)
            .order_by(DOCUMENTS.c.number)
        )
        return tuple(self.connection.execute(query).scalars())

    def fault(self) -> str | None:
        """What the database itself finds wrong with the index."""
        if not self.in_sqlite:
            return None
        whole = self.connection.exec_driver_sql("PRAGMA integrity_check(1)").scalar_one()
        loose = self.connection.exec_driver_sql("PRAGMA foreign_key_check").first()
        return str(whole) if whole != "ok" else None if loose is None else f"a row of {loose[0]} has lost its record"

    def _quick(self, query: Select[Any], key: str) -> tuple[Held, ...]:
        cursor = self.connection.connection.cursor()
        try:
            cursor.execute(_written(query, self.connection.dialect), (key,) if self.in_sqlite else {"key": key})
            return tuple(map(_held, cursor.fetchall()))
        finally:
            cursor.close()

    def _held(self, query: Select[Any]) -> Iterator[Held]:
        with self.connection.execution_options(yield_per=BATCH).execute(query) as rows:
            yield from map(_held, rows)

    def _stream(self, query: Select[Any]) -> Iterator[Any]:
        with self.connection.execution_options(yield_per=BATCH).execute(query) as rows:
            yield from rows.scalars()

    def _conditions(self, sought: Sought) -> Iterator[ColumnElement[bool]]:
        if sought.number is not None:
            yield DOCUMENTS.c.number == sought.number
        if sought.serial is not None:
            yield DOCUMENTS.c.serial_key == whole_key(sought.serial)
        if sought.machine is not None:
            yield DOCUMENTS.c.machine_key.contains(plain_words(sought.machine), autoescape=True)
        if sought.firm is not None:
            yield DOCUMENTS.c.firm_key.contains(plain_words(sought.firm), autoescape=True)
        if sought.since is not None:
            yield DOCUMENTS.c.inspected >= sought.since.isoformat()
        if sought.until is not None:
            yield DOCUMENTS.c.inspected <= sought.until.isoformat()
        if sought.stage is not None:
            yield DOCUMENTS.c.stage == str(sought.stage)
        if sought.text is not None:
            yield DOCUMENTS.c.id.in_(self._with_words(plain_words(sought.text)))

    def _with_words(self, words: str) -> Any:
        if self.in_sqlite:
            asked = " ".join(f'"{word}"' for word in words.split())
            return text("SELECT rowid FROM words WHERE words MATCH :asked").bindparams(asked=asked or '""')
        matches = WORDS_IN_POSTGRESQL.c.text.op("@@")(func.plainto_tsquery(literal_column("'simple'"), words))
        return select(WORDS_IN_POSTGRESQL.c.id).where(matches)


@dataclass(frozen=True, slots=True)
class Added:
    """A document to be put into the index."""

    held: Held
    facts: Facts | None


class Writing(Reading):
    """What can be changed in the index."""

    def make(self, log: str) -> None:
        """Make what is missing."""
        if not self.in_sqlite:
            self.connection.execute(select(func.pg_advisory_xact_lock(WORDS_LOCK)))
        make_tables(self.connection)
        if self.state() is None:
            self.connection.execute(insert(STATE).values(one=1, log=log, acts=0, length=0))

    def reached(self, acts: int, length: int) -> None:
        """Note how far the index is now."""
        self.connection.execute(update(STATE).values(acts=acts, length=length))

    def add(self, added: Sequence[Added]) -> None:
        """Put documents in."""
        if not added:
            return
        known = self._known({one.held.number for one in added})
        fresh = dict.fromkeys(one.held.number for one in added if one.held.number not in known)
        if fresh:
            self.connection.execute(insert(RECORDS), [{"number": number} for number in fresh])
        first = self.connection.execute(select(func.coalesce(func.max(DOCUMENTS.c.id), 0))).scalar_one() + 1
        self.connection.execute(insert(DOCUMENTS), [_row(one, first + place) for place, one in enumerate(added)])
        words = [(first + place, plain_words(one.facts.words if one.facts else "")) for place, one in enumerate(added)]
        self._add_words(words)

    def renew(self, added: Added) -> None:
        """Put a document in the place of its earlier form, which stays known by its digest."""
        key = zip((DOCUMENTS.c.number, DOCUMENTS.c.revision, DOCUMENTS.c.document), _key(added.held), strict=True)
        same = [column == value for column, value in key]
        own = select(*(DOCUMENTS.c[name] for name in Form._fields)).where(*same)
        self.connection.execute(insert(FORMER).from_select(Form._fields, own))
        self._forget_words(select(DOCUMENTS.c.id).where(*same))
        self.connection.execute(delete(DOCUMENTS).where(*same))
        self.add([added])

    def hold(self, number: str, hold: Hold) -> None:
        """Note that a record is held."""
        self.connection.execute(insert(HOLDS).values(act=hold.act, number=number, reason=hold.reason, since=hold.since))

    def release(self, act: int) -> None:
        """Note that a hold has ended."""
        self.connection.execute(delete(HOLDS).where(HOLDS.c.act == act))

    def expire(self, number: str, at: str) -> None:
        """Note that a record's files are gone; what was said in it can no longer be found by its words."""
        self._forget_words(select(DOCUMENTS.c.id).where(DOCUMENTS.c.number == number))
        bare = dict.fromkeys(("inspector", "firm", "firm_key", "stage"))
        self.connection.execute(update(DOCUMENTS).where(DOCUMENTS.c.number == number).values(expired=at, **bare))

    def _forget_words(self, of: Select[tuple[int]]) -> None:
        key = "rowid" if self.in_sqlite else "id"
        for identity in self.connection.execute(of).scalars().all():
            self.connection.execute(text(f"DELETE FROM words WHERE {key} = :id"), {"id": identity})  # noqa: S608

    def _known(self, numbers: set[str]) -> set[str]:
        return set(self.connection.execute(select(RECORDS.c.number).where(RECORDS.c.number.in_(numbers))).scalars())

    def _add_words(self, words: Sequence[tuple[int, str]]) -> None:
        rows = [{"id": identity, "text": said} for identity, said in words]
        if self.in_sqlite:
            self.connection.execute(text("INSERT INTO words(rowid, text) VALUES (:id, :text)"), rows)
        else:
            self.connection.execute(
                text("INSERT INTO words(id, text) VALUES (:id, to_tsvector('simple', :text))"), rows
            )


_SHOWN: Final = (
    *(DOCUMENTS.c[name] for name in ("number", "revision", "document", "sha256", "size", "added", "act")),
    *(DOCUMENTS.c[name] for name in ("maker", "model", "serial", "inspector", "firm", "inspected", "issued", "stage")),
    DOCUMENTS.c.expired,
)


_STAGES: Final = {str(stage): stage for stage in Stage}


def _held(row: Sequence[Any]) -> Held:
    number, revision, document, sha256, size, added, act, *said, gone = row
    maker, model, serial, inspector, firm, inspected, issued, stage = said
    facts = None
    if inspected is not None:
        days = date.fromisoformat(inspected), date.fromisoformat(issued)
        worst = _STAGES.get(stage)
        facts = Facts(number, revision, maker, model, serial, inspector or "", firm, *days, worst, "", document)
    return Held(number, revision, sha256, size, added, act, facts, gone, False, document)


_ORDER: Final = (DOCUMENTS.c.inspected, DOCUMENTS.c.number, DOCUMENTS.c.revision, DOCUMENTS.c.document)
_ALL: Final = select(*_SHOWN)
_BY_SERIAL: Final = _ALL.where(DOCUMENTS.c.serial_key == bindparam("key")).order_by(*_ORDER)
_BY_NUMBER: Final = _ALL.where(DOCUMENTS.c.number == bindparam("key")).order_by(*_ORDER[2:])


@cache
def _written(query: Select[Any], dialect: Dialect) -> str:
    """A query as the database takes it; the two that are asked all the time are not put together anew each time."""
    return str(query.compile(dialect=dialect))


def _key(held: Held) -> tuple[str, int, str]:
    return held.number, held.revision, held.document


def _row(one: Added, identity: int) -> dict[str, Any]:
    held, facts = one.held, one.facts
    row: dict[str, Any] = {
        "id": identity, "number": held.number, "revision": held.revision, "document": held.document,
        "sha256": held.sha256, "size": held.size, "added": held.added, "act": held.act,
    }  # fmt: skip
    return row | {
        "maker": facts and facts.maker,
        "model": facts and facts.model,
        "serial": facts and facts.serial,
        "inspector": facts and facts.inspector,
        "firm": facts and facts.firm,
        "inspected": facts and facts.inspected.isoformat(),
        "issued": facts and facts.issued.isoformat(),
        "stage": facts and facts.stage and str(facts.stage),
        "serial_key": facts and whole_key(facts.serial),
        "machine_key": facts and plain_words(f"{facts.maker} {facts.model}"),
        "firm_key": facts and plain_words(facts.firm or ""),
    }


@contextmanager
def _told(*errors: type[Exception]) -> Iterator[None]:
    try:
        yield
    except errors as error:
        raise _failure(error) from None


def _failure(error: BaseException) -> Failed:
    cause = str(getattr(error, "orig", None) or error).strip().splitlines()[0]
    return Failed(
        f"the archive's index does not answer: {cause}. The records themselves are in files; "
        "`tracksworn archive rebuild` makes the index anew from them"
    )
