"""The tables of the index, the same in SQLite and PostgreSQL; only free text differs."""

from typing import Any, Final

from sqlalchemy import (
    BigInteger,
    Boolean,
    CheckConstraint,
    Column,
    Connection,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    UniqueConstraint,
    event,
)
from sqlalchemy.dialects.postgresql import TSVECTOR

METADATA: Final = MetaData()

STATE: Final = Table(
    "state",
    METADATA,
    Column("one", Integer, CheckConstraint("one = 1"), primary_key=True),
    Column("log", String, nullable=False),  # its name
    Column("acts", BigInteger, nullable=False),  # how many of it are in the index
    Column("length", BigInteger, nullable=False),  # and how many bytes these are
)

RECORDS: Final = Table(
    "records",
    METADATA,
    Column("number", String, primary_key=True),
)

DOCUMENTS: Final = Table(
    "documents",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("number", String, ForeignKey("records.number"), nullable=False),
    Column("revision", Integer, nullable=False),
    Column("document", String, nullable=False),  # empty where it does not say
    Column("sha256", String, nullable=False),
    Column("size", BigInteger, nullable=False),
    Column("added", String, nullable=False),
    Column("act", BigInteger, nullable=False),
    Column("expired", String),
    Column("elsewhere", Boolean, nullable=False),  # whether it is known by another archive's tombstone alone
    Column("maker", String),
    Column("model", String),
    Column("serial", String),
    Column("inspector", String),
    Column("firm", String),
    Column("inspected", String),  # ISO 8601
    Column("issued", String),
    Column("stage", String),
    Column("serial_key", String),
    Column("machine_key", String),
    Column("firm_key", String, index=True),
    UniqueConstraint("number", "revision", "document"),
    Index("documents_act", "act"),
    Index("documents_serial", "serial_key", "inspected", "number", "revision", "document"),
    Index("documents_inspected", "inspected"),
    Index("documents_issued", "issued"),
    Index("documents_stage", "stage", "inspected"),
)

FORMER: Final = Table(
    "former",
    METADATA,
    Column("act", BigInteger, primary_key=True, autoincrement=False),
    Column("sha256", String, primary_key=True),
    Column("number", String, ForeignKey("records.number"), nullable=False, index=True),
    Column("revision", Integer, nullable=False),
    Column("document", String, nullable=False),
    Column("size", BigInteger, nullable=False),
    Column("added", String, nullable=False),
)

HOLDS: Final = Table(
    "holds",
    METADATA,
    Column("act", BigInteger, primary_key=True, autoincrement=False),
    Column("number", String, ForeignKey("records.number"), nullable=False, index=True),
    Column("reason", String, nullable=False),
    Column("since", String, nullable=False),
)

WORDS_IN_POSTGRESQL: Final = Table(
    "words",
    MetaData(),
    Column("id", Integer, primary_key=True, autoincrement=False),
    Column("text", TSVECTOR, nullable=False),
    Index("words_text", "text", postgresql_using="gin"),
)

WORDS_IN_SQLITE: Final = "CREATE VIRTUAL TABLE IF NOT EXISTS words USING fts5(text, tokenize='unicode61')"


def make_tables(connection: Connection) -> None:
    """All tables, as far as they are not there."""
    METADATA.create_all(connection)
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql(WORDS_IN_SQLITE)
    else:
        WORDS_IN_POSTGRESQL.metadata.create_all(connection)


def drop_tables(connection: Connection) -> None:
    """None of them any more."""
    connection.exec_driver_sql("DROP TABLE IF EXISTS words")
    METADATA.drop_all(connection)


def settle_sqlite(engine: Any) -> None:
    """What every connection to SQLite begins with: a write-ahead log, and foreign keys that count."""

    @event.listens_for(engine, "connect")
    def begin(connection: Any, _record: object) -> None:
        cursor = connection.cursor()
        for setting in ("journal_mode=WAL", "foreign_keys=ON", "synchronous=NORMAL", "busy_timeout=60000"):
            cursor.execute(f"PRAGMA {setting}")
        cursor.close()
