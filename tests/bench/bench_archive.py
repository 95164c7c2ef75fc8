"""How long the archive takes, as ratios to a bare database and a bare disk, and whether memory stays flat.

The objects are real: documents that carry all that the archive reads, with one empty page; of a seal it reads nothing.
Most are put in without waiting for the disk, so that ten thousand take minutes; the last of them, which are measured,
wait for it. What waits for a disk is measured by the clock, all else by the processor.
"""

import argparse
import os
import resource
import sqlite3
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from hashlib import sha256, sha512
from itertools import islice
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, process_time

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from archived import NotWaiting, document

from tracksworn.assessment.model import Stage
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.checking import check_index, check_records, check_strays, numbers_to_check
from tracksworn.records.archive.held import Facts, Held, Sought
from tracksworn.records.archive.index.index import Index
from tracksworn.records.archive.index.writing import Added
from tracksworn.records.disk import Disk
from tracksworn.records.log.log import Log

LOOK_UPS = 400
SINGLE = 60
TOGETHER = 3000
MACHINES = 3  # inspections of each
AT = "2031-05-04T09:30:00Z"

Clock = Callable[[], float]


@dataclass(frozen=True)
class Line:
    """One line of the table: what was done, how long it took, and against what."""

    what: str
    took: float  # seconds
    reference: float
    against: str

    def __str__(self) -> str:
        return f"| {self.what} | {1000 * self.took:.3f} | {self.took / self.reference:.2f} | {self.against} |"


def took(work: Callable[[], object], clock: Clock = process_time) -> float:
    """Seconds."""
    start = clock()
    work()
    return clock() - start


def each_took(work: Callable[[int], object], count: int, clock: Clock = process_time) -> float:
    """Seconds for one, the median of all."""
    return median(took(lambda number=number: work(number), clock) for number in range(count))  # type: ignore[misc]


def most_memory() -> str:
    """The most that this process ever had, which only grows."""
    return f"{resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB of memory at most so far"


def objects(folder: Path, counts: Sequence[int]) -> Iterator[Line]:
    """Real documents: the archive is filled up to each of the counts; then some are added, found, and all read."""
    bare = sqlite3.connect(folder / "bare.sqlite", isolation_level=None)
    bare.execute("PRAGMA journal_mode=WAL")
    bare.execute("CREATE TABLE documents(number TEXT PRIMARY KEY, content BLOB)")
    place, filled = folder / "archive", 0
    Archive.open(place, new=True).close()
    for count in counts:
        with Archive.open(place, disk=NotWaiting()) as archive:
            for number in range(filled, count - SINGLE):
                archive.add(made(number))
        filled = count
        with Archive.open(place) as archive:
            yield from added(archive, bare, count)
            yield from found(archive, count)
            yield read_again(archive, count)
        print(f"{count} objects added, found and verified: {most_memory()}")
    bare.close()


def made(number: int) -> bytes:
    """A document."""
    return document.__wrapped__(f"N-{number}", serial=f"HLN{number // MACHINES:07d}", kind="full")


def added(archive: Archive, bare: sqlite3.Connection, count: int) -> Iterator[Line]:
    """The last documents, one by one."""
    last = [made(number) for number in range(count - SINGLE, count)]
    insert = "INSERT INTO documents VALUES (?, ?)"
    plain = each_took(lambda number: bare.execute(insert, (f"{count}-{number}", last[number])), SINGLE, perf_counter)
    own = each_took(lambda number: archive.add(last[number]), SINGLE, perf_counter)
    yield Line(f"add one to {count}", own, plain, "one insert of the same bytes and its commit")


