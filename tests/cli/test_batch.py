"""`tracksworn batch`: what a user types, what it says, and what it ends with."""

import errno
import json
import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from cli.conftest import ROOT, Run, Start
from sales import AtOnce, made_at_once, tree, write_lot, write_sale

from tracksworn.batch.order import Made, Order
from tracksworn.batch.places import Folder
from tracksworn.cli.lot_progress import Pace
from tracksworn.inspection.sale_list import Listed

INDEX = {"index.csv", "index.html", "index.jsonl", "index.parquet", "index.xlsx"}


@pytest.fixture
def sale(tmp_path: Path) -> Path:
    return write_sale(tmp_path / "sale", 3)


@pytest.fixture(autouse=True)
def _at_once(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """But for the slow, lots are made within this process, by one program."""
    if request.node.get_closest_marker("slow") is None:
        monkeypatch.setattr("tracksworn.batch.running.Processes", lambda _count: AtOnce())
        monkeypatch.setattr("tracksworn.batch.program.program_digest", lambda: "this one")


def test_documents_and_index_are_written_and_named(sale: Path, tracksworn: Run) -> None:
    done = tracksworn("batch", "sale", "--to", "out")
    assert done.returncode == 0
    documents = [f"OXB-{place}-r0-listing.pdf" for place in (1, 2, 3)]
    assert done.stdout.splitlines()[:3] == [f"out/{name}" for name in documents]
    assert set(done.stdout.splitlines()[3:]) == {f"out/{name}" for name in INDEX}
    assert done.stderr.splitlines() == ["3 lots: 3 made, 0 unchanged"]
    assert set(tree(sale.parent / "out")) == {*documents, *INDEX}


def test_a_second_run_writes_nothing(sale: Path, tracksworn: Run) -> None:
    tracksworn("batch", "sale", "--to", "out")
    again = tracksworn("batch", "sale", "--to", "out")
    assert (again.returncode, again.stdout) == (0, "")
    assert again.stderr == "3 lots: 0 made, 3 unchanged\n"


def test_the_sale_stands_by_its_name_on_its_index(sale: Path, tracksworn: Run) -> None:
    tracksworn("batch", "sale", "--to", "out", "--title", "Oxbow, 24 May 2031")
    assert "<dd>Oxbow, 24 May 2031</dd>" in (sale.parent / "out" / "index.html").read_text(encoding="utf-8")


def test_a_disk_that_knows_no_locks_is_told(sale: Path, tracksworn: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> None:
        raise OSError(errno.ENOLCK, "No locks available")

    monkeypatch.setattr("tracksworn.batch.places.fcntl.flock", refused)
    done = tracksworn("batch", "sale", "--to", "out")
    assert done.returncode == 0
    assert "knows no locks, so nothing keeps a second batch out of it" in done.stderr


def test_an_index_that_was_altered_is_written_anew(sale: Path, tracksworn: Run) -> None:
    tracksworn("batch", "sale", "--to", "out")
    whole = tree(sale.parent / "out")
    (sale.parent / "out" / "index.csv").write_text("mine")
    assert "out/index.csv" in tracksworn("batch", "sale", "--to", "out").stdout
    assert tree(sale.parent / "out") == whole


def test_faults_are_told_at_the_end_and_the_others_are_done(sale: Path, tracksworn: Run) -> None:
    write_lot(sale, 2, worn="many")
    done = tracksworn("batch", "sale", "--to", "out")
    assert done.returncode == 1
    first, last = done.stderr.splitlines()
    assert first.startswith("sale/lot-2/inspection.yaml:10:")
    assert last == "3 lots: 2 made, 0 unchanged, 1 with faults"
    told = json.loads((sale.parent / "out" / "index.jsonl").read_text().splitlines()[1])["faults"]
    assert told[0].startswith("lot-2/inspection.yaml:10:")


def test_strict_stops_and_writes_no_index(sale: Path, tracksworn: Run) -> None:
    write_lot(sale, 2, worn="many")
    done = tracksworn("batch", "sale", "--to", "out", "--strict")
    assert done.returncode == 1
    assert list(tree(sale.parent / "out")) == ["OXB-1-r0-listing.pdf"]
    assert done.stderr.splitlines()[1:] == [
        "stopped at the first fault, 2 of 3 lots: 1 made, 0 unchanged, 1 with faults"
    ]


def test_strict_says_that_an_index_stands_as_it_was(sale: Path, tracksworn: Run) -> None:
    tracksworn("batch", "sale", "--to", "out")
    before = tree(sale.parent / "out")
    write_lot(sale, 2, worn="many")
    done = tracksworn("batch", "sale", "--to", "out", "--strict")
    assert done.stderr.splitlines()[1] == "the index stands as it was before this run"
    assert tree(sale.parent / "out") == before


def test_what_is_left_of_earlier_runs_is_told(sale: Path, tracksworn: Run) -> None:
    tracksworn("batch", "sale", "--to", "out")
    write_lot(sale, 1, number="OXB-7")
    done = tracksworn("batch", "sale", "--to", "out")
    assert "out/OXB-1-r0-listing.pdf is left from an earlier run, and of no lot as it is now" in done.stderr


@pytest.mark.parametrize(
    ("gone", "more"),
    [(10, []), (11, ["so is 1 other file there"]), (12, ["so are 2 other files there"])],
)
def test_of_much_that_is_left_ten_are_named(sale: Path, tracksworn: Run, gone: int, more: list[str]) -> None:
    for place in range(4, 14):
        write_lot(sale, place)
    tracksworn("batch", "sale", "--to", "out")
    for place in range(1, gone + 1):
        (sale / f"lot-{place}" / "inspection.yaml").unlink()
    *named, last = tracksworn("batch", "sale", "--to", "out").stderr.splitlines()
    assert [line for line in named if "is left from an earlier run" not in line] == more
    assert len(named) == 10 + len(more)
    assert last == f"{'1 lot' if gone == 12 else f'{13 - gone} lots'}: 0 made, {13 - gone} unchanged"


@pytest.mark.parametrize(
    ("earlier", "words"),
    [
        ([1], "1 earlier inspection is not a lot (lot-1); name it in a list to have it as a lot"),
        ([1, 2], "2 earlier inspections are not lots (lot-1, lot-2); name them in a list to have them as lots"),
        ([1, 2, 4, 5], "4 earlier inspections are not lots (lot-1, lot-2, lot-4 …); name them in a list to have them"),
    ],
)
def test_earlier_inspections_are_told_as_no_lots(sale: Path, tracksworn: Run, earlier: list[int], words: str) -> None:
    for place in (4, 5, 6):
        write_lot(sale, place)
    with (sale / "lot-3" / "inspection.yaml").open("a") as file:
        file.write(f"earlier: [{', '.join(f'../lot-{place}/inspection.yaml' for place in earlier)}]\n")
    (sale / "lots.csv").write_text(f"inspection\nlot-{earlier[0]}\n")
    said = tracksworn("batch", "sale", "--to", "out").stderr.splitlines()
    assert said[-2].startswith(words)
    assert said[-1] == f"{6 - len(earlier)} lots: {6 - len(earlier)} made, 0 unchanged"
    assert tracksworn("batch", "sale/lots.csv", "--to", "other").stderr == "1 lot: 1 made, 0 unchanged\n"


def test_an_archive_in_the_environment_alone_is_left_alone(sale: Path, tracksworn: Run) -> None:
    assert tracksworn("batch", "sale", "--to", "out", TRACKSWORN_ARCHIVE="records").returncode == 0
    assert not (sale.parent / "records").exists()


def test_a_full_disk_is_the_machines(sale: Path, tracksworn: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    done = tracksworn("batch", "sale", "--to", "out")
    assert (done.returncode, done.stdout) == (3, "")
    assert done.stderr == "cannot write to out: No space left on device\n"
    assert not tree(sale.parent / "out")


def test_an_interrupt_says_that_the_same_command_goes_on(
    sale: Path, tracksworn: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(listed: Listed, order: Order) -> Made:
        if listed.place == 3:
            raise KeyboardInterrupt
        return made_at_once(listed, order)

    monkeypatch.setattr("tracksworn.batch.running.Processes", lambda _count: AtOnce(interrupted))
    done = tracksworn("batch", "sale", "--to", "out")
    assert done.returncode == 130
    words = "2 of 3 lots done with, each whole; the same command goes on from there"
    assert done.stderr.split("\n") == [words, "", "interrupted", ""]
    monkeypatch.setattr("tracksworn.batch.running.Processes", lambda _count: AtOnce())
    assert tracksworn("batch", "sale", "--to", "out").stderr == "3 lots: 1 made, 2 unchanged\n"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--key", "k.p12"), "add --seal"),
        (("--password-fd", "0"), "add --seal"),
        (("--seal",), "name one key"),
        (("--seal", "--key", "k.p12", "--format", "html"), "only a PDF can be sealed"),
        (("--seal", "--key", "k.p12", "--templates", "own"), "by the program's own templates alone"),
        (("--archive",), "which archive?"),
        (("--in", "records"), "add --archive, or leave --in out"),
        (("--archive", "--in", "records", "--format", "html"), "only a PDF goes into an archive"),
        (("--archive", "--in", "records", "--document", "listing,full"), "add --seal, or ask for one"),
        (("--workers", "2", "--cluster", "tcp://a:1"), "a cluster has workers of its own"),
        (("--workers", "0"), "0 is not in the range"),
        (("--document", "listings"), "'listings' is not one of"),
    ],
)
def test_wrong_use(sale: Path, tracksworn: Run, words: tuple[str, ...], said: str) -> None:
    done = tracksworn("batch", "sale", "--to", "out", *words)
    assert done.returncode == 2
    assert said in done.stderr
    assert not (sale.parent / "out").exists()


def test_an_address_that_nothing_here_speaks_to_is_wrong_use(sale: Path, tracksworn: Run) -> None:
    done = tracksworn("batch", "sale", "--to", "nowhere://bucket/sale")
    assert done.returncode == 2
    assert "'nowhere://bucket/sale' is no place that can be written to from here" in done.stderr


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (("--cluster", "tcp:/10.0.0.5:8786"), 2, "is no address of a scheduler"),
        (("--templates", "nowhere"), 1, "this folder of templates is not there"),
    ],
)
def test_what_is_mistyped_is_found_before_anything_is_begun(
    sale: Path, tracksworn: Run, words: tuple[str, ...], status: int, said: str
) -> None:
    done = tracksworn("batch", "sale", "--to", "out", "--archive", "--in", "records", *words)
    assert done.returncode == status
    assert said in done.stderr
    assert sorted(path.name for path in sale.parent.iterdir()) == ["sale"]


