"""A batch of listing sheets against a bare loop of WeasyPrint over the HTML of the same sheets, on 1 and 2 processes.

Elevations stand in the HTML as SVG, fonts as data. All runs of a round are processes of their own from start to end,
the batch with its journal and its index. Then what a second run over unchanged lots takes, what a worker holds over
many lots, and what a cluster adds to a lot.
"""

import argparse
import multiprocessing
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import count as counting
from itertools import islice
from pathlib import Path
from shutil import rmtree
from statistics import median
from tempfile import TemporaryDirectory

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from batch.clusters import Started, started
from bench.no_work import SIZE, no_work
from bench.turns import Round, Took, rounds, table, took

from tracksworn.batch.cluster import Cluster
from tracksworn.batch.journal import Journal
from tracksworn.batch.order import Made, Order, Workers
from tracksworn.batch.places import place_of
from tracksworn.batch.run import Batch
from tracksworn.batch.running import Processes
from tracksworn.batch.sample.sample import LIST, sample
from tracksworn.batch.work import make_lot
from tracksworn.inspection.sale_list import Listed, read_sale

ORDER = Order(documents=("listing",), formats=("pdf",))
SEED = 7
BARE = "bare loop, {} processes"
OURS = "batch, {} processes"
AGAIN = "the same again, nothing changed"
HUNDRED = 100
HERE = Path(__file__).resolve().parent