def found(archive: Archive, count: int) -> Iterator[Line]:
    """One machine's, in the open archive."""
    rows = sqlite3.connect(archive.place / "index.sqlite")
    sought = [number * 997 % count // MACHINES for number in range(LOOK_UPS)]
    plain = each_took(lambda number: rows.execute(_BY_SERIAL, (f"hln{sought[number]:07d}",)).fetchall(), LOOK_UPS)
    own = each_took(lambda number: archive.history(f"HLN{sought[number]:07d}"), LOOK_UPS)
    rows.close()
    yield Line(f"history of a serial among {count}, in the archive", own, plain, "the same look-up in bare SQLite")


def read_again(archive: Archive, count: int) -> Line:
    """Every byte, and index and folders."""
    files = list((archive.place / "records").rglob("*.pdf"))

    def both(path: Path) -> object:
        content = path.read_bytes()
        return sha256(content).digest(), sha512(content).digest()

    digests = took(lambda: [both(path) for path in files] and None)
    whole = took(lambda: wrong(archive))
    return Line(f"verify all {count}", whole, digests, "reading the documents, SHA-256 and SHA-512 of each")


def wrong(archive: Archive) -> int:
    """How much is not as it was put."""
    checked = check_records(archive, numbers_to_check(archive, None, 0))
    return sum(1 for _, some in checked for _ in some) + sum(1 for _ in (*check_index(archive), *check_strays(archive)))


def rows(count: int) -> Iterator[Added]:
    """Invented rows of an index."""
    stages = list(Stage)
    for number in range(count):
        day = date(2001, 1, 1) + timedelta(days=number % 10_000)
        facts = Facts(
            f"R-{number}", 0, "Hollin", f"H-{number % 90}", f"HLN{number // MACHINES:07d}", "Ines Marlow",
            f"Firm {number % 40}", day, day, stages[number % 4], f"weeping seal word{number % 5000}", "full",
        )  # fmt: skip
        yield Added(Held(f"R-{number}", 0, f"{number:064x}", 1000, AT, number, facts, document="full"), facts)


def index_rows(folder: Path, count: int) -> Iterator[Line]:
    """The index alone, with many rows: found by serial, by word, and page by page."""
    index = Index(f"sqlite:///{folder / 'rows.sqlite'}")
    index.begin("bench")
    rest = rows(count)
    for _ in range(0, count, 50_000):
        with index.writing() as writing:
            for _ in range(10):
                writing.add(list(islice(rest, 5000)))
    bare = sqlite3.connect(folder / "rows.sqlite")
    keys = [f"hln{number * 997 % count // MACHINES:07d}" for number in range(LOOK_UPS)]
    plain = each_took(lambda number: bare.execute(_BY_SERIAL, (keys[number],)).fetchall(), LOOK_UPS)
    with index.reading() as reading:
        own = each_took(lambda number: list(reading.find(Sought(serial=keys[number]))), LOOK_UPS)
        yield Line(f"find by serial among {count} rows", own, plain, "the same look-up in bare SQLite")
        words = each_took(lambda number: sum(1 for _ in reading.find(Sought(text=f"word{number}"))), 50)
        bare_words = each_took(lambda number: bare.execute(_BY_WORD, (f"word{number}",)).fetchall(), 50)
        yield Line(f"find by a word among {count} rows", words, bare_words, "the same look-up in bare SQLite")
        seen = sum(1 for _ in reading.find(Sought(firm="firm 1")))
    print(f"{seen} of {count} rows found and gone through: {most_memory()}")
    bare.close()
    index.close()


_COLUMNS = (
    "number, revision, document, sha256, size, added, act, maker, model, serial, inspector, firm, inspected, issued, "
    "stage, expired"
)
_BY_SERIAL = f"SELECT {_COLUMNS} FROM documents WHERE serial_key = ? ORDER BY inspected, number, revision, document"
_BY_WORD = f"SELECT {_COLUMNS} FROM documents WHERE id IN (SELECT rowid FROM words WHERE words MATCH ?)"


def act(number: int) -> bytes:
    """An act as the log has it."""
    return f'{{"act":"add","number":"R-{number}","sha256":"{number:064x}"}}'.encode()


def log_acts(folder: Path, count: int) -> Iterator[Line]:
    """Acts appended together, one by one, and a proof out of many."""
    log = Log(folder / "log", Disk())
    log.begin(AT)
    handle = os.open(folder / "synced", os.O_WRONLY | os.O_CREAT)

    def write(_number: int) -> None:
        os.write(handle, act(0))
        os.fsync(handle)

    sync = each_took(write, SINGLE, perf_counter)
    single = each_took(lambda number: log.append([act(number)], AT), SINGLE, perf_counter)
    os.close(handle)
    yield Line("log an act by itself", single, sync, "one write and its sync")
    acts = [act(number) for number in range(TOGETHER)]
    together = took(lambda: log.append(acts, AT), perf_counter)
    print(f"{TOGETHER} acts logged with one sync: {TOGETHER / together:.0f} a second")
    for start in range(0, count, TOGETHER):
        log.append([act(number) for number in range(start, start + TOGETHER)], AT)
    entry = next(log.entries())
    hashing = took(lambda: [None for number in range(count) if not sha256(act(number)).digest()])
    yield Line(f"prove one of {log.checkpoint().size} acts", took(lambda: log.proof(entry)), hashing, "SHA-256 of each")
    print(f"{log.checkpoint().size} acts logged, one proven: {most_memory()}")


def main(words: Sequence[str] | None = None) -> None:
    """Print the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--objects", type=int, nargs="*", default=[1000, 10_000], help="how many, from few to many")
    parser.add_argument("--rows", type=int, default=1_000_000, help="of an index, and of a log")
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
