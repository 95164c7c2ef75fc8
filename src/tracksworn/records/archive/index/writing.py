"""What can be changed in the index."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from sqlalchemy import Select, delete, func, insert, select, text, update

from tracksworn.records.archive.held import Facts, Form, Held, Hold, Record
from tracksworn.records.archive.index.keys import plain_words, whole_key
from tracksworn.records.archive.index.reading import Reading
from tracksworn.records.archive.index.tables import DOCUMENTS, FORMER, HOLDS, RECORDS, STATE, make_tables

WORDS_LOCK: Final = 0x7261636B  # one at a time makes the tables in PostgreSQL


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
        self._add_records([one.held.number for one in added])
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

    def bury(self, record: Record) -> None:
        """Put in a record of which there is only the tombstone of another archive."""
        self._add_records([record.number])  # also where the tombstone cannot be read
        self.add([Added(held, held.facts) for held in record.documents])
        if record.former:
            self.connection.execute(insert(FORMER), [form._asdict() for form in record.former])

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

    def _add_records(self, numbers: Sequence[str]) -> None:
        known = self._known(set(numbers))
        fresh = dict.fromkeys(number for number in numbers if number not in known)
        if fresh:
            self.connection.execute(insert(RECORDS), [{"number": number} for number in fresh])

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


def _key(held: Held) -> tuple[str, int, str]:
    return held.number, held.revision, held.document


def _row(one: Added, identity: int) -> dict[str, Any]:
    held, facts = one.held, one.facts
    row: dict[str, Any] = {
        "id": identity, "number": held.number, "revision": held.revision, "document": held.document,
        "sha256": held.sha256, "size": held.size, "added": held.added, "act": held.act,
        "expired": held.expired, "elsewhere": held.elsewhere,
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
