"""What can be asked of the index."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any, Final, NamedTuple

from sqlalchemy import (
    ColumnElement,
    Connection,
    Dialect,
    Select,
    bindparam,
    func,
    literal_column,
    select,
    text,
    union_all,
)

from tracksworn.assessment.model import Stage
from tracksworn.records.archive.held import Facts, Form, Held, Hold, Sought
from tracksworn.records.archive.index.keys import plain_words, whole_key
from tracksworn.records.archive.index.tables import DOCUMENTS, FORMER, HOLDS, RECORDS, STATE, WORDS_IN_POSTGRESQL

BATCH: Final = 1000


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
        """Every form of every document as its act has it, in the order of the log; of one act, by revision and kind."""
        both = (select(*(table.c[name] for name in Logged._fields)) for table in (DOCUMENTS, FORMER))
        query = union_all(*both).order_by("act", "revision", "document", "sha256")
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
        return self.connection.execute(select(RECORDS.c.number).where(RECORDS.c.number == number)).first() is not None

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


_SHOWN: Final = (
    *(DOCUMENTS.c[name] for name in ("number", "revision", "document", "sha256", "size", "added", "act")),
    *(DOCUMENTS.c[name] for name in ("maker", "model", "serial", "inspector", "firm", "inspected", "issued", "stage")),
    *(DOCUMENTS.c[name] for name in ("expired", "elsewhere")),
)
_STAGES: Final = {str(stage): stage for stage in Stage}


def _held(row: Sequence[Any]) -> Held:
    number, revision, document, sha256, size, added, act, *said, gone, elsewhere = row
    maker, model, serial, inspector, firm, inspected, issued, stage = said
    facts = None
    if inspected is not None:
        days = date.fromisoformat(inspected), date.fromisoformat(issued)
        worst = _STAGES.get(stage)
        facts = Facts(number, revision, maker, model, serial, inspector or "", firm, *days, worst, "", document)
    return Held(number, revision, sha256, size, added, act, facts, gone, False, document, elsewhere=bool(elsewhere))


_ORDER: Final = (DOCUMENTS.c.inspected, DOCUMENTS.c.number, DOCUMENTS.c.revision, DOCUMENTS.c.document)
_ALL: Final = select(*_SHOWN)
_BY_SERIAL: Final = _ALL.where(DOCUMENTS.c.serial_key == bindparam("key")).order_by(*_ORDER)
_BY_NUMBER: Final = _ALL.where(DOCUMENTS.c.number == bindparam("key")).order_by(*_ORDER[2:])


@cache
def _written(query: Select[Any], dialect: Dialect) -> str:
    """A query as the database takes it; the two that are asked all the time are not put together anew each time."""
    return str(query.compile(dialect=dialect))