def test_no_archive_is_begun_where_another_batch_is_at_work(sale: Path, tracksworn: Run) -> None:
    with Folder(sale.parent / "out").held():
        done = tracksworn("batch", "sale", "--to", "out", "--archive", "--in", "records")
    assert done.returncode == 3
    assert "another batch is writing to out" in done.stderr
    assert not (sale.parent / "records").exists()


def test_check_reads_the_list_of_a_sale(sale: Path, tracksworn: Run) -> None:
    (sale / "lots.csv").write_text("inspection\nlot-1\nlot-8\n")
    done = tracksworn("check", "sale/lots.csv")
    assert done.returncode == 1
    assert done.stderr.startswith("sale/lots.csv:3:1: `lot-8` is not there")


def test_the_pace_tells_rate_time_left_and_faults() -> None:
    clock = iter(range(0, 1000, 2))
    pace = Pace(100, lambda: float(next(clock)))
    assert str(pace) == "0 of 100 lots"
    for place in range(40):
        pace.count(bad=place < 3)
    assert str(pace) == "40 of 100 lots, 30 a minute, 0:02:00 left, 3 with faults"


def test_the_pace_forgets_what_is_long_past() -> None:
    times = iter([0.0, *(0.01 * place for place in range(1, 401)), *(100.0 + 10 * place for place in range(10))])
    pace = Pace(500, lambda: next(times))
    for _ in range(410):
        pace.count(bad=False)
    assert pace.a_minute == pytest.approx(6)


