"""Processes that make lots: in order, a bounded number ahead, whoever of them dies, and none outlives what began it."""

import os
import select
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import AbstractContextManager
from pathlib import Path

import pytest
from sales import ORDER, made_at_once, with_its_process, without_engine, write_sale

from tracksworn.batch.running import AHEAD, Processes
from tracksworn.inspection.sale_list import Listed, find_inspections
from tracksworn.records.processes import Pool, cores

pytestmark = pytest.mark.slow
ROOT = Path(__file__).parents[2]


@pytest.fixture
def lots(tmp_path: Path) -> tuple[Listed, ...]:
    return find_inspections(write_sale(tmp_path / "sale", 12))


def test_lots_come_in_their_order_and_are_taken_a_few_ahead(lots: tuple[Listed, ...]) -> None:
    taken = []

    def counted() -> Iterator[Listed]:
        for listed in lots:
            taken.append(listed)
            yield listed

    made = Processes(2, made_at_once).made(counted(), ORDER)
    first = next(made)
    assert first.listed == lots[0]
    assert len(taken) == 2 * AHEAD
    assert [one.listed for one in made] == list(lots[1:])


def test_a_process_that_dies_costs_only_the_lot_that_kills_it_again(lots: tuple[Listed, ...]) -> None:
    made = list(Processes(2, with_its_process).made(lots, ORDER))
    assert [one.listed for one in made] == list(lots)
    assert [one.listed.place for one in made if not one.files] == [4]
    what = "the process that made its documents died of it, 2 times (had the machine no memory left?)"
    assert (made[3].faults, made[3].failures) == ((), (f"{lots[3].inspection}: {what}",))
    assert str(os.getpid()).encode() not in {one.files.get("made by") for one in made}


@pytest.mark.long
def test_what_was_under_way_beside_it_is_made_by_one_process(lots: tuple[Listed, ...]) -> None:
    workers = Counted(2, with_its_process)
    assert [one.listed for one in workers.made(lots, ORDER)] == list(lots)
    first, *alone, rest = workers.begun
    assert (first, set(alone), rest) == (2, {1}, 2)
    assert len(alone) < 2 * AHEAD, "as many as die and one more, not one for each lot under way"


class Counted(Processes):
    """As many as of each pool that was begun."""

    def __init__(self, *words: object) -> None:
        super().__init__(*words)  # type: ignore[arg-type]
        self.begun: list[int] = []

    def _pool(self, count: int) -> AbstractContextManager[Pool]:
        self.begun.append(count)
        return super()._pool(count)


def test_what_ails_the_program_itself_ends_the_run(lots: tuple[Listed, ...]) -> None:
    with pytest.raises(ModuleNotFoundError, match="no engine"):
        list(Processes(2, without_engine).made(lots, ORDER))


def test_no_lot_no_process() -> None:
    assert list(Processes(2).made([], ORDER)) == []
    assert cores() == len(os.sched_getaffinity(0))


ALONE = """
import sys
from pathlib import Path
from sales import ORDER, waiting_for_ever
from tracksworn.batch.running import Processes
from tracksworn.inspection.sale_list import find_inspections
next(Processes(1, waiting_for_ever).made(find_inspections(Path(sys.argv[1])), ORDER))
"""


@pytest.mark.parametrize("number", [signal.SIGKILL, signal.SIGINT])
def test_no_process_outlives_the_one_that_began_it(tmp_path: Path, number: signal.Signals) -> None:
    sale = write_sale(tmp_path / "sale", 1)
    told = sale / "lot-1" / "told"
    os.mkfifo(told)
    paths = os.pathsep.join([str(ROOT / "src"), str(ROOT / "tests")])
    command = [sys.executable, "-c", ALONE, str(sale)]
    with subprocess.Popen(command, env=os.environ | {"PYTHONPATH": paths}, stderr=subprocess.DEVNULL) as alone:
        watched = _watched(sale)
        alone.send_signal(number)
        alone.wait(20)
        assert select.select([watched], [], [], 20)[0], "its process is still there"
        os.close(watched)


OVER = """
import signal, sys
from pathlib import Path
from sales import ORDER, with_its_process
from tracksworn.batch.running import Processes
from tracksworn.inspection.sale_list import find_inspections
signal.signal(signal.SIGPIPE, signal.SIG_DFL)  # as the command has it
lots = find_inspections(Path(sys.argv[1]))
print(len(list(Processes(1, with_its_process).made(lots, ORDER))))
next(Processes(1, with_its_process).made(lots[:1], ORDER))
"""


@pytest.mark.long
def test_a_process_that_dies_does_not_end_the_command(tmp_path: Path) -> None:
    sale = write_sale(tmp_path / "sale", 6)
    paths = os.pathsep.join([str(ROOT / "src"), str(ROOT / "tests")])
    command = [sys.executable, "-c", OVER, str(sale)]
    done = subprocess.run(
        command, env=os.environ | {"PYTHONPATH": paths}, capture_output=True, text=True, check=False, timeout=120
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, "6\n", "")


def _watched(sale: Path) -> int:
    """What tells when the process ends that makes the lot, once it does."""
    with (sale / "lot-1" / "told").open("rb"):
        return os.pidfd_open(int((sale / "lot-1" / "process").read_text()))
