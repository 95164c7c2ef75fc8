"""How long the archive takes, as ratios to a bare database and a bare disk, and whether memory stays flat."""

import argparse
import os
import sqlite3
import sys
import tracemalloc
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from hashlib import sha256
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from archived import document

from tracksworn.assessment.model import Stage
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.checking import check_index, check_records, numbers_to_check
from tracksworn.records.archive.held import Facts, Held, Sought
from tracksworn.records.archive.index.index import Added, Index
from tracksworn.records.disk import Disk
from tracksworn.records.log.log import Log

LOOK_UPS = 400
SINGLE = 60
TOGETHER = 3000
AT = "2031-05-04T09:30:00Z"


@dataclass(frozen=True)
class Line:
    """One line of the table: what was done, how long it took, and against what."""

    what: str
    took: float  # seconds
    reference: float
    against: str

    def __str__(self) -> str:
        return f"| {self.what} | {1000 * self.took:.3f} | {self.took / self.reference:.2f} | {self.against} |"


def took(work: Callable[[], object]) -> float:
    """Seconds."""
    start = perf_counter()
    work()
    return perf_counter() - start


def each_took(work: Callable[[int], object], count: int) -> float:
    """Seconds for one, the median of all."""
    return median(took(lambda number=number: work(number)) for number in range(count))  # type: ignore[misc]


def objects(folder: Path, count: int) -> Iterator[Line]:
    """Real documents: added, found and read again."""
    documents = [document(f"N-{number}", serial=f"S{number:06d}") for number in range(count)]
    bare = sqlite3.connect(folder / "bare.sqlite", isolation_level=None)
    bare.execute("PRAGMA journal_mode=WAL")
    bare.execute("CREATE TABLE documents(number TEXT PRIMARY KEY, content BLOB)")
    insert = "INSERT INTO documents VALUES (?, ?)"
    plain = each_took(lambda number: bare.execute(insert, (str(number), documents[number])), count)
    with Archive.open(folder / "archive", new=True) as archive:
        own = each_took(lambda number: archive.add(documents[number]), count)
        yield Line(f"add, each of {count}", own, plain, "one insert of the same bytes and its commit")
        digest = took(lambda: [sha256(one).digest() for one in documents])
        numbers = numbers_to_check(archive, None, 0)
        whole = took(lambda: [*check_records(archive, numbers), *check_index(archive)])
        yield Line(f"verify all {count}", whole, digest, "SHA-256 of the same bytes in memory")
        sought = [Sought(serial=f"S{number:06d}") for number in range(count)]
        found = each_took(lambda number: list(archive.find(sought[number])), min(count, LOOK_UPS))
        known = each_took(lambda number: bare.execute(_BY_NUMBER, (str(number),)).fetchall(), min(count, LOOK_UPS))
        yield Line(f"find one of {count} by serial, archive open", found, known, "one look-up by primary key")
    bare.close()


_BY_NUMBER = "SELECT content FROM documents WHERE number = ?"


def rows(count: int) -> Iterator[Added]:
    """Invented rows of an index."""
    stages = list(Stage)
    for number in range(count):
        day = date(2001, 1, 1) + timedelta(days=number % 10_000)
        facts = Facts(
            f"R-{number}", 0, "Hollin", f"H-{number % 90}", f"HLN{number // 3:07d}", "Ines Marlow",
            f"Firm {number % 40}", day, day, stages[number % 4], f"weeping seal word{number % 5000}",
        )  # fmt: skip
        yield Added(Held(f"R-{number}", 0, f"{number:064x}", 1000, AT, number, facts), facts)


def index_rows(folder: Path, count: int) -> Iterator[Line]:
    """The index alone, with many rows: found by serial, by word, and page by page."""
    index = Index(f"sqlite:///{folder / 'rows.sqlite'}")
    index.begin("bench")
    together: list[Added] = []
    with index.writing() as writing:
        for one in rows(count):
            together.append(one)
            if len(together) == 5000:
                writing.add(together)
                together = []
        writing.add(together)
    bare = sqlite3.connect(folder / "rows.sqlite")
    keys = [f"hln{number * 997 % count // 3:07d}" for number in range(LOOK_UPS)]
    plain = each_took(lambda number: bare.execute(_BY_SERIAL, (keys[number],)).fetchall(), LOOK_UPS)
    with index.reading() as reading:
        found = each_took(lambda number: list(reading.find(Sought(serial=keys[number]))), LOOK_UPS)
        yield Line(f"find by serial among {count} rows", found, plain, "the same look-up in bare SQLite")
        words = each_took(lambda number: sum(1 for _ in reading.find(Sought(text=f"word{number}"))), 50)
        bare_words = each_took(lambda number: bare.execute(_BY_WORD, (f"word{number}",)).fetchall(), 50)
        yield Line(f"find by a word among {count} rows", words, bare_words, "the same look-up in bare SQLite")
        tracemalloc.start()
        seen = sum(1 for _ in reading.find(Sought(firm="firm 1")))
        peak = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
    print(f"{seen} rows read one by one: {peak / 1e6:.1f} MB at most")
    bare.close()
    index.close()


_COLUMNS = "number, revision, sha256, size, added, act, maker, model, serial, inspector, firm, inspected, issued, stage"
_BY_SERIAL = f"SELECT {_COLUMNS} FROM revisions WHERE serial_key = ? ORDER BY inspected, number, revision"
_BY_WORD = f"SELECT {_COLUMNS} FROM revisions WHERE id IN (SELECT rowid FROM words WHERE words MATCH ?)"


def log_acts(folder: Path, count: int) -> Iterator[Line]:
    """Acts appended together, one by one, and a proof out of many."""
    log = Log(folder / "log", Disk())
    log.begin(AT)
    acts = [f'{{"act":"add","number":"R-{number}","sha256":"{number:064x}"}}'.encode() for number in range(count)]
    handle = os.open(folder / "synced", os.O_WRONLY | os.O_CREAT)

    def write(_number: int) -> None:
        os.write(handle, acts[0])
        os.fsync(handle)

    sync = each_took(write, SINGLE)
    single = each_took(lambda number: log.append([acts[number]], AT), SINGLE)
    yield Line("log an act by itself", single, sync, "one write and its sync")
    together = took(lambda: log.append(acts[:TOGETHER], AT))
    print(f"{TOGETHER} acts logged with one sync: {TOGETHER / together:.0f} a second")
    for start in range(0, count, 50_000):
        log.append(acts[start : start + 50_000], AT)
    entry = next(log.entries())
    hashing = took(lambda: [sha256(act).digest() for act in acts])
    yield Line(f"prove one of {log.checkpoint().size} acts", took(lambda: log.proof(entry)), hashing, "SHA-256 of each")
    opened = each_took(lambda _number: log.checkpoint(), SINGLE)
    yield Line("read the checkpoint", opened, sync, "one write and its sync")
    os.close(handle)


def main(words: Sequence[str] | None = None) -> None:
    """Print the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--objects", type=int, default=200)
    parser.add_argument("--rows", type=int, default=50_000)
    asked = parser.parse_args(words)
    with TemporaryDirectory() as name:
        folder = Path(name)
        lines = [*objects(folder, asked.objects), *index_rows(folder, asked.rows), *log_acts(folder, asked.rows)]
    print("\n| archive | ms | × | against |\n| --- | --- | --- | --- |")
    for line in lines:
        print(line)
    print()


if __name__ == "__main__":
    main()
