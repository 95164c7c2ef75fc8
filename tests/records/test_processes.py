"""Processes whose results come back whole, whatever becomes of them."""

import os
import signal
import subprocess
import sys
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

import pytest

from tracksworn.records.processes import processes, submitted

LARGE = 8_000_000


def much(byte: int) -> bytes:
    return bytes([byte]) * LARGE


def wrong() -> None:
    raise LookupError("nothing there")


def ends() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def leave_in_the_middle() -> None:
    for _ in range(5):
        with processes(2) as pool:
            under_way = [submitted(pool, much, byte) for byte in range(12)]
            under_way[0].result()


def test_what_they_make_comes_back_whole_and_what_goes_wrong_is_raised() -> None:
    with processes(2) as pool:
        assert [one.result() for one in [submitted(pool, much, byte) for byte in range(4)]] == list(map(much, range(4)))
        with pytest.raises(LookupError, match="nothing there"):
            submitted(pool, wrong).result()
        assert not list(pool.folder.iterdir())


def test_one_that_dies_breaks_the_pool_and_its_folder_goes() -> None:
    with processes(1) as pool:
        with pytest.raises(BrokenProcessPool):
            submitted(pool, ends).result()
        with pytest.raises(BrokenProcessPool):
            submitted(pool, much, 1).result()
    assert not pool.folder.exists()


def test_they_can_be_left_while_they_hand_over_much() -> None:
    code = "from records.test_processes import leave_in_the_middle; leave_in_the_middle()"
    paths = os.pathsep.join(str(Path(__file__).parents[up] / name) for up, name in ((1, "."), (2, "src")))
    done = subprocess.run(
        [sys.executable, "-c", code], env={**os.environ, "PYTHONPATH": paths}, timeout=60, check=False
    )
    assert done.returncode == 0
