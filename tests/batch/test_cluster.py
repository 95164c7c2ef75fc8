"""Lots made by a real scheduler and workers, one of which is killed."""

import asyncio
import os
import re
import signal
import sys
import threading
import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from types import SimpleNamespace

import dask
import pytest
from batch import deeds
from batch.clusters import Started, started
from batch.sample.test_sample import all_files, written
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID
from distributed import KilledWorker
from distributed.comm.core import CommClosedError

from tracksworn.batch import cluster, libraries
from tracksworn.batch.cluster import Cluster, _Run, refuse_no_address
from tracksworn.batch.libraries import system_libraries
from tracksworn.batch.on_worker import Answer, Program, answer, program
from tracksworn.batch.order import Made, Order, Templates
from tracksworn.batch.work import make_lot
from tracksworn.cli.main import run
from tracksworn.inspection.faults import Failed, WrongUse
from tracksworn.inspection.sale_list import Listed, read_sale

ORDER = Order(documents=("listing",), formats=("md",))


@pytest.fixture(scope="module")
def sale(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Seven lots, of which the fourth has a fault."""
    folder = written(all_files(7, 3), tmp_path_factory.mktemp("sale"))
    file = folder / "SMP-3-0004" / "inspection.yaml"
    file.write_text(file.read_text().replace("  maker: ", "  made by: "))
    return folder


@pytest.fixture
def lots(sale: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[Listed, ...]:
    """Listed by relative paths, from the folder that all stand in."""
    monkeypatch.chdir(sale)
    for left in ("made.txt", "go-on"):
        (sale / left).unlink(missing_ok=True)
    return read_sale(Path("lots.csv")).lots


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Started]:
    with started(tmp_path_factory.mktemp("cluster"), workers=2) as cluster:
        yield cluster


def alike(made: Made) -> tuple[object, ...]:
    """All of it but the times of its inputs, which say when they were too new to be told."""
    inputs = [(one.path, one.size, one.sha256) for one in made.inputs]
    return made.listed, made.lot, dict(made.files), inputs, made.faults, made.failures, made.warnings


def test_a_worker_answers_from_the_folder_of_who_asked(lots: tuple[Listed, ...], tmp_path: Path) -> None:
    here = Path.cwd()
    os.chdir(tmp_path)
    given = answer(lots[3], ORDER, program(), here, None)
    assert Path.cwd() == tmp_path
    assert given.sees
    assert given.made is not None
    assert given.made.faults[0].startswith("SMP-3-0004/inspection.yaml:")


def test_a_worker_without_that_folder_says_so(lots: tuple[Listed, ...]) -> None:
    given = answer(lots[0], ORDER, program(), Path("/nowhere"), None)
    assert given.made is None
    assert "no folder /nowhere" in given.refused


@pytest.mark.parametrize(
    ("other", "told"),
    [
        (Program("0.0.9", 1, "d", "3.11.7", "2026.1"), "it has tracksworn 0.0.9, this machine 1.0.0"),
        (Program("1.0.0", 2, "d", "3.11.7", "2026.1"), "it has method 2, this machine 1"),
        (Program("1.0.0", 1, "e", "3.11.7", "2026.1"), "its program or the libraries below it differ"),
        (Program("1.0.0", 1, "d", "3.12.0", "2026.1"), "it has Python 3.12.0, this machine 3.11.7"),
        (Program("1.0.0", 1, "d", "3.11.7", "2025.1"), "it has distributed 2025.1, this machine 2026.1"),
    ],
)
def test_what_differs_is_told_with_what_would_be_right(other: Program, told: str) -> None:
    here = Program("1.0.0", 1, "d", "3.11.7", "2026.1")
    assert here.apart_from(other).startswith(told)
    assert "install" in here.apart_from(other)
    assert here.apart_from(here) == ""


def test_another_library_that_breaks_lines_is_named() -> None:
    here = Program("1.0.0", 1, "d", "3.11.7", "2026.1", (("Pango", "1.50.12"), ("HarfBuzz", "6.0.0")))
    there = replace(here, digest="e", below=(("Pango", "1.50.12"), ("HarfBuzz", "8.3.0")))
    told = "it has HarfBuzz 8.3.0, this machine 6.0.0; install the same release of the system on both"
    assert here.apart_from(there) == told
    assert program().below == system_libraries()


def test_a_worker_with_another_program_makes_nothing(lots: tuple[Listed, ...]) -> None:
    given = answer(lots[0], ORDER, Program("0.0.1", 1, "d", "3", "1"), Path.cwd(), None)
    assert given.made is None
    assert "would make other documents" in given.refused


class Promise:
    """A lot that is done, by a scheduler of which only that is asked."""

    def __init__(self, given: Answer) -> None:
        self.status, self.given = "finished", given

    def done(self) -> bool:
        return True

    def exception(self) -> BaseException:
        return KilledWorker("lot-1", None, 1)  # type: ignore[arg-type]


class Lost(Promise):
    """One that a worker took with it just when it was done, and that another has made by the next look but one."""

    @property
    def status(self) -> str:
        return next(self._stages, "finished")

    @status.setter
    def status(self, _: str) -> None:
        self._stages = iter(["finished", "lost", "lost"])


class Scheduler:
    """A scheduler with one worker, that has every lot made when it is asked."""

    promise: type[Promise] = Promise

    def __init__(self, given: Answer, loop: asyncio.AbstractEventLoop) -> None:
        self.loop = SimpleNamespace(asyncio_loop=loop)
        self._given = given
        self.submitted: list[Promise] = []

    def nthreads(self) -> dict[str, int]:
        return {"a worker": 1}

    def submit(self, *_: object, **__: object) -> Promise:
        self.submitted.append(self.promise(self._given))
        return self.submitted[-1]

    async def gather(self, promises: list[Promise], asynchronous: bool) -> list[Answer]:
        assert asynchronous
        return [one.given for one in promises]

    def cancel(self, promises: list[Promise]) -> None:
        assert len(promises) <= 1


class Losing(Scheduler):
    """Loses what its worker has made before it is fetched for the first time; the lot was to blame."""

    blamed = "error"

    async def gather(self, promises: list[Promise], asynchronous: bool) -> list[Answer]:
        if len(self.submitted) > 1:
            return await super().gather(promises, asynchronous)
        promises[0].status = self.blamed
        raise KilledWorker("lot-1", None, 1)  # type: ignore[arg-type]


class Unreachable(Losing):
    """Has what its worker made, and does not give it."""

    blamed = "finished"


class Overtaking(Scheduler):
    """Loses its worker again and again while it is asked."""

    promise = Lost


class Dark(Scheduler):
    """Its only worker's host has no power any more, so that what it has made is waited for in vain."""

    there = True

    def nthreads(self) -> dict[str, int]:
        return super().nthreads() if self.there else {}

    async def gather(self, promises: list[Promise], asynchronous: bool) -> list[Answer]:
        self.there = False
        await asyncio.sleep(60.0)
        return await super().gather(promises, asynchronous)


class Leaving(Scheduler):
    """Has not noticed yet that a worker is gone; what the other says of itself is what was `found`."""

    def __init__(self, found: object, loop: asyncio.AbstractEventLoop) -> None:
        super().__init__(Answer("a worker", None), loop)
        self._found = found

    def run(self, *_: object, **__: object) -> dict[str, object]:
        return {"gone": CommClosedError("in <TCP>: Stream is closed"), "there": self._found}


@pytest.fixture
def loop() -> Iterator[asyncio.AbstractEventLoop]:
    loop = asyncio.new_event_loop()
    running = threading.Thread(target=loop.run_forever)
    running.start()
    yield loop
    loop.call_soon_threadsafe(loop.stop)
    running.join()
    loop.close()


def asked(client: Scheduler, patience: float = 1.0) -> _Run:
    return _Run(client, "tcp://a:1", ORDER, program(), patience, None)  # type: ignore[arg-type]


def one_made(
    lots: tuple[Listed, ...], kind: type[Scheduler], loop: asyncio.AbstractEventLoop, patience: float = 1.0
) -> tuple[Made, int]:
    client = kind(Answer("a worker", make_lot(lots[0], ORDER)), loop)
    (made,) = asked(client, patience).through(iter(lots[:1]))
    return made, len(client.submitted)


def test_what_a_lost_worker_had_made_is_made_once_more(
    lots: tuple[Listed, ...], loop: asyncio.AbstractEventLoop
) -> None:
    made, times = one_made(lots, Losing, loop)
    assert (made.listed, times) == (lots[0], 2)


def test_what_is_lost_just_when_it_is_done_is_waited_for(
    lots: tuple[Listed, ...], loop: asyncio.AbstractEventLoop
) -> None:
    made, times = one_made(lots, Overtaking, loop)
    assert (made.listed, times) == (lots[0], 1)


def test_what_cannot_be_fetched_is_told(lots: tuple[Listed, ...], loop: asyncio.AbstractEventLoop) -> None:
    with pytest.raises(Failed, match="no longer answers; what is written so far is whole"):
        one_made(lots, Unreachable, loop)


def test_what_nobody_has_any_more_is_not_waited_for_without_end(
    lots: tuple[Listed, ...], loop: asyncio.AbstractEventLoop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(cluster, "_LOOK", 0.01)
    with pytest.raises(Failed, match="has had no worker for 0 seconds"):
        one_made(lots, Dark, loop, patience=0.05)


def test_a_worker_that_is_gone_is_not_told_as_one_without_the_program(loop: asyncio.AbstractEventLoop) -> None:
    asked(Leaving(program(), loop)).refuse_unfit()
    with pytest.raises(Failed, match="the worker there of the cluster cannot run this program; install the same"):
        asked(Leaving(ImportError("no tracksworn"), loop)).refuse_unfit()


def test_a_worker_that_would_break_lines_otherwise_is_refused(
    loop: asyncio.AbstractEventLoop, monkeypatch: pytest.MonkeyPatch
) -> None:
    here = dict(program().below)["Pango"]
    monkeypatch.setitem(libraries._ASKED, "Pango", lambda _: "1.0")
    there = program.__wrapped__()
    with pytest.raises(Failed, match=f"the worker there would make other documents: it has Pango 1.0, .* {here};"):
        asked(Leaving(there, loop)).refuse_unfit()


@pytest.mark.slow
@pytest.mark.long
def test_lots_come_back_in_order_as_this_machine_makes_them(lots: tuple[Listed, ...], running: Started) -> None:
    made = list(Cluster(running.address).made(lots, ORDER))
    assert [alike(one) for one in made] == [alike(make_lot(one, ORDER)) for one in lots]


@pytest.mark.slow
def test_a_batch_by_a_cluster_leaves_the_files_that_one_by_this_machine_does(
    lots: tuple[Listed, ...], running: Started, tmp_path: Path
) -> None:
    places = {tmp_path / "cluster": ("--cluster", running.address), tmp_path / "here": ("--workers", "1")}
    for place, by in places.items():
        assert run(["batch", "lots.csv", "--to", str(place), "--format", "md", *by]) == 1
    files = [
        {path.relative_to(place).as_posix(): path.read_bytes() for path in place.rglob("*") if path.is_file()}
        for place in places
    ]
    told = [{name: content for name, content in each.items() if not name.startswith(".batch/")} for each in files]
    assert told[0] == told[1]
    assert files[0].keys() == files[1].keys()


@pytest.mark.slow
@pytest.mark.parametrize("text", ['Lot by lot\n{% include "tracksworn/listing.md" %}', "first\n{{ view.nothing }}\n"])
def test_a_firms_own_templates_travel_to_workers_that_do_not_see_their_folder(
    lots: tuple[Listed, ...], running: Started, text: str
) -> None:
    """What is wrong in them is told as if they were made here, once for each lot."""
    own = Templates(Path("../own"), (("listing.md", text),))
    assert not own.folder.exists()
    order = replace(ORDER, templates=own)
    made = list(Cluster(running.address).made(lots[:2], order))
    assert [alike(one) for one in made] == [alike(make_lot(one, order)) for one in lots[:2]]
    assert [bool(one.files) for one in made] == [text.startswith("Lot")] * 2
    assert all(words.startswith("../own/listing.md:2:1: ") for one in made for words in one.faults)


@pytest.mark.slow
def test_a_worker_killed_midway_loses_nothing_and_nothing_comes_twice(
    lots: tuple[Listed, ...], running: Started, sale: Path
) -> None:
    def kill_who_waits() -> None:
        while not (notes := [line.split() for line in _notes(sale) if line.startswith("2 ")]):
            time.sleep(0.02)
        os.kill(int(notes[0][1]), signal.SIGKILL)
        (sale / "go-on").touch()

    killing = threading.Thread(target=kill_who_waits)
    killing.start()
    made = list(Cluster(running.address, make=deeds.noted).made(lots, ORDER))
    killing.join()
    begun = [line.split()[0] for line in _notes(sale)]
    assert begun.count("2") == 2
    assert [one.listed.place for one in made] == [1, 2, 3, 4, 5, 6, 7]
    assert [alike(one) for one in made] == [alike(make_lot(one, ORDER)) for one in lots]


def _notes(sale: Path) -> list[str]:
    file = sale / "made.txt"
    return file.read_text().splitlines() if file.exists() else []


@pytest.mark.slow
@pytest.mark.long
def test_a_lot_that_ends_its_workers_is_told_and_keeps_no_other_from_being_made(
    lots: tuple[Listed, ...], running: Started
) -> None:
    made = list(Cluster(running.address, make=deeds.deadly).made(lots, ORDER))
    assert [bool(one.files) for one in made] == [True, True, False, False, True, True, True]
    assert (made[2].faults, made[3].failures) == ((), ())
    assert "died of it" in made[2].failures[0]
    assert made[2].failures[0].startswith("SMP-3-0003/inspection.yaml: ")


@pytest.mark.slow
def test_leaving_early_leaves_nothing_under_way(lots: tuple[Listed, ...], running: Started) -> None:
    first = Cluster(running.address).made(lots, ORDER)
    assert next(first).listed.place == 1
    first.close()  # type: ignore[attr-defined]
    again = list(Cluster(running.address).made(lots[:2], ORDER))
    assert [one.listed.place for one in again] == [1, 2]


@pytest.mark.slow
def test_a_cluster_with_another_program_is_refused(lots: tuple[Listed, ...], running: Started) -> None:
    other = replace(program(), digest="0" * 64)
    with pytest.raises(Failed, match=r"the worker tcp://.* would make other documents: its program or the libraries"):
        next(Cluster(running.address, wanted=other).made(lots, ORDER))


@pytest.mark.slow
def test_what_lies_nowhere_is_a_fault_of_the_lot(lots: tuple[Listed, ...], running: Started) -> None:
    hidden = Listed(Path("hidden/inspection.yaml"), "hidden/inspection.yaml", 1)
    (made,) = Cluster(running.address).made([hidden], ORDER)
    assert alike(made) == alike(make_lot(hidden, ORDER))
    assert made.faults or made.failures


@pytest.mark.slow
def test_a_worker_that_does_not_see_what_lies_here_is_told(
    lots: tuple[Listed, ...], running: Started, monkeypatch: pytest.MonkeyPatch
) -> None:
    hidden = Listed(Path("hidden/inspection.yaml"), "hidden/inspection.yaml", 1)
    seen_here = Path.exists
    monkeypatch.setattr(Path, "exists", lambda path: path == hidden.inspection or seen_here(path))
    with pytest.raises(Failed, match=r"does not see hidden/inspection\.yaml, which is here; every worker must reach"):
        list(Cluster(running.address).made([hidden], ORDER))


@pytest.mark.slow
def test_a_scheduler_without_workers_is_told_after_a_while(lots: tuple[Listed, ...], tmp_path: Path) -> None:
    with started(tmp_path) as alone, pytest.raises(Failed, match="has had no worker for 1 seconds"):
        next(Cluster(alone.address, patience=1.0).made(lots, ORDER))


@pytest.mark.slow
def test_a_worker_with_several_threads_is_refused(lots: tuple[Listed, ...], tmp_path: Path) -> None:
    with started(tmp_path) as cluster:
        cluster.worker(threads=2, nanny=False)
        with pytest.raises(Failed, match=r"has 2 threads.*--nthreads 1 --nworkers 2"):
            next(Cluster(cluster.address).made(lots, ORDER))


@pytest.mark.slow
@pytest.mark.long
def test_a_scheduler_that_goes_away_is_told(lots: tuple[Listed, ...], tmp_path: Path) -> None:
    with started(tmp_path, workers=1) as cluster:
        made = Cluster(cluster.address, make=deeds.noted).made(lots, ORDER)
        assert next(made).listed.place == 1
        cluster.scheduler.kill()
        cluster.scheduler.wait()
        with pytest.raises(Failed, match="no longer answers; what is written so far is whole"):
            list(made)


@pytest.mark.slow
def test_an_address_that_nobody_answers_at_is_told(lots: tuple[Listed, ...]) -> None:
    with pytest.raises(Failed, match=r"no scheduler answers at tcp://127\.0\.0\.1:1"):
        next(Cluster("tcp://127.0.0.1:1").made(lots, ORDER))


@pytest.mark.parametrize(
    ("address", "told"),
    [
        ("ftp://127.0.0.1:1", "'ftp://127.0.0.1:1' is no address of a scheduler, such as tcp"),
        ("yard", "'yard' is no address of a scheduler, such as tcp"),
        ("", "'' is no address of a scheduler, such as tcp"),
        ("tcp://yard:one", "'tcp://yard:one' is no address of a scheduler, such as tcp"),
        ("tls://127.0.0.1:1", "asks for TLS; say in Dask's own settings which certificates to use"),
    ],
)
def test_what_is_no_address_is_wrong_use_before_any_client_is_begun(
    lots: tuple[Listed, ...], monkeypatch: pytest.MonkeyPatch, address: str, told: str
) -> None:
    monkeypatch.delattr("distributed.Client.__init__")
    with pytest.raises(WrongUse, match=re.escape(told)):
        next(Cluster(address).made(lots, ORDER))
    with pytest.raises(WrongUse, match=re.escape(told)):
        refuse_no_address(address)


def test_a_package_that_is_not_installed_is_wrong_use(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in [name for name in sys.modules if name.split(".")[0] == "distributed"]:
        monkeypatch.setitem(sys.modules, name, None)
    with pytest.raises(WrongUse, match=r"install it with: pip install 'tracksworn\[cluster\]'"):
        refuse_no_address("tcp://127.0.0.1:1")


@pytest.mark.parametrize(
    ("settings", "told"),
    [
        ({"require-encryption": True}, "use an address that begins with tls://, not tcp://127.0.0.1:1"),
        (
            {"tls.ca-file": "none.pem", "tls.client.cert": "none.pem"},
            "the certificates that Dask's own settings name cannot be used: ",
        ),
    ],
)
def test_settings_that_the_address_does_not_fit_are_told(
    lots: tuple[Listed, ...], settings: dict[str, object], told: str
) -> None:
    said = {f"distributed.comm.{name}": value for name, value in settings.items()}
    with dask.config.set(said), pytest.raises(WrongUse, match=re.escape(told)):
        next(Cluster("tcp://127.0.0.1:1").made(lots, ORDER))


@pytest.mark.long
def test_a_cluster_may_be_reached_by_tls_alone(lots: tuple[Listed, ...], tmp_path: Path) -> None:
    certificate, key = map(str, _certified(tmp_path))
    words = ("--tls-ca-file", certificate, "--tls-cert", certificate, "--tls-key", key)
    with started(tmp_path, workers=1, protocol="tls", more=words) as cluster:
        assert cluster.address.startswith("tls://")
        shown = {"ca-file": certificate, "client.cert": certificate, "client.key": key}
        with dask.config.set({f"distributed.comm.tls.{name}": file for name, file in shown.items()}):
            (made,) = Cluster(cluster.address).made(lots[:1], ORDER)
        assert alike(made) == alike(make_lot(lots[0], ORDER))
        with pytest.raises(Failed, match="no scheduler answers"):
            next(Cluster(cluster.address.replace("tls", "tcp")).made(lots[:1], ORDER))


def _certified(folder: Path) -> tuple[Path, Path]:
    """A certificate that trusts itself, and its key."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "an invented cluster")])
    begin = datetime(2020, 1, 1, tzinfo=UTC)
    certificate = (
        x509.CertificateBuilder(name, name, key.public_key(), x509.random_serial_number())
        .not_valid_before(begin)
        .not_valid_after(begin + timedelta(days=36_500))
        .add_extension(x509.BasicConstraints(ca=True, path_length=None), critical=True)
        .sign(key, hashes.SHA256())
    )
    files = folder / "cluster.pem", folder / "cluster.key"
    files[0].write_bytes(certificate.public_bytes(serialization.Encoding.PEM))
    files[1].write_bytes(
        key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
    )
    return files


def test_nothing_to_make_asks_nobody() -> None:
    assert list(Cluster("tcp://127.0.0.1:1").made([], ORDER)) == []