def main() -> None:
    """Print speed, the cost of a second run, memory, and what a cluster adds."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("--count", type=int, default=500, help="lots of a sale")
    parser.add_argument("--bare", type=int, help="sheets of them that the bare loop makes, its time reckoned up to all")
    parser.add_argument("--rounds", type=int, default=2)
    parser.add_argument("--many", type=int, default=2000, help="lots over which a worker's memory is told")
    parser.add_argument("--tasks", type=int, default=1000, help="lots without work, for what a cluster adds")
    parser.add_argument("--only", choices=("speed", "memory", "cluster"))
    options = parser.parse_args()
    with TemporaryDirectory() as folder:
        room = Path(folder)
        if options.only in (None, "speed"):
            _print_speed(options.count, options.bare or options.count, options.rounds, room)
        if options.only in (None, "memory"):
            _print_memory(options.many, room)
        if options.only in (None, "cluster"):
            _print_cluster(options.count, options.tasks, options.rounds, room)


def sale(count: int, room: Path) -> Path:
    """The list of an invented sale, made where it is not there."""
    folder = room / f"sale-{count}"
    if not folder.exists():
        for group in sample(count, SEED):
            for name, content in group.items():
                path = folder / name
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(content)
    return folder / LIST


def _print_speed(count: int, bare: int, number: int, room: Path) -> None:
    listed, pages = sale(count, room), room / "pages"
    pages.mkdir()
    html = Order(documents=("listing",), formats=("html",))
    for made in Processes().made(islice(_plain(read_sale(listed).lots), bare), html):
        for name, content in made.files.items():
            (pages / name).write_bytes(content)
    assert len(list(pages.iterdir())) == bare
    done = [_of_all(one, count / bare) for one in rounds(_runs(listed, pages, room), number, 0)]
    if bare < count:
        print(f"The bare loop has made {bare} of them, and is reckoned up to {count}.\n")
    names = [name.format(n) for n in (1, 2) for name in (BARE, OURS)]
    print(table(f"{count} listing sheets", done, (names[0], names[2])))
    scaling = [_scaling(one, OURS) / _scaling(one, BARE) for one in done]
    print(f"From 1 process to 2: {median(_scaling(one, BARE) for one in done):.3f} × the bare loop, ", end="")
    print(
        f"{median(_scaling(one, OURS) for one in done):.3f} × the batch, {median(scaling):.3f} of the bare loop's own\n"
    )


def _of_all(done: Round, share: float) -> Round:
    bare = {BARE.format(number) for number in (1, 2)}
    return {
        name: Took(share * one.clock, share * one.processors) if name in bare else one for name, one in done.items()
    }


def _plain(lots: Iterable[Listed]) -> Iterator[Listed]:
    """As listed, but with the documents of the order alone."""
    for one in lots:
        yield Listed(one.inspection, one.name, one.place, one.lot)


def _scaling(done: Round, name: str) -> float:
    return done[name.format(1)].clock / done[name.format(2)].clock


def _runs(listed: Path, pages: Path, room: Path) -> Callable[[int], Mapping[str, Callable[[], object]]]:
    """The runs of a round, each into a folder that is not there."""
    plain = listed.with_name("listing.csv")
    rows = (line.split(",") for line in listed.read_text().splitlines())
    plain.write_text("".join(f"{','.join(row[:2])}\n" for row in rows))
    tracksworn = str(Path(sys.executable).with_name("tracksworn"))

    def batch(number: int) -> None:
        out = ("--to", str(room / f"out-{number}"))
        _run(tracksworn, "batch", str(plain), "--document", "listing", *out, "--workers", str(number))

    def bare(number: int) -> None:
        _run(sys.executable, str(HERE / "bare_loop.py"), str(number), str(pages), str(room / f"bare-{number}"))

    def jobs(_: int) -> Mapping[str, Callable[[], object]]:
        for left in (*room.glob("out-*"), *room.glob("bare-*")):
            rmtree(left)
        return {
            BARE.format(1): lambda: bare(1),
            OURS.format(1): lambda: batch(1),
            BARE.format(2): lambda: bare(2),
            OURS.format(2): lambda: batch(2),
            AGAIN: lambda: batch(2),
        }

    return jobs


def _run(*command: str) -> None:
    # compiled code may be kept, as it is where the program is installed
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    subprocess.run(command, check=True, capture_output=True, env=environment)


def _print_memory(count: int, room: Path) -> None:
    """What the one worker holds after every hundred lots; the first hundred have all imported and all caches full."""
    print(f"| lots of one worker | MiB | × after {HUNDRED} |\n|{' --- |' * 3}")
    reference = None
    for number, _ in enumerate(Processes(1).made(read_sale(sale(count, room)).lots, ORDER), 1):
        if number % HUNDRED == 0:
            held = max(_mebibytes(child.pid) for child in multiprocessing.active_children())
            reference = reference or held
            print(f"| {number} | {held:.0f} | {held / reference:.3f} |", flush=True)
    print()


def _mebibytes(process: int | None) -> float:
    with Path(f"/proc/{process}/status").open(encoding="ascii") as lines:
        told = dict(line.split(":", 1) for line in lines)
    return int(told["VmRSS"].split()[0]) / 1024


def _print_cluster(count: int, tasks: int, number: int, room: Path) -> None:
    lots = tuple(_plain(read_sale(sale(count, room)).lots))[: 2 * HUNDRED]
    folders = [room / "one", room / "two"]
    for folder in folders:
        folder.mkdir()
    with started(folders[0], workers=1) as one, started(folders[1], workers=2) as two:
        _print_made_by_clusters(lots, {1: one, 2: two}, number)
        _print_way(two, tasks, lots[0])
    _print_writing(lots, room)


def _print_made_by_clusters(lots: tuple[Listed, ...], clusters: Mapping[int, Started], number: int) -> None:
    """The same lots by processes and by clusters. The first round has the workers import what they need."""
    names = {n: (f"{n} processes", f"a cluster of {n}") for n in clusters}

    def make(workers: Workers) -> None:
        assert sum(bool(made.files) for made in workers.made(lots, ORDER)) == len(lots)

    def jobs(_: int) -> Mapping[str, Callable[[], object]]:
        found: dict[str, Callable[[], object]] = {}
        for n, cluster in clusters.items():
            found[names[n][0]] = lambda n=n: make(Processes(n))  # type: ignore[misc]
            found[names[n][1]] = lambda cluster=cluster: make(Cluster(cluster.address))  # type: ignore[misc]
        return found

    done = rounds(jobs, number, 1)
    print(table(f"{len(lots)} lots made, none written", done, (names[1][0], names[2][0])))


def _print_way(cluster: Started, tasks: int, lot: Listed) -> None:
    """What a lot costs on its way through a cluster, whatever it takes to make."""
    lots = [Listed(lot.inspection, lot.name, place) for place in range(1, tasks + 1)]
    workers = Cluster(cluster.address, make=no_work)
    _used(workers.made(lots[:HUNDRED], ORDER))
    scheduler, client, began = _seconds_of(cluster.scheduler.pid), time.process_time(), time.perf_counter()
    _used(workers.made(lots, ORDER))
    spent = {
        "on the clock": time.perf_counter() - began,
        "of the scheduler's processor": _seconds_of(cluster.scheduler.pid) - scheduler,
        "of this process's, which takes the results": time.process_time() - client,
    }
    print(f"| a lot of {SIZE // 1000} kB through a cluster, {tasks} of them | ms |\n| --- | --- |")
    for name, seconds in spent.items():
        print(f"| {name} | {1000 * seconds / tasks:.2f} |")
    print()


def _used(made: Iterator[Made]) -> None:
    for _ in made:
        pass


def _seconds_of(process: int) -> float:
    fields = Path(f"/proc/{process}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()
    return sum(map(int, fields[11:13])) / os.sysconf("SC_CLK_TCK")


class _Ready:
    """Lots that are made already."""

    def __init__(self, all_made: Iterable[Made]) -> None:
        self._made = {made.listed.name: made for made in all_made}

    def made(self, lots: Iterable[Listed], _order: Order) -> Iterator[Made]:
        """Every one as it was made."""
        for listed in lots:
            yield self._made[listed.name]


def _print_writing(lots: tuple[Listed, ...], room: Path) -> None:
    """What the one process that writes takes for a lot, which bounds any number of workers."""
    some = lots[:HUNDRED]
    ready, numbers = _Ready([make_lot(listed, ORDER) for listed in some]), counting()

    def write() -> None:
        place = place_of(str(room / f"written-{next(numbers)}"))
        with place.held():
            for taken in Batch(some, Journal(place, room, ORDER, "bench"), ready):
                assert not taken.bad, taken.told

    spent = [took(write) for _ in range(3)]
    clock, processors = (median(getattr(one, name) for one in spent) / len(some) for name in ("clock", "processors"))
    print("| a lot written and noted by one process | ms |\n| --- | --- |")
    print(f"| on the clock | {clock:.2f} |\n| of the processor | {processors:.2f} |\n")


if __name__ == "__main__":
    main()