def test_without_a_terminal_a_line_is_said_at_times(
    sale: Path, tracksworn: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tracksworn.cli.lot_progress.EVERY", 0.0)
    said = tracksworn("batch", "sale", "--to", "out").stderr.splitlines()
    assert [line.split(",")[0] for line in said] == [*(f"{done} of 3 lots" for done in (1, 2, 3)), "3 lots: 3 made"]


@pytest.mark.slow
def test_sheets_are_byte_for_byte_those_of_report(sale: Path, process: Start) -> None:
    done = process("batch", "sale", "--to", "out", "--format", "pdf,html", "--workers", "2")
    assert (done.returncode, done.stderr.splitlines()[-1]) == (0, "3 lots: 3 made, 0 unchanged")
    lots = [f"sale/lot-{place}" for place in (1, 2, 3)]
    assert process("report", *lots, "--to", "one", "--format", "pdf,html", "--document", "listing").returncode == 0
    batch, one = tree(sale.parent / "out"), tree(sale.parent / "one")
    assert {name: content for name, content in batch.items() if name not in INDEX} == one


@pytest.mark.slow
def test_sealed_and_archived_with_the_sales_own_lot_number(sale: Path, process: Start) -> None:
    password = {"TRACKSWORN_KEY_PASSWORD": "practice"}
    assert process("key", "new", "--to", "k.p12", "--name", "Ines Marlow", **password).returncode == 0
    (sale / "lots.csv").write_text("inspection,lot\nlot-1,901\nlot-2,\n")
    words = ("batch", "sale/lots.csv", "--to", "out", "--seal", "--key", "k.p12", "--archive", "--in", "records")
    done = process(*words, **password)
    assert done.returncode == 0
    assert "2 documents sealed" in done.stderr
    assert "2 put into the archive" in done.stderr
    judged = process("verify", "out/OXB-1-r0-listing.pdf", "--trust", "k.pem", "--json")
    assert not re.findall('"(integrity|signer|arithmetic|pages)": "(?!passed)', judged.stdout), judged.stdout
    before = tree(sale.parent / "out")
    again = process(*words, **password)
    assert again.returncode == 0
    assert "0 put into the archive" in again.stderr
    sealed = [name for name in before if name.endswith(".pdf")]
    assert [tree(sale.parent / "out")[name] for name in sealed] == [before[name] for name in sealed]


@pytest.mark.slow
def test_a_reader_that_goes_away_ends_it_quietly(sale: Path) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    command = [sys.executable, "-c", "from tracksworn.cli.main import main; main()", "batch", str(sale), "--to"]
    words = [*command, str(sale.parent / "out"), "--format", "html", "--workers", "1"]
    done = subprocess.run(words, cwd=ROOT, stdout=writing, stderr=subprocess.PIPE, text=True, check=False)
    os.close(writing)
    said = "1 of 3 lots done with, each whole; the same command goes on from there\n"
    assert done.returncode == -signal.SIGPIPE
    assert done.stderr.endswith(said)
    assert "Error" not in done.stderr
    assert list(tree(sale.parent / "out")) == ["OXB-1-r0-listing.html"]


@pytest.mark.slow
def test_an_interrupt_from_a_terminal_ends_all_processes(sale: Path) -> None:
    command = [sys.executable, "-c", "from tracksworn.cli.main import main; main()", "batch", str(sale), "--to"]
    with subprocess.Popen(
        [*command, str(sale.parent / "out"), "--document", "full"],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as running:
        assert running.stdout is not None
        assert "OXB-1" in running.stdout.readline()
        os.killpg(running.pid, signal.SIGINT)
        _, said = running.communicate(timeout=60)
    assert running.returncode == 130
    assert "the same command goes on from there" in said
    assert "Traceback" not in said
