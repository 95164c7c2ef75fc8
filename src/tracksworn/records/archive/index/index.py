"""Records by what people look for, in SQLite beside the files or in PostgreSQL by URL."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, create_engine
from sqlalchemy.exc import ArgumentError, NoSuchModuleError, SQLAlchemyError

from tracksworn.inspection.faults import Failed, WrongUse
from tracksworn.records.archive.index.reading import Reading
from tracksworn.records.archive.index.tables import drop_tables, settle_sqlite
from tracksworn.records.archive.index.writing import Writing


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
    def reading(self) -> Iterator[Reading]:
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
    def writing(self) -> Iterator[Writing]:
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
